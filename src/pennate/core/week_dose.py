"""What a written week asks for: dose by part and group, joint load, hours between hard sets.

Plain arithmetic on `core.prescribed.Week`. Dose counts by effort (`core.dose`); a left and
a right set together are one set of dose.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from pennate.core.dose import (
    NO_DOSE,
    CountedSet,
    Dose,
    dose_by_group,
    dose_by_part,
    effort_credit,
)
from pennate.core.evidence.dose import DROP_CREDIT, NO_CREDIT_RESERVE
from pennate.core.evidence.plan import HARD_DAY_DOSE, OPEN_RESERVE
from pennate.core.exercise import Catalogue, Exercise
from pennate.core.muscles import Group, Joint, Part
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    WEEKDAYS,
    PlannedDay,
    PrescribedExercise,
    PrescribedSets,
    Week,
)

HOURS_A_DAY = 24
HOURS_A_WEEK = 7 * HOURS_A_DAY

CreditOf = Callable[[PrescribedExercise, PrescribedSets], float | None]
"""Credit 0–1 of sets whose effort is open, from the forecast; None if it cannot say."""


def set_credit(asked: PrescribedSets) -> float:
    """Share of a hard set that one of these asked sets counts, 0 to 1, by its effort.

    A range of reserve counts its mean credit; an open reserve takes the usual one.
    """
    if asked.kind is SetKind.WARM_UP:
        return 0.0
    if asked.to_failure or asked.kind is SetKind.AMRAP:
        return effort_credit(0.0)
    if asked.reserve is None:
        return effort_credit(OPEN_RESERVE)
    high = int(NO_CREDIT_RESERVE) if asked.reserve.high is None else asked.reserve.high
    steps = range(asked.reserve.low, max(high, asked.reserve.low) + 1)
    return sum(effort_credit(float(reserve)) for reserve in steps) / len(steps)


def counted_sets(
    exercise: Exercise, asked: PrescribedExercise, credit_of: CreditOf | None = None
) -> list[CountedSet]:
    """The asked sets reduced to what dose needs; `credit_of` fills in open efforts."""
    weights = exercise.weights(asked.variant)
    counted: list[CountedSet] = []
    for sets in asked.sets:
        one = CountedSet(_credit(asked, sets, credit_of), sets.kind, weights)
        counted += [one] * sets.count
    return counted


def effort_open(sets: PrescribedSets) -> bool:
    """Whether nothing asked says how hard these sets are."""
    said = sets.to_failure or sets.kind in {SetKind.WARM_UP, SetKind.AMRAP}
    return sets.reserve is None and not said


def _credit(asked: PrescribedExercise, sets: PrescribedSets, credit_of: CreditOf | None) -> float:
    told = credit_of(asked, sets) if credit_of and effort_open(sets) else None
    return set_credit(sets) if told is None else told


def hard_sets(asked: PrescribedExercise, credit_of: CreditOf | None = None) -> float:
    """Hard sets of an exercise by effort, a drop counting as in the dose rule."""
    return sum(
        sets.count
        * _credit(asked, sets, credit_of)
        * (DROP_CREDIT if sets.kind is SetKind.DROP else 1.0)
        for sets in asked.sets
    )


def day_parts(
    day: PlannedDay, catalogue: Catalogue, credit_of: CreditOf | None = None
) -> dict[Part, Dose]:
    """Dose of every part on one day."""
    counted: list[CountedSet] = []
    for asked in day.exercises:
        counted += counted_sets(catalogue[asked.exercise], asked, credit_of)
    return dose_by_part(counted)


def day_by_exercise(
    day: PlannedDay, catalogue: Catalogue, credit_of: CreditOf | None = None
) -> tuple[tuple[str, Mapping[Group, Dose]], ...]:
    """What each exercise of a day gives every group; the day's dose is their sum."""
    return tuple(
        (
            asked.exercise,
            dose_by_group(dose_by_part(counted_sets(catalogue[asked.exercise], asked, credit_of))),
        )
        for asked in day.exercises
    )


@dataclass(frozen=True, slots=True)
class WeekDose:
    """Dose of a week: by day and part, by part, and by the eleven groups."""

    days: Mapping[str, Mapping[Part, Dose]]
    """By day name, training days only."""
    parts: Mapping[Part, Dose]
    groups: Mapping[Group, Dose]

    def group_on(self, day: str, group: Group) -> Dose:
        """Dose of a group on a day."""
        return dose_by_group(self.days.get(day, {}))[group]

    def part_on(self, day: str, part: Part) -> float:
        """Fractional sets of a part on a day."""
        return self.days.get(day, {}).get(part, NO_DOSE).value

    def part(self, part: Part) -> Dose:
        """Weekly dose of a part, nothing if untrained."""
        return self.parts.get(part, NO_DOSE)


def week_dose(week: Week, catalogue: Catalogue, credit_of: CreditOf | None = None) -> WeekDose:
    """Dose of a week; the week's own exercises are known without asking."""
    known = catalogue.with_own(week.own_exercises) if week.own_exercises else catalogue
    return dose_of_days(
        {day.day: day_parts(day, known, credit_of) for day in week.days if not day.rest}
    )


def dose_of_days(days: Mapping[str, Mapping[Part, Dose]]) -> WeekDose:
    """The dose of a week from that of its days."""
    total: dict[Part, Dose] = defaultdict(lambda: NO_DOSE)
    for parts in days.values():
        for part, dose in parts.items():
            total[part] = total[part] + dose
    return WeekDose(days, dict(total), dose_by_group(total))


def day_joint_load(
    day: PlannedDay, catalogue: Catalogue, credit_of: CreditOf | None = None
) -> dict[Joint, float]:
    """Joint load of a day: hard sets times the relative load 0–3 of the exercise."""
    load: dict[Joint, float] = defaultdict(float)
    for asked in day.exercises:
        sets = hard_sets(asked, credit_of)
        for joint, level in catalogue[asked.exercise].joints.items():
            if level:
                load[joint] += level * sets
    return dict(load)


@dataclass(frozen=True, slots=True)
class Gap:
    """Hours from the hard sets of a group on one day to its next, the week repeating."""

    group: Group
    since: str
    until: str
    hours: int


def gaps(dose: WeekDose) -> dict[Group, tuple[Gap, ...]]:
    """Hours between a group's training days, the last gap running into the next week."""
    found: dict[Group, tuple[Gap, ...]] = {}
    by_day = {day: dose_by_group(parts) for day, parts in dose.days.items()}
    for group in Group:
        days = [
            day for day in WEEKDAYS if day in by_day and by_day[day][group].value >= HARD_DAY_DOSE
        ]
        found[group] = tuple(
            Gap(group, day, after, hours_between(day, after))
            for day, after in zip(days, days[1:] + days[:1], strict=True)
        )
    return found


def hours_between(day: str, after: str) -> int:
    """Hours from a weekday to the next such weekday, a week if it is the same one."""
    days = (WEEKDAYS.index(after) - WEEKDAYS.index(day)) % 7
    return HOURS_A_DAY * days or HOURS_A_WEEK


def main_part(exercise: Exercise, variant: str = "") -> Part:
    """The part an exercise trains most: the largest weight, the first of equals."""
    weights = exercise.weights(variant)
    top = max(weights.values(), default=Fraction(0))
    return next(part for part in Part if weights.get(part, Fraction(0)) == top)
