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

from pennate.estimate.curve import MOST_REPS, Array

Three = tuple[float, float, float]

_HALF_ROOT = math.sqrt(0.5)
_PEAK = 1.0 / math.sqrt(2.0 * math.pi)
_LIKELIHOOD_LEAST = 1e-12
_KEEP_LEAST = 1e-9
_PLACE = math.sqrt(3.0)
PLACES: Array = np.array((0.0, _PLACE, -_PLACE))
"""Places of the report's offset, in SDs from what is believed of it; the first is that itself."""
_DOWN: Array = PLACES[:, None]
_USUAL, _FAR = 2 / 3, 1 / 6  # number: Gauss–Hermite; exact to the fifth power


class Asked(NamedTuple):
    """A set's outcome as the update sees it.

    `gap` is the scalar's mean less each threshold, `noise` the variance beside the scalar's.
    `rises` are of the weights over reps to failure, one row, or one for each of the offset's
    `PLACES` where her report tells of it; `slip` is added to every weight. `cross`
    and `spread` are the offset's covariance with the scalar and its variance. `exact` is the
    one number of reps that is possible, if it is one.
    """

    gap: Array
    noise: Array
    rises: Array
    slip: float
    cross: float
    spread: float
    exact: int | None = None


def rises_of(weights: Array) -> Array:
    """By how much each row of weights rises at each number of reps.

    Exactly t reps are those that pass the threshold of t and not the next; so these are
    what passing each threshold counts.
    """
    rises = weights.copy()
    later = rises[:, 1:]
    later -= weights[:, :-1]
    return rises


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
    if len(asked.rises) > 1:
        return _with_offset(asked, variance)
    if asked.exact is None:
        sums = _sums(asked, asked.gap[None, :], variance)[0]
    else:
        sums = _exact_sums(asked, asked.exact, variance)
    likelihood, slope, curve = _taken(sums, asked.slip, variance)
    if likelihood < _LIKELIHOOD_LEAST:
        return _NOTHING
    return Push(likelihood, (slope, 0.0), (curve, 0.0, 0.0))


def _with_offset(asked: Asked, variance: float) -> Push:
    """Moments of scalar and offset together, from the scalar's at each place of the offset."""
    cross, spread = asked.cross, asked.spread
    sd = math.sqrt(spread)
    along = cross / sd
    left = max(variance - along * along, _KEEP_LEAST)
    found = [
        _taken(sums, asked.slip, left) for sums in _sums(asked, asked.gap + along * _DOWN, left)
    ]
    (here, slope, curve), (up, up_slope, up_curve), (down, down_slope, down_curve) = found
    whole = _USUAL * here + _FAR * (up + down)
    if whole < _LIKELIHOOD_LEAST:
        return _NOTHING
    here, up, down = _USUAL * here / whole, _FAR * up / whole, _FAR * down / whole
    away = _PLACE * along
    at, at_up, at_down = left * slope, away + left * up_slope, left * down_slope - away
    mean = here * at + up * at_up + down * at_down
    offset = _PLACE * (up - down)
    square = here * at * at + up * at_up * at_up + down * at_down * at_down
    bend = here * curve + up * up_curve + down * down_curve
    return _as_push(
        whole,
        (variance, cross, spread),
        (mean, offset * sd),
        (
            left + left * left * bend + square - mean * mean,
            (_PLACE * (up * at_up - down * at_down) - mean * offset) * sd,
            (_PLACE * _PLACE * (up + down) - offset * offset) * spread,
        ),
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


def _taken(sums: Three, slip: float, variance: float) -> Three:
    """The likelihood, and slope and bend of its logarithm by the scalar's mean.

    Slips are left out of the derivatives: some number of reps is certain, so they add to the
    likelihood alone.
    """
    passed, density, bend = sums
    likelihood = max(passed + slip, _LIKELIHOOD_LEAST / 10)
    slope = _PEAK * density / likelihood
    curve = -_PEAK * bend / likelihood - slope * slope
    return likelihood, slope, max(curve, (_KEEP_LEAST - 1.0) / variance)


def _sums(asked: Asked, gap: Array, variance: float) -> list[Three]:
    """For each row what passing the thresholds counts: probability, density, and its bend."""
    sd = np.sqrt(asked.noise + variance)
    z = gap / sd
    counts = asked.rises.T
    density = np.exp(z * z * -0.5)
    density /= sd
    passed = ndtr(z).dot(counts).tolist()
    slopes = density.dot(counts).tolist()
    z /= sd
    z *= density
    bends = z.dot(counts).tolist()
    return [(passed[row][row], slopes[row][row], bends[row][row]) for row in range(len(gap))]


def _exact_sums(asked: Asked, reps: int, variance: float) -> Three:
    """The same where one number of reps alone is possible: its threshold, less the next."""
    here = _at_threshold(asked, reps, variance)
    if reps == MOST_REPS:
        return here
    there = _at_threshold(asked, reps + 1, variance)
    return here[0] - there[0], here[1] - there[1], here[2] - there[2]


def _at_threshold(asked: Asked, reps: int, variance: float) -> Three:
    sd = math.sqrt(asked.noise.item(reps) + variance)
    z = asked.gap.item(reps) / sd
    density = math.exp(-0.5 * z * z) / sd
    return 0.5 * math.erfc(-z * _HALF_ROOT), density, density * z / sd
