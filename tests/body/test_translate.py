"""Girth, area and volume against published worked values and geometry."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.body.translate import (
    area_cm2,
    area_ratio,
    corrected_girth_cm,
    girth_after,
    girth_cm,
    girth_gain,
    lean_area_cm2,
    muscle_change,
    volume_cm3,
)

GIRTHS = st.floats(15, 120)


@pytest.mark.parametrize(
    ("girth", "fold", "area"),
    [(28, 18, 39.73), (30, 10, 57.41)],
)
def test_lean_area_of_an_arm(girth: float, fold: float, area: float) -> None:
    """(C − π·T)²/4π, Gurney & Jelliffe 1973; values worked by hand. T in mm must become cm."""
    assert lean_area_cm2(girth, fold) == pytest.approx(area, abs=0.01)


def test_corrected_girth() -> None:
    """Girth less π × skinfold (anthropometric standard): 28 cm and 18 mm make 22.345 cm."""
    assert corrected_girth_cm(28, 18) == pytest.approx(22.345, abs=0.001)


def test_one_per_cent_of_girth_is_two_of_area() -> None:
    """Geometry: 1.01² = 1.0201."""
    assert area_ratio(1.01) == pytest.approx(1.0201, abs=1e-9)


def test_a_third_more_girth_is_four_fifths_more_area() -> None:
    """Geometry: (4/3)² = 1.78, the claim a lifter may want to judge."""
    assert area_ratio(4 / 3) == pytest.approx(1.78, abs=0.01)


def test_ten_per_cent_of_quadriceps_on_a_thigh() -> None:
    """58 cm² of quadriceps, 10 % more, on 55 cm: +0.659 cm (worked by hand, round limb)."""
    assert girth_after(55, 5.8) - 55 == pytest.approx(0.659, abs=0.005)


def test_what_fat_did_changes_the_girth_gained() -> None:
    """33 cm² of arm muscle, 10 % more, 28 cm and 18 mm: +0.74 (fat area held), +0.92 cm."""
    by_area, by_thickness = girth_gain(28, 18, 3.3)
    assert by_area == pytest.approx(0.74, abs=0.015)
    assert by_thickness == pytest.approx(0.92, abs=0.015)


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
