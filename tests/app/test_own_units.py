"""A gym with plates in pounds and in kilograms: the loads stay in the unit she uses there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from fractions import Fraction
from pathlib import Path

import pytest

from pennate.app.book import Book
from pennate.app.card import NEAR_IT
from pennate.app.choose import Choice
from pennate.app.own_units import gym_in_use
from pennate.app.record import Recorded, record
from pennate.app.review import review
from pennate.core.card import CardSet
from pennate.core.performed import Effort, PerformedSet, SetKind
from pennate.core.quantities import LoadReading, Unit
from pennate.ledger import uuid7
from pennate.ledger.sets import set_entry
from pennate.web.views.around import around
from pennate.web.views.review import review_view
from tests.app.own_week import DAY, exercise, hard, plan, stop_of

MIXED = "commercial_kg_lb"
PRESS = exercise("leg_press", '{ sets = 3, reps = "8-12", reserve = "1-3" }',
                 'equipment = "leg_press"')  # fmt: skip
ROW = exercise("chest_supported_row", '{ sets = 3, reps = "8-12", reserve = "1-3" }',
               'equipment = "row_machine"')  # fmt: skip
SAME = {Choice.HELD.value, Choice.LAST_TIME.value}


def did(
    book: Book,
    load: str,
    unit: Unit,
    days: Sequence[int],
    *,
    reps: int = 10,
    item: str = "leg_press",
) -> None:
    """Three sets of the leg press at a load, so many days ago."""
    sets = [
        PerformedSet(
            id=uuid7(book.now(), book.rng),
            when=book.today - timedelta(days=ago),
            session="tuesday",
            number=number,
            exercise="leg_press" if item == "leg_press" else "chest_supported_row",
            kind=SetKind.WORKING,
            load=Fraction(load),
            unit=unit,
            reading=LoadReading.PLATES,
            reps=reps,
            effort=Effort.ONE,
            equipment=item,
        )
        for ago in days
        for number in (1, 2, 3)
    ]
    book.ledger.append([set_entry(one, now=book.now(), rng=book.rng) for one in sets])


def _units(sets: Sequence[CardSet]) -> set[Unit | None]:
    return {one.load.unit for one in sets if one.load}


@pytest.mark.parametrize("pounds", ["90", "130", "200", "245", "290"])
def test_what_she_did_in_pounds_comes_again_in_pounds(
    empty_book: Book, tmp_path: Path, pounds: str
) -> None:
    """Warm-ups, working sets and both keys, at loads that kilograms make with fewer plates."""
    plan(empty_book, tmp_path, PRESS, gym=MIXED)
    did(empty_book, pounds, Unit.LB, (7, 14))
    stop = stop_of(empty_book, "leg_press")
    assert _units(stop.sets) <= {Unit.LB, None}
    for one in hard(stop):
        near = around(gym_in_use(empty_book, empty_book.today), stop, one)
        assert near.lighter
        assert near.heavier
        assert {near.lighter.unit, near.heavier.unit} <= {Unit.LB, None}


def test_one_session_with_the_other_plates_changes_nothing(
    empty_book: Book, tmp_path: Path
) -> None:
    """The pound plates were taken once: next time she is given pounds again."""
    plan(empty_book, tmp_path, PRESS, gym=MIXED)
    did(empty_book, "245", Unit.LB, (14, 21))
    did(empty_book, "110", Unit.KG, (7,))
    assert _units(hard(stop_of(empty_book, "leg_press"))) == {Unit.LB}


def test_who_changes_over_is_followed(empty_book: Book, tmp_path: Path) -> None:
    """Two of her last three sessions were in kilograms, so kilograms it is."""
    plan(empty_book, tmp_path, PRESS, gym=MIXED)
    did(empty_book, "245", Unit.LB, (21, 28, 35))
    did(empty_book, "110", Unit.KG, (7, 14))
    assert _units(hard(stop_of(empty_book, "leg_press"))) == {Unit.KG}


def test_the_unit_is_of_the_plates_not_of_the_number(empty_book: Book, tmp_path: Path) -> None:
    """88 lb of plates told as 39.92 kg were pounds all the same."""
    plan(empty_book, tmp_path, PRESS, gym=MIXED)
    did(empty_book, "40.82", Unit.KG, (7, 14))  # 90 lb
    gym = gym_in_use(empty_book)
    assert gym
    assert gym.unit_on("leg_press") is Unit.LB


@pytest.mark.parametrize(("written", "unit"), [("100 kg", Unit.KG), ("180 lb", Unit.LB)])
def test_without_a_log_the_written_load_tells_the_unit(
    empty_book: Book, tmp_path: Path, written: str, unit: Unit
) -> None:
    """Her week speaks for the machine it writes a load for; the gym's plates for the others."""
    sets = f'{{ sets = 2, reps = "8-12", load = "{written} plates" }}'
    asked = exercise("leg_press", sets, 'equipment = "leg_press"')
    plan(empty_book, tmp_path, asked, gym=MIXED)
    gym = gym_in_use(empty_book)
    assert gym
    assert gym.unit_on("leg_press") is unit
    assert gym.unit_on("row_machine") is Unit.LB


def test_a_written_load_is_given_in_its_own_unit(empty_book: Book, tmp_path: Path) -> None:
    """110 kg stand in the week: asked for, so they are put on, although she uses pounds there."""
    sets = '{ sets = 2, reps = "8-12", load = "110 kg plates" }'
    plan(empty_book, tmp_path, exercise("leg_press", sets, 'equipment = "leg_press"'), gym=MIXED)
    did(empty_book, "245", Unit.LB, (7, 14))
    for one in hard(stop_of(empty_book, "leg_press")):
        assert one.load
        assert (str(one.load.load), one.why) == ("110 kg", "as written")


def test_a_gym_of_one_unit_is_as_it_is(empty_book: Book, tmp_path: Path) -> None:
    """Nothing is preferred where there is nothing to prefer."""
    plan(empty_book, tmp_path, PRESS)
    assert gym_in_use(empty_book) is empty_book.gym()


@pytest.mark.parametrize("pounds", ["90", "200", "245", "290", "340"])
@pytest.mark.parametrize("reps", [6, 9, 12, 15])
def test_heavier_lighter_and_the_same_never_contradict(
    empty_book: Book, tmp_path: Path, pounds: str, reps: int
) -> None:
    """“Lighter than 245 lb” and “same load as last time” are never said of one load."""
    plan(empty_book, tmp_path, PRESS, gym=MIXED)
    did(empty_book, pounds, Unit.LB, (7, 14, 21), reps=reps)
    for one in hard(stop_of(empty_book, "leg_press")):
        told = Recorded(reps=reps, effort=Effort.ONE)
        record(empty_book, empty_book.today, one.key, told, weekday=DAY)
    found = review(empty_book, empty_book.today, weekday=DAY)
    for step in found.next_time:
        assert (step.change == "the same") or step.why not in SAME
        assert step.change != "lighter" or not step.why.startswith("raised")
        assert step.change != "heavier" or not step.why.startswith("lowered")


def test_a_held_load_that_plates_miss_is_not_called_the_same(
    empty_book: Book, tmp_path: Path
) -> None:
    """Last time was 111 kg, which no plates here make: what is near is called near."""
    plan(empty_book, tmp_path, PRESS, gym=MIXED)
    did(empty_book, "111", Unit.KG, (7, 14, 21))
    first = hard(stop_of(empty_book, "leg_press"))[0]
    assert first.why == NEAR_IT


def test_a_load_skipped_today_is_held_against_the_last_time(
    empty_book: Book, tmp_path: Path
) -> None:
    """Of two exercises one is done: the other is heavier or the same as last time, not as today."""
    plan(empty_book, tmp_path, PRESS + ROW, gym=MIXED)
    did(empty_book, "245", Unit.LB, (7, 14, 21), reps=15)
    did(empty_book, "90", Unit.LB, (7, 14, 21), item="row_machine")
    for one in hard(stop_of(empty_book, "chest_supported_row")):
        record(empty_book, empty_book.today, one.key, Recorded(reps=10), weekday=DAY)
    seen = review_view(review(empty_book, empty_book.today, weekday=DAY))
    words = next(one.words for one in seen.changes if one.exercise == "leg_press")
    assert words.endswith("heavier than last time")


def test_a_later_session_does_not_change_what_was_said_after_an_earlier_one(
    empty_book: Book, tmp_path: Path
) -> None:
    """The look back at a session speaks of the next one as it was seen then, not as it was done."""
    plan(empty_book, tmp_path, PRESS, gym=MIXED)
    did(empty_book, "245", Unit.LB, (7, 14, 21))
    earlier = empty_book.today - timedelta(days=7)
    before = review(empty_book, earlier, weekday=DAY).next_time
    for one in hard(stop_of(empty_book, "leg_press")):
        light = Recorded(reps=12, load=Fraction(90), unit=Unit.LB)
        record(empty_book, empty_book.today, one.key, light, weekday=DAY)
    after = review(empty_book, earlier, weekday=DAY).next_time
    assert [replace(one, chance=None) for one in after] == [
        replace(one, chance=None) for one in before
    ]
