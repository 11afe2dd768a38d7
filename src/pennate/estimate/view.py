"""The belief about one coming set: log capacity above the load, and reps to failure."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from scipy.special import ndtr

from pennate.core.evidence import strength_levels as lv
from pennate.core.forecast import QUANTILES, RepsForecast
from pennate.estimate.curve import MOST_REPS, ONES, Array, Thresholds

if TYPE_CHECKING:
    from pennate.estimate.track import Track

_EDGES: Array = np.arange(-0.5, MOST_REPS + 1)
_LEVELS: Array = np.array(QUANTILES)
_STEP_LEAST = 1e-12
_THREE: Array = ONES[:3]


class Guess(NamedTuple):
    """A second explanation of a set: extra variance on one element, with its probability."""

    element: int
    extra: float
    share: float


class View(NamedTuple):
    """What the model believes of one set before it is done.

    `level` is the expected log capacity minus the log load. `rows` are the covariances of
    (level, log slope, shape) with every element of the belief; `cov` the 3 × 3 among them.
    """

    track: Track
    level: float
    cov: Array
    rows: Array
    curve: Thresholds
    gap: Array
    """Level minus threshold, at each threshold."""
    noise: Array
    """Variance of the set's own noise, in log capacity, at each threshold."""
    spread: Array
    """Variance of level minus threshold, at each threshold."""
    log_load: float | None
    """As she probably lifted it; None where no load is asked about."""
    owed: float
    """Log capacity that fatigue takes from this set."""
    guess: Guess | None
    """A second explanation of the set, if there is one."""

    def margin(self, reps: int, odds: float) -> float:
        """Log capacity to spare at this number of reps, so many SDs on the safe side."""
        spread = math.sqrt(self.spread.item(reps) + self.noise.item(reps))
        return self.gap.item(reps) - odds * spread

    def survival(self) -> Array:
        """Probability of at least t reps, for t = 0 … MOST_REPS."""
        return self._survival(self.gap)

    def mean_reps(self, loads: Sequence[float]) -> list[float]:
        """Mean reps to failure at felt loads, of a set looked at without one."""
        logs = np.log([load or lv.FELT_LEAST for load in loads])
        means: list[float] = self._survival(self.gap - logs[:, None])[:, 1:].sum(axis=1).tolist()
        return means

    def _survival(self, gap: Array) -> Array:
        base = self.spread + self.noise
        passed: Array = ndtr(gap / np.sqrt(base))
        if self.guess is not None:
            wide = ndtr(gap / np.sqrt(base + self.guess.extra))
            passed += self.guess.share * (wide - passed)
        np.minimum.accumulate(passed, axis=-1, out=passed)
        return passed


def spread_of(cov: Array, curve: Thresholds) -> Array:
    """Variance of level minus threshold, where slope and shape are uncertain too."""
    turns = curve.turns
    out: Array = _THREE.dot(cov.dot(turns) * turns)
    out[0] = cov[0, 0]
    return out


def probabilities(survival: Array) -> Array:
    """Probability of each number of reps from the probability of at least as many."""
    pmf = survival.copy()
    pmf[:-1] -= survival[1:]
    return pmf


def as_forecast(survival: Array, sets_behind: int) -> RepsForecast:
    """Mean, quantiles and probabilities; the mass of r is spread over r − ½ to r + ½."""
    pmf = probabilities(survival)
    below = np.empty(MOST_REPS + 2)
    below[0] = 0.0
    below[1:] = 1.0 - survival + pmf
    below[-1] = 1.0
    below += np.arange(MOST_REPS + 2) * _STEP_LEAST  # strictly rising, so that it can be inverted
    quantiles = np.interp(_LEVELS, below, _EDGES)
    mean = float(survival[1:].sum())
    return RepsForecast(mean, tuple(quantiles.tolist()), tuple(pmf.tolist()), sets_behind)
