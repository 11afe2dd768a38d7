"""Fractional sets: how much a set counts, and the dose of parts and groups.

A set counts by effort, not by its label: full up to three reps in reserve, falling
linearly to nothing at six. Direct work counts 1, indirect ½ (Pelland 2024).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from pennate.core.evidence.dose import DROP_CREDIT, FULL_CREDIT_RESERVE, NO_CREDIT_RESERVE
from pennate.core.muscles import GROUP_SHARES, Group, Part
from pennate.core.performed import Effort, SetKind

RESERVE_OF: Mapping[Effort, float] = {
    Effort.FAIL: 0.0,
    Effort.NONE_LEFT: 0.0,
    Effort.ONE: 1.0,
    Effort.TWO: 2.0,
    Effort.THREE: 3.0,
    Effort.FOUR_FIVE: 4.5,
    Effort.SIX_UP: 6.0,
}


def effort_credit(reserve: float) -> float:
    """Share of a hard set that a set with this many reps in reserve counts, 0 to 1."""
    span = NO_CREDIT_RESERVE - FULL_CREDIT_RESERVE
    return min(1.0, max(0.0, (NO_CREDIT_RESERVE - reserve) / span))


def forecast_credit(chances: Sequence[float], reps: int) -> float:
    """Credit of a set of so many reps whose effort is not known, 0 to 1: the forecast's mean.

    `chances` are the probabilities of 0, 1, 2 … reps to failure; a set of more reps than she
    could do ends at failure.
    """
    return sum(
        chance * effort_credit(float(max(0, most - reps))) for most, chance in enumerate(chances)
    )


@dataclass(frozen=True, slots=True)
class CountedSet:
    """A set reduced to what dose needs: credit by effort, kind, and part weights.

    A left and a right set are each half of one set: `sides` is ½ for a one-sided row.
    """

    credit: float
    kind: SetKind
    weights: Mapping[Part, Fraction]
    sides: float = 1.0


@dataclass(frozen=True, slots=True)
class Dose:
    """Fractional sets with the range that the counting of drops leaves open."""

    value: float
    low: float
    high: float

    def __add__(self, other: Dose) -> Dose:
        return Dose(self.value + other.value, self.low + other.low, self.high + other.high)

    def scaled(self, factor: float) -> Dose:
        """The dose times a factor."""
        return Dose(self.value * factor, self.low * factor, self.high * factor)


NO_DOSE = Dose(0.0, 0.0, 0.0)


def dose_by_part(sets: Iterable[CountedSet]) -> dict[Part, Dose]:
    """Dose of every part that gets any.

    A drop counts `DROP_CREDIT` of a set; low and high count it as none and as one.
    """
    total: dict[Part, Dose] = defaultdict(lambda: NO_DOSE)
    for counted in sets:
        if counted.kind is SetKind.WARM_UP:
            continue
        full = counted.credit * counted.sides
        if counted.kind is SetKind.DROP:
            one = Dose(full * DROP_CREDIT, 0.0, full)
        else:
            one = Dose(full, full, full)
        for part, weight in counted.weights.items():
            total[part] = total[part] + one.scaled(float(weight))
    return dict(total)


def dose_by_group(parts: Mapping[Part, Dose]) -> dict[Group, Dose]:
    """Shown dose of all eleven groups: the size-weighted mean of their parts."""
    return {
        group: sum(
            (parts.get(part, NO_DOSE).scaled(float(share)) for part, share in shares.items()),
            NO_DOSE,
        )
        for group, shares in GROUP_SHARES.items()
    }
