"""A joint at 3 to 5 of 10: every later set of what loads it is lighter, however it was asked.

The pain rule (Thomeé 1997) asks to reduce; how much is our choice, a fifth to start.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from pennate.app.book import Book
from pennate.app.record import Recorded, record
from pennate.app.today import check_in
from pennate.core.performed import Effort
from pennate.core.quantities import Unit
from pennate.core.readiness import Readiness
from tests.app.own_week import DAY, exercise, hard, kg, plan, stop_of

EACH = '{ sets = 2, reps = "8-12", load = "20 kg each" }'
TOP = '{ kind = "top", reps = "6-8", load = "100 kg", rest = "3:00" }'
SHARE = '{ kind = "back-off", sets = 2, reps = "8-12", load = "85 % of top" }'
WRITTEN = '{ kind = "back-off", sets = 2, reps = "8-12", load = "90 kg" }'
FREE = '{ kind = "back-off", sets = 2, reps = "3-5" }'
LEGS = 'equipment = "rack_bar"'


def _hurts(book: Book, score: int = 4) -> None:
    check_in(book, book.today, DAY, Readiness(day=book.today, pain={"knee": score}), None)


def _lift(book: Book, key: str, load: float, reps: int, effort: Effort = Effort.TWO) -> None:
    said = Recorded(load=Fraction(load), unit=Unit.KG, reps=reps, effort=effort)
    record(book, book.today, key, said, weekday=DAY)


def _loads(book: Book, name: str) -> list[float]:
    return [kg(one) for one in hard(stop_of(book, name)) if not one.done]


def test_written_loads_are_eased_on_both_sides(empty_book: Book, tmp_path: Path) -> None:
    """“20 kg each” becomes at most 16 each, left and right, and says that the joint asks for it."""
    plan(empty_book, tmp_path, exercise("reverse_lunge", EACH, 'equipment = "dumbbells"'))
    before = hard(stop_of(empty_book, "reverse_lunge"))
    _hurts(empty_book)
    after = hard(stop_of(empty_book, "reverse_lunge"))
    assert {one.side for one in after} == {one.side for one in before}
    for was, one in zip(before, after, strict=True):
        assert kg(was) == 40
        assert kg(one) < kg(was)
        assert "the joint asks for it" in one.why


@pytest.mark.parametrize("later", [SHARE, WRITTEN, FREE])
def test_no_back_off_is_heavier_than_the_eased_top(
    empty_book: Book, tmp_path: Path, later: str
) -> None:
    """By share, as written or by forecast: each is under the eased top, before and after it."""
    plan(empty_book, tmp_path, exercise("back_squat_free", f"{TOP}, {later}", LEGS))
    _hurts(empty_book)
    top, *others = hard(stop_of(empty_book, "back_squat_free"))
    assert kg(top) == 80
    assert max(map(kg, others)) <= 80
    _lift(empty_book, top.key, 60, 8, Effort.SIX_UP)
    assert max(_loads(empty_book, "back_squat_free")) <= 60


def test_pain_told_after_a_set_eases_every_set_that_follows(
    empty_book: Book, tmp_path: Path
) -> None:
    """A top at 50 before she said it: the next is a fifth less, not 50 again, nor less twice."""
    sets = '{ kind = "top", sets = 3, reps = "6-8", load = "50 kg" }'
    plan(empty_book, tmp_path, exercise("back_squat_free", f"{sets}, {SHARE}", LEGS))
    _lift(empty_book, hard(stop_of(empty_book, "back_squat_free"))[0].key, 50, 7)
    _hurts(empty_book)
    assert _loads(empty_book, "back_squat_free") == [40, 40, 32.5, 32.5]
    _lift(empty_book, hard(stop_of(empty_book, "back_squat_free"))[1].key, 40, 8)
    assert _loads(empty_book, "back_squat_free") == [40, 32.5, 32.5]


def test_an_eased_load_is_not_eased_again_by_another_set(demo_book: Book) -> None:
    """Sets done as expected leave the loads eased in the morning where they were, to the step."""
    day = demo_book.today
    check_in(demo_book, day, "Monday", Readiness(day=day, pain={"knee": 4}), None)

    morning = hard(stop_of(demo_book, "back_squat_free", "Monday"))
    record(demo_book, day, morning[0].key, Recorded(), weekday="Monday")
    after = hard(stop_of(demo_book, "back_squat_free", "Monday"))
    assert [kg(one) for one in after] == [kg(one) for one in morning]


def test_an_unknown_exercise_keeps_its_test_set_eased(empty_book: Book, tmp_path: Path) -> None:
    """A sore joint makes the first set of a new exercise lighter; it stays the test it was."""
    plan(empty_book, tmp_path, exercise("back_squat_free", FREE, LEGS))
    before = next(one for one in stop_of(empty_book, "back_squat_free").sets if one.test)
    _hurts(empty_book)
    after = next(one for one in stop_of(empty_book, "back_squat_free").sets if one.test)
    assert kg(after) <= kg(before)
    assert kg(after) <= min(map(kg, hard(stop_of(empty_book, "back_squat_free"))))
