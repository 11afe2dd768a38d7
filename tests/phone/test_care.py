"""The dark-urine and swelling line out of reach: on the very days the server would tell it."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import asdict
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from pennate.app.book import Book
from pennate.app.new_work import days_ago, outlook
from pennate.core import caution_texts as say
from pennate.core.evidence.safety import BREAKDOWN_DAYS
from pennate.web.render import static
from tests.web.conftest import MONDAY, Clock, served

from .conftest import START, NewPhone
from .test_replay import bare
from .thumb import Thumb

__all__ = ["bare"]

pytestmark = pytest.mark.browser
TODAY = MONDAY.date()
HISTORIES = 150

DUE = """async ([url, cases]) => {
  const { isDue } = await import(url);
  return cases.map(([care, entries, date]) => isDue(care, entries, date));
}"""


def _history(rng: Random) -> list[date]:
    """Working sets of some weeks, now steady, now with a break, now none at all."""
    weeks, off = rng.choice([0, 1, 2, 5, 9]), rng.choice([0, 0, 6, 26, 40])
    days = sorted(rng.sample(range(7), rng.randrange(1, 5)))
    past = [TODAY - timedelta(days=off + 7 * week + day) for week in range(weeks) for day in days]
    return sorted(day for day in past for _ in range(rng.randrange(1, 9)))


def _case(rng: Random) -> tuple[Any, bool]:
    """What the phone is told of a history and has of its own, and what the server would say."""
    known, trained = _history(rng), rng.random() < 0.7
    coming = [TODAY + timedelta(days=ahead) for ahead in range(7)]
    here = [day for day in coming if rng.random() < 0.4 for _ in range(rng.randrange(1, 40))]
    days = {str(day): asdict(outlook(known, day, trained=trained)) for day in coming}
    care = {"text": "", "for_days": int(BREAKDOWN_DAYS), "days": days}
    entries: list[dict[str, Any]] = [
        {"id": str(n), "kind": "set", "day": str(day), "replaces": None, "body": {"kind": kind}}
        for n, day in enumerate(here)
        for kind in ("warm-up", "top")
    ]
    today = rng.choice(coming)
    own = [day for day in here if day <= today]
    sent = [one for one in entries if one["day"] <= str(today)]
    theirs = days_ago(sorted([*known, *own]), today, trained=trained)
    return [care, sent, str(today)], theirs is not None


def test_the_page_tells_it_when_the_server_would(bare: tuple[Page, str]) -> None:
    """Over random histories, breaks and sets made out of reach: the same days, no more, no fewer.

    The rule itself is checked against evidence section 11 in the tests of the card.
    """
    page, address = bare
    rng = Random(11)
    cases = [_case(rng) for _ in range(HISTORIES)]
    found = page.evaluate(DUE, [address + static("care.js"), [case for case, _ in cases]])
    wrong = [
        (case, theirs) for (case, theirs), own in zip(cases, found, strict=True) if own != theirs
    ]
    assert wrong == []
    assert {theirs for _, theirs in cases} == {True, False}


@pytest.fixture
def back(short_demo: Path, tmp_path: Path) -> Iterator[Book]:
    """The demo five weeks on, with nothing done since."""
    shutil.copytree(short_demo, tmp_path / "back")
    clock = Clock(MONDAY + timedelta(days=35, hours=1))
    book = Book.open(tmp_path / "back", clock, Random(5))
    yield book
    book.close()


def test_back_after_five_weeks_out_of_reach(new_phone: NewPhone, back: Book) -> None:
    """From the first hard set on, at every set and with the session; two days later still."""
    phone = new_phone()
    phone.clock.set_system_time(START + timedelta(days=35))
    with served(back) as address:
        thumb = Thumb(phone, address, Random(3))
        page = thumb.open()
        thumb.start()
        page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
        expect(page.locator("#page[data-week]:not([data-week=''])")).to_be_attached(timeout=120_000)
        phone.set_offline(offline=True)
        line = page.get_by_text(say.BREAKDOWN.text)
        while "warm-up" in page.locator("#place").inner_text():
            expect(line).to_have_count(0)
            thumb.close_set()
        thumb.close_set()
        for _ in range(2):
            expect(line).to_be_visible()
            thumb.close_set()
        page.get_by_role("button", name="session").click()
        expect(line).to_be_visible()
        phone.clock.set_system_time(START + timedelta(days=37))
        page.reload()
        expect(line).to_be_visible()
        phone.set_offline(offline=False)
        thumb.settled()
