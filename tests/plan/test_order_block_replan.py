"""Order within a day, blocks of weeks, and the rest of a week after something happened."""

from __future__ import annotations

from itertools import permutations
from pathlib import Path

import pytest

from pennate.app.planning import replan_week
from pennate.core.exercise import EquipmentKind
from pennate.core.muscles import Group, Joint
from pennate.core.prescribed import Week
from pennate.core.week_dose import set_credit, week_dose
from pennate.core.week_time import day_minutes
from pennate.errors import InputError, NoAnswerError
from pennate.files.catalogue import read_catalogue
from pennate.files.week import read_week
from pennate.plan.block import Ramp, block
from pennate.plan.order import Stop, best_order, order_cost
from pennate.plan.replan import Happened
from tests.plan.floor import FLOOR, day, sets, week

CATALOGUE = read_catalogue()


@pytest.fixture(scope="module")
def five_days() -> Week:
    """A shipped week of five days."""
    folder = Path(__file__).parents[2] / "src" / "pennate" / "data" / "weeks"
    return read_week(folder / "5_days.toml", CATALOGUE)


def test_order_is_the_best_of_all() -> None:
    """The order found costs no more than any permutation."""
    names = ("curl", "romanian", "pull_up", "bench", "side_raise", "crunch")
    stops = [Stop((FLOOR[name],)) for name in names]
    found = order_cost(best_order(stops, (Group.CHEST,)), stops, (Group.CHEST,))
    costs = (order_cost(one, stops, (Group.CHEST,)) for one in permutations(range(len(names))))
    assert found == pytest.approx(min(costs))


def test_priorities_and_big_lifts_come_first() -> None:
    """A priority's lift leads, isolation follows."""
    stops = [Stop((FLOOR[name],)) for name in ("curl", "squat", "bench")]
    assert best_order(stops, (Group.CHEST,))[0] == 2
    assert best_order(stops, ())[-1] == 0


def test_a_missed_day_keeps_most_of_the_dose(five_days: Week) -> None:
    """Monday done, Tuesday missed: done days stay, minutes hold, four fifths of the dose stay."""
    found = replan_week(
        five_days, Happened(missed=frozenset({"Tuesday"}), done=frozenset({"Monday"})), CATALOGUE
    )
    new = found.week.day("Tuesday")
    assert new is not None
    assert new.rest
    assert found.week.day("Monday") == five_days.day("Monday")
    assert sum(found.kept.values()) > 0.8 * sum(found.before.values())
    for one in found.week.days:
        old = five_days.day(one.day)
        assert old is not None
        most = max(old.minutes or 0, day_minutes(old, CATALOGUE).value + 5)
        assert one.rest or day_minutes(one, CATALOGUE).value <= most + 1e-6


def test_nothing_happened_changes_nothing(five_days: Week) -> None:
    """The smallest change of all is none."""
    found = replan_week(five_days, Happened(), CATALOGUE)
    assert found.changes == ()
    assert week_dose(found.week, CATALOGUE) == week_dose(five_days, CATALOGUE)


def test_a_sore_knee_replaces_what_loads_it(five_days: Week) -> None:
    """No exercise loads the knee beyond its limit, and each change is said."""
    found = replan_week(five_days, Happened(joint_limits={Joint.KNEE: 1}), CATALOGUE)
    levels = [
        CATALOGUE[asked.exercise].joints.get(Joint.KNEE, 0)
        for one in found.week.days
        for asked in one.exercises
    ]
    assert max(levels) <= 1
    assert any("instead of Back squat" in line for line in found.changes)


def test_a_travel_kit_is_enough(five_days: Week) -> None:
    """With dumbbells, bands and body weight every exercise can be done."""
    kinds = frozenset({EquipmentKind.DUMBBELLS, EquipmentKind.BANDS, EquipmentKind.BODY_WEIGHT})
    found = replan_week(five_days, Happened(kinds=kinds), CATALOGUE)
    for one in found.week.days:
        for asked in one.exercises:
            assert CATALOGUE[asked.exercise].kinds_in(kinds)


def test_less_time_is_kept_to(five_days: Week) -> None:
    """Thirty minutes on Monday are thirty minutes; other days stay within theirs."""
    found = replan_week(five_days, Happened(minutes={"Monday": 30}), CATALOGUE)
    monday = found.week.day("Monday")
    assert monday is not None
    assert day_minutes(monday, CATALOGUE).value <= 30 + 1e-6


def test_unknown_days_and_empty_weeks_are_said(five_days: Week) -> None:
    """A day outside the week is wrong input; a week with no day left has no answer."""
    small = week(day("Monday", ("curl", sets(2))))
    with pytest.raises(InputError, match="no Friday"):
        replan_week(small, Happened(missed=frozenset({"Friday"})), FLOOR)
    with pytest.raises(NoAnswerError, match="no training day is left"):
        replan_week(small, Happened(missed=frozenset({"Monday"})), FLOOR)


def test_a_block_ramps_effort() -> None:
    """Six weeks: reserve falls toward what is asked, and the last week is lighter."""
    base = week(day("Monday", ("curl", sets(4, reserve=1))))
    made = block(base, FLOOR, weeks=6, lighter=True)
    reserves = [w.days[0].exercises[0].sets[0].reserve for w in made.weeks]
    lows = [span.low for span in reserves if span is not None]
    assert lows == [3, 3, 2, 2, 1, 3]
    assert made.weeks[-1].days[0].exercises[0].sets[0].count == 2
    assert "habit" in made.note


def test_a_block_ramps_sets() -> None:
    """Sets rise by one in the middle and one at the end; the expected gain has a spread."""
    base = week(day("Monday", ("curl", sets(3))))
    made = block(base, FLOOR, weeks=6, ramp=Ramp.SETS)
    counts = [w.days[0].exercises[0].sets[0].count for w in made.weeks]
    assert counts == [3, 3, 4, 4, 5, 5]
    gain = made.expected[Group.BICEPS]
    assert 0 < gain.low < gain.median < gain.high
    assert set_credit(made.weeks[0].days[0].exercises[0].sets[0]) == 1
