"""Load against reps: the personal two-parameter curve as thresholds of log capacity.

With `x` = log(load of ANCHOR_REPS reps) − log(load), reps R follow
`x = slope · A · ((R / A)^shape − 1) / shape`: shape 1 is the exponential of Mitter 2023 and
Wolfe 2024, 0 a power law, below one steep at few reps and flat at many, as hyperbolas are.
At least t reps are done when x passes the threshold of t − ½, softened by the set's noise.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pennate.core.evidence.strength import ANCHOR_REPS

Array = NDArray[np.float64]

MOST_REPS = 60
REPS: Array = np.arange(MOST_REPS + 1, dtype=np.float64)
ONES: Array = np.ones(MOST_REPS + 1)
"""Sums by a dot product: for arrays this short by far the quickest way."""
BELOW = -60.0  # number: log capacity that everybody has; zero reps are always done
_RATIO: Array = np.maximum(REPS - 0.5, 0.5) / ANCHOR_REPS
_LOG_RATIO: Array = np.log(_RATIO)
_PER_REP: Array = 1.0 / (ANCHOR_REPS * _RATIO)
_SHAPE_LEAST = 0.15  # number: keeps the closed form away from its removable singularity
_SHAPE_MOST = 2.0
_SLOPE_LEAST, _SLOPE_MOST = math.log(0.0025), math.log(0.25)  # number: usual / and × ten
_EXPONENTS: Array = np.array((0, 1, 1, 2, 2, 2, 2, 2, 2))[:, None] * _LOG_RATIO
_FACTORS: Array = np.array(
    (
        *(ONES, ONES, _LOG_RATIO),
        *(ONES, _LOG_RATIO, _LOG_RATIO**2),
        *(_PER_REP**2, _PER_REP**2 * REPS, _PER_REP**2 * REPS**2),
    )
)


class Thresholds(NamedTuple):
    """Log capacity at which t reps are done, for t = 0 … MOST_REPS.

    `powers` has nine rows, of which everything about thresholds is a weighted sum. With r
    the ratio of reps to the anchor's: 1, r^shape and that times log r; their products; and
    r^(2 shape) over r², times 1, t and t², of which noise in reps consists. `reach` is what
    all thresholds lie within, were they to go on forever downwards.
    """

    powers: Array
    scale: float
    reach: float
    shape: float

    @property
    def at(self) -> Array:
        """The thresholds."""
        at: Array = self.reach * (self.powers[1] - 1.0)
        at[0] = BELOW
        return at

    def turn(self, reps: int) -> tuple[float, float]:
        """How a level less this threshold moves with log slope and shape; one rep or more."""
        by_slope = self.reach * (1.0 - self.powers.item(1, reps))
        return by_slope, -by_slope / self.shape - self.reach * self.powers.item(2, reps)

    def per_rep(self, reps: int) -> float:
        """How fast thresholds rise there, in log capacity a rep."""
        return self.scale * self.powers.item(1, reps) * _PER_REP.item(reps)


def clamp_shape(shape: float) -> float:
    """The shape kept where the closed form is safe."""
    return min(max(shape, _SHAPE_LEAST), _SHAPE_MOST)


def clamp_slope(log_slope: float) -> float:
    """The slope kept within ten times the usual, either way: no log teaches more."""
    return min(max(log_slope, _SLOPE_LEAST), _SLOPE_MOST)


@lru_cache(maxsize=2)
def thresholds(log_slope: float, shape: float) -> Thresholds:
    """Thresholds for a slope (log) and shape."""
    shape = clamp_shape(shape)
    scale = math.exp(log_slope) * ANCHOR_REPS
    powers = np.exp(shape * _EXPONENTS)
    powers *= _FACTORS
    return Thresholds(powers, scale, scale / shape, shape)


def log_load_gap(reps: float, log_slope: float, shape: float) -> float:
    """Log capacity above the load at which `reps` is the (real) number to failure."""
    return log_load_between(ANCHOR_REPS, reps, log_slope, shape)


def log_load_between(fewer: float, more: float, log_slope: float, shape: float) -> float:
    """Log load between those of two (real) numbers of reps to failure."""
    shape = clamp_shape(shape)
    scale = math.exp(log_slope) * ANCHOR_REPS
    ratio = (more / ANCHOR_REPS) ** shape - (fewer / ANCHOR_REPS) ** shape
    return float(scale * ratio / shape)


def log_load_gap_by_shape(reps: float, log_slope: float, shape: float) -> float:
    """Derivative of `log_load_gap` by the shape; by the log slope it is the gap itself."""
    clamped = clamp_shape(shape)
    ratio = reps / ANCHOR_REPS
    scale = math.exp(log_slope) * ANCHOR_REPS
    gap = log_load_gap(reps, log_slope, shape)
    return float((scale * ratio**clamped * math.log(ratio) - gap) / clamped)
