"""A day that is full says so in the minutes that stand beside it, and why it has no more."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from pennate.app.planning import Asking, plan_week
from pennate.core.brief import Brief, FreeDay
from pennate.core.muscles import Group
from pennate.core.prescribed import PlannedDay, Week
from pennate.core.week_time import Pace, day_minutes
from pennate.files.catalogue import read_catalogue
from pennate.plan.solve import Effort

CATALOGUE = read_catalogue()
LITTLE = Effort(first=3_000, steps=100, searches=1, splits=0)
PACE = Pace(factor=0.8, sessions=30)
BRIEF = Brief(
    name="Two days",
    days=(FreeDay("Monday", 40, given=False), FreeDay("Thursday", 45)),
    priorities=(Group.BACK,),
)
HERS = Week(name="hers", days=(PlannedDay(day="Monday", minutes=60), PlannedDay(day="Thursday")))


@pytest.mark.parametrize("pace", [Pace(), PACE], ids=["model", "hers"])
def test_what_is_left_and_what_it_takes_are_what_there_is(pace: Pace) -> None:
    """At her own pace too: minutes of the day and minutes left add up to those it says."""
    asking = Asking(effort=LITTLE, with_more=False, pace=pace)
    planned = plan_week(BRIEF, CATALOGUE, asking)
    lines = [line for line in planned.binding if " minutes are full" in line]
    assert lines
    for line in lines:
        found = re.match(r"(\w+): its (\d+) minutes are full(?:, (\d+) minutes? left)?$", line)
        assert found
        day = planned.week.day(found[1])
        assert day is not None
        takes = day_minutes(day, CATALOGUE, pace).value
        assert takes + int(found[3] or 0) == pytest.approx(int(found[2]), abs=0.8)


def test_a_day_filled_in_as_it_is_says_how_to_have_more() -> None:
    """40 minutes that the form filled in beside 60 wanted: why, and what to ask for."""
    asking = Asking(effort=LITTLE, with_more=False, pace=PACE, current=HERS)
    told = plan_week(BRIEF, CATALOGUE, asking).binding
    monday = next(line for line in told if line.startswith("Monday: the 40 minutes"))
    assert monday.endswith("; ask for the 60 you want to use them")
    given = replace(BRIEF, days=(FreeDay("Monday", 40), FreeDay("Thursday", 45)))
    assert not any("you want" in line for line in plan_week(given, CATALOGUE, asking).binding)
