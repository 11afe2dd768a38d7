"""Single changes to a week: each a sentence and the week after it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from pennate.core.evidence.plan import (
    USUAL_HOLD_HIGH_S,
    USUAL_HOLD_LOW_S,
    USUAL_REPS_HIGH,
    USUAL_REPS_LOW,
)
from pennate.core.exercise import UNLOADED, EquipmentKind, Exercise
from pennate.core.muscles import PART_NAMES, Joint, Part
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    PlannedDay,
    PrescribedExercise,
    PrescribedSets,
    Span,
    Week,
)
from pennate.core.week_time import PLATED, trained_parts
from pennate.plan.fitting import fitting
from pennate.plan.seen import Seen
from pennate.plan.substitute import one_twice, substitutes

ADDED = 3
"""How many exercises are tried for a part that lacks sets."""
SWAPS = 3
"""How many substitutes are tried for each exercise."""


@dataclass(frozen=True, slots=True)
class Mend:
    """One change: what to do, and the week after it."""

    what: str
    week: Week
    size: float = 0.0
    """How much of a change it is beside its dose and minutes, in points."""


MARKS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
MOVED = 0.1  # number: points, less than any finding weighs
LEFT_OUT = 0.5
SWAPPED = 0.75  # number: points, another exercise to learn


def mends(seen: Seen, lacking: frozenset[Part], sore: frozenset[Joint]) -> Iterator[Mend]:
    """Every single change worth trying: sets, places, substitutes, additions, safety."""
    for day in seen.days:
        for place, asked in enumerate(day.exercises):
            yield from _sets(seen, day, place, asked)
            yield from _safer(seen, day, place, asked)
            yield from _elsewhere(seen, day, place, asked)
            yield from _swapped(seen, day, asked, lacking, sore)
        yield from _earlier(seen, day)
        yield from _unpaired(seen, day)
        yield from _paired(seen, day)
    yield from _added(seen, lacking)


def with_day(week: Week, day: PlannedDay) -> Week:
    """The week with one of its days replaced, or added in its place."""
    if any(one.day == day.day for one in week.days):
        return replace(week, days=tuple(day if one.day == day.day else one for one in week.days))
    return replace(week, days=(*week.days, day))


def _put(day: PlannedDay, place: int, asked: PrescribedExercise | None) -> PlannedDay:
    kept = [*day.exercises[:place], *([asked] if asked else []), *day.exercises[place + 1 :]]
    return replace(day, exercises=tuple(kept))


def _name(seen: Seen, asked: PrescribedExercise) -> str:
    return seen.known[asked.exercise].name


def resized(asked: PrescribedExercise, change: int) -> PrescribedExercise | None:
    """The exercise with working sets added to or taken from its largest block."""
    blocks = [i for i, sets in enumerate(asked.sets) if sets.kind is not SetKind.WARM_UP]
    if not blocks:
        return None
    place = max(blocks, key=lambda i: asked.sets[i].count)
    count = asked.sets[place].count + change
    if count < 1:
        return None
    sets = list(asked.sets)
    sets[place] = replace(sets[place], count=count)
    return replace(asked, sets=tuple(sets))


def _sets(seen: Seen, day: PlannedDay, place: int, asked: PrescribedExercise) -> Iterator[Mend]:
    name = _name(seen, asked)
    for change in (-3, -2, -1, 1, 2, 3):
        new = resized(asked, change)
        if new:
            word = "more" if change > 0 else "fewer"
            noun = "set" if abs(change) == 1 else "sets"
            what = f"{abs(change)} {word} {noun} of {name} on {day.day}"
            yield Mend(what, with_day(seen.week, _put(day, place, new)))
    if len(day.exercises) > 1:
        left = with_day(seen.week, _put(day, place, None))
        yield Mend(f"Leave out {name} on {day.day}", left, LEFT_OUT)


def _safer(seen: Seen, day: PlannedDay, place: int, asked: PrescribedExercise) -> Iterator[Mend]:
    if seen.known[asked.exercise].grip_limited and "straps" not in asked.aids:
        strapped = replace(asked, aids=(*asked.aids, "straps"))
        what = f"Straps for {_name(seen, asked)} on {day.day}"
        yield Mend(what, with_day(seen.week, _put(day, place, strapped)), MOVED)
    if not any(sets.to_failure or sets.kind is SetKind.AMRAP for sets in asked.sets):
        return
    sets = tuple(
        replace(one, to_failure=False, reserve=Span(1, 1),
                kind=SetKind.WORKING if one.kind is SetKind.AMRAP else one.kind)
        if one.to_failure or one.kind is SetKind.AMRAP
        else one
        for one in asked.sets
    )  # fmt: skip
    what = f"Stop {_name(seen, asked)} on {day.day} with one rep in reserve"
    yield Mend(what, with_day(seen.week, _put(day, place, replace(asked, sets=sets))))


def _elsewhere(
    seen: Seen, day: PlannedDay, place: int, asked: PrescribedExercise
) -> Iterator[Mend]:
    moved = replace(asked, superset="")
    for other in seen.days:
        if other.day == day.day or any(o.exercise == asked.exercise for o in other.exercises):
            continue
        target = replace(other, exercises=(*other.exercises, moved))
        week = with_day(with_day(seen.week, _put(day, place, None)), target)
        yield Mend(f"Move {_name(seen, asked)} from {day.day} to {other.day}", week, MOVED)


def _swapped(
    seen: Seen,
    day: PlannedDay,
    asked: PrescribedExercise,
    lacking: frozenset[Part],
    sore: frozenset[Joint],
) -> Iterator[Mend]:
    ranked = substitutes(asked.exercise, day, seen.week, seen.known, frozenset(EquipmentKind), {})
    joints = seen.known[asked.exercise].joints
    place = day.exercises.index(asked)
    rest = _put(day, place, None)
    easier = [
        one
        for one in ranked
        if seen.looking.possible(one.exercise)
        and _is_new(seen, rest, seen.known[one.exercise])
        and (
            any(one.joints.get(joint, 0) < 0 for joint in sore if joints.get(joint, 0))
            or any(seen.known[one.exercise].weights().get(part, 0) for part in lacking)
        )
    ]
    for one in easier[:SWAPS]:
        new = seen.known[one.exercise]
        fitted = fitting(one.asked, new, seen.looking.kind_of(new))
        what = f"{one.name} instead of {_name(seen, asked)} on {day.day}"
        yield Mend(what, with_day(seen.week, _put(day, place, fitted)), SWAPPED)


def _earlier(seen: Seen, day: PlannedDay) -> Iterator[Mend]:
    if any(asked.superset for asked in day.exercises):
        return
    for place, asked in enumerate(day.exercises[1:], start=1):
        rest = [*day.exercises[:place], *day.exercises[place + 1 :]]
        new = replace(day, exercises=(asked, *rest))
        yield Mend(f"{_name(seen, asked)} first on {day.day}", with_day(seen.week, new))


def _unpaired(seen: Seen, day: PlannedDay) -> Iterator[Mend]:
    for mark in sorted({asked.superset for asked in day.exercises} - {""}):
        new = replace(
            day,
            exercises=tuple(
                replace(a, superset="") if a.superset == mark else a for a in day.exercises
            ),
        )
        yield Mend(f"Do superset {mark} on {day.day} one after the other", with_day(seen.week, new))


def _paired(seen: Seen, day: PlannedDay) -> Iterator[Mend]:
    """Neighbours that can alternate: other muscles, and not one place for both."""
    for place, (a, b) in enumerate(pairwise(day.exercises)):
        first, second = seen.known[a.exercise], seen.known[b.exercise]
        same = a.equipment == b.equipment if a.equipment and b.equipment else False
        plated = first.equipment[0] == second.equipment[0] and first.equipment[0] in PLATED
        shared = trained_parts(first, a.variant) & trained_parts(second, b.variant)
        if a.superset or b.superset or same or plated or shared:
            continue
        mark = next(m for m in MARKS if all(one.superset != m for one in day.exercises))
        new = _put(
            _put(day, place, replace(a, superset=mark)), place + 1, replace(b, superset=mark)
        )
        what = f"Alternate {_name(seen, a)} and {_name(seen, b)} on {day.day}"
        yield Mend(what, with_day(seen.week, new), MOVED)


def _added(seen: Seen, lacking: frozenset[Part]) -> Iterator[Mend]:
    barred = set(seen.week.preferences.barred)
    for part in sorted(lacking):
        direct = [
            exercise
            for exercise in seen.known.exercises.values()
            if exercise.weights().get(part, 0) == 1
            and exercise.id not in barred
            and seen.looking.possible(exercise.id)
        ]
        direct.sort(key=lambda one: _plainest(seen, one))
        for exercise in direct[:ADDED]:
            for day in seen.days:
                if _is_new(seen, day, exercise):
                    yield _addition(seen, day, exercise, part)


def _plainest(seen: Seen, one: Exercise) -> tuple[bool, Fraction, int, str]:
    """What can be loaded before what cannot; then what works little else and spares the joints."""
    unloaded = seen.looking.kind_of(one) in UNLOADED
    return unloaded, sum(one.weights().values(), Fraction(0)), sum(one.joints.values()), one.id


def _is_new(seen: Seen, day: PlannedDay, exercise: Exercise) -> bool:
    """Whether a day does not have an exercise, under this name or another."""
    return not any(
        asked.exercise == exercise.id or one_twice(seen.known[asked.exercise], exercise)
        for asked in day.exercises
    )


def _addition(seen: Seen, day: PlannedDay, exercise: Exercise, part: Part) -> Mend:
    sets = PrescribedSets(count=3, reps=_usual(), reserve=Span(1, 2))
    if exercise.timed:
        sets = replace(sets, reps=None, seconds=Span(int(USUAL_HOLD_LOW_S), int(USUAL_HOLD_HIGH_S)))
    asked = PrescribedExercise(
        exercise=exercise.id, sets=(sets,), because=f"for {PART_NAMES[part]}"
    )
    asked = fitting(asked, exercise, seen.looking.kind_of(exercise))
    new = replace(day, exercises=(*day.exercises, asked))
    what = f"Add 3 sets of {exercise.name} on {day.day}"
    return Mend(what, with_day(seen.week, new))


def _usual() -> Span:
    return Span(int(USUAL_REPS_LOW), int(USUAL_REPS_HIGH))
