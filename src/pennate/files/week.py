"""The week file: TOML in the trade's words, to and from a `Week`.

`read_week` accepts ids and shown names; `render_week` writes ids, so that parse, render and
parse again give the same week.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from pennate.core.exercise import Catalogue, Exercise
from pennate.core.prescribed import (
    WEEKDAYS,
    LadderStep,
    PlannedDay,
    Preferences,
    Preparation,
    PrescribedExercise,
    PrescribedSets,
    Week,
)
from pennate.core.week_check import problems
from pennate.core.week_names import known_exercise, known_variant
from pennate.errors import InputError
from pennate.files.own_exercise import OwnExercise
from pennate.files.toml import At, TomlFile, checked, read_toml
from pennate.files.week_tables import (
    DayTable,
    ExerciseTable,
    LadderTable,
    PreparationTable,
    SetsTable,
    WeekTable,
    Wishes,
)
from pennate.files.week_text import render_week

__all__ = ["read_week", "render_week", "sets_from_table", "week_from_file"]

T = TypeVar("T")

WHEN_EMPTY = "begin with a [[day]], or with one of the starter weeks"


def read_week(source: Path | str, catalogue: Catalogue, *, name: str = "") -> Week:
    """The week in a file, or in text; `name` is what complaints call it.

    Raises InputError naming file, line, field, slip and remedy.
    """
    return week_from_file(read_toml(source, name=name, when_empty=WHEN_EMPTY), catalogue)


def week_from_file(file: TomlFile, catalogue: Catalogue) -> Week:
    """The week in a parsed file, days in the order of the week."""
    table = checked(WeekTable, file)
    top = At(file)
    own = own_of(table.own_exercises, top)
    reader = _Reader(catalogue.with_own(own) if own else catalogue)
    week = Week(
        name=table.name,
        days=tuple(reader.day(day, at) for day, at in _each(table.days, top.down("day"))),
        gym=table.gym,
        priorities=tuple(table.priorities),
        targets=dict(table.targets),
        preferences=preferences_of(table, top, reader.catalogue),
        own_exercises=own,
        note=table.note,
    )
    for problem in problems(week):
        raise top.down(*problem.path).error(problem.what, problem.remedy)
    return replace(week, days=tuple(sorted(week.days, key=lambda day: WEEKDAYS.index(day.day))))


def own_of(tables: Iterable[OwnExercise], top: At) -> tuple[Exercise, ...]:
    """Her own exercises; raises InputError when two have one id."""
    own: dict[str, Exercise] = {}
    for index, table in enumerate(tables):
        exercise = table.exercise()
        if exercise.id in own:
            at = top.down("exercise", index)
            raise at.error(f"“{exercise.id}” is defined twice", "give one of them another id")
        own[exercise.id] = exercise
    return tuple(own.values())


def preferences_of(table: Wishes, top: At, catalogue: Catalogue) -> Preferences:
    """What she likes, will not do, or must have, by exercise id."""
    reader = _Reader(catalogue)
    return Preferences(
        liked=reader.reasons(table.liked, top.down("liked")),
        barred=reader.reasons(table.barred, top.down("barred")),
        required=reader.reasons(table.required, top.down("required")),
    )


def _each(items: Iterable[T], at: At) -> Iterator[tuple[T, At]]:
    return ((item, at.down(index)) for index, item in enumerate(items))


@dataclass(frozen=True, slots=True)
class _Reader:
    """Tables to core types, with names looked up in one catalogue."""

    catalogue: Catalogue

    def exercise_id(self, text: str, at: At) -> str:
        try:
            return known_exercise(text, self.catalogue).id
        except InputError as problem:
            raise at.error(problem.what, problem.remedy) from None

    def reasons(self, written: Mapping[str, str], at: At) -> dict[str, str]:
        return {self.exercise_id(key, at.down(key)): why for key, why in written.items()}

    def day(self, table: DayTable, at: At) -> PlannedDay:
        return PlannedDay(
            day=table.day,
            focus=table.focus,
            minutes=table.minutes,
            preparation=tuple(_preparation(one) for one in table.preparation),
            exercises=tuple(
                self.asked(one, where) for one, where in _each(table.exercises, at.down("exercise"))
            ),
        )

    def asked(self, table: ExerciseTable, at: At) -> PrescribedExercise:
        exercise = self.exercise_id(table.exercise, at.down("exercise"))
        replaced = table.replaces and self.exercise_id(table.replaces, at.down("replaces"))
        return PrescribedExercise(
            exercise=exercise,
            sets=tuple(sets_from_table(one) for one in table.sets),
            equipment=table.equipment,
            variant=self.variant(exercise, table.variant, at.down("variant")),
            aids=tuple(table.aids),
            superset=table.superset,
            ladder=tuple(self.rung(one, to) for one, to in _each(table.ladder, at.down("ladder"))),
            replaces=replaced,
            reason=table.reason,
            because=table.because,
            note=table.note,
        )

    def variant(self, exercise: str, text: str, at: At) -> str:
        try:
            return text and known_variant(text, self.catalogue[exercise])
        except InputError as problem:
            raise at.error(problem.what, problem.remedy) from None

    def rung(self, table: LadderTable, at: At) -> LadderStep:
        exercise = table.exercise and self.exercise_id(table.exercise, at.down("exercise"))
        return LadderStep(exercise=exercise, load=table.load, style=table.style, until=table.until)


def _preparation(table: PreparationTable) -> Preparation:
    return Preparation(table.what, table.reps, table.seconds)


def sets_from_table(table: SetsTable) -> PrescribedSets:
    """The sets a table asks for."""
    return PrescribedSets(
        kind=table.kind,
        count=table.sets,
        reps=table.reps,
        seconds=table.seconds,
        reserve=table.reserve.span if table.reserve else None,
        to_failure=table.reserve is not None and table.reserve.span is None,
        load=table.load,
        rest_s=table.rest,
        style=table.style,
        tempo=table.tempo,
        partials=table.partials,
        note=table.note,
    )
