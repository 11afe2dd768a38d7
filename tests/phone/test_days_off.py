"""Asked on the phone after days off whether she was ill: not where she has trained since."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from pennate.app.book import Book
from pennate.app.illness import ASK
from pennate.web.phone.document import day_document
from pennate.web.render import static
from tests.web.conftest import MONDAY, Clock, served

pytestmark = pytest.mark.browser
Json = dict[str, Any]
OFF = 15
"""Days after the demo's last session on which the week is taken along."""

ASKED = """async ([home, day, trained, entries]) => {
  const { askedOf } = await import(home + "today.js");
  return askedOf({ day }, { trained }, entries);
}"""


@pytest.fixture
def away(short_demo: Path, tmp_path: Path) -> Iterator[Book]:
    """The demo two weeks on, nothing done since."""
    shutil.copytree(short_demo, tmp_path / "away")
    book = Book.open(tmp_path / "away", Clock(MONDAY + timedelta(days=OFF)), Random(5))
    yield book
    book.close()


@pytest.fixture
def page(chromium: Browser, away: Book) -> Iterator[tuple[Page, str]]:
    """A page of ours that runs nothing by itself, and where the scripts lie."""
    with served(away) as address:
        found = chromium.new_page()
        found.goto(address + "/data")
        yield found, address + static("")
        found.close()


def test_days_off_are_asked_about_until_she_has_trained(page: tuple[Page, str], away: Book) -> None:
    """A session taken along asks; a set made here since, or known to the records, answers."""
    seen, home = page
    ahead = (MONDAY + timedelta(days=OFF + 2)).date()
    day = day_document(away, ahead, "Thursday")
    between = str(ahead - timedelta(days=1))

    def asked(trained: str, *entries: Json) -> str:
        found: str = seen.evaluate(ASKED, [home, day, trained, list(entries)])
        return found

    assert ASK in asked(day["trained"])
    done = {"id": "a", "kind": "set", "day": between}
    assert asked(day["trained"], done) == ""
    assert asked(between) == ""
    undone = {"id": "b", "kind": "retraction", "day": between, "replaces": "a"}
    assert ASK in asked(day["trained"], done, undone)
    assert ASK in asked(day["trained"], {"id": "c", "kind": "readiness", "day": between})
