"""Published 1RM equations as definitions (loads evidence, section 8, checks 1–3 and 19)."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.core.rep_equations import (
    brzycki,
    epley,
    reserve_from_rpe,
    rpe_from_reserve,
    within_equations,
)
from pennate.errors import InputError, NoAnswerError

Equation = Callable[[float, int], float]


@pytest.mark.parametrize(("reps", "maximum"), [(10, 133.33), (5, 116.67), (1, 100.0)])
def test_epley(reps: int, maximum: float) -> None:
    """Check 1, the formula from memory as a definition; a single is its own maximum."""
    assert epley(100, reps) == pytest.approx(maximum, abs=0.005)


@pytest.mark.parametrize(("reps", "maximum"), [(10, 133.33), (1, 100.0), (20, 211.76)])
def test_brzycki(reps: int, maximum: float) -> None:
    """Check 2, the formula from memory as a definition."""
    assert brzycki(100, reps) == pytest.approx(maximum, abs=0.005)


@pytest.mark.parametrize("reps", [37, 38, 100])
def test_brzycki_refuses_where_it_has_no_value(reps: int) -> None:
    """Check 2: from 37 reps on the formula is infinite or negative, so it gives no answer."""
    with pytest.raises(NoAnswerError, match="no value"):
        brzycki(100, reps)


@pytest.mark.parametrize("equation", [epley, brzycki])
def test_a_set_without_a_rep_has_no_answer(equation: Equation) -> None:
    """A missed single must not become a maximum."""
    with pytest.raises(NoAnswerError):
        equation(100, 0)


def test_the_equations_meet_at_ten() -> None:
    """Check 3: they cross at ten reps."""
    assert abs(epley(100, 10) - brzycki(100, 10)) < 0.01


@given(st.integers(2, 36), st.floats(1, 400))
def test_which_is_higher_on_which_side_of_ten(reps: int, load: float) -> None:
    """Check 3: Epley is higher below ten reps, Brzycki above (a single is special-cased)."""
    difference = epley(load, reps) - brzycki(load, reps)
    if reps < 10:
        assert difference > 0
    if reps > 10:
        assert difference < 0


@given(st.sampled_from([epley, brzycki]), st.integers(1, 35), st.floats(1, 400))
def test_more_reps_mean_a_higher_maximum(equation: Equation, reps: int, load: float) -> None:
    """Both grow with reps and are never below the load itself."""
    assert load <= equation(load, reps) < equation(load, reps + 1)


def test_where_the_equations_were_meant_to_be_used() -> None:
    """Reynolds 2006: at most ten reps."""
    assert [within_equations(reps) for reps in (0, 1, 10, 11)] == [False, True, True, False]


@pytest.mark.parametrize(("rpe", "reserve"), [(10, 0), (9, 1), (8, 2), (7, 3)])
def test_effort_and_reserve(rpe: int, reserve: int) -> None:
    """Check 19: 10 is 0, 9 is 1, 8 is 2, 7 is 3, and back (Zourdos 2016)."""
    assert reserve_from_rpe(rpe) == reserve
    assert rpe_from_reserve(reserve) == rpe


def test_the_ends_of_the_effort_scale() -> None:
    """9.5 is no more reps, 4 and below is six or more (half points from memory)."""
    assert reserve_from_rpe(9.5) == 0
    assert reserve_from_rpe(8.5) == 1.5
    assert reserve_from_rpe(2) == 6


@pytest.mark.parametrize("rpe", [0, 0.9, 10.5, -3, float("nan")])
def test_an_effort_outside_the_scale_is_refused(rpe: float) -> None:
    """A percentage or a reserve in the wrong column is not taken for an effort."""
    with pytest.raises(InputError, match="1 to 10"):
        reserve_from_rpe(rpe)


def test_a_negative_reserve_is_refused() -> None:
    """Nothing is less than nothing left."""
    with pytest.raises(InputError):
        rpe_from_reserve(-1)
