"""The cycle: length, like days, notices."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.body.cycle import (
    alike,
    clinician_notices,
    cycle_day,
    cycle_length,
    lengths,
    next_start,
)
from tests.body.rows import on


def starts(*days_between: int) -> list[date]:
    """First days so many days apart, from the first day on."""
    found, day = [on(0)], 0
    for gap in days_between:
        day += gap
        found.append(on(day))
    return found


def test_nothing_logged_gives_everybodys_length() -> None:
    """29.3 days, 80 % within 1.28 × 3.4."""
    length = cycle_length([on(0)])
    assert length.middle == pytest.approx(29.3)
    assert length.cycles == 0
    assert length.high - length.middle == pytest.approx(1.2816 * 3.41, abs=0.05)


def test_her_own_cycles_take_over() -> None:
    """Ten cycles of 26 days: near 26, and surer than before."""
    length = cycle_length(starts(*[26] * 10))
    assert length.middle == pytest.approx(26, abs=0.7)
    assert length.high - length.low < cycle_length([on(0)]).high - cycle_length([on(0)]).low


def test_a_forgotten_entry_is_no_long_cycle() -> None:
    """28, 28, 56, 28: the 56 counts as one not logged."""
    length = cycle_length(starts(28, 28, 56, 28))
    assert (length.cycles, length.skipped) == (3, 1)
    assert length.middle < 30


def test_next_start_is_a_span() -> None:
    """The next period is named by two dates about four weeks on."""
    low, high = next_start(starts(28, 29, 28))
    assert low < on(28 + 29 + 28 + 28) < high


def test_cycle_days_and_like_days() -> None:
    """Day 1 is the first day; days within three of each other are alike across cycles."""
    logged = starts(28, 28)
    assert (cycle_day(on(0), logged), cycle_day(on(29), logged)) == (1, 2)
    assert alike(on(3), on(30), logged) is True
    assert alike(on(3), on(42), logged) is False
    assert alike(on(-5), on(3), logged) is None


@pytest.mark.parametrize("gaps", [(20, 21, 22), (40, 41, 42)])
def test_cycles_out_of_range_twice(gaps: tuple[int, ...]) -> None:
    """Shorter than 24 or longer than 38 days (FIGO, from memory), twice of the last three."""
    logged = starts(*gaps)
    notices = clinician_notices(logged, logged[-1])
    assert "worth a clinician's look" in notices[0]


def test_few_periods_in_a_year() -> None:
    """Eight periods in a year of logging (textbook list: fewer than nine)."""
    logged = starts(*[46] * 8)
    assert any("in a year" in notice for notice in clinician_notices(logged, logged[-1]))


def test_long_bleeding() -> None:
    """More than seven days."""
    assert clinician_notices(starts(28), on(30), bleeding_days=8)
    assert not clinician_notices(starts(28), on(30), bleeding_days=7)


@given(st.lists(st.integers(15, 85), max_size=30))
def test_length_is_never_absurd(gaps: list[int]) -> None:
    """Whatever is logged, the middle lies within what was logged or everybody's."""
    logged = starts(*gaps)
    length = cycle_length(logged)
    assert min([*lengths(logged), 29]) <= length.middle <= max([*lengths(logged), 30])
    assert length.low < length.middle < length.high
