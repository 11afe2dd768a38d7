"""Several weeks of one split: a ramp in effort or sets, and a lighter week if she wants one.

Ramps and lighter weeks are habit, not evidence: one trial of a week off found no gain in
size (Coleman 2024), a survey shows that most do it (Rogerson 2024). The block says so.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from pennate.core.evidence.planner import BLOCK_STUDY_WEEKS
from pennate.core.exercise import Catalogue
from pennate.core.muscles import Group
from pennate.core.performed import SetKind
from pennate.core.prescribed import PrescribedExercise, PrescribedSets, Span, Week
from pennate.core.week_dose import week_dose
from pennate.core.week_effect import Effect, effect_of, group_benefits
from pennate.errors import InputError, Where
from pennate.plan.mend import resized

HABIT = "ramps and lighter weeks are habit, not evidence: no trial shows more growth from them"


class Ramp(StrEnum):
    """What rises over a block."""

    EFFORT = "effort"
    SETS = "sets"
    NONE = "nothing"


@dataclass(frozen=True, slots=True)
class Block:
    """The weeks of a block, and what it is expected to do against repeating the week it is of."""

    weeks: tuple[Week, ...]
    note: str
    expected: Mapping[Group, Effect]
    """Difference by the end, % of size, 90 % range."""


FEWEST_WEEKS, MOST_WEEKS = 2, 16  # number: weeks; shorter is no block, longer is no plan


def block(
    week: Week,
    catalogue: Catalogue,
    *,
    weeks: int,
    ramp: Ramp = Ramp.EFFORT,
    lighter: bool = False,
    trained: bool = True,
) -> Block:
    """A block of so many weeks from one week; the last is lighter if asked.

    With `EFFORT` reserve falls by one rep over the block's thirds, from two above what is
    asked; with `SETS` every exercise gains a set by the middle and another by the end.
    Raises InputError for a number of weeks that makes no block.
    """
    if not FEWEST_WEEKS <= weeks <= MOST_WEEKS:
        remedy = f"from {FEWEST_WEEKS} to {MOST_WEEKS}"
        raise InputError(f"{weeks} weeks are no block", Where(field="weeks"), remedy)
    hard = weeks - lighter
    made = [_at(week, ramp, number, hard) for number in range(hard)]
    if lighter:
        made.append(replace(_light(week), name=f"{week.name}, week {weeks}, lighter"))
    return Block(tuple(made), HABIT, _expected(week, tuple(made), catalogue, trained=trained))


def _third(number: int, weeks: int) -> int:
    """0, 1 or 2: the third of the block a week lies in."""
    return min(2, 3 * number // max(weeks, 1))


def _at(week: Week, ramp: Ramp, number: int, weeks: int) -> Week:
    third = _third(number, weeks)
    name = f"{week.name}, week {number + 1}"
    if ramp is Ramp.EFFORT:
        return replace(_each(week, lambda asked: _eased(asked, 2 - third)), name=name)
    if ramp is Ramp.SETS and third:
        return replace(_each(week, lambda asked: resized(asked, third) or asked), name=name)
    return replace(week, name=name)


def _light(week: Week) -> Week:
    """Half the sets, two reps further from failure; the days stay."""
    return _each(week, lambda asked: _eased(_halved(asked), 2))


def _halved(asked: PrescribedExercise) -> PrescribedExercise:
    kept = tuple(
        replace(sets, count=max(1, sets.count // 2))
        for sets in asked.sets
        if sets.kind is not SetKind.DROP
    )
    return replace(asked, sets=kept or asked.sets)


def _eased(asked: PrescribedExercise, reps: int) -> PrescribedExercise:
    return replace(asked, sets=tuple(_easier(sets, reps) for sets in asked.sets))


def _easier(sets: PrescribedSets, reps: int) -> PrescribedSets:
    if not reps or sets.kind is SetKind.WARM_UP:
        return sets
    if sets.to_failure:
        return replace(sets, to_failure=False, reserve=Span(reps, reps))
    if sets.reserve is None:
        return sets
    high = None if sets.reserve.high is None else sets.reserve.high + reps
    return replace(sets, reserve=Span(sets.reserve.low + reps, high))


def _each(week: Week, change: Callable[[PrescribedExercise], PrescribedExercise]) -> Week:
    days = tuple(
        replace(day, exercises=tuple(change(asked) for asked in day.exercises)) for day in week.days
    )
    return replace(week, days=days)


def _expected(
    base: Week, weeks: tuple[Week, ...], catalogue: Catalogue, *, trained: bool
) -> dict[Group, Effect]:
    as_it_is = group_benefits(week_dose(base, catalogue))
    by_week = [group_benefits(week_dose(week, catalogue)) for week in weeks]
    share = len(weeks) / BLOCK_STUDY_WEEKS
    return {
        group: effect_of(
            share * (sum(one[group] for one in by_week) / len(weeks) - as_it_is[group]),
            trained=trained,
        )
        for group in Group
    }
