"""Girth, area and volume against published worked values and geometry."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.body.translate import (
    area_cm2,
    area_ratio,
    girth_cm,
    muscle_change,
    volume_cm3,
)

GIRTHS = st.floats(15, 120)


def test_a_third_more_girth_is_four_fifths_more_area() -> None:
    """Geometry: (4/3)² = 1.78, the claim a lifter may want to judge."""
    assert area_ratio(4 / 3) == pytest.approx(1.78, abs=0.01)


def test_muscle_change_tells_both_readings() -> None:
    """More muscle is inferred when fat kept its area than when it kept its thickness."""
    change = muscle_change(28, 29, 18)
    assert change.area_held == pytest.approx(area_cm2(29) - area_cm2(28))
    assert 0 < change.thickness_held < change.area_held
    assert change.before == pytest.approx(39.73, abs=0.01)


@given(GIRTHS)
def test_area_and_girth_are_inverse(girth: float) -> None:
    """Area to girth and back is the same girth."""
    assert girth_cm(area_cm2(girth)) == pytest.approx(girth)


@given(GIRTHS, st.floats(1, 60))
def test_volume_of_an_even_limb_is_area_times_length(girth: float, length: float) -> None:
    """A cone of equal ends is a cylinder."""
    assert volume_cm3(girth, girth, length) == pytest.approx(girth**2 / (4 * pi) * length)
