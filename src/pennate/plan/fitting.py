"""Sets as they make sense for another exercise, or on other equipment.

A top set with a share of it for the rest needs a load that can be set. At body weight and on
bands there is none: straight sets, with the reps that make them hard.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from pennate.core.evidence.plan import (
    HINGE_REPS_HIGH,
    HINGE_REPS_LOW,
    HUNG_REPS_HIGH,
    HUNG_REPS_LOW,
    LOWERED_REPS_HIGH,
    LOWERED_REPS_LOW,
    UNLOADED_REPS_HIGH,
    UNLOADED_REPS_LOW,
    USUAL_REPS_HIGH,
    USUAL_REPS_LOW,
)
from pennate.core.exercise import UNLOADED, EquipmentKind, Exercise, FailureSafety, Fixture
from pennate.core.muscles import Joint
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    LoadFrom,
    LoadRule,
    PrescribedExercise,
    PrescribedSets,
    Span,
)
from pennate.core.week_time import multi_joint

LONG_ENOUGH = 15  # number: halfway between the usual reps without a load
BARS = frozenset({EquipmentKind.BARBELL, EquipmentKind.GUIDED_BAR})
BESIDE = frozenset({SetKind.WARM_UP, SetKind.DROP})
"""Kinds of set that are no working set of their own."""
HUNG = frozenset({Fixture.CHIN_UP_BAR, Fixture.DIP_BARS})
MOST_OF_HER = 0.8  # number: share of body mass from which strength decides the reps
HEAVY_BACK = 3
"""Level of lower back load of the heavy hinges."""
HINGE = Span(int(HINGE_REPS_LOW), int(HINGE_REPS_HIGH))
HUNG_REPS = Span(int(HUNG_REPS_LOW), int(HUNG_REPS_HIGH))
LOWERED_REPS = Span(int(LOWERED_REPS_LOW), int(LOWERED_REPS_HIGH))
SINGLE_JOINT = Span(int(USUAL_REPS_LOW), int(USUAL_REPS_HIGH))
UNLOADED_REPS = Span(int(UNLOADED_REPS_LOW), int(UNLOADED_REPS_HIGH))
SAFE = {
    "safeties": FailureSafety.SAFETIES_OR_SPOTTER,
    "spotter": FailureSafety.SAFETIES_OR_SPOTTER,
    "stops": FailureSafety.STOPS,
}
"""Aids that only exercises of this kind need."""


def fitting(
    asked: PrescribedExercise, exercise: Exercise, kind: EquipmentKind
) -> PrescribedExercise:
    """What is asked of an exercise, as it makes sense on this kind of equipment.

    Straight sets, without warm-ups and drops, where the load cannot be set or the reps were
    those of a heavier movement; else as it was, without ramps that need a bar.
    """
    sets = tuple(one for one in asked.sets if _can_ramp(one, kind))
    changed = [one for one in sets if one.kind not in BESIDE and _other_reps(one, exercise, kind)]
    graded = any(one.load.source is LoadFrom.OF_TOP for one in sets if one.kind not in BESIDE)
    if kind in UNLOADED or (changed and graded):
        sets = _straight(sets, exercise, kind)
    elif changed:
        sets = tuple(fitting_set(one, exercise, kind) for one in sets)
    return replace(asked, sets=sets or asked.sets, aids=fitting_aids(asked.aids, exercise, kind))


def fitting_set(one: PrescribedSets, exercise: Exercise, kind: EquipmentKind) -> PrescribedSets:
    """One block in its place: a share of a top set only where a load can be set."""
    reps = _other_reps(one, exercise, kind) if one.kind not in BESIDE else None
    if kind in UNLOADED:
        told = one.kind if one.kind in {*BESIDE, SetKind.AMRAP} else SetKind.WORKING
        one = replace(one, kind=told, load=LoadRule())
    return replace(one, reps=reps) if reps else one


def fitting_aids(aids: Iterable[str], exercise: Exercise, kind: EquipmentKind) -> tuple[str, ...]:
    """Her aids without safeties where nothing can fall, and straps where grip is no limit."""
    needed = FailureSafety.NONE if kind in UNLOADED else exercise.failure_safety
    return tuple(
        aid
        for aid in aids
        if (aid not in SAFE or SAFE[aid] is needed)
        and (aid != "straps" or (exercise.grip_limited and kind not in UNLOADED))
    )


def _can_ramp(one: PrescribedSets, kind: EquipmentKind) -> bool:
    return one.load.source is not LoadFrom.EMPTY_BAR or kind in BARS


def _straight(
    sets: tuple[PrescribedSets, ...], exercise: Exercise, kind: EquipmentKind
) -> tuple[PrescribedSets, ...]:
    """All working sets as one block, as the last of them was rested and held back."""
    working = [one for one in sets if one.kind not in BESIDE]
    if not working:
        return sets
    last = fitting_set(working[-1], exercise, kind)
    kind_of_set = SetKind.AMRAP if last.kind is SetKind.AMRAP else SetKind.WORKING
    count = sum(one.count for one in working)
    return (replace(last, kind=kind_of_set, count=count, load=LoadRule()),)


def _other_reps(one: PrescribedSets, exercise: Exercise, kind: EquipmentKind) -> Span | None:
    """Reps that make sense here where those asked do not; None where they do."""
    reps = one.reps
    if reps is None or reps.high is None or one.kind is SetKind.AMRAP:
        return None
    if kind in UNLOADED:
        return _unloaded_reps(reps.low, reps.high, exercise, kind)
    if exercise.pattern == "hip_dominant" and exercise.joints.get(Joint.LUMBAR) == HEAVY_BACK:
        long = reps.high > HINGE_REPS_HIGH and reps.low > SINGLE_JOINT.low
        return HINGE if long else None
    heavy = reps.low < SINGLE_JOINT.low and not multi_joint(exercise)
    return SINGLE_JOINT if heavy else None


def _unloaded_reps(low: int, high: int, exercise: Exercise, kind: EquipmentKind) -> Span | None:
    """Usual reps where the load is not set; None where those asked are as well."""
    needs = exercise.needs.get(kind, frozenset())
    share = exercise.body_mass.female if exercise.body_mass else 0
    if share > MOST_OF_HER and needs & {*HUNG, Fixture.FOOT_ANCHOR}:
        hung = Fixture.FOOT_ANCHOR not in needs
        usual, most = (HUNG_REPS, HUNG_REPS_HIGH) if hung else (LOWERED_REPS, LOWERED_REPS_HIGH)
        return None if high <= most else usual
    long = low >= UNLOADED_REPS_LOW and high >= LONG_ENOUGH
    return None if long else UNLOADED_REPS
