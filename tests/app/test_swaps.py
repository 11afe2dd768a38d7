"""What is offered where a station is taken: the judgements are common practice of coaching."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from random import Random

import pytest

from pennate.app.book import Book
from pennate.app.record import Recorded, record
from pennate.app.response_sheet import prepare
from pennate.app.swaps import Offer, best_today, offers
from pennate.app.today import card_for, inputs_for, planned_for, swap
from pennate.body.pain import PainReport
from pennate.core.card import Card
from pennate.core.exercise import EquipmentKind
from pennate.core.gym import AnyItem
from pennate.core.muscles import Joint
from pennate.core.performed import Effort, SetKind
from pennate.core.prescribed import PrescribedExercise, PrescribedSets, Span, Week
from pennate.estimate import ExposureReader
from pennate.plan.substitute import Substitute
from tests.app.conftest import NOW

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


@pytest.mark.parametrize("begun", [0, 3], ids=["before", "amid"])
def test_what_is_offered_is_what_she_gets(demo_book: Book, begun: int) -> None:
    """The load in the offer is the one on the card once she has taken it, also mid-session."""
    day = demo_book.today
    weekday = next(one.day for one in _week(demo_book).days if len(one.exercises) > 4)
    for key in _card(demo_book, weekday).order[:begun]:
        record(demo_book, day, key, Recorded(effort=Effort.TWO), weekday=weekday)
    shown = 0
    for stop in _card(demo_book, weekday).stops:
        if any(one.done for one in stop.sets):
            continue
        for one in offers(demo_book, day, weekday, stop.index, most=1):
            to = {"exercise": one.exercise, "item": one.item}
            swap(demo_book, day, weekday, stop.index, to)
            taken = next(s for s in _card(demo_book, weekday).stops if s.index == stop.index)
            hard = [s for s in taken.sets if s.kind is not SetKind.WARM_UP]
            assert one.first == hard[0]
            shown += 1
            swap(demo_book, day, weekday, stop.index, {"exercise": stop.exercise})
    assert shown >= 3


def _card(book: Book, weekday: str) -> Card:
    found = card_for(book, book.today, weekday=weekday)
    assert isinstance(found, Card)
    return found


def test_the_model_of_a_morning_goes_on_from_an_earlier_one(demo_folder: Path) -> None:
    """A day later it is the same as replayed from the first set."""
    later = NOW.date() - timedelta(days=2)
    models = []
    for mornings in ([later - timedelta(days=9), later], [later]):
        book = Book.open(demo_folder, lambda: NOW, Random(5))
        models.append([book.model_before(day) for day in mornings][-1])
        exposure = ExposureReader(book.catalogue, book.person(), book.carriers())
        last = [exposure.exposure(done) for done in book.history().before(later).sets[-30:]]
        book.close()
    went_on, anew = ([model.forecast(one).quantiles for one in last] for model in models)
    assert went_on == anew


def _for_leg_raises(
    book: Book, reps: Span, kinds: set[EquipmentKind]
) -> list[tuple[Substitute, AnyItem]]:
    """Everything offered for hanging leg raises at these reps, where only such items stand."""
    day = next(
        day
        for day in _week(book).days
        if "hanging_leg_raise" in {one.exercise for one in day.exercises}
    )
    sets = (PrescribedSets(count=3, reps=reps, reserve=Span(1, 1)),)
    asked = PrescribedExercise(exercise="hanging_leg_raise", sets=sets)
    inputs = inputs_for(book, book.today, replace(day, exercises=(asked,)))
    assert inputs.gym is not None
    left = tuple(item for item in inputs.gym.items if item.kind in kinds)
    there = replace(inputs, gym=replace(inputs.gym, items=left))
    return best_today(there, _week(book), 0, taken="", most=4)


def test_leg_raises_give_way_to_a_core_exercise_that_is_right(demo_book: Book) -> None:
    """Crunches, on the floor or with a load as she needs them, before the wheel and V-ups."""
    first, *rest = _for_leg_raises(demo_book, Span(8, 15), set(EquipmentKind))
    assert (first[0].exercise, first[0].caveat) == ("crunch", "")
    assert {one.exercise for one, _ in rest if not one.caveat} <= {"crunch"}


def test_where_body_weight_is_not_right_a_load_is_set(demo_book: Book) -> None:
    """For forty crunches in a set a light cable is right, the floor is not."""
    kinds = {EquipmentKind.BODY_WEIGHT, EquipmentKind.CABLE, EquipmentKind.STACK}
    one, item = _for_leg_raises(demo_book, Span(38, 42), kinds)[0]
    assert (one.exercise, one.caveat) == ("crunch", "")
    assert item.kind is one.kind is EquipmentKind.CABLE


def test_where_none_is_light_enough_the_nearest_comes_first_and_says_so(demo_book: Book) -> None:
    """On the floor alone forty reps are out of reach of all: each says why, held ones last."""
    found = _for_leg_raises(demo_book, Span(38, 42), {EquipmentKind.BODY_WEIGHT})
    caveats = [one.caveat for one, _ in found]
    assert all("too heavy" in words or words == "held, not counted" for words in caveats)
    held = [words == "held, not counted" for words in caveats]
    assert held == sorted(held)
