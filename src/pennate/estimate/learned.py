"""Person-level variances, learned by comparing what was expected with what came.

Each is a running ratio of squared surprise to its expectation, started at one with the
weight of many observations, so that a short log keeps the population's values.
"""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Ratio:
    """Observed over expected variance, shrunk toward one."""

    total: float
    count: float

    @classmethod
    def start(cls, weight: float) -> Ratio:
        """One, with the weight of `weight` observations."""
        return cls(weight, weight)

    def seen(self, ratio: float, weight: float = 1.0) -> Ratio:
        """One more observation; a single one counts ten times the expected at most."""
        return Ratio(self.total + weight * min(ratio, 10.0), self.count + weight)

    @property
    def sd_factor(self) -> float:
        """Factor on a standard deviation."""
        return math.sqrt(self.total / self.count)

    @property
    def variance_factor(self) -> float:
        """Factor on a variance."""
        return self.total / self.count


@dataclass(slots=True)
class Learned:
    """The four variances that differ between people."""

    day: Ratio
    drift: Ratio
    noise: Ratio
    honesty: Ratio

    @classmethod
    def start(cls, weight: float) -> Learned:
        """Population values."""
        one = Ratio.start(weight)
        return cls(one, one, one, one)

    def copy(self) -> Learned:
        """An independent copy."""
        return Learned(self.day, self.drift, self.noise, self.honesty)


def seen_part(known: Ratio, part: float, total: float, surprise: float) -> Ratio:
    """Take in a surprise of expected variance `total`, of which `part` belongs to the source.

    It counts for the source by that share: what is mostly something else says little of it.
    """
    factor = known.variance_factor
    return known.seen(factor * min(surprise * surprise / total, 10.0), part / total)
