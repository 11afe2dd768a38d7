"""What the strength model says, as plain values that planner, loading and pages take."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

QUANTILES = (0.025, 0.10, 0.25, 0.50, 0.75, 0.90, 0.975)
"""The quantiles every forecast carries; see the log contract."""


@dataclass(frozen=True, slots=True)
class RepsForecast:
    """Distribution of reps to failure at one load, before the set is done.

    `quantiles` follow `QUANTILES` and belong to the whole-rep distribution with the
    mass of each rep spread evenly from r − ½ to r + ½. `sets_behind` counts the working
    sets of this exercise the forecast rests on.
    """

    mean: float
    quantiles: tuple[float, ...]
    pmf: tuple[float, ...]
    """Probability of 0, 1, 2 … reps to failure; sums to one."""
    sets_behind: int

    @property
    def median(self) -> float:
        """The middle of the distribution."""
        return self.quantiles[QUANTILES.index(0.50)]

    def at_least(self, reps: int) -> float:
        """Probability of at least this many reps to failure."""
        return float(sum(self.pmf[reps:])) if reps > 0 else 1.0


LoadToReps = Callable[[float], RepsForecast]
"""Felt load in kilograms to the forecast at that load."""


@dataclass(frozen=True, slots=True)
class StrengthEstimate:
    """Strength of one exercise on one equipment on a day.

    `one_rep_kg` is the median felt load of a single repetition; `sd_log` the standard
    deviation of its natural logarithm; `trend_per_week` the expected relative change.
    """

    one_rep_kg: float
    sd_log: float
    trend_per_week: float
    trend_sd: float
    sets_behind: int
