"""Left against right in the log: sets done, and strength beyond its error."""

from __future__ import annotations

import math
from dataclasses import dataclass

FEWEST_SESSIONS = 4
"""Sessions with both sides from which a difference of strength is stated."""
SURE = 1.96  # number: two-sided 95 % of a normal


@dataclass(frozen=True, slots=True)
class SideGap:
    """Log strength of the right less that of the left, by the strength model, with its SD."""

    mean: float
    sd: float

    @property
    def share(self) -> float:
        """How much stronger the right is; negative where the left is."""
        return math.expm1(self.mean)

    @property
    def ends(self) -> tuple[float, float]:
        """The 95 % interval of the share."""
        return math.expm1(self.mean - SURE * self.sd), math.expm1(self.mean + SURE * self.sd)

    @property
    def clear(self) -> bool:
        """Whether the interval leaves out nought."""
        return abs(self.mean) > SURE * self.sd


@dataclass(frozen=True, slots=True, kw_only=True)
class SideLog:
    """One exercise done a side at a time, over the weeks looked at."""

    exercise: str
    left: int
    """Working sets."""
    right: int
    sessions: int
    """Sessions with working sets of both sides."""
    gap: SideGap | None = None
