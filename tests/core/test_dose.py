"""Counting sets as the research literature does."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from pennate.core.dose import CountedSet, dose_by_group, dose_by_part, effort_credit
from pennate.core.muscles import GROUP_SHARES, Group, Part
from pennate.core.performed import SetKind
from pennate.core.session_time import TimedSet, session_seconds


def _sets(count: int, **weights: str) -> list[CountedSet]:
    parts = {Part[name.upper()]: Fraction(value) for name, value in weights.items()}
    return [CountedSet(1.0, SetKind.WORKING, parts)] * count


def test_shares_of_a_group_sum_to_one() -> None:
    """A group's dose is a weighted mean, so that a part split in two changes nothing."""
    assert all(sum(shares.values()) == 1 for shares in GROUP_SHARES.values())


def test_fractional_sets_of_a_push_day() -> None:
    """4 bench, 3 overhead press, 3 push-downs give triceps 6.5, side shoulder 1.5, chest 4.

    Counting rule of Pelland 2024 (direct 1, indirect ½).
    """
    dose = dose_by_part(
        _sets(4, triceps="1/2", chest_stern="1")
        + _sets(3, triceps="1/2", delt_side="1/2")
        + _sets(3, triceps="1")
    )
    assert dose[Part.TRICEPS].value == 6.5
    assert dose[Part.DELT_SIDE].value == 1.5
    assert dose[Part.CHEST_STERN].value == 4


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


def test_minutes_of_seven_exercises() -> None:
    """7 × 3 × 10 reps with 90 s rest take 40.0 min at 2 s a rep and 43.5 at 3 s.

    Session times reported by Schoenfeld 2019 (about 40 minutes).
    """
    for pace, minutes in ((2, 40.0), (3, 43.5)):
        one = TimedSet(reps=10, rest_s=90, seconds_per_rep=pace, set_up_s=0)
        assert session_seconds(((one,) * 3,) * 7, changeover_s=120) / 60 == minutes
