"""A planned day becomes single sets in the order lifters do them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from pennate.app.slots import in_order, slots_of, superset_runs, with_care
from pennate.core.cautions import limits_for
from pennate.core.exercise import EquipmentKind, Exercise, Sides
from pennate.core.performed import SetKind, Side
from pennate.core.prescribed import PrescribedExercise, PrescribedSets, Span
from pennate.core.readiness import Health
from pennate.core.week_time import exercise_sets, superset_seconds
from pennate.files.catalogue import read_catalogue


def _exercise(sides: Sides = Sides.BOTH) -> Exercise:
    return Exercise(
        id="x",
        name="X",
        pattern="p",
        sides=sides,
        involvement={},
        joints={},
        equipment=(EquipmentKind.BARBELL,),
        seconds_per_rep=Fraction(3),
    )


def _asked(*kinds: SetKind, mark: str = "") -> PrescribedExercise:
    sets = tuple(PrescribedSets(kind=kind, reps=Span(8, 10)) for kind in kinds)
    return PrescribedExercise(exercise="x", sets=sets, superset=mark)


def test_one_side_finishes_its_drops_before_the_other_begins() -> None:
    """A drop follows its own set with next to no rest, so left is finished before right."""
    asked = _asked(SetKind.TOP, SetKind.DROP)
    slots = slots_of(0, asked, _exercise(Sides.ONE))
    assert [(s.side, s.asked.kind) for s in slots] == [
        (Side.LEFT, SetKind.TOP),
        (Side.LEFT, SetKind.DROP),
        (Side.RIGHT, SetKind.TOP),
        (Side.RIGHT, SetKind.DROP),
    ]


def test_supersets_alternate_with_rest_once_a_round() -> None:
    """Partners alternate; only the first of a round is rested for."""
    exercises = (
        _asked(SetKind.WORKING, SetKind.WORKING, mark="A"),
        _asked(SetKind.WORKING, SetKind.WORKING, SetKind.WORKING, mark="A"),
        _asked(SetKind.WORKING),
    )
    slots = {i: slots_of(i, e, _exercise()) for i, e in enumerate(exercises)}
    order = in_order(superset_runs(exercises), slots)
    assert [stop for stop, _ in order] == [0, 1, 0, 1, 1, 2]
    assert [slot.rest_s > 0 for _, slot in order] == [True, False, True, False, True, True]


def test_a_round_rests_as_long_as_its_slowest_partner() -> None:
    """Rests of 60 and 120 s: each round waits 120 s on the card, as in the week's minutes."""
    short, long = (
        PrescribedExercise(
            exercise="x",
            sets=(PrescribedSets(count=2, reps=Span(8, 10), rest_s=rest),),
            superset="A",
        )
        for rest in (60, 120)
    )
    exercise = _exercise()
    slots = {i: slots_of(i, e, exercise) for i, e in enumerate((short, long))}
    order = in_order(superset_runs((short, long)), slots)
    assert [slot.rest_s for _, slot in order] == [120, 0, 120, 0]
    card = sum(slot.rest_s for _, slot in order)  # the first round comes after the ramp
    worked = [exercise_sets(exercise, one) for one in (short, long)]
    bare = [tuple(replace(one, rest_s=0) for one in sets) for sets in worked]
    assert superset_seconds(worked) - superset_seconds(bare) == card


def test_neighbours_with_other_marks_stay_apart() -> None:
    """Two supersets in a row are two, and unmarked neighbours are single stops."""
    exercises = tuple(_asked(SetKind.WORKING, mark=m) for m in ("A", "A", "B", "B", "", ""))
    assert superset_runs(exercises) == ((0, 1), (2, 3), (4,), (5,))


def test_care_keeps_sets_short_of_failure() -> None:
    """Told to avoid strain: no failure, no AMRAP, four or more in reserve."""
    kept = with_care(
        PrescribedSets(kind=SetKind.AMRAP, to_failure=True), limits_for(Health.AVOID_STRAIN)
    )
    assert (kept.kind, kept.to_failure) == (SetKind.WORKING, False)
    assert kept.reserve is not None
    assert kept.reserve.low >= 4


def test_a_one_leg_variant_is_done_side_by_side() -> None:
    """One-leg leg press is logged left and right apart, though the leg press is not."""
    press = read_catalogue()["leg_press"]
    asked = replace(_asked(SetKind.WORKING), exercise="leg_press", variant="one_leg")
    assert [slot.side for slot in slots_of(0, asked, press)] == [Side.LEFT, Side.RIGHT]
    assert [slot.side for slot in slots_of(0, replace(asked, variant=""), press)] == [None]
