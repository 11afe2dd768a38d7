"""What a lane opens to: the exercises its total is made of, and the rule it is counted by."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from operator import attrgetter

from pennate.core.adding_up import adding_up
from pennate.core.dose import Dose
from pennate.core.evidence.dose import DROP_CREDIT, FULL_CREDIT_RESERVE, NO_CREDIT_RESERVE
from pennate.core.evidence.plan import OPEN_RESERVE
from pennate.core.exercise import Catalogue
from pennate.core.facts import Facts
from pennate.core.muscles import GROUP_SHARES, PART_NAMES, Group
from pennate.core.percent import percent
from pennate.core.prescribed import Week
from pennate.core.quantities import format_number
from pennate.core.week_dose import CreditOf, WeekDose, day_by_exercise, week_dose

Given = Mapping[str, Sequence[tuple[str, Mapping[Group, Dose]]]]
"""By day the exercises, each with what it gives every group."""

BY_EFFORT = (
    f"a set counts in full with up to {format_number(FULL_CREDIT_RESERVE)} left, not at all from"
    f" {format_number(NO_CREDIT_RESERVE)}, between them in proportion; a drop"
    f" {format_number(DROP_CREDIT)}"
)
DIRECT = "whole for a part the exercise works directly, less for one that helps"
NO_EFFORT = (
    "where no effort is asked, as your log foresees it, else as with"
    f" {format_number(OPEN_RESERVE)} left"
)
BY_SIZE = "the group is their mean, by size (Handsfield 2014 for the legs, else from memory)"
HOURS = "whole days from session to session, 24 h each"
SOURCE = (
    "Pelland 2024; each exercise’s shares and their source stand on its page; constants:"
    " pennate evidence dose"
)
PEOPLE = "what a set gives differs more between people than the counting does"


def opened_lanes(
    week: Week, known: Catalogue, credit_of: CreditOf | None = None
) -> Mapping[str, Facts]:
    """What stands behind each lane, by group."""
    dose = week_dose(week, known, credit_of)
    given = {
        day.day: [
            (known[exercise].name, by) for exercise, by in day_by_exercise(day, known, credit_of)
        ]
        for day in week.days
        if not day.rest
    }
    return {group.value: _facts(group, week, dose, given) for group in Group}


def _facts(group: Group, week: Week, dose: WeekDose, given: Given) -> Facts:
    total = dose.groups[group]
    days = [day for day in given if dose.group_on(day, group).value > 0]
    sums = adding_up([dose.group_on(day, group).value for day in days], total=total.value)
    made = tuple(
        (day, f"{_sets(told)}: {_exercises(group, given[day], told)}")
        for day, told in zip(days, sums, strict=True)
    )
    return (
        ("a week", f"{_sets(round(total.value, 1))} fractional sets, shown to the nearest half"),
        *((("asked", f"{week.targets[group]} a week"),) if group in week.targets else ()),
        *made,
        *_parts(group, dose),
        ("rule", f"{BY_EFFORT}; {DIRECT}; {NO_EFFORT}"),
        *((("hours", HOURS),) if len(days) > 1 else ()),
        ("how sure", _how_sure(total)),
        ("source", SOURCE),
    )


def _exercises(
    group: Group, given: Iterable[tuple[str, Mapping[Group, Dose]]], total: float
) -> str:
    """“hip thrust 3.5, leg press 1.2”, adding up to the day's figure."""
    own = [(name, by[group].value) for name, by in given if by[group].value > 0]
    told = adding_up([value for _, value in own], total=total)
    return ", ".join(f"{name} {_sets(value)}" for (name, _), value in zip(own, told, strict=True))


def _parts(group: Group, dose: WeekDose) -> Facts:
    """The parts of a group that has several, and how its figure is their mean."""
    shares = GROUP_SHARES[group]
    if len(shares) == 1:
        return ()
    told = "; ".join(
        f"{PART_NAMES[part]} {_sets(round(dose.part(part).value, 1))} (by {percent(float(share))})"
        for part, share in shares.items()
    )
    return (("its parts", f"{told}: {BY_SIZE}"),)


def _how_sure(total: Dose) -> str:
    low, high = (_sets(round(end, 1)) for end in attrgetter("low", "high")(total))
    if low == high:
        return PEOPLE
    return f"{low} to {high}, drops counted as nothing or as whole sets; {PEOPLE}"


def _sets(value: float) -> str:
    return f"{value:.1f}"
