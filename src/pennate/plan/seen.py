"""A week under audit: what the checks read, and the shape of what they find."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass, field, replace

from pennate.core.exercise import Catalogue, EquipmentKind, Exercise
from pennate.core.muscles import Joint
from pennate.core.prescribed import PlannedDay, PrescribedExercise, PrescribedSets, Week
from pennate.core.week_dose import (
    HOURS_A_DAY,
    WeekDose,
    day_joint_load,
    day_parts,
    dose_of_days,
    hours_between,
)
from pennate.core.week_time import Minutes, Pace, day_minutes
from pennate.plan.recovery import Recovery
from pennate.plan.sides import SideLog

OpenSets = tuple[str, str, str, PrescribedSets]
"""Exercise, variant, item and one of the sets: what a forecast of them depends on."""


def open_sets(asked: PrescribedExercise, sets: PrescribedSets) -> OpenSets:
    """The key under which the forecast of these sets is kept."""
    return asked.exercise, asked.variant, asked.equipment, replace(sets, count=1)


def few(value: float) -> str:
    """A dose in words: one decimal, none where it is whole."""
    return f"{value:.1f}".removesuffix(".0")


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing to mend: what, why it matters, the number, its source, how sure."""

    id: str
    """Kind and subject, for example `low:quads`."""
    what: str
    why: str
    number: str
    source: str
    certainty: str
    points: float
    """How much it matters beside the others; 0 is nothing."""
    advice: str = ""
    """What to do where no change of the week mends it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Looking:
    """What the audit is told beside the week, as plain values."""

    catalogue: Catalogue
    safe_items: Set[str] = frozenset()
    """Ids of gym items with safeties or stops."""
    available: Set[str] | None = None
    """Exercises that her gym can carry; None where no gym is known."""
    on: Mapping[str, EquipmentKind] = field(default_factory=dict)
    """What each exercise would be done on where she trains; empty where no gym is known."""
    unfit: Set[str] = frozenset()
    """Exercises no fix may bring: far from hard sets for her strength, or held by pain."""
    pace: Pace = Pace()
    trained: bool = True
    order_matters: bool = True
    """She may switch the preference for order off."""
    sides: tuple[SideLog, ...] = ()
    """Left and right in her log."""
    standing: tuple[Recovery, ...] = ()
    """How each group will stand when the next session begins."""
    next_day: str = ""
    """The day of that session."""
    credits: Mapping[OpenSets, float] = field(default_factory=dict)
    """What sets of open effort count by her forecast."""

    def credit_of(self, asked: PrescribedExercise, sets: PrescribedSets) -> float | None:
        """Credit of sets of open effort, 0 to 1; None where no forecast says."""
        return self.credits.get(open_sets(asked, sets))

    def possible(self, exercise: str) -> bool:
        """Whether a fix may bring an exercise: it can be done where she trains, and by her."""
        there = self.available is None or exercise in self.available
        return there and exercise not in self.unfit

    def kind_of(self, exercise: Exercise) -> EquipmentKind:
        """What an exercise would be done on where she trains, else its usual kind."""
        return self.on.get(exercise.id, exercise.equipment[0])


@dataclass(frozen=True, slots=True)
class Seen:
    """A week with everything the checks read, worked out once."""

    week: Week
    looking: Looking
    known: Catalogue
    dose: WeekDose
    minutes: Mapping[str, Minutes]
    joints: Mapping[str, Mapping[Joint, float]] = field(default_factory=dict)

    @property
    def days(self) -> tuple[PlannedDay, ...]:
        """The training days in the order of the week file."""
        return tuple(day for day in self.week.days if not day.rest)

    def close_days(self) -> Iterator[tuple[str, str]]:
        """Pairs of training days 24 hours apart."""
        for a in self.days:
            for b in self.days:
                if a is not b and hours_between(a.day, b.day) == HOURS_A_DAY:
                    yield a.day, b.day


def see(week: Week, looking: Looking, *, like: Seen | None = None) -> Seen:
    """Work out dose, minutes and joint load of a week.

    Days that are the very ones of `like`, seen the same way, keep what was worked out there.
    """
    known = (
        looking.catalogue.with_own(week.own_exercises) if week.own_exercises else looking.catalogue
    )
    days = [day for day in week.days if not day.rest]
    kept = {one.day: one for one in like.week.days} if like and like.looking is looking else {}
    same = {day.day for day in days if kept.get(day.day) is day}
    told = looking.credit_of if looking.credits else None
    return Seen(
        week,
        looking,
        known,
        dose_of_days(
            {
                d.day: like.dose.days[d.day]
                if like and d.day in same
                else day_parts(d, known, told)
                for d in days
            }
        ),
        {
            d.day: like.minutes[d.day]
            if like and d.day in same
            else day_minutes(d, known, looking.pace)
            for d in days
        },
        {
            d.day: like.joints[d.day] if like and d.day in same else day_joint_load(d, known, told)
            for d in days
        },
    )
