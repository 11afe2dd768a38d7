"""An exercise offered instead opens: why, what it keeps, how its load was found, how sure."""

from __future__ import annotations

import re
from html import unescape

import pytest
from fastapi.testclient import TestClient

from pennate.app.book import Book
from pennate.app.swaps import offers
from pennate.web.views.offer_opened import offer_facts

from .conftest import MONDAY


@pytest.mark.parametrize("path", ["/today/stop/0", "/floor?ask=taken"])
def test_every_offer_opens(demo: TestClient, path: str) -> None:
    """Beside each “Do this” stands what is behind it, on the stop and on the Floor."""
    page = unescape(demo.get(path).text)
    opened = re.findall(r"<summary>why, and how sure</summary>(.*?)</details>", page, re.DOTALL)
    assert len(opened) == page.count(">Do this</button>") > 0
    for one in opened:
        terms = re.findall(r"<dt>(.*?)</dt>", one)
        assert terms == ["why", "what it keeps", "load", "likely reps", "rule", "source"]
        assert "eight times in ten" in one


def test_the_likely_reps_are_those_of_the_forecast(demo_book: Book) -> None:
    """What opens is the first set's own forecast and the rule that chose its load."""
    found = offers(demo_book, MONDAY.date(), "Monday", 0)
    assert found
    for one in found:
        facts = dict(offer_facts(one))
        assert one.first
        assert one.first.likely
        likely = one.first.likely
        assert facts["load"] == one.first.why
        assert facts["likely reps"].startswith(f"{likely.middle}, between {likely.low} and")
        assert facts["why"] == one.because
