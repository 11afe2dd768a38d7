"""Every hard rule, checked on the finished week by code that shares nothing with the planner.

Reads the week as she would: sets, minutes, doses from `core`; knows neither options nor
columns. Used by the benchmark on every solution and by the tests over random briefs.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Set
from dataclasses import replace
from itertools import groupby

from pennate.core.brief import Brief
from pennate.core.exercise import Catalogue, EquipmentKind, Fixture
from pennate.core.muscles import GROUP_SHARES, Group, Joint, Part
from pennate.core.performed import SetKind
from pennate.core.prescribed import WEEKDAYS, PlannedDay, PrescribedExercise, Week
from pennate.core.week_dose import WeekDose, day_joint_load, week_dose
from pennate.core.week_time import day_minutes

SESSION, CLOSE, WEEK = 12, 16, 30
TWO_HEAVY_DAYS = 40
"""Hard sets × level of two heavy days for a joint."""
TINY = 1e-6


def complaints(
    week: Week,
    brief: Brief,
    catalogue: Catalogue,
    kinds: Set[EquipmentKind],
    current: Week | None = None,
    fixtures: Set[Fixture] = frozenset(Fixture),
) -> list[str]:
    """All rules a planned week breaks; empty for a week that stands.

    `fixtures` is what there is to hang from, lie on and step on; everything, where nobody says.
    """
    known = catalogue.with_own(brief.own_exercises)
    dose = week_dose(week, known)
    found = [*_wishes(week, brief, dose), *_doses(week, brief, dose)]
    found += _sore_joints(week, brief, known)
    for day in week.days:
        found += [f"{day.day}: {what}" for what in _day(day, brief, known, kinds)]
        found += [f"{day.day}: {what}" for what in _sets(day, current)]
        found += [f"{day.day}: {what}" for what in _without(day, known, kinds, fixtures)]
    days = Counter(asked.exercise for day in week.days for asked in day.exercises)
    found += [f"{name} on {count} days" for name, count in days.items() if count > 2]
    return found


def _day(
    day: PlannedDay, brief: Brief, known: Catalogue, kinds: Set[EquipmentKind]
) -> Iterator[str]:
    free = next(one for one in brief.days if one.day == day.day)
    if day_minutes(day, known).value > free.minutes + TINY:
        yield f"{day_minutes(day, known).value:.2f} minutes of {free.minutes}"
    names = [asked.exercise for asked in day.exercises]
    if len(names) != len(set(names)):
        yield "an exercise twice"
    if len(names) > (brief.most_exercises or 9):
        yield f"{len(names)} exercises"
    marked = [mark for mark, _ in groupby(day.exercises, key=lambda a: a.superset) if mark]
    if len(marked) > (2 if brief.supersets else 0):
        yield "too many supersets"
    for asked in day.exercises:
        yield from _asked(asked, brief, known, kinds)


def _asked(
    asked: PrescribedExercise, brief: Brief, known: Catalogue, kinds: Set[EquipmentKind]
) -> Iterator[str]:
    exercise = known[asked.exercise]
    if asked.exercise in brief.preferences.barred:
        yield f"{asked.exercise} is barred"
    if not kinds & {*exercise.equipment, *exercise.also_on}:
        yield f"{asked.exercise} has no equipment"
    for joint, limit in brief.joint_limits.items():
        if exercise.joints.get(joint, 0) > limit.highest:
            yield f"{asked.exercise} loads the {joint}"
    for joint, pain in brief.pain.items():
        if pain >= 3 and exercise.joints.get(joint, 0) > (1 if pain <= 5 else 0):
            yield f"{asked.exercise} hurts the {joint}"


def _without(
    day: PlannedDay, known: Catalogue, kinds: Set[EquipmentKind], fixtures: Set[Fixture]
) -> Iterator[str]:
    """Nothing is hung from, lain on or stepped on that is not there."""
    for asked in day.exercises:
        exercise = known[asked.exercise]
        there = [kind for kind in (*exercise.equipment, *exercise.also_on) if kind in kinds]
        needs = [exercise.needs.get(kind, frozenset()) for kind in there]
        if needs and not any(one <= fixtures for one in needs):
            wanted = ", ".join(sorted({word for one in needs for word in one}))
            yield f"{asked.exercise} needs {wanted}"


def _sets(day: PlannedDay, current: Week | None) -> Iterator[str]:
    """Two to four working sets, or as many as hers where she does it now; hers in every word."""
    before = [one for old in (current.days if current else ()) for one in old.exercises]
    for asked in day.exercises:
        hers = [one for one in before if one.exercise == asked.exercise and _working(one)]
        counts = [2, 4, *map(_working, hers)]
        if not min(counts) <= _working(asked) <= max(counts):
            yield f"{asked.exercise} {_working(asked)} sets"
        if hers and not any(_alike(asked, one) for one in hers):
            yield f"{asked.exercise} is not asked for as she asks for it"


def _working(asked: PrescribedExercise) -> int:
    return sum(s.count for s in asked.sets if s.kind not in {SetKind.DROP, SetKind.WARM_UP})


def _alike(asked: PrescribedExercise, hers: PrescribedExercise) -> bool:
    """The same sets but for the number in one block, the same variant, aids and note."""
    if len(asked.sets) != len(hers.sets):
        return False
    alike = [
        replace(a, count=1) == replace(b, count=1)
        for a, b in zip(asked.sets, hers.sets, strict=True)
    ]
    changed = sum(a.count != b.count for a, b in zip(asked.sets, hers.sets, strict=True))
    told = (asked.variant, asked.aids, asked.note) == (hers.variant, hers.aids, hers.note)
    return all(alike) and changed <= 1 and told


def _wishes(week: Week, brief: Brief, dose: WeekDose) -> Iterator[str]:
    if sum(not day.rest for day in week.days) > brief.training_days:
        yield "too many sessions"
    present = {asked.exercise for day in week.days for asked in day.exercises}
    for name in brief.preferences.required:
        if name not in present:
            yield f"{name} is missing"
    for group, span in brief.targets.items():
        value = dose.groups[group].value
        if value < span.low - TINY or (span.high is not None and value > span.high + TINY):
            yield f"{group} {value:.2f} of {span}"


def _doses(week: Week, brief: Brief, dose: WeekDose) -> Iterator[str]:
    wished = {wish for wish in brief.priorities if isinstance(wish, Part)}
    cared = {part for shares in GROUP_SHARES.values() for part in shares} | wished
    days = [day.day for day in week.days]
    for part in cared:
        by_day = {day: dose.days[day][part].value for day in days
                  if day in dose.days and part in dose.days[day]}  # fmt: skip
        for day, value in by_day.items():
            if value > SESSION + TINY:
                yield f"{part} {value} on {day}"
            after = WEEKDAYS[(WEEKDAYS.index(day) + 1) % 7]
            if value + by_day.get(after, 0.0) > CLOSE + TINY:
                yield f"{part} too close on {day}"
        if sum(by_day.values()) > _week_cap(part, brief) + TINY:
            yield f"{part} {sum(by_day.values())} in the week"


def _sore_joints(week: Week, brief: Brief, known: Catalogue) -> Iterator[str]:
    """A joint that is sore or limited is never loaded heavily on two days in a row."""
    loads = {day.day: day_joint_load(day, known) for day in week.days}
    for joint in {*brief.joint_limits, *brief.pain} - {Joint.GRIP}:
        for day, load in loads.items():
            after = loads.get(WEEKDAYS[(WEEKDAYS.index(day) + 1) % 7], {}).get(joint, 0.0)
            together = load.get(joint, 0.0) + after
            if after and together > TWO_HEAVY_DAYS - 1 + TINY:
                yield f"{joint} {together} on {day} and the day after"


def _week_cap(part: Part, brief: Brief) -> float:
    group = next((g for g, shares in GROUP_SHARES.items() if part in shares), None)
    span = brief.targets.get(group) if isinstance(group, Group) else None
    asked = max(span.low, span.high or 0) if span else 0
    return max(WEEK, 1.5 * asked)
