"""One update: from weights over reps to failure to moments of the belief.

At least t reps are done when log capacity plus noise passes a threshold, so any outcome is
a sum of normal distribution functions of the log capacity; with a Gaussian belief its
moments are exact (assumed-density filtering; Minka 2001 for the probit case).
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from scipy.special import ndtr

from pennate.estimate.curve import Array

_PEAK = 1.0 / math.sqrt(2.0 * math.pi)
_LIKELIHOOD_LEAST = 1e-12
_KEEP_LEAST = 1e-9


class Asked(NamedTuple):
    """A set's outcome as the update sees it.

    `gap` is the scalar's mean less each threshold, `noise` the variance beside the scalar's.
    `weights` over reps to failure, one row, or three where her report tells of her offset:
    as believed, a little lower, a little higher; `slips` is added to every weight of a row.
    `cross` and `spread` are the offset's covariance with the scalar and its variance.
    """

    gap: Array
    noise: Array
    weights: Array
    slips: list[float]
    cross: float
    spread: float


class Push(NamedTuple):
    """Likelihood of an outcome, and gradient and curvature of its logarithm.

    By the mean of the scalar and by the report's offset; the curvature is given as its
    elements scalar, both, offset. What says nothing of the offset has zeros there.
    """

    likelihood: float
    gradient: tuple[float, float]
    curvature: tuple[float, float, float]


BIAS_STEP = 0.5
"""Half the span, in reps, over which the report's offset is varied."""


def push(asked: Asked, variance: float) -> Push:
    """What an outcome says of a scalar with this variance, and of the report's offset.

    A Gaussian mean moves by its covariance times the gradient of the log likelihood. The
    offset's gradient is taken on the weights themselves, because reps she did tell of
    strength whatever her reports are worth.
    """
    rows = _integrals(asked, variance)
    likelihood, first, second = rows[0]
    likelihood += asked.slips[0]
    if likelihood < _LIKELIHOOD_LEAST:
        return Push(_LIKELIHOOD_LEAST, (0.0, 0.0), (0.0, 0.0, 0.0))
    slope = _PEAK * first / likelihood
    curve = -_PEAK * second / likelihood - slope * slope
    curve = max(curve, (_KEEP_LEAST - 1.0) / variance)
    if len(rows) == 1:
        return Push(likelihood, (slope, 0.0), (curve, 0.0, 0.0))
    below = max(rows[1][0] + asked.slips[1], _LIKELIHOOD_LEAST)
    above = max(rows[2][0] + asked.slips[2], _LIKELIHOOD_LEAST)
    log_below, log_above = math.log(below), math.log(above)
    own = (log_above - log_below) / (2 * BIAS_STEP)
    bent = (log_above + log_below - 2 * math.log(likelihood)) / BIAS_STEP**2
    both = _PEAK * (rows[2][1] / above - rows[1][1] / below) / (2 * BIAS_STEP)
    return _widened(likelihood, (slope, own), (curve, both, min(bent, 0.0)), asked)


def _integrals(asked: Asked, variance: float) -> list[list[float]]:
    """For each row the likelihood, its slope and minus its bend by the level, both times √(2π).

    Slips are left out: some number of reps is certain, so they add to the likelihood alone.
    """
    sd = np.sqrt(asked.noise + variance)
    z = asked.gap / sd
    bases = np.empty((3, len(z)))
    ndtr(z, bases[0])
    density = np.divide(np.exp(-0.5 * z * z), sd, bases[1])
    z /= sd
    np.multiply(density, z, bases[2])
    # Exactly t reps are those that pass the threshold of t and not the next.
    weights = asked.weights
    rows = weights.dot(bases.T)
    rows -= weights[:, :-1].dot(bases[:, 1:].T)
    found: list[list[float]] = rows.tolist()
    return found


def _widened(
    likelihood: float,
    gradient: tuple[float, float],
    curvature: tuple[float, float, float],
    asked: Asked,
) -> Push:
    """Let the offset's own uncertainty in: (H⁻¹ − P)⁻¹, exact for a linear Gaussian set."""
    a, both, c = curvature
    limit = math.sqrt(a * c) if a < 0 else 0.0
    both = min(max(both, -limit), limit)
    cross, spread = asked.cross, asked.spread
    # The matrix 1 − H · [[0, cross], [cross, spread]] and its inverse, element by element.
    m00, m01 = 1.0 - both * cross, -a * cross - both * spread
    m10, m11 = -c * cross, 1.0 - both * cross - c * spread
    size = m00 * m11 - m01 * m10
    n00, n01, n10, n11 = m11 / size, -m01 / size, -m10 / size, m00 / size
    first, second = gradient
    moved = (n00 * first + n01 * second, n10 * first + n11 * second)
    off = 0.5 * ((n00 * both + n01 * c) + (n10 * a + n11 * both))
    return Push(likelihood, moved, (n00 * a + n01 * both, off, n10 * both + n11 * c))
