"""The load–rep curve and its thresholds."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.core.evidence.strength import ANCHOR_REPS
from pennate.estimate import belief as b
from pennate.estimate import fit
from pennate.estimate.curve import REPS, log_load_gap, thresholds
from pennate.files.catalogue import read_catalogue
from tests.estimate.logs import asked, steady

CATALOGUE = read_catalogue()

SLOPES = st.floats(-4.6, -3.2)
SHAPES = st.floats(0.2, 1.8)


@given(SLOPES, SHAPES)
@settings(deadline=None)
def test_more_reps_need_more_capacity(slope: float, shape: float) -> None:
    """Thresholds rise with reps whatever the personal curve."""
    assert np.all(np.diff(thresholds(slope, shape).at) > 0)


@given(SLOPES, SHAPES)
@settings(deadline=None)
def test_the_anchor_is_where_the_curve_is_zero(slope: float, shape: float) -> None:
    """Strength is the load of the anchor's reps, so level and slope are told apart."""
    assert log_load_gap(ANCHOR_REPS, slope, shape) == pytest.approx(0.0, abs=1e-12)


@given(SLOPES, SHAPES, st.integers(2, 40))
@settings(deadline=None)
def test_derivative_by_shape_is_the_slope_of_the_threshold(
    slope: float, shape: float, reps: int
) -> None:
    """The stated derivative equals a difference quotient."""
    step = 1e-6
    there = thresholds(slope, shape)
    difference = (
        thresholds(slope, shape + step).at[reps] - thresholds(slope, shape - step).at[reps]
    ) / (2 * step)
    assert -there.turn(reps)[1] == pytest.approx(difference, rel=1e-4, abs=1e-7)


def test_shape_one_is_the_exponential() -> None:
    """With shape 1 the log load falls evenly with reps, as in Mitter 2023."""
    steps = np.diff(thresholds(math.log(0.0255), 1.0).at[1:])
    assert steps == pytest.approx(0.0255)


def test_thresholds_lie_half_a_rep_below() -> None:
    """At least t reps are done from t − ½ on, so that whole reps round to themselves."""
    at = thresholds(math.log(0.0255), 0.8).at
    for reps in (1, 5, 20):
        assert at[reps] == pytest.approx(log_load_gap(REPS[reps] - 0.5, math.log(0.0255), 0.8))


@pytest.mark.parametrize("slope", [400.0, -400.0])
def test_a_curve_that_cannot_be_stays_usable(slope: float) -> None:
    """Years of weights hung on a pull-up, logged under a name nobody knows, taught a slope beyond
    all bounds and ended in an error; now it is kept within ten times the usual.
    """
    model = fit(steady(), CATALOGUE).settled()
    block = model.resting["bench_press"]
    at = block.at.copy()
    at[b.OWN_SLOPE] = slope
    model.resting["bench_press"] = block._replace(at=at, by=np.zeros_like(block.by))
    assert np.all(np.isfinite(model.forecast(asked(kg=44.0)).quantiles))
    assert 1.0 < model.load_for(asked(kg=44.0), 8, 0.5) < 1e5
    assert model.estimate(asked(kg=44.0)).one_rep_kg < 1e5
