"""Left against right in the log: sets done, and strength beyond its error."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist, fmean, stdev

FEWEST_SESSIONS = 4
"""Sessions from which a difference between sides has an error worth stating."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SideLog:
    """One exercise done a side at a time, over the weeks looked at."""

    exercise: str
    left: int
    """Working sets."""
    right: int
    differences: tuple[float, ...]
    """By session: log capacity of the right less that of the left, from sets done alike."""


@dataclass(frozen=True, slots=True)
class SideGap:
    """Right less left as a share of strength, with its 95 % interval."""

    share: float
    low: float
    high: float
    sessions: int

    @property
    def clear(self) -> bool:
        """Whether the interval leaves out nought."""
        return self.low > 0 or self.high < 0


def strength_gap(differences: Sequence[float]) -> SideGap | None:
    """The mean difference over sessions; None below `FEWEST_SESSIONS`.

    A day moves both sides alike and cancels; what is left is judged by its own spread.
    """
    count = len(differences)
    if count < FEWEST_SESSIONS:
        return None
    middle = fmean(differences)
    half = t_quantile(0.975, count - 1) * stdev(differences) / math.sqrt(count)  # number: 95 %
    return SideGap(math.expm1(middle), math.expm1(middle - half), math.expm1(middle + half), count)


def t_quantile(share: float, freedom: int) -> float:
    """Quantile of Student's t for three or more degrees of freedom.

    Cornish–Fisher expansion about the normal (Abramowitz & Stegun 26.7.5).
    """
    z, n = NormalDist().inv_cdf(share), float(freedom)
    terms = (
        (z**3 + z) / 4,
        (5 * z**5 + 16 * z**3 + 3 * z) / 96,  # number: Abramowitz & Stegun 26.7.5
        (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384,  # number: as above
        (79 * z**9 + 776 * z**7 + 1482 * z**5 - 1920 * z**3 - 945 * z) / 92160,  # number: as above
    )
    return z + sum(term / n**power for power, term in enumerate(terms, start=1))
