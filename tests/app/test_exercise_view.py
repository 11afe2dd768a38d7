"""The page of an exercise: every set drawn, one honest range, and the step of the right item."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta
from fractions import Fraction

import pytest

from pennate.app.book import Book
from pennate.app.exercise_view import desk_of, exercise_view, view_at
from pennate.app.strength_words import why_lines
from pennate.app.week_review_text import week_words
from pennate.app.why_text import why_document, why_of, why_text
from pennate.core.performed import Effort, PerformedSet, SetKind
from pennate.core.quantities import LoadReading, Unit
from pennate.errors import InputError
from pennate.estimate import Step
from pennate.ledger.sets import set_entry
from pennate.web.views.exercise import chart_of, exercise_page

ROAD = "hotel_machine"


def _log(book: Book, *sets: PerformedSet) -> None:
    book.ledger.append([set_entry(one, now=book.now(), rng=book.rng) for one in sets])


def _on_the_road(book: Book, number: int, reps: int) -> PerformedSet:
    return PerformedSet(
        id="",
        when=book.today - timedelta(days=1),
        session="road",
        number=number,
        exercise="leg_extension",
        kind=SetKind.WORKING,
        load=Fraction(70),
        unit=Unit.KG,
        reading=LoadReading.LABEL,
        reps=reps,
        effort=Effort.ONE,
        equipment=ROAD,
    )


def _hold(book: Book, number: int, seconds: int) -> PerformedSet:
    return PerformedSet(
        id="",
        when=book.today - timedelta(days=1),
        session="floor",
        number=number,
        exercise="plank",
        kind=SetKind.WORKING,
        reps=1,
        seconds=Fraction(seconds),
    )


def test_sets_of_many_reps_are_points_too(demo_book: Book) -> None:
    """A set of thirteen is drawn like one of five: her own curve reaches where equations end."""
    seen = exercise_view(demo_book, "leg_extension")
    assert any(one.reps > 10 for one in seen.sets)
    assert len(chart_of(seen).points) == len(seen.sets)


@pytest.mark.parametrize(("exercise", "reps"), [("leg_extension", 0), ("dip", 1)])
def test_the_range_does_not_jump_at_today(demo_book: Book, exercise: str, reps: int) -> None:
    """Past days carry the doubt of one rep as today does: after sets of many reps and of one."""
    if reps:
        single = replace(_hold(demo_book, 1, 1), exercise=exercise, seconds=None)
        _log(demo_book, replace(single, reps=reps, effort=Effort.FAIL))
    seen = exercise_view(demo_book, exercise)
    last = seen.strength[-1]
    then, now = (math.log(one.high / one.low) for one in (last, seen.now))
    assert then == pytest.approx(now, rel=0.1)


def test_a_set_on_the_road_hides_nothing(demo_book: Book) -> None:
    """After a set on another machine the step of her own gym is still what comes next."""
    before = exercise_view(demo_book, "leg_extension")
    _log(demo_book, _on_the_road(demo_book, 1, 12))
    after = exercise_view(demo_book, "leg_extension")
    assert before.next is not None
    assert after.next is not None
    assert (after.item, after.next_load) == (before.item, before.next_load)
    assert dict(after.other_items) == {ROAD: ROAD}


def test_the_page_of_another_machine_keeps_to_it(demo_book: Book) -> None:
    """Its chart and its reasons are asked for with the machine, and its marks are called so."""
    _log(demo_book, _on_the_road(demo_book, 1, 12))
    seen = exercise_view(demo_book, "leg_extension", ROAD)
    page = exercise_page(demo_book.catalogue["leg_extension"], seen)
    assert f"item={ROAD}" in page.chart
    assert f"item={ROAD}" in page.why_at
    assert "nothing on another machine" in dict(page.now_facts)["counts"]
    assert dict(page.now_facts)["rests on"].startswith("1 working set here, ")


def test_a_hold_that_was_done_is_not_called_undone(demo_book: Book) -> None:
    """Seconds have no one-rep load; they are listed, newest first, and that is said."""
    _log(demo_book, _hold(demo_book, 1, 45), _hold(demo_book, 2, 60))
    page = exercise_page(demo_book.catalogue["plank"], exercise_view(demo_book, "plank"))
    assert not page.has_chart
    assert "Not done yet" not in page.nothing
    assert [line.split(": ")[1] for line in page.holds] == ["60 s", "45 s"]


def test_what_is_asked_is_the_session_s_that_is_told(demo_book: Book) -> None:
    """Where two days ask different reps, “asked” is of the day that the step names."""
    desk, week = desk_of(demo_book), demo_book.week()
    assert week is not None
    for day in week.days:
        for one in day.exercises:
            seen, card = view_at(desk, one.exercise), desk.ahead.of(one.exercise)
            if seen.asked is not None and seen.asked.reps is not None and card is not None:
                assert card.low == seen.asked.reps.low, (one.exercise, card.weekday)


def test_page_and_review_tell_one_change(demo_book: Book) -> None:
    """The four weeks and their ± read alike on the page and in the weekly review."""
    rows = {row.exercise: row for row in week_words(demo_book).rows}
    for exercise in ("back_squat_free", "lateral_raise"):
        seen = exercise_view(demo_book, exercise)
        page = exercise_page(demo_book.catalogue[exercise], seen)
        change, give = rows[exercise].trend.removesuffix(" %").split(" ± ")
        assert f"± {give} %" in page.trend
        assert change.lstrip("+−") in page.trend
        assert seen.next_load == rows[exercise].load


def test_why_says_load_day_and_the_prior_s_part(demo_book: Book) -> None:
    """Each set told has its load; the day and the width left are told; nothing moved by 0.0 %."""
    why = why_of(demo_book, "back squat")
    assert "as wide as at the start" in why.words[0]
    assert why.words[1].startswith("The exercise's last session, ")
    sets = [line for line in why.words if ", set " in line]
    assert sets
    assert all(" at " in line and "by 0.0 %" not in line for line in sets)
    assert why.words == tuple(why_lines(why.found, why.seen.item, demo_book.gym()))


def test_the_command_tells_what_the_page_tells(demo_book: Book) -> None:
    """`review --why` prints the page's strength and step; its JSON has the same numbers."""
    why = why_of(demo_book, "back_squat_free")
    page = exercise_page(demo_book.catalogue["back_squat_free"], why.seen)
    lines = list(why_text(why))
    assert page.now in lines[1]
    assert page.trend in lines
    assert f"Next: {page.next}" in lines
    assert why_document(why)["one_rep_kg"] == pytest.approx(why.found.one_rep_kg)


def test_a_stall_is_told_once(demo_book: Book) -> None:
    """Where the proposal is against a stall, the gain of late is not said a second time."""
    why = why_of(demo_book, "hip_thrust")
    halt, following = why.seen.halt, why.seen.next
    assert halt is not None
    assert following is not None
    assert sum("chance of a stall" in line for line in why_text(why)) == 1
    against = replace(following, step=Step.MORE_SETS, reason=halt.words)
    stalled = replace(why, seen=replace(why.seen, next=against))
    assert sum("chance of a stall" in line for line in why_text(stalled)) == 1


def test_why_of_nothing_known(demo_book: Book) -> None:
    """An exercise never done says what speaks for it, and how far; an unknown one is an error."""
    dip = why_of(demo_book, "dip")
    assert dip.words[0].startswith("No set of it yet: the 1RM is what is usual for others, moved")
    assert f"1RM {dip.seen.now.low:.0f} to {dip.seen.now.high:.0f} kg" in "\n".join(why_text(dip))
    with pytest.raises(InputError, match="there is no exercise"):
        why_of(demo_book, "no such thing")


def test_why_of_a_hold_tells_no_strength(demo_book: Book) -> None:
    """Seconds have no 1RM: none is told, before the first hold and after it."""
    for held in range(2):
        _log(demo_book, *[_hold(demo_book, 1, 45)] * held)
        lines = list(why_text(why_of(demo_book, "plank")))
        assert lines[-1].startswith("Held for time: ")
        assert "1RM" not in "".join(lines)


def test_what_is_too_heavy_already_is_not_told_of_the_next_load_up(demo_book: Book) -> None:
    """Where it is to be made easier, the page does not speak of the way to a heavier load."""
    seen = exercise_view(demo_book, "lateral_raise")
    assert seen.next is not None
    assert seen.step is not None
    step = replace(seen.step, too_big=True, more=("More reps.",))
    held = replace(seen, step=step, next=replace(seen.next, step=Step.HOLD))
    easier = replace(held, next=replace(seen.next, step=Step.EASIER))
    exercise = demo_book.catalogue["lateral_raise"]
    assert exercise_page(exercise, held).meanwhile == ("More reps.",)
    assert exercise_page(exercise, easier).meanwhile == ()
    assert exercise_page(exercise, easier).step == ""


def test_no_step_is_never_silent(demo_book: Book) -> None:
    """Sets without a step say why: not in her week, or asked for on an item without a set."""
    _log(demo_book, replace(_on_the_road(demo_book, 1, 12), exercise="shrug"))
    page = exercise_page(demo_book.catalogue["shrug"], exercise_view(demo_book, "shrug"))
    assert "Your week does not ask for it" in page.next
    _log(demo_book, _on_the_road(demo_book, 2, 12))
    away = exercise_view(demo_book, "leg_extension", ROAD)
    exercise = demo_book.catalogue["leg_extension"]
    assert "“also done on”, below" in exercise_page(exercise, away).next
    alone = exercise_page(exercise, replace(away, other_items=()))
    assert "an item that has no set yet" in alone.next
