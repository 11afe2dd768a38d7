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
    """Likelihood of an outcome, shift of the scalar's mean, and its variance afterwards."""

    likelihood: float
    shift: float
    variance: float


def moments(level: float, variance: float, at: Array, noise: Array, weights: Array) -> Moments:
    """Moments of a scalar with this mean and variance, given weights over reps to failure.

    `at` are the thresholds, `noise` the noise variances there.
    """
    steps = weights.copy()
    steps[1:] -= weights[:-1]
    sd = np.sqrt(variance + noise)
    z = (level - at) / sd
    density = np.exp(-0.5 * z * z) / (_ROOT_TWO_PI * sd)
    likelihood = float(steps @ ndtr(z))
    if likelihood < _LIKELIHOOD_LEAST:
        return Moments(_LIKELIHOOD_LEAST, 0.0, variance)
    pushed = steps * density
    shift = variance * float(pushed.sum()) / likelihood
    second = variance - variance * variance * float(pushed @ (z / sd)) / likelihood
    return Moments(likelihood, shift, max(second - shift * shift, variance * _KEEP_LEAST))
