"""Shares and changes in words; the typography is common practice of British print."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.core.percent import chance, percent, signed, signed_percent, signed_span


@pytest.mark.parametrize(
    ("value", "words"), [(-0.04, "0.0"), (0.0, "0.0"), (0.04, "0.0"), (-0.06, "−0.1"), (1, "+1.0")]
)
def test_what_rounds_to_nought_has_no_sign(value: float, words: str) -> None:
    """No “−0.0”, and a real minus."""
    assert signed(value) == words


@pytest.mark.parametrize(
    ("probability", "words"),
    [
        (1.0, "over 99 %"),
        (0.996, "over 99 %"),
        (0.5, "50 %"),
        (0.004, "under 1 %"),
        (0, "under 1 %"),
    ],
)
def test_no_chance_is_certain(probability: float, words: str) -> None:
    """Neither 100 % nor 0 % is ever said of a forecast."""
    assert chance(probability) == words


@given(st.floats(0, 1))
def test_no_forecast_is_said_to_be_sure(probability: float) -> None:
    """Whatever the forecast."""
    assert chance(probability) not in {"100 %", "0 %"}


def test_a_space_before_the_sign() -> None:
    """As in SI print: the sign of per cent stands apart."""
    assert (percent(0.123), percent(0.123, 1)) == ("12 %", "12.3 %")
    assert signed_percent(-0.021) == "−2.1 %"


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (0.21, 1.24, "+0.2 to +1.2"),
        (-0.31, 0.02, "−0.3 to 0.0"),
        (0.03, 0.97, "+0.03 to +0.97"),
        (-1.2, -0.004, "−1.200 to −0.004"),
        (0.0, 1.0, "0.0 to +1.0"),
        (1e-9, 1.0, "0.0000 to +1.0000"),
    ],
)
def test_an_interval_that_leaves_out_nought_is_printed_so(
    low: float, high: float, words: str
) -> None:
    """“Growing” never stands beside an interval that begins at 0.0."""
    assert signed_span(low, high) == words
