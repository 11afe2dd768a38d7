"""A better week of hers keeps most of it: what a good coach would change (common practice)."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pennate.app.book import Book
from pennate.app.planning import Asking, Planned, impossible_in, kinds_of, plan_week
from pennate.app.week_brief import brief_of, known_wishes
from pennate.app.week_log import pace_of
from pennate.app.week_plan import open_ceilings, unfit_for
from pennate.core.brief import Brief
from pennate.core.evidence.planner import MOVE_COST, NEAR_TIMES
from pennate.core.muscles import Group
from pennate.core.prescribed import Week
from pennate.core.week_dose import week_dose
from pennate.core.week_time import day_minutes
from pennate.plan.build import Setting, set_aside, usable

LIFTS = {"hip_thrust", "back_squat_free", "leg_press", "romanian_deadlift", "shoulder_press"}
"""What a lifter who puts glutes and shoulders first is not advised to drop."""
EASY = {"knee_push_up", "push_up", "body_weight_squat", "nordic_curl"}
"""Far too light, or far too heavy, for sets of eight to twelve of a lifter of some years."""


def _week(book: Book) -> Week:
    week = book.week()
    assert week is not None
    return week


def _brief(book: Book) -> Brief:
    brief = brief_of(known_wishes(book), book.catalogue, [gym.id for gym in book.gyms()])
    return replace(brief, ceilings=open_ceilings(brief, _week(book), book.catalogue))


def _planned(book: Book) -> Planned:
    brief, gym = _brief(book), book.gym()
    asking = Asking(
        kinds=kinds_of(gym),
        lost=impossible_in(gym, book.catalogue),
        unfit=unfit_for(book, brief, gym),
        current=_week(book),
        churn=float(NEAR_TIMES),
        moving=float(MOVE_COST),
        pace=pace_of(book),
        with_more=False,
    )
    return plan_week(brief, book.catalogue, asking)


def _names(week: Week) -> set[str]:
    return {asked.exercise for day in week.days for asked in day.exercises}


def _minutes(book: Book, week: Week) -> float:
    return sum(day_minutes(day, book.catalogue, pace_of(book)).value for day in week.days)


def test_the_prefilled_brief_gives_her_week_back_better(demo_book: Book) -> None:
    """Her lifts stay, most on their days; no beginner's exercise; no time that was not asked."""
    hers, found = _week(demo_book), _planned(demo_book)
    week = found.week
    assert _names(week) >= LIFTS
    assert not _names(week) & EASY
    assert len(_names(hers) - _names(week)) <= 3
    assert len(_names(week) - _names(hers)) <= 3
    places = [{(d.day, a.exercise) for d in one.days for a in d.exercises} for one in (hers, week)]
    assert len(places[0] & places[1]) >= 0.75 * len(places[0])
    # Five minutes of rounding a day, for five days.
    assert _minutes(demo_book, week) <= _minutes(demo_book, hers) + 25
    now, then = (week_dose(one, demo_book.catalogue).groups for one in (hers, week))
    assert then[Group.GLUTES].value >= now[Group.GLUTES].value - 0.5
    for group, most in _brief(demo_book).ceilings.items():
        assert then[group].value <= most + 1e-6
    assert any("far too light" in line for line in found.binding)


def test_the_prefilled_minutes_are_hers(demo_book: Book) -> None:
    """Each day as long as it is, to the next five minutes, within what she allows."""
    wishes = known_wishes(demo_book)
    for day in _week(demo_book).days:
        if not day.rest:
            takes = day_minutes(day, demo_book.catalogue, pace_of(demo_book)).value
            asked = int(wishes.days[day.day])
            assert asked <= (day.minutes or 300)
            assert asked - 5 < takes <= asked or asked == day.minutes


def test_groups_left_open_stay_about_as_they_are(demo_book: Book) -> None:
    """A ceiling of what she has, or ten sets where that is more; none for what she asks for."""
    brief, week = _brief(demo_book), _week(demo_book)
    now = week_dose(week, demo_book.catalogue).groups
    assert Group.CHEST in brief.ceilings
    assert not set(brief.ceilings) & {*brief.targets, *brief.priorities}
    for group, most in brief.ceilings.items():
        assert most == pytest.approx(max(10.0, now[group].value))


def test_unfit_stays_where_nothing_else_trains_the_part(demo_book: Book) -> None:
    """With body weight alone push-ups remain; with a bar and a bench they are set aside."""
    brief, catalogue = _brief(demo_book), demo_book.catalogue
    unfit = unfit_for(demo_book, brief, demo_book.gym())
    assert unfit >= {"push_up", "knee_push_up", "body_weight_squat"}
    full = Setting(kinds=kinds_of(demo_book.gym()), unfit=unfit)
    assert {"push_up", "knee_push_up"} <= {one.id for one in set_aside(brief, catalogue, full)}
    bare = replace(full, kinds=kinds_of(None, [catalogue["push_up"].equipment[0]]))
    assert "push_up" in {one.id for one in usable(brief, catalogue, bare)}


def test_a_beginner_keeps_what_is_not_known_of_her(demo_book: Book) -> None:
    """Of a beginner only exercises that she has done are judged: push-ups may be right for her."""
    novice = replace(_brief(demo_book), years=None)
    assert "push_up" not in unfit_for(demo_book, novice, demo_book.gym())
