"""Expected effect of a week on each group: concave in dose, with its uncertainty.

Per part: effect = b · √(Σ over sessions of g(dose)), g bending within a session; per group
the size-weighted sum over its parts. Weeks are compared by differences only.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from pennate.core.evidence import constant_named
from pennate.core.evidence.plan import (
    GROWTH_PER_ROOT_SET,
    NOVICE_FACTOR,
    SESSION_CURVE,
    SESSION_HALF_SETS,
    TRAINED_FACTOR,
)
from pennate.core.muscles import GROUP_SHARES, Group, Part
from pennate.core.percent import signed
from pennate.core.week_dose import WeekDose

_CEILING = SESSION_HALF_SETS / (2.0 ** (SESSION_CURVE / (SESSION_CURVE + 1.0)) - 1.0) ** (
    1.0 / SESSION_CURVE
)
"""K of the session curve, from the dose at which its slope is a half."""


def session_worth(dose: float) -> float:
    """Sets that a session's dose of a part is worth: slope 1 at first, ½ at 11 sets.

    g(x) = x · (1 + (x/K)^m)^(−1/m): always rising, so there is no inverted U.
    """
    return float(dose * (1.0 + (dose / _CEILING) ** SESSION_CURVE) ** (-1.0 / SESSION_CURVE))


def session_slope(dose: float) -> float:
    """Worth of a little more dose in a session: the derivative of `session_worth`."""
    return float((1.0 + (dose / _CEILING) ** SESSION_CURVE) ** (-1.0 - 1.0 / SESSION_CURVE))


def part_benefit(sessions: Iterable[float]) -> float:
    """Benefit of a part in √sets: square root of its sessions' worth (Pelland 2024)."""
    return math.sqrt(sum(session_worth(dose) for dose in sessions))


def group_benefits(dose: WeekDose) -> dict[Group, float]:
    """Benefit of each group in √sets: the size-weighted sum over its parts."""
    return {
        group: sum(float(share) * benefit_of_part(dose, part) for part, share in shares.items())
        for group, shares in GROUP_SHARES.items()
    }


def benefit_of_part(dose: WeekDose, part: Part) -> float:
    """Benefit of one part in √sets."""
    return part_benefit(parts[part].value for parts in dose.days.values() if part in parts)


@dataclass(frozen=True, slots=True)
class Effect:
    """A difference in size over 8–12 weeks, % of the muscle, with a 90 % range."""

    median: float
    low: float
    high: float

    @property
    def shows(self) -> bool:
        """Whether either end of the range is anything in tenths of a per cent."""
        return any(round(end, 1) for end in (self.low, self.high))

    @property
    def words(self) -> str:
        """The range, never a point: “+0.1 to +2.3 %”."""
        if not self.shows:
            return "nothing that shows"
        low, high = (signed(end) if round(end, 1) else "0" for end in (self.low, self.high))
        return f"{low} to {high} %"


@cache
def _spread(name: str) -> tuple[float, float, float]:
    entry = constant_named(name)
    return math.log(entry.value), math.log(entry.low), math.log(entry.high)


def effect_of(difference: float, *, trained: bool) -> Effect:
    """What a difference in benefit (√sets) is expected to do, and how sure that is.

    Slope and experience factor are each a log-normal with different halves; their log
    half-widths add in squares. The range never changes sign: it doubts the size, not the side.
    """
    slope = _spread("plan.growth_per_root_set")
    factor = _spread("plan.trained_factor" if trained else "plan.novice_factor")
    middle = GROWTH_PER_ROOT_SET * (TRAINED_FACTOR if trained else NOVICE_FACTOR)
    down = math.hypot(slope[0] - slope[1], factor[0] - factor[1])
    up = math.hypot(slope[2] - slope[0], factor[2] - factor[0])
    ends = sorted((difference * middle * math.exp(-down), difference * middle * math.exp(up)))
    return Effect(difference * middle, ends[0], ends[1])


def compare_weeks(
    after: WeekDose, before: WeekDose, *, trained: bool = True
) -> Mapping[Group, Effect]:
    """Expected difference between two weeks for every group."""
    new, old = group_benefits(after), group_benefits(before)
    return {group: effect_of(new[group] - old[group], trained=trained) for group in Group}
