"""Sets that make sense at body weight, on bands, for another movement: common practice."""

from __future__ import annotations

from fractions import Fraction

import pytest

from pennate.core.exercise import EquipmentKind
from pennate.core.muscles import Joint
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    LoadFrom,
    LoadRule,
    PrescribedExercise,
    PrescribedSets,
    Reason,
    Span,
)
from pennate.files.catalogue import read_catalogue
from pennate.plan.fitting import fitting, fitting_set
from pennate.plan.substitute import carry_over, one_twice, within_limits

KNOWN = read_catalogue()
BODY, BANDS, STACK = EquipmentKind.BODY_WEIGHT, EquipmentKind.BANDS, EquipmentKind.STACK
OF_TOP = LoadRule(LoadFrom.OF_TOP, Fraction(9, 10))
HEAVY = (
    PrescribedSets(kind=SetKind.WARM_UP, reps=Span(8, 8), load=LoadRule(LoadFrom.EMPTY_BAR)),
    PrescribedSets(kind=SetKind.WARM_UP, reps=Span(5, 5), load=OF_TOP),
    PrescribedSets(kind=SetKind.TOP, count=2, reps=Span(6, 8), reserve=Span(0, 1), rest_s=150),
    PrescribedSets(
        kind=SetKind.BACK_OFF,
        count=2,
        reps=Span(8, 10),
        reserve=Span(1, 1),
        load=OF_TOP,
        rest_s=120,
    ),
    PrescribedSets(kind=SetKind.DROP, reps=Span(8, 10), to_failure=True, load=OF_TOP, rest_s=10),
)
"""A heavy barbell exercise as she writes it."""


def asked(exercise: str, *sets: PrescribedSets, note: str = "") -> PrescribedExercise:
    return PrescribedExercise(exercise=exercise, sets=sets or HEAVY, aids=("safeties",), note=note)


@pytest.mark.parametrize(
    ("exercise", "kind", "low", "high"),
    [
        ("push_up", BODY, 10, 20),
        ("step_up", BODY, 10, 20),
        ("romanian_deadlift", BANDS, 10, 20),
        ("lat_pulldown", BANDS, 10, 20),
        ("chin_up", BODY, 6, 12),
        ("dip", BODY, 6, 12),
        ("nordic_curl", BODY, 4, 8),
    ],
)
def test_where_the_load_is_not_set_sets_are_straight(
    exercise: str, kind: EquipmentKind, low: int, high: int
) -> None:
    """No share of a top set, no ramp, no drop: as many working sets, in reps that get hard."""
    (only,) = fitting(asked(exercise), KNOWN[exercise], kind).sets
    assert (only.kind, only.count, only.load) == (SetKind.WORKING, 4, LoadRule())
    assert only.reps is not None
    assert only.reps.high is not None
    assert low <= only.reps.low
    assert only.reps.high <= high
    assert only.reserve == Span(1, 1)


def test_reps_that_suit_are_hers() -> None:
    """Twelve to twenty a side at body weight stay as she asks for them."""
    own = PrescribedSets(count=3, reps=Span(12, 25), reserve=Span(0, 1))
    assert fitting(asked("reverse_lunge", own), KNOWN["reverse_lunge"], BODY).sets == (own,)


def test_a_hold_stays_a_hold() -> None:
    """Seconds are not made into reps."""
    own = PrescribedSets(count=3, seconds=Span(20, 40))
    assert fitting(asked("plank", own), KNOWN["plank"], BODY).sets == (own,)


def test_nothing_falls_on_her_at_body_weight() -> None:
    """Safeties for a step-up and straps for a push-up would be laughed at."""
    done = PrescribedExercise(exercise="push_up", sets=HEAVY, aids=("safeties", "straps", "belt"))
    assert fitting(done, KNOWN["push_up"], BODY).aids == ("belt",)


def test_a_heavy_hinge_is_not_asked_for_in_long_sets() -> None:
    """Deadlifts of ten to fifteen in the place of a leg press become six to ten."""
    long = PrescribedSets(count=3, reps=Span(10, 15))
    bar = EquipmentKind.BARBELL
    (only,) = fitting(
        asked("conventional_deadlift", long), KNOWN["conventional_deadlift"], bar
    ).sets
    assert only.reps == Span(6, 10)
    (kept,) = fitting(asked("hip_thrust", long), KNOWN["hip_thrust"], bar).sets
    assert kept.reps == Span(10, 15)


def test_a_single_joint_is_not_loaded_for_six() -> None:
    """Leg curls in the place of heavy Romanian deadlifts: straight sets of eight or more."""
    (only,) = fitting(asked("seated_leg_curl", *HEAVY[2:4]), KNOWN["seated_leg_curl"], STACK).sets
    assert (only.kind, only.count, only.reps) == (SetKind.WORKING, 4, Span(8, 10))


def test_a_bar_goes_on_with_top_and_back_off() -> None:
    """Where a load can be set for the same kind of lift her scheme stays."""
    kept = fitting(asked("front_squat"), KNOWN["front_squat"], EquipmentKind.BARBELL)
    assert kept.sets == HEAVY


def test_set_by_set_every_block_keeps_its_place() -> None:
    """Sets done before a swap are known by their place: none moves."""
    done = [fitting_set(one, KNOWN["push_up"], BODY) for one in HEAVY]
    assert [one.count for one in done] == [one.count for one in HEAVY]
    assert all(one.load == LoadRule() for one in done)
    assert SetKind.BACK_OFF not in {one.kind for one in done}


def test_what_she_wrote_beside_a_squat_is_not_said_of_a_bridge() -> None:
    """A note goes with its exercise, and comes along to a close variant of it."""
    squat = asked("back_squat_free", note="Safeties just below the lowest point.")
    bridge = carry_over(KNOWN["back_squat_free"], squat, KNOWN["glute_bridge"], kind=BODY)
    front = carry_over(KNOWN["back_squat_free"], squat, KNOWN["guided_bar_squat"])
    assert (bridge.note, front.note) == ("", squat.note)
    assert carry_over(KNOWN["glute_bridge"], bridge, KNOWN["back_squat_free"]).reason is None
    assert bridge.reason is not Reason.TASTE


@pytest.mark.parametrize(
    ("one", "other", "twice"),
    [
        ("seated_leg_curl", "lying_leg_curl", "yes"),
        ("hip_thrust", "single_leg_hip_thrust", "yes"),
        ("chin_up", "lat_pulldown", "yes"),
        ("push_up", "knee_push_up", "yes"),
        ("romanian_deadlift", "lying_leg_curl", "no"),
        ("leg_press", "leg_extension", "no"),
        ("bench_press", "chest_fly", "no"),
        ("curl", "triceps_pushdown", "no"),
    ],
)
def test_what_is_one_exercise_twice(one: str, other: str, twice: str) -> None:
    """Two leg curls on a day are one too many; a hinge and a curl are not."""
    assert one_twice(KNOWN[one], KNOWN[other]) is (twice == "yes")
    assert one_twice(KNOWN[other], KNOWN[one]) is (twice == "yes")


QUADS = ("rear_foot_elevated_split_squat", "back_squat_free", "leg_extension", "hack_squat")
HIPS = ("hip_thrust", "glute_bridge", "romanian_deadlift", "seated_leg_curl")


def test_a_sore_knee_spares_the_quads_and_keeps_the_hips() -> None:
    """Deep single-leg work goes with the squats; hip work stays (Willy 2019, from memory)."""
    sore = {Joint.KNEE: 1}
    assert [one for one in QUADS if within_limits(KNOWN[one], sore)] == []
    assert [one for one in HIPS if not within_limits(KNOWN[one], sore)] == []
    assert within_limits(KNOWN["rear_foot_elevated_split_squat"], {Joint.KNEE: 2})
