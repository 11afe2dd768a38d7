"""What a week may not say, whoever wrote it: a file, a form, or the planner.

Each rule is a small function, a week in and problems out. A problem's path uses the keys of
the week file and 0-based places, so that a reader can name the line.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import groupby

from pennate.core.performed import SetKind
from pennate.core.prescribed import LoadFrom, PlannedDay, PrescribedExercise, Week
from pennate.errors import InputError, Where

MOST_SETS = 10
"""Sets an exercise may have on one day, ramp sets and drops included."""
MOST_EXERCISES = 30
"""Exercises one day may have; a day that can be trained has far fewer."""
LONGEST_LINE = 200
"""Characters of a text that stands on one line."""


@dataclass(frozen=True, slots=True)
class Problem:
    """Something wrong with a week: where, what, and what to do."""

    path: tuple[str | int, ...]
    what: str
    remedy: str


def problems(week: Week) -> Iterator[Problem]:
    """Every problem of a week, in the order of the rules."""
    yield from _repeated_days(week)
    yield from _repeated_priorities(week)
    for index, day in enumerate(week.days):
        yield from day_problems(day, ("day", index))


def day_problems(day: PlannedDay, at: tuple[str | int, ...] = ()) -> Iterator[Problem]:
    """Every problem of one day."""
    if len(day.exercises) > MOST_EXERCISES:
        what = f"{day.day} has {len(day.exercises)} exercises, but {MOST_EXERCISES} is the most"
        yield Problem((*at, "exercise"), what, "move some to another day")
    yield from _supersets(day, at)
    for place, asked in enumerate(day.exercises):
        for rule in EXERCISE_RULES:
            yield from rule(asked, (*at, "exercise", place))


def sound_day(day: PlannedDay) -> PlannedDay:
    """The day itself; raises InputError about its first problem."""
    for problem in day_problems(day):
        raise InputError(problem.what, Where(field=day.day), problem.remedy)
    return day


def _repeated_days(week: Week) -> Iterator[Problem]:
    seen: set[str] = set()
    for index, day in enumerate(week.days):
        if day.day in seen:
            remedy = "put both into one day, or give one another day"
            yield Problem(("day", index, "day"), f"{day.day} is there twice", remedy)
        seen.add(day.day)


def _repeated_priorities(week: Week) -> Iterator[Problem]:
    for index, group in enumerate(week.priorities):
        if group in week.priorities[:index]:
            yield Problem(("priorities", index), f"“{group}” is listed twice", "keep the first")


def _supersets(day: PlannedDay, at: tuple[str | int, ...]) -> Iterator[Problem]:
    """A superset has two or more exercises, next to each other."""
    ended: set[str] = set()
    marked = enumerate(day.exercises)
    for mark, group in groupby(marked, key=lambda pair: pair[1].superset):
        members = [place for place, _ in group]
        path = (*at, "exercise", members[0], "superset")
        if mark and mark in ended:
            yield Problem(
                path, f"superset “{mark}” is interrupted", "put its exercises next to each other"
            )
        elif mark and len(members) == 1 and not _comes_again(day, mark, members[0]):
            remedy = f'give its partner superset = "{mark}" too, or take the mark away'
            yield Problem(path, f"superset “{mark}” has only one exercise", remedy)
        ended.add(mark)


def _comes_again(day: PlannedDay, mark: str, place: int) -> bool:
    return any(asked.superset == mark for asked in day.exercises[place + 1 :])


def _some_sets(asked: PrescribedExercise, at: tuple[str | int, ...]) -> Iterator[Problem]:
    if not asked.sets:
        yield Problem(
            at, f"“{asked.exercise}” has no sets", 'add sets = [{ sets = 3, reps = "8-12" }]'
        )


def _not_too_many(asked: PrescribedExercise, at: tuple[str | int, ...]) -> Iterator[Problem]:
    count = sum(sets.count for sets in asked.sets)
    if count > MOST_SETS:
        what = f"“{asked.exercise}” has {count} sets, but {MOST_SETS} is the most for one day"
        yield Problem((*at, "sets"), what, "take some away, or move them to another day")


def _reps_or_seconds(asked: PrescribedExercise, at: tuple[str | int, ...]) -> Iterator[Problem]:
    for index, sets in enumerate(asked.sets):
        if (sets.reps is None) == (sets.seconds is None):
            what = "has neither reps nor seconds" if sets.reps is None else "has reps and seconds"
            remedy = 'give a counted set reps = "8-12", a hold seconds = "30-45"'
            yield Problem((*at, "sets", index), f"this set {what}", remedy)


def _drops_follow(asked: PrescribedExercise, at: tuple[str | int, ...]) -> Iterator[Problem]:
    """A drop comes after a working, top, back-off or open-ended set."""
    before: SetKind | None = None
    for index, sets in enumerate(asked.sets):
        if sets.kind is SetKind.DROP and before in {None, SetKind.WARM_UP}:
            what = "a drop set has no set before it to drop from"
            yield Problem((*at, "sets", index), what, "put a working or top set before it")
        before = sets.kind


def _relative_loads(asked: PrescribedExercise, at: tuple[str | int, ...]) -> Iterator[Problem]:
    has_top = any(sets.kind is SetKind.TOP for sets in asked.sets)
    for index, sets in enumerate(asked.sets):
        path = (*at, "sets", index, "load")
        if sets.load.source is LoadFrom.OF_TOP and (not has_top or sets.kind is SetKind.TOP):
            remedy = 'give the heaviest set kind = "top" and a load of its own'
            yield Problem(path, "a share of the top set needs a top set to go by", remedy)
        if sets.load.source is LoadFrom.OF_PREVIOUS and index == 0:
            remedy = "give the first set a load of its own, or leave the load to the forecast"
            yield Problem(path, "there is no set before this one", remedy)


def _replaced_with_reason(
    asked: PrescribedExercise, at: tuple[str | int, ...]
) -> Iterator[Problem]:
    if asked.reason is not None and not asked.replaces:
        remedy = "name the exercise it stands in for: replaces = …"
        yield Problem((*at, "reason"), "a reason without what is replaced", remedy)


def _short_texts(asked: PrescribedExercise, at: tuple[str | int, ...]) -> Iterator[Problem]:
    texts = {
        "equipment": asked.equipment,
        "superset": asked.superset,
        "because": asked.because,
        "note": asked.note,
        "aids": max(asked.aids, key=len, default=""),
    }
    for key, text in texts.items():
        if len(text) > LONGEST_LINE:
            remedy = f"keep it to {LONGEST_LINE} characters"
            yield Problem((*at, key), f"this has {len(text)} characters, which is too long", remedy)


ExerciseRule = Callable[[PrescribedExercise, tuple[str | int, ...]], Iterator[Problem]]
EXERCISE_RULES: tuple[ExerciseRule, ...] = (
    _some_sets,
    _not_too_many,
    _reps_or_seconds,
    _drops_follow,
    _relative_loads,
    _replaced_with_reason,
    _short_texts,
)
