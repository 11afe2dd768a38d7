"""The one update against numerical integration."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.special import ndtr
from scipy.stats import norm

from pennate.core.performed import Effort
from pennate.estimate import Outcome
from pennate.estimate.curve import MOST_REPS, thresholds
from pennate.estimate.effort import at_least, exact, reported
from pennate.estimate.settings import DEFAULTS
from pennate.estimate.update import Asked, push, rises_of

CURVE = thresholds(math.log(0.0255), 1.0)
NOISE = (0.02 + 0.0 * CURVE.at) ** 2


def _asked(level: float, weights: np.ndarray) -> Asked:
    return Asked(level - CURVE.at, NOISE, rises_of(weights[None, :]), 0.0, 0.0, 0.0)


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


REPORTED = Outcome(8, Effort.TWO)


def _both_on_a_grid(
    level: float, before: np.ndarray, reported_at: Callable[[float], np.ndarray]
) -> tuple[np.ndarray, np.ndarray]:
    """Means and covariance of level and offset after a report, by a fine grid over both."""
    places = np.linspace(-6.0, 6.0, 201)
    offset_sd = math.sqrt(before[1, 1])
    along = before[0, 1] / offset_sd
    left = math.sqrt(before[0, 0] - along * along)
    found = []
    for place in places:
        at = level + along * place + left * places
        passed = ndtr((at[:, None] - CURVE.at) / np.sqrt(NOISE))
        passed[:, 0] = 1.0
        pmf = passed - np.concatenate((passed[:, 1:], np.zeros((len(at), 1))), axis=1)
        likely = pmf @ reported_at(offset_sd * place) * norm.pdf(places) * norm.pdf(place)
        found += list(zip(likely, at, np.full(len(at), offset_sd * place), strict=True))
    table = np.array(found)
    weight = table[:, 0] / table[:, 0].sum()
    means = weight @ table[:, 1:]
    away = table[:, 1:] - means
    return means, (away.T * weight) @ away


@pytest.mark.parametrize("level", [-0.02, 0.05, -0.12])
@pytest.mark.parametrize("shared", [-0.1, 0.0, 0.4])
def test_a_report_moves_level_and_offset_as_a_grid_does(level: float, shared: float) -> None:
    """Mean and spread of strength and of her offset after “two left” are those of numerical
    integration over both, within a twentieth of an SD, as far as the two hang together in logs.
    """
    sd, offset_sd = 0.05, 0.3
    cross = shared * sd * offset_sd
    before = np.array([[sd * sd, cross], [cross, offset_sd**2]])
    rows = reported(REPORTED, DEFAULTS, guessed=False, honesty=1.0, offset=0.0, offset_sd=offset_sd)
    asked = Asked(level - CURVE.at, NOISE, rises_of(rows), 0.0, cross, offset_sd**2)
    found = push(asked, sd * sd)
    bend = np.array([found.curvature[:2], found.curvature[1:]])
    means = np.array([level, 0.0]) + before @ np.array(found.gradient)
    after = before + before @ bend @ before

    def at(offset: float) -> np.ndarray:
        one = reported(REPORTED, DEFAULTS, guessed=False, honesty=1.0, offset=offset, offset_sd=0.0)
        row: np.ndarray = one[0]
        return row

    true_means, true_after = _both_on_a_grid(level, before, at)
    sds = np.array([sd, offset_sd])
    assert np.abs(means - true_means) / sds == pytest.approx(np.zeros(2), abs=0.05)
    assert after / np.outer(sds, sds) == pytest.approx(true_after / np.outer(sds, sds), abs=0.05)
    assert np.all(np.linalg.eigvalsh(after) > 0)


@given(st.integers(0, 40), st.floats(-0.6, 0.6), st.floats(1e-4, 0.2))
@settings(max_examples=60, deadline=None)
def test_no_outcome_makes_a_variance_negative(reps: int, level: float, variance: float) -> None:
    """However surprising a set, what is left of the variance is positive."""
    found = push(_asked(level, exact(reps) + 1e-4), variance)
    assert variance + variance**2 * found.curvature[0] > 0
    assert math.isfinite(found.gradient[0])


@given(st.integers(0, MOST_REPS), st.floats(-0.6, 0.6), st.floats(1e-4, 0.2))
@settings(max_examples=60, deadline=None)
def test_one_possible_number_is_a_row_of_weights(reps: int, level: float, variance: float) -> None:
    """Failure, worked out at two thresholds alone, moves what the sum over all of them would."""
    asked = _asked(level, exact(reps))._replace(slip=1e-6)
    whole, short = push(asked, variance), push(asked._replace(exact=reps), variance)
    assert short.likelihood == pytest.approx(whole.likelihood, rel=1e-9)
    assert short.gradient == pytest.approx(whole.gradient, rel=1e-7, abs=1e-9)
    assert short.curvature == pytest.approx(whole.curvature, rel=1e-7, abs=1e-7)


def test_an_impossible_outcome_teaches_nothing() -> None:
    """Beyond the reach of floating point the belief stays as it was."""
    found = push(_asked(-3.0, exact(MOST_REPS)), 1e-4)
    assert found.gradient[0] == 0.0
    assert found.curvature[0] == 0.0
