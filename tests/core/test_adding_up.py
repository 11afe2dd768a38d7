"""Rounded figures that add up: shares of a total, checked against sums by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.core.adding_up import adding_up


@pytest.mark.parametrize(
    ("values", "places", "told"),
    [
        ([1 / 3, 1 / 3, 1 / 3], 1, [0.4, 0.3, 0.3]),
        ([43.4, 39.4, 44.4], 0, [44.0, 39.0, 44.0]),
        ([2.0, 0.5], 1, [2.0, 0.5]),
        ([], 1, []),
    ],
)
def test_the_largest_rests_go_up(values: list[float], places: int, told: list[float]) -> None:
    """The largest remainder, worked out by hand: thirds of one are 0.4, 0.3 and 0.3."""
    assert adding_up(values, places) == told


@given(st.lists(st.floats(0, 100), min_size=1, max_size=12))
def test_the_told_figures_add_up_and_stay_near(values: list[float]) -> None:
    """Their sum is the rounded total, and none is off by a whole step."""
    told = adding_up(values, 1)
    assert round(sum(told), 6) == round(sum(values), 1)
    assert all(abs(a - b) <= 0.1 + 1e-9 for a, b in zip(told, values, strict=True))
