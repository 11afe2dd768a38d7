"""From a selection to a week she can read: order, set schemes, reasons."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from pennate.core.brief import Brief, FreeDay
from pennate.core.evidence.dose import DROP_REST_S
from pennate.core.evidence.planner import (
    BACK_OFF_STRIP,
    DROP_REPS,
    DROP_STRIP,
    DROPS_A_SET,
    TOP_REPS_HIGH,
    TOP_REPS_LOW,
)
from pennate.core.exercise import UNLOADED, Catalogue, Exercise
from pennate.core.muscles import GROUP_SHARES, Group
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    LoadFrom,
    LoadRule,
    PlannedDay,
    PrescribedExercise,
    PrescribedSets,
    Span,
    Week,
)
from pennate.core.week_time import multi_joint
from pennate.plan.focus import main_group
from pennate.plan.hers import Hers, with_sets
from pennate.plan.order import Stop, best_order
from pennate.plan.problem import Option, PlanProblem, Scheme, Selection
from pennate.plan.schemes import usual_sets

MARKS = "ABCDEFGH"
TOP_NEEDS = 3
"""Sets from which one becomes a top set and the rest back-offs."""


def assemble(
    problem: PlanProblem,
    selection: Selection,
    brief: Brief,
    catalogue: Catalogue,
    current: Week | None = None,
) -> Week:
    """The week of a selection, its days in the order of the brief."""
    known = catalogue.with_own(brief.own_exercises) if brief.own_exercises else catalogue
    days = tuple(
        _day(
            free,
            [(problem.options[index], sets) for index, sets in chosen],
            brief,
            (known, current),
        )
        for free, chosen in zip(brief.days, selection, strict=True)
    )
    return Week(
        name=brief.name or "Planned week",
        days=days,
        gym=brief.gym,
        priorities=tuple(wish for wish in brief.priorities if isinstance(wish, Group)),
        targets=brief.targets,
        preferences=brief.preferences,
        own_exercises=brief.own_exercises,
        note=current.note if current else "",
    )


def _day(
    free: FreeDay,
    chosen: list[tuple[Option, int]],
    brief: Brief,
    where: tuple[Catalogue, Week | None],
) -> PlannedDay:
    known, current = where
    stops = [Stop(tuple(known[name] for name in option.exercises)) for option, _ in chosen]
    old = current.day(free.day) if current else None
    order = _her_order(stops, old) or best_order(stops, brief.priorities)
    own = Hers.of(current, brief.gym)
    exercises: list[PrescribedExercise] = []
    marks = iter(MARKS)
    for place, number in enumerate(order):
        option, sets = chosen[number]
        mark = next(marks) if option.scheme is Scheme.SUPERSET else ""
        for exercise in stops[number].exercises:
            hers = own.on(exercise.id, free.day)
            asked = (
                with_sets(hers, sets)
                if hers
                else PrescribedExercise(
                    exercise=exercise.id,
                    sets=_scheme(exercise, option.scheme, sets, brief, first=place == 0),
                )
            )
            because = _because(exercise, brief, current)
            exercises.append(replace(asked, superset=mark, because=because))
    return PlannedDay(
        day=free.day,
        focus=free.focus or _her_focus(old, exercises),
        minutes=old.minutes if old and not free.given else free.minutes,
        preparation=old.preparation if old else (),
        exercises=tuple(exercises),
    )


def _her_focus(old: PlannedDay | None, new: list[PrescribedExercise]) -> str:
    """What she calls the day, as long as half of what is done on it was done on it before."""
    before = {asked.exercise for asked in old.exercises} if old else set()
    stayed = sum(asked.exercise in before for asked in new)
    return old.focus if old and 2 * stayed >= len(new) else ""


def _her_order(stops: list[Stop], old: PlannedDay | None) -> list[int]:
    """The order she does them in, where the day has nothing new; empty otherwise."""
    places = {asked.exercise: i for i, asked in enumerate(old.exercises)} if old else {}
    if not all(one.id in places for stop in stops for one in stop.exercises):
        return []
    return sorted(range(len(stops)), key=lambda i: places[stops[i].exercises[0].id])


def _scheme(
    exercise: Exercise, scheme: Scheme, count: int, brief: Brief, *, first: bool
) -> tuple[PrescribedSets, ...]:
    straight = usual_sets(exercise, brief, count)
    if scheme is Scheme.DROPS:
        drop = replace(
            straight,
            kind=SetKind.DROP,
            count=int(DROPS_A_SET),
            reps=Span(int(DROP_REPS), int(DROP_REPS)),
            rest_s=int(DROP_REST_S),
            load=LoadRule(LoadFrom.OF_PREVIOUS, share=1 - Fraction(str(DROP_STRIP))),
        )
        return straight, drop
    topped = first and multi_joint(exercise) and _graded(exercise, brief) and count >= TOP_NEEDS
    if scheme is Scheme.STRAIGHT and topped:
        top = replace(
            straight, kind=SetKind.TOP, count=1, reps=Span(int(TOP_REPS_LOW), int(TOP_REPS_HIGH))
        )
        share = 1 - Fraction(str(BACK_OFF_STRIP))
        back = replace(
            straight,
            kind=SetKind.BACK_OFF,
            count=count - 1,
            load=LoadRule(LoadFrom.OF_TOP, share=share),
        )
        return top, back
    return (straight,)


def _graded(exercise: Exercise, brief: Brief) -> bool:
    """Whether a share of a top set can be loaded: in steps, and not held for seconds."""
    kinds = set(exercise.equipment) & set(brief.equipment or exercise.equipment)
    return bool(kinds - UNLOADED) and exercise.id not in brief.unloaded and not exercise.timed


def _because(exercise: Exercise, brief: Brief, current: Week | None) -> str:
    preferences = brief.preferences
    if exercise.id in preferences.required:
        return "you asked for it"
    if exercise.id in preferences.liked:
        return "you like it"
    before = {asked.exercise for day in current.days for asked in day.exercises} if current else ()
    group = main_group(exercise)
    kept = "kept from your week; " if exercise.id in before else ""
    weights = exercise.weights()
    direct = [
        one.value
        for one, shares in GROUP_SHARES.items()
        if any(weights.get(p) == 1 for p in shares)
    ]
    if group in brief.priorities:
        return f"{kept}for {group.value}, which you put first" if group else kept
    return f"{kept}for {' and '.join(direct)}" if direct else kept.rstrip("; ")


def translate(selection: Selection, old: PlanProblem, new: PlanProblem) -> Selection:
    """The same week in another problem's options; what it lacks falls out. Days by name."""
    places: Mapping[tuple[tuple[str, ...], Scheme, int], int] = {
        (option.exercises, option.scheme, day): index
        for index, option in enumerate(new.options)
        for day in option.days
    }
    by_day = dict(zip(old.days, selection, strict=True))

    def place(index: int, day: int) -> int | None:
        option = old.options[index]
        return places.get((option.exercises, option.scheme, day))

    return tuple(
        tuple(
            sorted(
                (found, sets)
                for index, sets in by_day.get(day, ())
                if (found := place(index, number)) is not None
            )
        )
        for number, day in enumerate(new.days)
    )
