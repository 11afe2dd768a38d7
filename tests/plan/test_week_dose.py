"""Dose, effect and gaps of a written week."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.core.exercise import Catalogue, Confidence, Involvement
from pennate.core.muscles import Group, Joint, Part
from pennate.core.performed import SetKind
from pennate.core.prescribed import PrescribedExercise, PrescribedSets, Span
from pennate.core.week_dose import (
    counted_sets,
    day_joint_load,
    gaps,
    hours_between,
    set_credit,
    week_dose,
)
from pennate.core.week_effect import (
    compare_weeks,
    effect_of,
    group_benefits,
    part_benefit,
    session_worth,
)
from tests.plan.floor import FLOOR, day, sets, to_failure, week


def test_a_set_counts_by_effort_not_by_label() -> None:
    """Full at 0–3 in reserve, nothing at six or more (stated common practice)."""
    assert set_credit(to_failure(1)) == 1
    assert set_credit(sets(1, reserve=3)) == 1
    assert set_credit(sets(1, reserve=6)) == 0
    assert set_credit(sets(1, kind=SetKind.WARM_UP)) == 0
    assert set_credit(sets(1, kind=SetKind.BACK_OFF, reserve=4)) == pytest.approx(2 / 3)


def test_a_range_of_reserve_counts_its_mean() -> None:
    """Asking for 3 to 5 in reserve counts the mean of 1, ⅔ and ⅓."""
    assert set_credit(sets(1)) == 1
    asked = PrescribedSets(reserve=Span(3, 5))
    assert set_credit(asked) == pytest.approx(2 / 3)


def test_an_open_effort_takes_the_forecast() -> None:
    """Where she says nothing about effort, the forecast's probability counts."""
    asked = PrescribedExercise(exercise="curl", sets=(PrescribedSets(count=2),))
    counted = counted_sets(FLOOR["curl"], asked, lambda _e, _s: 0.25)
    assert [one.credit for one in counted] == [0.25, 0.25]


def test_drops_are_a_range() -> None:
    """Two drops count one set, and the range says none to two."""
    asked = PrescribedExercise(exercise="curl", sets=(to_failure(1), to_failure(2, SetKind.DROP)))
    dose = week_dose(week(day("Monday", asked)), FLOOR).groups[Group.BICEPS]
    assert (dose.low, dose.value, dose.high) == (1, 2, 3)


def test_one_sided_sets_count_once() -> None:
    """Three sets a side are three sets of dose."""
    dose = week_dose(week(day("Monday", ("split_squat", sets(3)))), FLOOR)
    assert dose.groups[Group.GLUTES].value == 3


def test_splitting_a_part_changes_no_group() -> None:
    """A press that hits all three shoulder parts alike counts as if shoulders were one part."""
    even = dict.fromkeys(
        (Part.DELT_FRONT, Part.DELT_SIDE, Part.DELT_REAR),
        Involvement(Fraction(1), Confidence.ANATOMICAL),
    )
    whole = replace(FLOOR["press"], involvement=even)
    dose = week_dose(week(day("Monday", ("press", sets(5)))), Catalogue.of((whole,)))
    assert dose.groups[Group.SHOULDERS].value == pytest.approx(5)
    assert group_benefits(dose)[Group.SHOULDERS] == pytest.approx(part_benefit([5.0]))


def test_own_exercises_are_known() -> None:
    """A week carries its own exercises; no catalogue entry is needed."""
    own = replace(FLOOR["curl"], id="my_curl", own=True)
    dose = week_dose(week(day("Monday", ("my_curl", sets(2))), own_exercises=(own,)), FLOOR)
    assert dose.groups[Group.BICEPS].value == 2


def test_joint_load_is_sets_times_level() -> None:
    """Four squats at knee 2 and three leg extensions at 2 are 14; easy sets count less."""
    load = day_joint_load(day("Monday", ("squat", sets(4)), ("leg_extension", sets(3))), FLOOR)
    assert load[Joint.KNEE] == 14
    assert load[Joint.LUMBAR] == 12


def test_hours_wrap_into_the_next_week() -> None:
    """Monday and Thursday: 72 hours, then 96 to the next Monday; one day a week: 168."""
    dose = week_dose(
        week(day("Monday", ("curl", sets(2))), day("Thursday", ("curl", sets(2)))), FLOOR
    )
    assert [gap.hours for gap in gaps(dose)[Group.BICEPS]] == [72, 96]
    assert hours_between("Friday", "Friday") == 168
    assert gaps(dose)[Group.QUADS] == ()


def test_square_root_curve() -> None:
    """B 1.68: 4 sets 3.36, 10 sets 5.31, 20 sets 7.51 % (check 37), before saturation."""
    for dose, percent in ((4, 3.36), (10, 5.31), (20, 7.51)):
        assert effect_of(math.sqrt(dose), trained=False).median == pytest.approx(percent, abs=0.01)


@given(st.floats(0, 40), st.floats(0, 40))
def test_benefit_is_concave(a: float, b: float) -> None:
    """The middle of two doses is worth at least the mean of both: no inverted U."""
    middle = part_benefit([(a + b) / 2])
    assert middle >= (part_benefit([a]) + part_benefit([b])) / 2 - 1e-9
    assert session_worth(max(a, b)) >= session_worth(min(a, b))


@given(st.floats(0.5, 30))
def test_spreading_costs_nothing(dose: float) -> None:
    """Two sessions are never worth less than one; up to 8 sets the difference is below 4 %.

    With weekly sets equal, frequency shows no meaningful effect (Schoenfeld 2019).
    """
    once, twice = part_benefit([dose]), part_benefit([dose / 2, dose / 2])
    assert once <= twice <= 2**0.5 * once
    assert dose > 8 or twice <= 1.04 * once


def test_weeks_compare_by_difference_with_a_wide_range() -> None:
    """10 to 20 sets is a small, uncertain gain; the same week differs by nothing."""
    ten = week_dose(
        week(day("Monday", ("curl", sets(5))), day("Thursday", ("curl", sets(5)))), FLOOR
    )
    more = week_dose(
        week(day("Monday", ("curl", sets(10))), day("Thursday", ("curl", sets(10)))), FLOOR
    )
    gain = compare_weeks(more, ten)[Group.BICEPS]
    assert 0 < gain.low < gain.median < gain.high < 2.2
    assert compare_weeks(ten, ten)[Group.BICEPS].median == 0
    loss = compare_weeks(ten, more)[Group.BICEPS]
    assert (loss.low, loss.high) == (-gain.high, -gain.low)
