"""What differs between two weeks, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass
from types import MappingProxyType

from pennate.core.exercise import Catalogue
from pennate.core.prescribed import WEEKDAYS, PlannedDay, PrescribedExercise, Week
from pennate.core.week_names import why_here
from pennate.core.week_time import stops_of
from pennate.plan.fitting import BESIDE

Places = dict[tuple[str, str], list[PrescribedExercise]]
"""What is asked by day and exercise; more than one where one has moved beside another."""


def changes_between(
    old: Week,
    new: Week,
    known: Catalogue,
    *,
    missed: Set[str] = frozenset(),
    why_gone: Mapping[str, str] = MappingProxyType({}),
) -> tuple[str, ...]:
    """Exercises that come, go, or change their sets, day by day; missed days by themselves.

    Then what was done in turn and no longer is, although all of it stays on its day. `why_gone`
    says of exercises that go why they cannot stay.
    """
    changes = _changes(_places(old), _places(new), known, (missed, why_gone))
    return (*changes, *_parted(old, new, known))


@dataclass(frozen=True, slots=True)
class Turnover:
    """Exercises of a week against another: ids that are new to it, gone from it, and kept."""

    come: tuple[str, ...]
    gone: tuple[str, ...]
    kept: tuple[str, ...]


def turnover(old: Week, new: Week) -> Turnover:
    """Which exercises come, go and stay, in the order of their weeks."""
    before = dict.fromkeys(one.exercise for day in old.days for one in day.exercises)
    after = dict.fromkeys(one.exercise for day in new.days for one in day.exercises)
    return Turnover(
        tuple(name for name in after if name not in before),
        tuple(name for name in before if name not in after),
        tuple(name for name in after if name in before),
    )


def _places(week: Week) -> Places:
    found: Places = {}
    for day in week.days:
        for one in day.exercises:
            found.setdefault((day.day, one.exercise), []).append(one)
    return found


def _changes(
    before: Places, after: Places, known: Catalogue, told: tuple[Set[str], Mapping[str, str]]
) -> Iterator[str]:
    missed, why_gone = told
    for (day, name), asked in after.items():
        was = before.get((day, name))
        title = known[name].name
        sets = _count(asked)
        if was is None:
            why = "; ".join(dict.fromkeys(filter(None, (why_here(one, known) for one in asked))))
            yield f"{day}: {title}, {_sets(sets)}{', ' if why else ''}{why}"
            continue
        had, other = _count(was), _otherwise(was, asked)
        if had != sets or other:
            fewer = f" and not {had}" if had != sets else ""
            yield f"{day}: {title}{other}, {_sets(sets)}{fewer}"
    gone = [place for place in before if place not in after and not _told(*place, after)]
    for day, name in gone:
        if day not in missed:
            why = why_gone.get(name, "")
            yield f"{day}: no {known[name].name}{': ' if why else ''}{why}"
    for day in WEEKDAYS:
        if lost := [known[name].name for on, name in gone if on == day and day in missed]:
            yield f"{day} missed: {', '.join(lost)} left out this week"


def _otherwise(was: list[PrescribedExercise], now: list[PrescribedExercise]) -> str:
    """“ of 10–20 reps, on bands”: other reps, what it is done on; empty for no change."""
    reps = _reps(now)
    if set(reps) == set(_reps(was)):
        return ""
    because = dict.fromkeys(one.because for one in now if one.because)
    return ", ".join((f" of {' and '.join(dict.fromkeys(reps))} reps", *because))


def _reps(asked: list[PrescribedExercise]) -> list[str]:
    working = (one for each in asked for one in each.sets if one.kind not in BESIDE)
    return [str(one.reps) for one in working if one.reps]


def _told(day: str, name: str, after: Places) -> bool:
    """Whether it is said already what stands in its place, or which day either has moved to."""
    return any(
        name in {new, asked.replaces} and (on == day or moved_from(day) in asked.because)
        for (on, new), found in after.items()
        for asked in found
    )


def moved_from(day: str) -> str:
    """Why an exercise stands on another day than before."""
    return f"moved from {day}"


def _parted(old: Week, new: Week, known: Catalogue) -> Iterator[str]:
    """Supersets that are done one after the other from now on."""
    for day in old.days:
        now = new.day(day.day)
        after = _in_turn(now) if now else {}
        for names in dict.fromkeys(_in_turn(day).values()):
            parted = [name for name in names if name in after]
            if len(parted) > 1 and len({after[name] for name in parted}) > 1:
                told = " and ".join(known[name].name for name in parted)
                yield f"{day.day}: {told} no longer alternate"


def _in_turn(day: PlannedDay) -> dict[str, tuple[str, ...]]:
    """Each exercise of a day with all that it alternates with, itself among them."""
    stops = (tuple(one.exercise for one in members) for members in stops_of(day))
    return {name: names for names in stops for name in names}


def _count(asked: list[PrescribedExercise]) -> int:
    return sum(one.working_sets for one in asked)


def _sets(count: int) -> str:
    return "1 set" if count == 1 else f"{count} sets"
