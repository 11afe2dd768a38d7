"""One update: from weights over reps to failure to moments of the belief.

At least t reps are done when log capacity plus noise passes a threshold, so any outcome is
a sum of normal distribution functions of the log capacity; with a Gaussian belief its
moments are exact (assumed-density filtering; Minka 2001 for the probit case).
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from scipy.special import ndtr

from pennate.estimate.curve import Array

_ROOT_TWO_PI = float(np.sqrt(2.0 * np.pi))
_LIKELIHOOD_LEAST = 1e-12
_KEEP_LEAST = 1e-9


class Moments(NamedTuple):
    """Likelihood of an outcome, and slope and curvature of its logarithm by the mean."""

    likelihood: float
    slope: float
    curve: float


class Asked(NamedTuple):
    """A set's outcome as the update sees it.

    `weights` over reps to failure; `sides` the same with her report's offset a little lower
    and higher, where effort was reported; `bias` the offset's covariance with the scalar
    and its variance.
    """

    level: float
    at: Array
    noise: Array
    weights: Array
    sides: tuple[Array, ...] | None
    bias: tuple[float, float]


class Push(NamedTuple):
    """Likelihood of an outcome, and gradient and curvature of its logarithm.

    By the mean of the scalar alone, or by that and by the report's offset.
    """

    likelihood: float
    gradient: Array
    curvature: Array


BIAS_STEP = 0.5
"""Half the span, in reps, over which the report's offset is varied."""


def moments(level: float, variance: float, at: Array, noise: Array, weights: Array) -> Moments:
    """Likelihood of weights over reps, its log gradient and curvature by the scalar's mean.

    `at` are the thresholds, `noise` the noise variances there.
    """
    steps = weights.copy()
    steps[1:] -= weights[:-1]
    sd = np.sqrt(variance + noise)
    z = (level - at) / sd
    density = steps * np.exp(-0.5 * z * z) / (_ROOT_TWO_PI * sd)
    likelihood = float(steps @ ndtr(z))
    if likelihood < _LIKELIHOOD_LEAST:
        return Moments(_LIKELIHOOD_LEAST, 0.0, 0.0)
    slope = float(density.sum()) / likelihood
    curve = -float(density @ (z / sd)) / likelihood - slope * slope
    return Moments(likelihood, slope, max(curve, (_KEEP_LEAST - 1.0) / variance))


def push(asked: Asked, variance: float) -> Push:
    """What an outcome says of a scalar with this variance, and of the report's offset.

    A Gaussian mean moves by its covariance times the gradient of the log likelihood. The
    offset's gradient is taken on the weights themselves, because reps she did tell of
    strength whatever her reports are worth.
    """
    level, at, noise, weights, sides, (cross, spread) = asked
    mid = moments(level, variance, at, noise, weights)
    if sides is None:
        return Push(mid.likelihood, np.array([mid.slope]), np.array([[mid.curve]]))
    low = moments(level, variance, at, noise, sides[0])
    high = moments(level, variance, at, noise, sides[1])
    below, above = np.log(low.likelihood), np.log(high.likelihood)
    own = (above - below) / (2 * BIAS_STEP)
    bent = min((above + below - 2 * np.log(mid.likelihood)) / BIAS_STEP**2, 0.0)
    both = (high.slope - low.slope) / (2 * BIAS_STEP)
    return _widened(mid, (mid.slope, own), (mid.curve, both, bent), cross, spread)


def _widened(
    mid: Moments,
    gradient: tuple[float, float],
    curvature: tuple[float, float, float],
    cross: float,
    spread: float,
) -> Push:
    """Let the offset's own uncertainty in: (H⁻¹ − P)⁻¹, exact for a linear Gaussian set."""
    a, both, c = curvature
    limit = np.sqrt(a * c) if a < 0 else 0.0
    both = min(max(both, -limit), limit)
    curved = np.array([[a, both], [both, c]])
    left = np.array([[0.0, cross], [cross, spread]])
    solve = np.linalg.inv(np.eye(2) - curved @ left)
    bent = solve @ curved
    return Push(mid.likelihood, solve @ np.array(gradient), 0.5 * (bent + bent.T))
