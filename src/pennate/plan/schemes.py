"""Set schemes beyond straight sets: drops after the last set, and supersets."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import replace
from itertools import combinations

from pennate.core.brief import Brief
from pennate.core.dose import dose_by_part
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
from pennate.core.week_dose import counted_sets, hard_sets
from pennate.core.week_time import exercise_sets, multi_joint, straight_seconds, superset_seconds
from pennate.plan.fitting import fitting_set
from pennate.plan.focus import main_group
from pennate.plan.hers import Hers, plain, sets_span, with_sets
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
NOTHING = 1e-9


def usual_sets(exercise: Exercise, brief: Brief, count: int = 1) -> PrescribedSets:
    """Straight sets as the planner asks for them; more reps where the load cannot be set."""
    reserve = brief.reserve or USUAL_RESERVE
    if exercise.timed:
        hold = Span(int(USUAL_HOLD_LOW_S), int(USUAL_HOLD_HIGH_S))
        return PrescribedSets(count=count, seconds=hold, reserve=reserve)
    reps = Span(int(USUAL_REPS_LOW), int(USUAL_REPS_HIGH))
    usual = PrescribedSets(count=count, reps=reps, reserve=reserve)
    kind = brief.unloaded.get(exercise.id)
    return fitting_set(usual, exercise, kind) if kind else usual


def usual_ask(exercise: Exercise, brief: Brief, count: int = 1) -> PrescribedExercise:
    """An exercise as the planner asks for it."""
    return PrescribedExercise(exercise=exercise.id, sets=(usual_sets(exercise, brief, count),))


def straight_option(exercise: Exercise, brief: Brief, *, coming: float = 0.0) -> Option:
    """An exercise in straight sets as the planner asks for them; `coming` is what it costs
    that the stop is new.
    """
    asked = (usual_ask(exercise, brief, int(SETS_LEAST)),)
    option = _option((exercise,), asked, _span(asked, Hers()), brief)
    return replace(option, stop_cost=option.stop_cost + coming)


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
    exercises: Sequence[Exercise], singles: Mapping[str, Option], brief: Brief, hers: Hers = Hers()
) -> list[Option]:
    """Supersets of two that take nothing from each other nor from a priority, and her own,
    of as many as she alternates.

    Opposed groups first; each exercise in a few pairs only, so that the model stays small.
    """
    used: dict[str, int] = {}
    pairs = sorted(_pairs(exercises, singles, brief), key=lambda pair: pair[0])
    by_id = {one.id: one for one in exercises}
    found = [
        option
        for names in hers.supersets
        if all(one in by_id for one in names)
        for option in _hers(tuple(by_id[one] for one in names), hers, brief)
    ]
    own = {frozenset(names) for names in hers.supersets}
    for _, a, b in pairs:
        if max(used.get(a.id, 0), used.get(b.id, 0)) >= PAIRS_AN_EXERCISE:
            continue
        if len(found) >= PAIRS_MOST:
            break
        if frozenset((a.id, b.id)) in own or not all(_can_pair(one.id, hers) for one in (a, b)):
            continue
        for one in (a, b):
            used[one.id] = used.get(one.id, 0) + 1
        found.append(_pair(a, b, brief, hers))
    return found


def _can_pair(exercise: str, hers: Hers) -> bool:
    """Whether an exercise is not hers, or is asked for in the same plain sets on all its days."""
    if exercise not in hers.asked:
        return True
    asked = hers.always(exercise)
    return asked is not None and plain(asked)


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


def _pair(a: Exercise, b: Exercise, brief: Brief, hers: Hers) -> Option:
    """Two exercises in turn, as many sets of one as of the other."""
    asked = tuple(hers.always(one.id) or usual_ask(one, brief, int(SETS_LEAST)) for one in (a, b))
    option = _option((a, b), asked, _span(asked, hers), brief)
    return replace(option, stop_cost=option.stop_cost + 2 * hers.moving)


def _span(asked: tuple[PrescribedExercise, ...], hers: Hers) -> tuple[int, int]:
    """Fewest and most sets of a stop: those its exercises share."""
    usual = (int(SETS_LEAST), int(SETS_MOST))
    spans = [sets_span(one) if one.exercise in hers.asked else usual for one in asked]
    least = max(low for low, _ in spans)
    return least, max(least, min(high for _, high in spans))


def hers_options(exercise: Exercise, hers: Hers, brief: Brief) -> list[Option]:
    """An exercise of her week as she asks for it: an option for each way she does."""
    return _hers((exercise,), hers, brief) if exercise.id in hers.asked else []


def _hers(exercises: tuple[Exercise, ...], hers: Hers, brief: Brief) -> list[Option]:
    """A stop of her own exercises, an option for each way she asks for them, on its days.

    On days that are not its own it is the same at a cost.
    """
    days: dict[tuple[tuple[PrescribedExercise, ...], float], list[int]] = {}
    for number, day in enumerate(brief.days):
        asked = tuple(one for e in exercises if (one := hers.on(e.id, day.day)))
        moving = hers.move_cost((e.id for e in exercises), day.day)
        days.setdefault((asked, moving), []).append(number)
    found = []
    for (asked, moving), on in days.items():
        option = _option(exercises, asked, _span(asked, hers), brief)
        found.append(replace(option, days=tuple(on), stop_cost=option.stop_cost + moving))
    return found


def _option(
    exercises: tuple[Exercise, ...],
    asked: tuple[PrescribedExercise, ...],
    span: tuple[int, int],
    brief: Brief,
) -> Option:
    """An option from what is asked, priced at its fewest sets and one more."""
    least, most = span
    once, twice = (tuple(with_sets(one, count) for one in asked) for count in (least, least + 1))
    seconds = [_seconds(exercises, sets) for sets in (once, twice)]
    doses = [_tracked_dose(exercises, sets) for sets in (once, twice)]
    set_s = seconds[1] - seconds[0]
    per_set = {place: dose - doses[0].get(place, 0.0) for place, dose in doses[1].items()}
    sore = set(brief.joint_limits) | set(brief.pain)
    return Option(
        exercises=tuple(one.id for one in exercises),
        scheme=Scheme.SUPERSET if len(exercises) > 1 else Scheme.STRAIGHT,
        least=least,
        most=most,
        fixed_s=seconds[0] - least * set_s,
        set_s=set_s,
        per_set=tuple(per_set.items()),
        fixed=tuple(
            (place, rest)
            for place, dose in doses[0].items()
            if abs(rest := dose - least * per_set[place]) > NOTHING
        ),
        stop_cost=STOP_COST * len(exercises),
        set_cost=sum(joint_cost(one, sore) for one in exercises),
    )


def _seconds(exercises: tuple[Exercise, ...], asked: tuple[PrescribedExercise, ...]) -> float:
    sets = [exercise_sets(one, how) for one, how in zip(exercises, asked, strict=True)]
    return superset_seconds(sets) if len(sets) > 1 else straight_seconds(sets[0])


def _tracked_dose(
    exercises: tuple[Exercise, ...], asked: tuple[PrescribedExercise, ...]
) -> dict[int, float]:
    """Dose by part and load by joint, by index."""
    found: dict[int, float] = {}
    for exercise, how in zip(exercises, asked, strict=True):
        hard = hard_sets(how)
        for part, dose in dose_by_part(counted_sets(exercise, how)).items():
            place = PARTS.index(part)
            found[place] = found.get(place, 0.0) + dose.value
        for joint, level in exercise.joints.items():
            if level and joint in JOINTS:
                place = len(PARTS) + JOINTS.index(joint)
                found[place] = found.get(place, 0.0) + level * hard
    return found
