"""The one update against numerical integration."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.special import ndtr
from scipy.stats import norm

from pennate.estimate.curve import MOST_REPS, thresholds
from pennate.estimate.effort import at_least, exact
from pennate.estimate.update import Asked, push

CURVE = thresholds(math.log(0.0255), 1.0)
NOISE = (0.02 + 0.0 * CURVE.at) ** 2


def _asked(level: float, weights: np.ndarray) -> Asked:
    return Asked(level - CURVE.at, NOISE, weights[None, :], [0.0], 0.0, 0.0)


def _integrated(level: float, variance: float, weights: np.ndarray) -> tuple[float, float, float]:
    def likelihood(s: float) -> float:
        passed = ndtr((s - CURVE.at) / np.sqrt(NOISE))
        pmf = passed - np.append(passed[1:], 0.0)
        return float(weights @ pmf) * float(norm.pdf(s, level, math.sqrt(variance)))

    span = 7 * math.sqrt(variance)
    points = np.linspace(level - span, level + span, 40)
    mass = first = second = 0.0
    for low, high in itertools.pairwise(points):
        mass += quad(likelihood, low, high)[0]
        first += quad(lambda s: s * likelihood(s), low, high)[0]
        second += quad(lambda s: s * s * likelihood(s), low, high)[0]
    mean = first / mass
    return mass, mean, second / mass - mean * mean


@pytest.mark.parametrize("weights", [exact(8), at_least(12), exact(8) + 0.3 * exact(9)])
@pytest.mark.parametrize("variance", [0.01, 0.0004])
def test_moments_equal_numerical_integration(weights: np.ndarray, variance: float) -> None:
    """Gradient and curvature give the posterior mean and variance of the level exactly."""
    found = push(_asked(-0.02, weights), variance)
    mass, mean, spread = _integrated(-0.02, variance, weights)
    assert found.likelihood == pytest.approx(mass, rel=1e-6)
    assert -0.02 + variance * found.gradient[0] == pytest.approx(mean, abs=1e-7)
    assert variance + variance**2 * found.curvature[0] == pytest.approx(spread, rel=1e-4)


@given(st.integers(0, 40), st.floats(-0.6, 0.6), st.floats(1e-4, 0.2))
@settings(max_examples=60, deadline=None)
def test_no_outcome_makes_a_variance_negative(reps: int, level: float, variance: float) -> None:
    """However surprising a set, what is left of the variance is positive."""
    found = push(_asked(level, exact(reps) + 1e-4), variance)
    assert variance + variance**2 * found.curvature[0] > 0
    assert math.isfinite(found.gradient[0])


def test_an_impossible_outcome_teaches_nothing() -> None:
    """Beyond the reach of floating point the belief stays as it was."""
    found = push(_asked(-3.0, exact(MOST_REPS)), 1e-4)
    assert found.gradient[0] == 0.0
    assert found.curvature[0] == 0.0
