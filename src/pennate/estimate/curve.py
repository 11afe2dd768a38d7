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
_BELOW = -60.0  # number: log capacity that everybody has; zero reps are always done
_RATIO: Array = np.maximum(REPS - 0.5, 0.5) / ANCHOR_REPS
_LOG_RATIO: Array = np.log(_RATIO)
_PER_REP: Array = 1.0 / (ANCHOR_REPS * _RATIO)
_SHAPE_LEAST = 0.15  # number: keeps the closed form away from its removable singularity
_SHAPE_MOST = 2.0


class Thresholds(NamedTuple):
    """Log capacity at which t reps are done, for t = 0 … MOST_REPS, by its derivatives.

    `turns` says how a level less the threshold moves with level, log slope and shape; by
    log slope that is minus the threshold itself. `per_rep` is the threshold's step a rep.
    """

    turns: Array
    per_rep: Array

    @property
    def at(self) -> Array:
        """The thresholds."""
        at: Array = -self.turns[1]
        return at


def clamp_shape(shape: float) -> float:
    """The shape kept where the closed form is safe."""
    return min(max(shape, _SHAPE_LEAST), _SHAPE_MOST)


@lru_cache(maxsize=256)  # number: cache size
def thresholds(log_slope: float, shape: float) -> Thresholds:
    """Thresholds for a slope (log) and shape; the derivative by log slope is `at` itself."""
    shape = clamp_shape(shape)
    scale = math.exp(log_slope) * ANCHOR_REPS
    powers = np.empty((3, MOST_REPS + 1))
    powers[0] = 1.0
    power = np.exp(shape * _LOG_RATIO, powers[1])
    np.multiply(power, _LOG_RATIO, powers[2])
    slope = scale / shape
    bend = slope / shape
    turns = np.array(((1.0, 0.0, 0.0), (slope, -slope, 0.0), (-bend, bend, -slope))).dot(powers)
    turns[1, 0] = -_BELOW
    turns[2, 0] = 0.0
    power *= _PER_REP
    power *= scale
    return Thresholds(turns, power)


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


@lru_cache(maxsize=100)
def noise_reps(base: float, per_rep: float) -> Array:
    """Standard deviation of a set's own noise in reps at each threshold."""
    return base + per_rep * REPS
