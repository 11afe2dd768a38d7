"""Counting sets as the research literature does."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from pennate.core.dose import CountedSet, dose_by_group, dose_by_part, effort_credit
from pennate.core.muscles import GROUP_SHARES, Group, Part
from pennate.core.performed import SetKind


def _sets(count: int, **weights: str) -> list[CountedSet]:
    parts = {Part[name.upper()]: Fraction(value) for name, value in weights.items()}
    return [CountedSet(1.0, SetKind.WORKING, parts)] * count


def test_shares_of_a_group_sum_to_one() -> None:
    """A group's dose is a weighted mean, so that a part split in two changes nothing."""
    assert all(sum(shares.values()) == 1 for shares in GROUP_SHARES.values())


def test_warm_ups_count_nothing_and_drops_are_a_range() -> None:
    """A ramp is no dose; a drop counts half, and the range says none to one."""
    weights = {Part.ABS: Fraction(1)}
    dose = dose_by_part(
        [CountedSet(1, SetKind.WARM_UP, weights), CountedSet(1, SetKind.DROP, weights)]
    )[Part.ABS]
    assert (dose.low, dose.value, dose.high) == (0, 0.5, 1)


def test_left_and_right_are_one_set() -> None:
    """A row a side makes one set of dose, as the two sides are each trained once."""
    half = CountedSet(1.0, SetKind.WORKING, {Part.GLUTE_MAX: Fraction(1)}, sides=0.5)
    assert dose_by_part([half, half])[Part.GLUTE_MAX].value == 1


@given(st.floats(0, 10), st.floats(0, 10))
def test_credit_never_rises_with_reserve(a: float, b: float) -> None:
    """Stopping earlier never counts more."""
    low, high = sorted((a, b))
    assert 0 <= effort_credit(high) <= effort_credit(low) <= 1


def test_groups_weigh_their_parts() -> None:
    """Three straight-knee calf raises and three bent-knee ones: 3·0.48 + 6·0.52 fractional sets."""
    dose = dose_by_group(
        dose_by_part(_sets(3, gastrocnemius="1", soleus="1") + _sets(3, soleus="1"))
    )
    assert abs(dose[Group.CALVES].value - (3 * 0.48 + 6 * 0.52)) < 1e-12
