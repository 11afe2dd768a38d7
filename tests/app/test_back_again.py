"""The first session back after weeks away: lighter, short of failure, and it says so.

That an exercise not done for four weeks starts low again, with fewer sets and short of failure,
is common practice; damage after unaccustomed work: Maeo 2021.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from datetime import timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest

from pennate.app.book import Book
from pennate.app.record import Recorded, record
from pennate.app.response_sheet import prepare
from pennate.app.today import card_for
from pennate.core.card import Card, CardSet, CardStop
from pennate.core.felt import Carrier, felt_kg
from pennate.core.gym import carrier_of
from pennate.core.performed import Effort, SetKind
from tests.app.conftest import NOW

FIVE_WEEKS = 35

Away = Callable[[int], Book]


@pytest.fixture
def away(demo_folder: Path, tmp_path: Path) -> Iterator[Away]:
    """The made-up lifter so many days after her last set."""
    opened: list[Book] = []

    def book_after(days: int) -> Book:
        folder = tmp_path / f"after{days}"
        shutil.copytree(demo_folder, folder)
        book = Book.open(folder, lambda: NOW, Random(5))
        last = max(done.day for done in book.history().sets)
        book.close()
        now = NOW + (last + timedelta(days=days) - NOW.date())
        opened.append(Book.open(folder, lambda: now, Random(5)))
        return opened[-1]

    yield book_after
    for book in opened:
        book.close()


def _card(book: Book, weekday: str) -> Card:
    found = card_for(book, book.today, weekday=weekday)
    assert isinstance(found, Card)
    return found


def _planned(book: Book) -> list[str]:
    week = book.week()
    assert week is not None
    return [day.day for day in week.days if not day.rest]


def _hard(stop: CardStop) -> list[CardSet]:
    return [one for one in stop.sets if one.kind is not SetKind.WARM_UP]


def _last_most(book: Book, stop: CardStop) -> float | None:
    """The heaviest working set the last time on this item, felt kilograms without body mass."""
    past = [
        done
        for done in book.history().of_exercise(stop.exercise)
        if done.equipment == (stop.item.id if stop.item else "")
        and done.kind is not SetKind.WARM_UP
        and done.day < book.today
    ]
    carrier = carrier_of(stop.item) if stop.item else Carrier()
    felt = [
        float(felt_kg(None, one.load, one.unit, one.reading, Fraction(0), carrier))
        for one in past
        if one.day == past[-1].day
    ]
    return max(felt, default=None)


@pytest.mark.parametrize("days", [28, FIVE_WEEKS, 70, 200])
def test_no_load_is_above_last_time(away: Away, days: int) -> None:
    """After four weeks or more no working set of any planned day asks for more than last time."""
    book, seen = away(days), 0
    for weekday in _planned(book):
        for stop in _card(book, weekday).stops:
            most = _last_most(book, stop)
            loads = [one.load.felt_kg for one in _hard(stop) if one.load is not None]
            if most is not None and loads:
                seen += 1
                assert max(loads) <= most + 0.02, stop.exercise
    assert seen > 10


def test_the_first_session_back_is_short_of_failure(away: Away) -> None:
    """Two left at least, no drops, nothing to failure, and half of the sets."""
    book = away(FIVE_WEEKS)
    week = book.week()
    assert week is not None
    for weekday in _planned(book):
        for stop in _card(book, weekday).stops:
            sets = _hard(stop)
            reserves = [one.asked.reserve.low for one in sets if one.asked.reserve]
            assert len(reserves) == len(sets)
            assert min(reserves) >= 2
            assert not any(one.asked.to_failure for one in sets)
            assert all(one.kind is not SetKind.DROP for one in sets)
            plain = [one for one in stop.asked.sets if one.kind is SetKind.WORKING]
            if len(plain) == len(stop.asked.sets) == 1 and plain[0].count % 2 == 0:
                numbers = {one.key.split(".")[2] for one in sets}
                assert len(numbers) == plain[0].count / 2


def test_the_page_says_why(away: Away) -> None:
    """One line at the head of the day and one at the first working set of each exercise."""
    card = _card(away(FIVE_WEEKS), "Monday")
    said = [line for line in card.changes if "since the last time" in line]
    assert len(said) == 1
    assert said[0].startswith("5 weeks")
    assert "left today" in said[0]
    for stop in card.stops:
        first, *rest = _hard(stop)
        assert "since the last time" in first.change
        assert first.refusable is None
        assert not any(one.change for one in rest)


def test_four_weeks_less_a_day_changes_nothing(away: Away) -> None:
    """Within four weeks the session is the usual one: 27 days are not a layoff here."""
    card = _card(away(27), "Monday")
    assert not any("since the last time" in line for line in card.changes)


def test_a_strong_first_set_raises_nothing(away: Away) -> None:
    """Twice the reps on the first set back: the sets after it stay as planned."""
    book = away(FIVE_WEEKS)
    before = _card(book, "Monday")
    for stop in before.stops:
        first = _hard(stop)[0]
        reps = first.reps
        assert reps is not None
        said = Recorded(reps=2 * (reps.high or reps.low), effort=Effort.FOUR_FIVE)
        record(book, book.today, first.key, said, weekday="Monday")
    for now, then in zip(_card(book, "Monday").stops, before.stops, strict=True):
        for one, planned in zip(_hard(now), _hard(then), strict=True):
            if one.load is not None and planned.load is not None:
                assert one.load.felt_kg <= planned.load.felt_kg + 0.02


def test_the_phone_goes_no_higher_without_reception(away: Away) -> None:
    """The sheet taken along has no step above the held one in the first session back."""
    book = away(FIVE_WEEKS)
    sheet = prepare(book, book.today, "Monday", substitutes=False).sheet
    blocks = [block for stop in sheet.stops for block in stop.blocks]
    assert blocks
    assert all(block.most <= block.held for block in blocks)
    assert not any(block.guessed for block in blocks)
