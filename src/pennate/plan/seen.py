"""A week under audit: what the checks read, and the shape of what they find."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass, field

from pennate.core.exercise import Catalogue
from pennate.core.muscles import Joint
from pennate.core.prescribed import PlannedDay, Week
from pennate.core.week_dose import HOURS_A_DAY, WeekDose, day_joint_load, hours_between, week_dose
from pennate.core.week_time import Minutes, Pace, day_minutes


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Looking:
    """What the audit is told beside the week, as plain values."""

    catalogue: Catalogue
    safe_items: Set[str] = frozenset()
    """Ids of gym items with safeties or stops."""
    pace: Pace = Pace()
    trained: bool = True
    order_matters: bool = True
    """She may switch the preference for order off."""


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


def see(week: Week, looking: Looking) -> Seen:
    """Work out dose, minutes and joint load of a week."""
    known = (
        looking.catalogue.with_own(week.own_exercises) if week.own_exercises else looking.catalogue
    )
    days = [day for day in week.days if not day.rest]
    return Seen(
        week,
        looking,
        known,
        week_dose(week, known),
        {day.day: day_minutes(day, known, looking.pace) for day in days},
        {day.day: day_joint_load(day, known) for day in days},
    )
