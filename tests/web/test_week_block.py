"""Several weeks on the page: shown, followed week by week, ended."""

from __future__ import annotations

import re
from datetime import timedelta
from html import unescape

import pytest
from fastapi.testclient import TestClient

from pennate.app.book import Book
from pennate.app.week_block import following
from pennate.core.prescribed import Span, Week

from .conftest import Clock


def least_reserve(week: Week) -> set[int]:
    """The reps in reserve asked over a week."""
    spans = [s.reserve for d in week.days for e in d.exercises for s in e.sets if s.reserve]
    return {span.low for span in spans if isinstance(span, Span)}


def test_a_block_is_shown_before_it_is_followed(client: TestClient, own_demo: Book) -> None:
    """Week by week, what is habit, what is expected with its spread; nothing is stored."""
    at = own_demo.ledger.position()
    page = unescape(client.get("/week/block?weeks=5&ramp=sets&lighter=yes").text)
    assert page.count('<th scope="row">') >= 5
    assert "5, lighter" in page
    assert "habit, not evidence" in page
    assert "if your own trends go on" in page
    rising = unescape(client.get("/week/block?weeks=6&ramp=sets&lighter=no").text)
    assert re.search(r"<dt>glutes</dt><dd>(0|\+0\.\d) to \+\d\.\d %", rising)
    assert own_demo.ledger.position() == at


def test_effort_alone_is_expected_to_change_nothing(client: TestClient) -> None:
    """A ramp of effort within hard sets moves no dose, and the page says so."""
    assert "nothing that differs" in client.get("/week/block?weeks=6&ramp=effort").text


def test_a_block_is_followed_monday_by_monday(client: TestClient, own_demo: Book) -> None:
    """Its first week at once; the next is offered when its Monday comes; the end is told."""
    usual = own_demo.week()
    client.post("/week/block", data={"do": "begin", "weeks": "3", "ramp": "effort"})
    first = own_demo.week()
    assert first
    assert usual
    assert min(least_reserve(first)) >= min(least_reserve(usual), default=0) + 2
    assert "Week 1</a>" in client.get("/week").text.replace(" of 3", "")
    assert isinstance(own_demo.now, Clock)
    own_demo.now.moment += timedelta(days=7)
    assert "use its week" in client.get("/week").text
    client.post("/week/block", data={"do": "go-on"})
    second = own_demo.week()
    assert second
    assert min(least_reserve(second)) == min(least_reserve(first)) - 1
    assert client.post("/week/block", data={"do": "go-on"}).status_code == 422
    own_demo.now.moment += timedelta(days=14)
    assert "Your block of 3 weeks is over." in client.get("/week").text
    client.post("/week/block", data={"do": "end"})
    assert own_demo.week() == usual
    assert following(own_demo) is None


@pytest.mark.parametrize("asked", ["weeks=1", "weeks=40", "weeks=many", "ramp=mood"])
def test_what_is_no_block_is_told(client: TestClient, asked: str) -> None:
    """One sentence says what a block can be."""
    answer = client.get(f"/week/block?{asked}")
    assert answer.status_code == 422
    assert 'role="alert"' in answer.text
