"""A better week of hers keeps most of it: what a good coach would change (common practice)."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pennate.app.book import Book
from pennate.app.planning import Planned, kinds_of
from pennate.app.week_asked import misfits_for, plan_asked
from pennate.app.week_brief import known_wishes
from pennate.app.week_log import pace_of
from pennate.app.week_plan import asked_by_form
from pennate.core.brief import Brief
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
    return asked_by_form(book, known_wishes(book)).brief


def _planned(book: Book) -> Planned:
    asked = asked_by_form(book, known_wishes(book))
    return plan_asked(replace(asked, asking=replace(asked.asking, with_more=False)))


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
    # Only what she types changes the minutes that she has.
    assert {d.day: d.minutes for d in week.days} == {
        d.day: d.minutes for d in hers.days if not d.rest
    }


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
    unfit = set(misfits_for(demo_book, brief, demo_book.gym(), catalogue))
    assert unfit >= {"push_up", "knee_push_up", "body_weight_squat"}
    full = Setting(kinds=kinds_of(demo_book.gym()), unfit=unfit)
    assert {"push_up", "knee_push_up"} <= {one.id for one in set_aside(brief, catalogue, full)}
    bare = replace(full, kinds=kinds_of(None, [catalogue["push_up"].equipment[0]]))
    assert "push_up" in {one.id for one in usable(brief, catalogue, bare)}


def test_a_beginner_keeps_what_is_not_known_of_her(demo_book: Book) -> None:
    """Of a beginner only exercises that she has done are judged: push-ups may be right for her."""
    novice = replace(_brief(demo_book), years=None)
    gym, catalogue = demo_book.gym(), demo_book.catalogue
    assert "push_up" not in misfits_for(demo_book, novice, gym, catalogue)
