"""The belief about one coming set: log capacity above the load, and reps to failure."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from scipy.special import ndtr

from pennate.core.evidence import strength_levels as lv
from pennate.core.forecast import QUANTILES, RepsForecast
from pennate.estimate.curve import BELOW, MOST_REPS, Array, Thresholds

if TYPE_CHECKING:
    from pennate.estimate.track import Track

_EDGES: Array = np.arange(-0.5, MOST_REPS + 1)
_LEVELS: Array = np.array(QUANTILES)
_STEP_LEAST = 1e-12

Square = list[list[float]]
"""A symmetric 3 × 3."""


class Guess(NamedTuple):
    """A second explanation of a set: extra variance on one element, with its probability."""

    element: int
    extra: float
    share: float


class Noise(NamedTuple):
    """A set's own noise: its SD in reps, at none and more by each; variance beside it, a factor."""

    base: float
    by_rep: float
    beside: float
    factor: float


class View(NamedTuple):
    """What the model believes of one set before it is done.

    `level` is the expected log capacity minus the log load. `rows` are the covariances of
    (level, log slope, shape) with every element of the belief; `cov` those among the three.
    """

    track: Track
    level: float
    cov: Square
    rows: Array
    curve: Thresholds
    gap: Array
    """Level minus threshold, at each threshold."""
    noise: Array
    """Variance of the set's own noise, in log capacity, at each threshold."""
    spread: Array
    """Variance of level minus threshold, the noise included, at each threshold."""
    log_load: float | None
    """As she probably lifted it; None where no load is asked about."""
    owed: float
    """Log capacity that fatigue takes from this set."""
    guess: Guess | None
    """A second explanation of the set, if there is one."""

    def margin(self, reps: int, odds: float) -> float:
        """Log capacity to spare at this number of reps, so many SDs on the safe side."""
        return self.gap.item(reps) - odds * math.sqrt(self.spread.item(reps))

    def survival(self) -> Array:
        """Probability of at least t reps, for t = 0 … MOST_REPS."""
        return self._survival(self.gap)

    def mean(self) -> float:
        """Mean reps to failure."""
        return float(self.survival()[1:].sum())

    def mean_reps(self, loads: Sequence[float]) -> list[float]:
        """Mean reps to failure at felt loads, of a set looked at without one."""
        logs = np.log([load or lv.FELT_LEAST for load in loads])
        means: list[float] = self._survival(self.gap - logs[:, None])[:, 1:].sum(axis=1).tolist()
        return means

    def _survival(self, gap: Array) -> Array:
        passed: Array = ndtr(gap / np.sqrt(self.spread))
        if self.guess is not None:
            wide = ndtr(gap / np.sqrt(self.spread + self.guess.extra))
            passed += self.guess.share * (wide - passed)
        np.minimum.accumulate(passed, axis=-1, out=passed)
        return passed


def along_thresholds(
    level: float, cov: Square, curve: Thresholds, noise: Noise
) -> tuple[Array, Array, Array]:
    """Level less threshold, the variance of noise, and the variance of both together.

    The level less a threshold is b₀ + b₁ · r^shape + b₂ · r^shape · log r; how b₁ and b₂
    move with log slope and shape is (-reach, bend) and (0, -reach), and b₀ moves by the level
    less what b₁ does. Covariances among the three make the variance a sum of powers too.
    """
    (own, with_slope, with_shape), (_, slope, both), (_, _, shape) = cov
    reach = curve.reach
    bend = reach / curve.shape
    own_one, own_two = bend * with_shape - reach * with_slope, -reach * with_shape
    one = reach * (reach * slope - 2.0 * bend * both) + bend * bend * shape
    one_two = reach * (reach * both - bend * shape)
    two = reach * reach * shape
    base, rise, extra, factor = noise
    factor *= curve.scale * curve.scale
    flat, rising, square = base * base * factor, 2.0 * base * rise * factor, rise * rise * factor
    gap, own_noise, spread = np.array(
        (
            (level + reach, -reach, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0),
            (extra, 0.0, 0.0, 0.0, 0.0, 0.0, flat, rising, square),
            (
                own - 2.0 * own_one + one + extra,
                2.0 * (own_one - one),
                2.0 * (own_two - one_two),
                one,
                2.0 * one_two,
                two,
                flat,
                rising,
                square,
            ),
        )
    ).dot(curve.powers)
    gap[0] = level - BELOW
    return gap, own_noise, spread


def probabilities(survival: Array) -> Array:
    """Probability of each number of reps from the probability of at least as many."""
    pmf = survival.copy()
    passed = pmf[:-1]
    passed -= survival[1:]
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
