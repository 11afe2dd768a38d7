"""What is offered where a station is taken: the judgements are common practice of coaching."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pennate.app.book import Book
from pennate.app.response_sheet import prepare
from pennate.app.swaps import Offer, best_today, offers
from pennate.app.today import inputs_for, planned_for
from pennate.body.pain import PainReport
from pennate.core.exercise import EquipmentKind
from pennate.core.muscles import Joint
from pennate.core.prescribed import Week

EASY = {"knee_push_up", "push_up", "body_weight_squat", "wall_sit"}
"""Far too light for somebody who presses and squats with a bar (common practice)."""


def _week(book: Book) -> Week:
    week = book.week()
    assert week is not None
    return week


def _offers(book: Book, exercise: str, *, most: int = 2) -> tuple[Offer, ...]:
    for day in _week(book).days:
        for place, asked in enumerate(day.exercises):
            if asked.exercise == exercise:
                return offers(book, book.today, day.day, place, most=most)
    raise AssertionError(exercise)


def test_no_offer_is_far_too_light(demo_book: Book) -> None:
    """No body-weight beginner's exercise for any lift of a lifter of some years."""
    for day in _week(demo_book).days:
        for place in range(len(day.exercises)):
            found = offers(demo_book, demo_book.today, day.day, place)
            assert not EASY & {one.exercise for one in found if not one.caveat}


@pytest.mark.parametrize("lift", ["bench_press", "shoulder_press", "hip_thrust", "incline_press"])
def test_the_lift_itself_on_other_equipment_first(demo_book: Book, lift: str) -> None:
    """Bar taken: the same lift with dumbbells or in the guided bar, with a load."""
    first = _offers(demo_book, lift)[0]
    assert first.exercise == lift
    assert first.first is not None
    assert first.first.load is not None
    assert demo_book.gym().item(first.item).kind is not EquipmentKind.BARBELL or (  # type: ignore[union-attr] # the demo has a gym
        lift == "incline_press"
    )


def test_a_pulldown_is_replaced_by_chins(demo_book: Book) -> None:
    """The same pull from above: on the assisted machine, where any reps can be set."""
    found = _offers(demo_book, "lat_pulldown")
    assert {one.exercise for one in found} <= {"chin_up", "pull_up", "lat_pulldown"}


def test_no_calf_press_for_a_leg_curl(demo_book: Book) -> None:
    """What keeps a tenth of the dose is not offered, however many are asked for."""
    found = {one.exercise for one in _offers(demo_book, "lying_leg_curl", most=9)}
    assert "leg_press_calf" not in found


@pytest.mark.parametrize(("score", "most"), [(7, 0), (4, 1)])
def test_what_hurt_at_a_set_is_spared_by_the_swap(demo_book: Book, score: int, most: int) -> None:
    """Above 5 of 10 nothing that loads the joint is offered, from 3 only what loads it lightly."""
    day = next(
        day
        for day in _week(demo_book).days
        if "bench_press" in {one.exercise for one in day.exercises}
    )
    planned = planned_for(demo_book, demo_book.today, day.day)
    assert planned is not None
    inputs = inputs_for(demo_book, demo_book.today, planned)
    hurt = replace(inputs, pain=(PainReport(inputs.state.day, "shoulder", score),))
    place = [one.exercise for one in day.exercises].index("bench_press")
    found = best_today(hurt, _week(demo_book), place, taken="", most=9)
    loads = [demo_book.catalogue[one.exercise].joints.get(Joint.SHOULDER, 0) for one, _ in found]
    assert max(loads, default=0) <= most
    before = best_today(inputs, _week(demo_book), place, taken="", most=9)
    assert len(found) < len(before)


def test_out_of_reach_says_so_and_comes_last(demo_book: Book) -> None:
    """Push-ups for 6–8 reps of a bench press: shown late, with the reason."""
    found = _offers(demo_book, "bench_press", most=12)
    caveats = [bool(one.caveat) for one in found]
    assert caveats == sorted(caveats)
    late = next(one for one in found if one.exercise == "knee_push_up")
    assert late.caveat == "likely too light for the reps asked"
    assert late.because.startswith(late.caveat)


def test_a_wheel_carries_no_load(demo_book: Book) -> None:
    """The ab wheel is body weight; a bar used as a wheel is no load."""
    found = _offers(demo_book, "crunch", most=30)
    wheel = next(one for one in found if one.exercise == "wheel_rollout")
    assert wheel.first is not None
    assert wheel.first.load is None


def test_her_copy_offers_what_the_server_offers(demo_book: Book) -> None:
    """The substitutes taken along without reception are the server's, in its order."""
    for day in _week(demo_book).days:
        if day.rest:
            continue
        along = prepare(demo_book, demo_book.today, day.day).instead
        for place, found in along.items():
            served = offers(demo_book, demo_book.today, day.day, place)
            assert [(one.stop.exercise, one.item, one.caveat) for one in found] == [
                (one.exercise, one.item, one.caveat) for one in served
            ]
