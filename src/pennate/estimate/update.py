"""One update: from weights over reps to failure to moments of the belief.

At least t reps are done when log capacity plus noise passes a threshold, so any outcome is
a sum of normal distribution functions of the log capacity; with a Gaussian belief its
moments are exact (assumed-density filtering; Minka 2001 for the probit case). What a report
says of her offset is integrated over three places of it (Gauss–Hermite; Ito and Xiong 2000).
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from scipy.special import ndtr

from pennate.estimate.curve import Array

Three = tuple[float, float, float]

_PEAK = 1.0 / math.sqrt(2.0 * math.pi)
_LIKELIHOOD_LEAST = 1e-12
_KEEP_LEAST = 1e-9
PLACES: Array = np.array((0.0, math.sqrt(3.0), -math.sqrt(3.0)))
"""Places of the report's offset, in SDs from what is believed of it; the first is that itself."""
_DOWN: Array = PLACES[:, None]
_USUAL, _FAR = 2 / 3, 1 / 6  # number: Gauss–Hermite; exact to the fifth power
_NODES = tuple(zip((_USUAL, _FAR, _FAR), PLACES.tolist(), strict=True))


class Asked(NamedTuple):
    """A set's outcome as the update sees it.

    `gap` is the scalar's mean less each threshold, `noise` the variance beside the scalar's.
    `weights` over reps to failure, one row, or one for each of the offset's `PLACES` where
    her report tells of it; `slips` is added to every weight of a row. `cross` and `spread`
    are the offset's covariance with the scalar and its variance.
    """

    gap: Array
    noise: Array
    weights: Array
    slips: list[float]
    cross: float
    spread: float


class Push(NamedTuple):
    """Likelihood of an outcome, and gradient and curvature of its logarithm.

    By the means of the scalar and of the report's offset; the curvature is given as its
    elements scalar, both, offset. What says nothing of the offset has zeros there.
    """

    likelihood: float
    gradient: tuple[float, float]
    curvature: tuple[float, float, float]


_NOTHING = Push(_LIKELIHOOD_LEAST, (0.0, 0.0), (0.0, 0.0, 0.0))


def push(asked: Asked, variance: float) -> Push:
    """What an outcome says of a scalar with this variance, and of the report's offset.

    A Gaussian mean moves by its covariance times the gradient of the log likelihood.
    """
    if len(asked.weights) > 1:
        return _with_offset(asked, variance)
    likelihood, slope, curve = _taken(asked, asked.gap[None, :], variance)[0]
    if likelihood < _LIKELIHOOD_LEAST:
        return _NOTHING
    return Push(likelihood, (slope, 0.0), (curve, 0.0, 0.0))


def _with_offset(asked: Asked, variance: float) -> Push:
    """Moments of scalar and offset together, from the scalar's at each place of the offset."""
    cross, spread = asked.cross, asked.spread
    sd = math.sqrt(spread)
    along = cross / sd
    left = max(variance - along * along, _KEEP_LEAST)
    found = _taken(asked, asked.gap + along * _DOWN, left)
    whole = _USUAL * found[0][0] + _FAR * (found[1][0] + found[2][0])
    if whole < _LIKELIHOOD_LEAST:
        return _NOTHING
    at = offset = at_square = both = offset_square = 0.0
    for (share, place), (likelihood, slope, curve) in zip(_NODES, found, strict=True):
        chance = share * likelihood / whole
        moved = along * place + left * slope
        at += chance * moved
        offset += chance * place
        both += chance * place * moved
        at_square += chance * (left + left * left * curve + moved * moved)
        offset_square += chance * place * place
    return _as_push(
        whole,
        (variance, cross, spread),
        (at, offset * sd),
        (at_square - at * at, (both - at * offset) * sd, (offset_square - offset**2) * spread),
    )


def _as_push(likelihood: float, before: Three, moved: tuple[float, float], after: Three) -> Push:
    """The gradient and curvature that lead from one covariance to another and move the means."""
    a, b, c = before
    size = a * c - b * b
    a, b, c = c / size, -b / size, a / size  # the inverse
    less = (after[0] - before[0], after[1] - before[1], after[2] - before[2])
    # Inverse times what was lost times inverse, element by element.
    p, q = a * less[0] + b * less[1], a * less[1] + b * less[2]
    r, t = b * less[0] + c * less[1], b * less[1] + c * less[2]
    gradient = (a * moved[0] + b * moved[1], b * moved[0] + c * moved[1])
    return Push(likelihood, gradient, (p * a + q * b, p * b + q * c, r * b + t * c))


def _taken(asked: Asked, gap: Array, variance: float) -> list[Three]:
    """For each row the likelihood, and slope and bend of its logarithm by the scalar's mean.

    Slips are left out of the derivatives: some number of reps is certain, so they add to the
    likelihood alone.
    """
    sd = np.sqrt(asked.noise + variance)
    z = gap / sd
    rows = len(z)
    bases = np.empty((3, rows, z.shape[1]))
    ndtr(z, bases[0])
    density = np.divide(np.exp(-0.5 * z * z), sd, bases[1])
    z /= sd
    np.multiply(density, z, bases[2])
    # Exactly t reps are those that pass the threshold of t and not the next.
    steps = asked.weights.copy()
    steps[:, 1:] -= asked.weights[:, :-1]
    sums: list[list[float]] = bases.reshape(3 * rows, -1).dot(steps.T).tolist()
    least, flattest = _LIKELIHOOD_LEAST / 10, (_KEEP_LEAST - 1.0) / variance
    found = []
    for row, slip in enumerate(asked.slips):
        likelihood = max(sums[row][row] + slip, least)
        slope = _PEAK * sums[rows + row][row] / likelihood
        curve = -_PEAK * sums[2 * rows + row][row] / likelihood - slope * slope
        found.append((likelihood, slope, max(curve, flattest)))
    return found
