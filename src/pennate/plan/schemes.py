"""Set schemes beyond straight sets: drops after the last set, and supersets of two."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import replace
from itertools import combinations

from pennate.core.brief import Brief
from pennate.core.evidence.dose import DROP_CREDIT, DROP_REST_S
from pennate.core.evidence.plan import (
    USUAL_HOLD_HIGH_S,
    USUAL_HOLD_LOW_S,
    USUAL_REPS_HIGH,
    USUAL_REPS_LOW,
)
from pennate.core.evidence.planner import (
    DROP_REPS,
    DROPS_A_SET,
    JOINT_COST,
    PAIRS_AN_EXERCISE,
    PAIRS_MOST,
    SETS_LEAST,
    SETS_MOST,
    SORE_JOINT_TIMES,
    STOP_COST,
)
from pennate.core.exercise import EquipmentKind, Exercise, FailureSafety, Sides
from pennate.core.muscles import Group, Joint, Part
from pennate.core.prescribed import PrescribedExercise, PrescribedSets, Span
from pennate.core.session_time import TimedSet
from pennate.core.week_dose import set_credit
from pennate.core.week_time import exercise_sets, multi_joint, straight_seconds, superset_seconds
from pennate.plan.focus import main_group
from pennate.plan.problem import JOINTS, PARTS, Option, Scheme

USUAL_RESERVE = Span(1, 2)
"""Reps in reserve asked where she says nothing: a hard set by any counting."""
QUICK_TO_STRIP = frozenset({EquipmentKind.STACK, EquipmentKind.CABLE, EquipmentKind.DUMBBELLS})
CARRIED = frozenset({EquipmentKind.DUMBBELLS, EquipmentKind.BODY_WEIGHT, EquipmentKind.BANDS})
"""Kinds of which two can be had side by side."""
HEAVY_BACK = 3
"""Level of lower back load from which an exercise is not hurried in a superset."""
GUARDED = frozenset({FailureSafety.SAFETIES_OR_SPOTTER, FailureSafety.STOPS})
OPPOSED = frozenset(
    frozenset(pair)
    for pair in (
        (Group.BICEPS, Group.TRICEPS),
        (Group.CHEST, Group.BACK),
        (Group.SHOULDERS, Group.BACK),
        (Group.QUADS, Group.HAMSTRINGS),
        (Group.CALVES, Group.CORE),
        (Group.SIDE_GLUTES, Group.CORE),
    )
)
"""Groups whose exercises are paired before others."""


def usual_sets(exercise: Exercise, brief: Brief, count: int = 1) -> PrescribedSets:
    """Straight sets as the planner asks for them."""
    reserve = brief.reserve or USUAL_RESERVE
    if exercise.timed:
        hold = Span(int(USUAL_HOLD_LOW_S), int(USUAL_HOLD_HIGH_S))
        return PrescribedSets(count=count, seconds=hold, reserve=reserve)
    reps = Span(int(USUAL_REPS_LOW), int(USUAL_REPS_HIGH))
    return PrescribedSets(count=count, reps=reps, reserve=reserve)


def _timed(exercise: Exercise, brief: Brief, count: int) -> tuple[TimedSet, ...]:
    asked = PrescribedExercise(exercise=exercise.id, sets=(usual_sets(exercise, brief, count),))
    return exercise_sets(exercise, asked)


def straight_option(exercise: Exercise, brief: Brief) -> Option:
    """An exercise in straight sets."""
    one, two = (straight_seconds(_timed(exercise, brief, count)) for count in (1, 2))
    credit = set_credit(usual_sets(exercise, brief))
    return Option(
        exercises=(exercise.id,),
        scheme=Scheme.STRAIGHT,
        least=int(SETS_LEAST),
        most=int(SETS_MOST),
        fixed_s=2 * one - two,
        set_s=two - one,
        per_set=tuple((place, amount * credit) for place, amount in tracked(exercise)),
        stop_cost=STOP_COST,
        set_cost=joint_cost(exercise, set(brief.joint_limits) | set(brief.pain)),
    )


def tracked(exercise: Exercise) -> tuple[tuple[int, float], ...]:
    """Dose by part and load by joint of one whole set, by index."""
    parts = ((PARTS.index(part), float(weight)) for part, weight in exercise.weights().items())
    loads = (
        (len(PARTS) + JOINTS.index(joint), float(level))
        for joint, level in exercise.joints.items()
        if level and joint in JOINTS
    )
    return (*parts, *loads)


def joint_cost(exercise: Exercise, sore: Set[Joint]) -> float:
    """Soft cost of one set by its joint load; a joint she limits counts more."""
    return sum(
        JOINT_COST * level * (SORE_JOINT_TIMES if joint in sore else 1.0)
        for joint, level in exercise.joints.items()
    )


def drop_option(exercise: Exercise, straight: Option, kinds: Set[EquipmentKind]) -> Option | None:
    """The exercise with drops after its last set, where the load strips quickly and safely."""
    kind = next((kind for kind in exercise.equipment if kind in kinds), None)
    if (
        kind not in QUICK_TO_STRIP
        or exercise.timed
        or multi_joint(exercise)
        or exercise.failure_safety in GUARDED
    ):
        return None
    drop = TimedSet(
        reps=DROP_REPS,
        rest_s=DROP_REST_S,
        seconds_per_rep=float(exercise.seconds_per_rep),
        sides=2 if exercise.sides is Sides.ONE else 1,
    )
    return replace(
        straight,
        scheme=Scheme.DROPS,
        fixed_s=straight.fixed_s + DROPS_A_SET * drop.seconds,
        fixed=tuple((part, dose * DROPS_A_SET * DROP_CREDIT) for part, dose in straight.per_set),
    )


def pair_options(
    exercises: Sequence[Exercise], singles: Mapping[str, Option], brief: Brief
) -> list[Option]:
    """Supersets of two that take nothing from each other nor from a priority.

    Opposed groups first; each exercise in a few pairs only, so that the model stays small.
    """
    used: dict[str, int] = {}
    pairs = sorted(_pairs(exercises, singles, brief), key=lambda pair: pair[0])
    found: list[Option] = []
    for _, a, b in pairs:
        if max(used.get(a.id, 0), used.get(b.id, 0)) >= PAIRS_AN_EXERCISE:
            continue
        if len(found) >= PAIRS_MOST:
            break
        for one in (a, b):
            used[one.id] = used.get(one.id, 0) + 1
        found.append(_pair(a, b, singles, brief))
    return found


def _pairs(
    exercises: Sequence[Exercise], singles: Mapping[str, Option], brief: Brief
) -> Iterator[tuple[tuple[bool, float, str, str], Exercise, Exercise]]:
    for a, b in combinations(exercises, 2):
        if pairable(a, b, brief.priorities):
            opposed = frozenset((main_group(a), main_group(b))) in OPPOSED
            work = sum(dose for one in (a, b) for _, dose in singles[one.id].per_set)
            yield (not opposed, -work, a.id, b.id), a, b


def pairable(a: Exercise, b: Exercise, priorities: Sequence[Group | Part]) -> bool:
    """Whether two exercises can alternate: no shared part, no shared station, no shared grip.

    A priority is never paired, nor two multi-joint lifts, nor what loads the lower back
    most or needs safeties.
    """
    shared = set(a.weights()) & set(b.weights())
    groups = {main_group(a), main_group(b)}
    kinds = {a.equipment[0], b.equipment[0]}
    return not (
        shared
        or groups & set(priorities)
        or (multi_joint(a) and multi_joint(b))
        or any(one.joints.get(Joint.LUMBAR, 0) >= HEAVY_BACK for one in (a, b))
        or any(one.failure_safety in GUARDED for one in (a, b))
        or (len(kinds) == 1 and not kinds <= CARRIED)
        or min(a.joints.get(Joint.GRIP, 0), b.joints.get(Joint.GRIP, 0)) > 1
    )


def _pair(a: Exercise, b: Exercise, singles: Mapping[str, Option], brief: Brief) -> Option:
    one, two = (
        superset_seconds([_timed(a, brief, count), _timed(b, brief, count)]) for count in (1, 2)
    )
    first, second = singles[a.id], singles[b.id]
    return Option(
        exercises=(a.id, b.id),
        scheme=Scheme.SUPERSET,
        least=int(SETS_LEAST),
        most=int(SETS_MOST),
        fixed_s=2 * one - two,
        set_s=two - one,
        per_set=_sum(first.per_set, second.per_set),
        stop_cost=first.stop_cost + second.stop_cost,
        set_cost=first.set_cost + second.set_cost,
    )


def _sum(
    first: tuple[tuple[int, float], ...], second: tuple[tuple[int, float], ...]
) -> tuple[tuple[int, float], ...]:
    total = dict(first)
    for place, amount in second:
        total[place] = total.get(place, 0.0) + amount
    return tuple(total.items())
