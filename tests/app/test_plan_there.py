"""A week planned for a place uses what is there, in sets that make sense there."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from bench.plan.rules import complaints
from pennate.app.book import Book
from pennate.app.card_text import load_words
from pennate.app.gyms import starter_gym
from pennate.app.planning import Asking, kinds_of, replan_week, swaps_for
from pennate.app.swaps import on_items
from pennate.app.week_asked import asked_of, plan_asked
from pennate.app.week_happened import TO_COME, Told, happened_to
from pennate.app.week_known import gym_of_week
from pennate.core.brief import Brief, FreeDay
from pennate.core.exercise import UNLOADED, EquipmentKind, Fixture
from pennate.core.muscles import Joint, Part
from pennate.core.performed import SetKind
from pennate.core.prescribed import PrescribedExercise, Span, Week
from pennate.files.catalogue import read_catalogue
from pennate.loading import ladder
from pennate.plan.schemes import usual_ask
from pennate.plan.solve import QUICK

KNOWN = read_catalogue()
LITTLE = Asking(effort=QUICK, with_more=False)
TRAVEL = starter_gym("travel")
BRIEF = Brief(
    name="Away",
    days=(FreeDay("Monday", 45), FreeDay("Wednesday", 45), FreeDay("Friday", 45)),
    years=Fraction(3),
    gym="travel",
)


def planned(brief: Brief) -> Week:
    gym = starter_gym(brief.gym)
    return plan_asked(asked_of(brief, None, gym, None, LITTLE)).week


@pytest.fixture(scope="module")
def away() -> Week:
    return planned(BRIEF)


def test_nothing_is_planned_that_the_place_has_not(away: Week) -> None:
    """The independent checker, told what there is to hang from and lie on, finds nothing."""
    assert complaints(away, BRIEF, KNOWN, kinds_of(TRAVEL), fixtures=TRAVEL.has) == []


def test_sets_of_a_travel_week_are_straight(away: Week) -> None:
    """On bands and at body weight: no top with a share of it, reps of ten and more."""
    sets = [one for day in away.days for each in day.exercises for one in each.sets]
    assert {one.kind for one in sets} == {SetKind.WORKING}
    assert all(one.reps.low >= 10 for one in sets if one.reps)


def test_the_checker_knows_what_hangs(away: Week) -> None:
    """A chin-up in a room without a bar is found, and so is a Nordic curl without an anchor."""
    day = away.days[0]
    for name, wanted in (("chin_up", "chin-up bar"), ("nordic_curl", "foot anchor")):
        sets = usual_ask(KNOWN[name], BRIEF, 3).sets
        wrong = replace(day, exercises=(PrescribedExercise(exercise=name, sets=sets),))
        week = replace(away, days=(wrong, *away.days[1:]))
        told = complaints(week, BRIEF, KNOWN, UNLOADED, fixtures={Fixture.BENCH})
        assert f"{day.day}: {name} needs {wanted}" in told


def test_a_band_hangs_on_no_pin() -> None:
    """Its pull is said as it is; a machine's number is on the pin."""
    bands, gym = TRAVEL.item("bands"), starter_gym("commercial_kg")
    machine = gym.of_kind(EquipmentKind.STACK)[0]
    assert bands is not None
    assert load_words(ladder(TRAVEL, bands)[0]) == "4 kg"
    assert load_words(ladder(gym, machine)[0]).endswith("on the pin")


def test_a_knee_in_pain_goes_without_split_squats() -> None:
    """As in a re-plan: pain of 4 leaves out whatever works the quads in full."""
    sore = replace(BRIEF, gym="commercial_kg", pain={Joint.KNEE: 4})
    asked = (KNOWN[one.exercise] for day in planned(sore).days for one in day.exercises)
    assert [one.id for one in asked if one.weights().get(Part.QUADS_VASTI, 0) == 1] == []


def test_a_swap_says_what_it_is_done_on_there() -> None:
    """In a room with bands a pulldown is one on bands, in straight sets, not one on a stack."""
    found = swaps_for("chin_up", None, KNOWN)
    there = {one.exercise: (one, item) for one, item in on_items(found, TRAVEL, KNOWN)}
    pulldown, item = there["lat_pulldown"]
    assert pulldown.kind is item.kind is EquipmentKind.BANDS
    assert all(sets.reps == Span(10, 20) for sets in pulldown.asked.sets)
    assert "pull_up" not in there


def test_a_lost_machine_gives_way_to_what_can_be_loaded(demo_book: Book) -> None:
    """Without the leg curl: a Romanian deadlift where the day has none, before a Nordic curl."""
    week = demo_book.week()
    assert week is not None
    gone = Told(gone={"lying_leg_curl"}, states={day.day: TO_COME for day in week.days})
    gym = gym_of_week(demo_book, week)
    happened = happened_to(week, gone, gym, demo_book, demo_book.catalogue)
    found = replan_week(week, happened, demo_book.catalogue).week
    hinged = [d for d in week.days if any(a.exercise == "romanian_deadlift" for a in d.exercises)]
    for before, after in zip(week.days, found.days, strict=True):
        if before not in hinged:
            assert "nordic_curl" not in {one.exercise for one in after.exercises}
