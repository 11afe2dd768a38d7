"""The same brief by file and by form is the same question, and gives the same week."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner

from pennate.app.body_notes import save_morning
from pennate.app.book import Book
from pennate.app.planning import setting_of
from pennate.app.week_asked import Asked, asked_by_file, minutes_now, plan_asked
from pennate.app.week_brief import Wishes, keep_wishes, known_wishes
from pennate.app.week_log import pace_of
from pennate.app.week_plan import asked_by_form
from pennate.cli.week import register
from pennate.core.brief import JointLimit
from pennate.core.muscles import Group, Joint
from pennate.core.prescribed import WEEKDAYS, PlannedDay, Preferences, Week
from pennate.core.week_time import day_minutes, stops_of
from pennate.errors import InputError
from pennate.files.week_text import render_week
from pennate.plan.build import build_problem
from pennate.plan.evaluate import objective
from pennate.plan.hers import as_now
from pennate.plan.solve import Effort
from tests.app.conftest import NOW

APP = typer.Typer()
register(APP)
LITTLE = Effort(first=3_000, steps=100, searches=1, splits=0)
FORM = Wishes(
    days={"Monday": "55", "Thursday": "70"},
    gym="commercial_kg",
    priorities=("glutes",),
    targets={"quads": "10-14"},
    joints={"lower back": "moderate"},
    liked="Hip thrust",
    barred="Sissy squat",
    years="3",
    reserve="1-2",
    most_exercises="7",
)
FILE = """
name = "Planned week"
gym = "commercial_kg"
priorities = ["glutes"]
years = 3
reserve = "1-2"
most_exercises = 7
[targets]
quads = "10-14"
[joints]
"lower back" = "moderate"
[liked]
hip_thrust = ""
[barred]
sissy_squat = ""
[[day]]
day = "Monday"
minutes = 55
[[day]]
day = "Thursday"
minutes = 70
"""


def _her_week(book: Book) -> Week:
    week = book.week()
    assert week is not None
    return week


def _file(folder: Path, text: str) -> Path:
    path = folder / "brief.toml"
    path.write_text(text, encoding="utf-8")
    return path


def _plain(asked: Asked) -> Asked:
    """The question without its clock; quickly answered."""
    asking = replace(asked.asking, clock=NOW.timestamp, with_more=False, effort=LITTLE)
    return replace(asked, asking=asking)


@pytest.mark.parametrize("near", [True, False])
def test_by_file_and_by_form_it_is_one_week(
    demo_book: Book,
    tmp_path: Path,
    near: bool,  # noqa: FBT001 - drawn by position
) -> None:
    """Ceilings, nearness, pace, what is unfit: all of it alike, and so the week."""
    form = asked_by_form(demo_book, replace(FORM, near=near))
    text = f"near = {str(near).lower()}\n{FILE}"
    file = asked_by_file(_file(tmp_path, text), None, demo_book)
    assert _plain(file) == _plain(form)
    assert plan_asked(_plain(file)).week == plan_asked(_plain(form)).week


def test_a_brief_that_leaves_days_open_is_the_form_as_filled_in(
    demo_book: Book, tmp_path: Path
) -> None:
    """Days and minutes of her week by the time model, to the next five; hers stay in the week."""
    hers, pace = _her_week(demo_book), pace_of(demo_book)
    asked = asked_by_file(_file(tmp_path, 'priorities = ["glutes"]\n'), None, demo_book)
    known = known_wishes(demo_book).days
    assert {d.day: str(d.minutes) for d in asked.brief.days} == {
        day: minutes for day, minutes in known.items() if minutes
    }
    for free in asked.brief.days:
        day = hers.day(free.day)
        assert day is not None
        takes = day_minutes(day, demo_book.catalogue, pace).value
        assert free.minutes - 5 < takes <= free.minutes or free.minutes == day.minutes
    week = plan_asked(_plain(asked)).week
    assert [d.minutes for d in week.days] == [d.minutes for d in hers.days if not d.rest]


def test_the_command_reads_her_records(demo_book: Book, tmp_path: Path) -> None:
    """`pennate plan` finds the week she trains where the brief leaves the days to it."""
    path = _file(tmp_path, 'gym = "commercial_kg"\n')
    data = ["--data", str(tmp_path / "demo"), "--stop-after", "0", "--json"]
    told = CliRunner().invoke(APP, ["plan", str(path), *data])
    assert told.exit_code == 0, told.output
    hers = [day.day for day in _her_week(demo_book).days if not day.rest]
    assert [day["day"] for day in json.loads(told.stdout)["days"]] == hers


def test_what_the_file_says_wins(demo_book: Book, tmp_path: Path) -> None:
    """Minutes, a free group, a start afresh and another week stand as they are written."""
    hers = _her_week(demo_book)
    other = replace(hers, days=hers.days[:1], gym="")
    (tmp_path / "other.toml").write_text(render_week(other), encoding="utf-8")
    text = f"""
near = false
current = "other.toml"
[targets]
chest = "0+"
[[day]]
day = "{other.days[0].day}"
minutes = 35
"""
    asked = asked_by_file(_file(tmp_path, text), None, demo_book)
    assert asked.asking.current == other
    assert (asked.asking.churn, asked.asking.moving) == (0.0, 0.0)
    assert Group.CHEST not in asked.brief.ceilings
    assert Group.BACK in asked.brief.ceilings
    assert [(day.minutes, day.given) for day in asked.brief.days] == [(35, True)]


def test_a_day_without_minutes_needs_a_week_that_has_it(tmp_path: Path) -> None:
    """Without a week, or on a day it lacks, the minutes are asked for, with the line."""
    path = _file(tmp_path, '[[day]]\nday = "Monday"\n')
    with pytest.raises(InputError, match=r"line 1, day 1, minutes: “minutes” is missing"):
        asked_by_file(path, None, None)
    week = Week(name="Tuesdays", days=(PlannedDay(day="Tuesday"),))
    (tmp_path / "week.toml").write_text(render_week(week), encoding="utf-8")
    with pytest.raises(InputError, match="“minutes” is missing"):
        asked_by_file(path, tmp_path / "week.toml", None)


def test_what_pain_holds_is_left_out_of_a_file_too(demo_book: Book, tmp_path: Path) -> None:
    """A shoulder at 8 is spared whatever an older brief allows, and the answer says so."""
    save_morning(demo_book, demo_book.today, "shoulder", 8)
    path = _file(tmp_path, f"{FILE}\n[pain]\nknee = 1\n".replace('"lower back"', "shoulder"))
    asked = asked_by_file(path, None, demo_book)
    assert asked.brief.joint_limits[Joint.SHOULDER] is JointLimit.NONE
    assert any("shoulder 8 of 10" in line for line in asked.held)
    loads = [
        demo_book.catalogue[one.exercise].joints.get(Joint.SHOULDER, 0)
        for day in plan_asked(_plain(asked)).week.days
        for one in day.exercises
    ]
    assert max(loads) == 0


def test_a_week_near_hers_is_worth_no_less_than_hers(demo_book: Book) -> None:
    """However little is tried, the plan sets out from her week, which keeps every rule."""
    asked = _plain(asked_by_form(demo_book, known_wishes(demo_book)))
    hers = _her_week(demo_book)
    problem = build_problem(asked.brief, asked.catalogue, setting_of(asked.asking))
    now = as_now(problem, hers)
    assert sum(map(len, now)) == sum(len(list(stops_of(day))) for day in hers.days)
    assert plan_asked(asked).solved.objective > objective(problem, now)


def test_her_reasons_stay_with_her_wishes(demo_book: Book) -> None:
    """The form shows names alone; why she will not do an exercise is not lost by planning."""
    hers = _her_week(demo_book)
    wanted = Preferences(barred={"sissy_squat": "my left knee"}, liked={"hip_thrust": "I feel it"})
    demo_book.save_week(replace(hers, preferences=wanted))
    asked = asked_by_form(demo_book, FORM)
    assert asked.brief.preferences == wanted


def test_only_what_she_types_is_remembered_of_the_minutes(demo_book: Book) -> None:
    """A day she lengthens and one she leaves out stay so; the others follow her week."""
    wishes = known_wishes(demo_book)
    first, second, third = [day for day in WEEKDAYS if wishes.days[day]][:3]
    keep_wishes(demo_book, replace(wishes, days={**wishes.days, first: "95", second: ""}))
    hers = _her_week(demo_book)
    shorter = tuple(
        replace(day, exercises=day.exercises[:2]) if day.day == third else day for day in hers.days
    )
    demo_book.save_week(replace(hers, days=shorter))
    now = minutes_now(_her_week(demo_book), demo_book.catalogue, pace_of(demo_book))
    asked = known_wishes(demo_book).days
    assert (asked[first], asked[second]) == ("95", "")
    assert int(asked[third]) == now[third] < int(wishes.days[third])
    given = {
        day.day: day.given for day in asked_by_form(demo_book, known_wishes(demo_book)).brief.days
    }
    assert (given[first], given[third]) == (True, False)
