"""The first two weeks back after weeks away: lighter, short of failure, and it says so.

That an exercise not done for four weeks starts low again, with fewer sets and short of failure,
is common practice; damage after unaccustomed work: Maeo 2021.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from datetime import date, datetime, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest

from pennate.app.back_again import Pause, after_rest, pause_before, weeks_away
from pennate.app.book import Book
from pennate.app.card_text import card_lines
from pennate.app.exercise_view import exercise_view
from pennate.app.record import Recorded, record
from pennate.app.response_sheet import prepare
from pennate.app.strength_trend import trend_words
from pennate.app.today import card_for
from pennate.app.week_review_text import week_review_lines, week_words
from pennate.core.card import Card, CardSet, CardStop
from pennate.core.felt import Carrier, felt_kg
from pennate.core.gym import carrier_of
from pennate.core.history import History
from pennate.core.performed import Effort, PerformedSet, SetKind
from pennate.estimate import NextStep, Step
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
    """One line at the head of the day; of a set only that it is lighter, where it is."""
    book = away(FIVE_WEEKS)
    card = _card(book, "Monday")
    said = [line for line in card.changes if "since the last time" in line]
    assert len(said) == 1
    assert said[0].startswith("5 weeks")
    assert "left today" in said[0]
    lighter = 0
    for stop in card.stops:
        first, *rest = _hard(stop)
        most = _last_most(book, stop)
        assert first.refusable is None
        assert not any(one.change for one in rest)
        if first.change:
            assert first.change == "lighter after the pause"
            assert first.load is not None
            assert most is not None
            assert first.load.felt_kg < most
            lighter += 1
    assert lighter
    assert "\n".join(card_lines(card)).count("since the last time") == 1


def test_the_look_back_says_once_that_she_is_back(away: Away) -> None:
    """The pause and what it changes stand above the exercises, not at each of them."""
    lines = list(week_review_lines(week_words(away(FIVE_WEEKS))))
    assert sum("weeks off" in line for line in lines) == 1
    assert not any("first week back after" in line for line in lines)
    assert sum("No load is above last time" in line for line in lines) == 1


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


def _opened(folder: Path, now: datetime) -> Book:
    return Book.open(folder, lambda: now, Random(5))


def _do_all(book: Book, weekday: str) -> Card:
    """Every hard set of a day, as likely."""
    card = _card(book, weekday)
    for stop in card.stops:
        for one in _hard(stop):
            reps = one.likely.middle if one.likely else 8
            record(book, book.today, one.key, Recorded(reps=reps), weekday=weekday)
    return card


def test_the_whole_first_two_weeks_are_gentle(away: Away, tmp_path: Path) -> None:
    """An exercise that comes again within two weeks keeps fewer sets and two left.

    Soreness and damage of unaccustomed work do not end with the first session.
    """
    begun = away(FIVE_WEEKS)
    first = _do_all(begun, "Monday")
    sets_then = {stop.exercise: len(_hard(stop)) for stop in first.stops}
    loads_then = {s.exercise: max(_felt(s), default=0.0) for s in first.stops}
    for days, week in ((3, "First"), (7, "Second"), (13, "Second"), (14, "")):
        folder = tmp_path / f"in{days}"
        shutil.copytree(tmp_path / f"after{FIVE_WEEKS}", folder)
        book = _opened(folder, begun.now() + timedelta(days=days))
        card = _card(book, "Monday")
        said = [line for line in card.changes if "week back after" in line]
        assert [line.split()[0] for line in said] == ([week] if week else [])
        for stop in card.stops:
            reserves = [one.asked.reserve.low for one in _hard(stop) if one.asked.reserve]
            assert (min(reserves) >= 2) == bool(week)
            assert len(_hard(stop)) >= sets_then[stop.exercise]
            if week == "First":
                assert len(_hard(stop)) == sets_then[stop.exercise]
                assert max(_felt(stop), default=0.0) <= loads_then[stop.exercise] + 0.02
        book.close()


def _felt(stop: CardStop) -> list[float]:
    return [one.load.felt_kg for one in _hard(stop) if one.load is not None]


def test_reps_out_of_reach_are_told_with_a_way_out(away: Away) -> None:
    """More than a year on, chin-ups without help may be none: the card and the next step say so.

    What nothing lighter can be made for is not only “lower”.
    """
    book = away(425)
    friday = _stop_with(book, "chin_up")
    first = _hard(friday)[0]
    assert first.likely is not None
    assert first.reps is not None
    assert first.likely.middle < first.reps.low
    assert "an easier exercise" in first.change
    coming = exercise_view(book, "chin_up").next
    assert coming is not None
    assert coming.step is Step.EASIER
    assert "an easier exercise" in coming.reason


def _stop_with(book: Book, exercise: str) -> CardStop:
    cards = [_card(book, weekday) for weekday in _planned(book)]
    return next(stop for card in cards for stop in card.stops if stop.exercise == exercise)


DAY = date(2026, 6, 1)


@pytest.mark.parametrize(
    ("trained", "pause"),
    [
        ([], None),
        ([-27], None),
        ([-28], Pause(28, 0)),
        ([-500], Pause(500, 0)),
        ([-40, -3, -1], Pause(37, 3)),
        ([-41, -13], Pause(28, 13)),
        ([-42, -14, -2], None),
        ([-300, -200, -2], Pause(198, 2)),
        ([-29, -14, -1], None),
    ],
)
def test_what_a_pause_is(trained: list[int], pause: Pause | None) -> None:
    """Four weeks without any set; two weeks after its end it is over."""
    sets = [_set_on(DAY + timedelta(days=ago)) for ago in trained]
    assert pause_before(History.of(sets), DAY) == pause


@pytest.mark.parametrize(
    ("trained", "weeks"),
    [
        ([-80, -75, -70, -5], 9),  # nine weeks and two days away
        ([-80, -75, -63], 9),  # away until today
        ([-80, -60, -40, -20], 0),  # never four weeks
        ([], 11),  # not begun
        ([-50, -1], 11),  # four weeks and more before it was begun, and seven in it
    ],
)
def test_weeks_of_a_pause_are_no_weeks_of_a_block(trained: list[int], weeks: int) -> None:
    """A block goes on where she left it; shorter gaps are part of its weeks."""
    history = History.of(_set_on(DAY + timedelta(days=ago)) for ago in trained)
    assert weeks_away(history, DAY - timedelta(days=81), DAY) == weeks


def _set_on(day: date) -> PerformedSet:
    return PerformedSet(
        id=day.isoformat(),
        when=day,
        session="one",
        number=1,
        exercise="bench_press",
        load=Fraction(40),
        reps=8,
    )


def test_nothing_is_a_stall_after_a_pause(away: Away) -> None:
    """What was flat before three weeks away is no stall now, and no trend goes on in them."""
    rested = away(21)
    week = rested.week()
    assert week is not None
    asked = dict.fromkeys(one.exercise for day in week.days for one in day.exercises)
    views = [exercise_view(rested, one) for one in asked]
    assert not any(view.halt for view in views)
    assert all("weeks since the last set" in trend_words(view) for view in views)
    training = away(1)
    assert "in four weeks" in trend_words(exercise_view(training, "bench_press"))
    reviewed = week_words(rested)
    assert not any(one.clear for one in reviewed.seen.exercises)
    assert not any(row.trend for row in reviewed.rows)
    assert any(exercise_view(training, one).halt for one in asked)
    sets = [_set_on(DAY - timedelta(days=21))]
    for step in (Step.MORE_SETS, Step.SWAP):
        held = after_rest(NextStep(step, 40.0, 0.9, "flat"), sets, DAY)
        assert held.step is Step.HOLD
        assert held.reason.startswith("3 weeks since")
    kept = NextStep(Step.SWAP, 40.0, 0.9, "flat")
    assert after_rest(kept, sets, DAY - timedelta(days=10)) is kept


def test_a_top_set_as_planned_changes_no_back_off(away: Away) -> None:
    """The share of a top load that was rounded down is not rounded down once more."""
    book = away(FIVE_WEEKS)
    before = {one.key: one.load for stop in _card(book, "Monday").stops for one in _hard(stop)}
    for stop in _card(book, "Monday").stops:
        first = _hard(stop)[0]
        assert first.likely is not None
        said = Recorded(reps=first.likely.middle, effort=Effort.TWO)
        record(book, book.today, first.key, said, weekday="Monday")
    tops = [s for s in _card(book, "Monday").stops if s.asked.sets[-1].kind is SetKind.BACK_OFF]
    assert tops
    for stop in tops:
        for one in _hard(stop):
            assert one.load == before[one.key]


def test_the_phone_goes_no_higher_without_reception(away: Away) -> None:
    """The sheet taken along has no step above the held one in the first session back."""
    book = away(FIVE_WEEKS)
    sheet = prepare(book, book.today, "Monday", substitutes=False).sheet
    blocks = [block for stop in sheet.stops for block in stop.blocks]
    assert blocks
    assert all(block.most <= block.held for block in blocks)
    assert not any(block.guessed for block in blocks)
