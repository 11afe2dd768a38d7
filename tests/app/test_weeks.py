"""Starter weeks are good weeks by the evidence, and forms turn into sets."""

from __future__ import annotations

import itertools
from importlib.resources import files

import jsonschema_rs
import pytest
import tomlkit

from pennate.app.weeks import (
    STARTER_ORDER,
    asked_from_form,
    reason_from_form,
    sets_from_form,
    starter_week,
    starter_weeks,
)
from pennate.core.exercise import FailureSafety
from pennate.core.muscles import GROUP_SHARES, Group, Joint
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    WEEKDAYS,
    LoadFrom,
    LoadRule,
    PrescribedExercise,
    PrescribedSets,
    Reason,
    Span,
    Week,
)
from pennate.core.week_dose import day_joint_load, week_dose
from pennate.core.week_time import day_minutes
from pennate.errors import InputError
from pennate.files.catalogue import read_catalogue
from pennate.files.gym import read_gym
from pennate.files.schema import SCHEMAS
from pennate.files.week import read_week, render_week

CATALOGUE = read_catalogue()
GYM_WEEKS = ("3_days", "4_days", "5_days", "6_days")
MAIN = (Group.QUADS, Group.HAMSTRINGS, Group.GLUTES, Group.BACK, Group.SHOULDERS)
KNEE_HEAVY = 8.0
"""Hard sets times knee load 0–3 of a day from which it is a knee day; the scale is ours."""


@pytest.fixture(params=STARTER_ORDER)
def week(request: pytest.FixtureRequest) -> Week:
    """Each starter week in turn."""
    return starter_week(str(request.param), CATALOGUE)


def test_starter_weeks_say_their_days() -> None:
    """Three to six days in the gym, then home and travel."""
    days = {one.id: one.days for one in starter_weeks()}
    assert days == {"3_days": 3, "4_days": 4, "5_days": 5, "6_days": 6, "home": 4, "travel": 3}


def test_unknown_starter_week() -> None:
    """The known ones are listed."""
    with pytest.raises(InputError, match="3_days, 4_days"):
        starter_week("7_days", CATALOGUE)


def test_starter_weeks_round_trip(week: Week) -> None:
    """Each can be written and read again without a change."""
    assert read_week(render_week(week), CATALOGUE) == week


@pytest.mark.parametrize("week_id", ["home", "travel"])
def test_items_named_are_in_the_gym(week_id: str) -> None:
    """Weeks for a place name only what that place's gym file has, of a fitting kind."""
    week = starter_week(week_id, CATALOGUE)
    path = files("pennate") / "data" / "gyms" / f"{week.gym}.toml"
    gym = read_gym(path.read_text(encoding="utf-8"))
    for day in week.days:
        for asked in day.exercises:
            item = gym.item(asked.equipment) if asked.equipment else None
            kinds = CATALOGUE[asked.exercise].equipment
            assert not asked.equipment or (item and item.kind in kinds), asked.exercise


def test_starter_weeks_fit_the_published_schema() -> None:
    """An independent validator accepts each by the published schema."""
    schema = SCHEMAS["week"]()
    for one in starter_weeks():
        jsonschema_rs.validate(schema, tomlkit.parse(one.text).unwrap())


@pytest.mark.parametrize("week_id", GYM_WEEKS)
def test_main_groups_get_enough_and_not_too_much(week_id: str) -> None:
    """8 to 22 fractional sets a week for the main groups, and none left out.

    Pelland 2024 finds the best return between 5 and 18 with diminishing gains beyond;
    Baz-Valle 2022 suggests 12 to 20 for the trained.
    """
    groups = week_dose(starter_week(week_id, CATALOGUE), CATALOGUE).groups
    assert all(8 <= groups[group].value <= 22 for group in MAIN), groups
    assert all(4 <= groups[group].value <= 22 for group in Group), groups


@pytest.mark.parametrize("week_id", ["home", "travel"])
def test_weeks_away_keep_what_there_is(week_id: str) -> None:
    """Every group gets something; the smallest dose with detectable growth is near 4 (Pelland)."""
    groups = week_dose(starter_week(week_id, CATALOGUE), CATALOGUE).groups
    assert all(groups[group].value >= 3 for group in Group), groups
    assert all(groups[group].value >= 4 for group in MAIN), groups


def test_no_session_crowds_a_group(week: Week) -> None:
    """At most about 11 fractional sets of a group a session (Remmert 2025, from memory)."""
    dose = week_dose(week, CATALOGUE)
    assert all(dose.group_on(day.day, group).value <= 11 for day in week.days for group in Group)


def test_main_priorities_are_met(week: Week) -> None:
    """Where the week names targets, it meets them."""
    groups = week_dose(week, CATALOGUE).groups
    for group, target in week.targets.items():
        assert target.low <= groups[group].value <= (target.high or 99)


def test_days_fit_their_minutes(week: Week) -> None:
    """The time model's minutes are within a sixth of those the day names, and 75 at most."""
    for day in week.days:
        if day.minutes:
            minutes = day_minutes(day, CATALOGUE).value
            assert day.minutes * 5 / 6 - 3 <= minutes <= day.minutes + 2, (day.day, minutes)
            assert minutes <= 76


def test_no_two_knee_days_in_a_row(week: Week) -> None:
    """Heavy knee work rests a day at least, over the turn of the week too."""
    load = {day.day: day_joint_load(day, CATALOGUE).get(Joint.KNEE, 0.0) for day in week.days}
    for day, after in itertools.pairwise((*WEEKDAYS, WEEKDAYS[0])):
        assert min(load.get(day, 0.0), load.get(after, 0.0)) < KNEE_HEAVY, (day, after)


def test_the_first_priority_opens_a_day(week: Week) -> None:
    """What matters most comes first at least once: the day's first exercise trains it whole."""
    parts = GROUP_SHARES[week.priorities[0]]
    firsts = [CATALOGUE[day.exercises[0].exercise].weights() for day in week.days if day.exercises]
    assert any(weights.get(part, 0) == 1 for weights in firsts for part in parts)


def test_hard_free_bar_sets_have_safeties(week: Week) -> None:
    """An exercise that can pin her is never taken to failure without safeties or a spotter."""
    for day in week.days:
        for asked in day.exercises:
            safety = CATALOGUE[asked.exercise].failure_safety
            to_failure = any(sets.to_failure for sets in asked.sets)
            if safety is FailureSafety.SAFETIES_OR_SPOTTER and to_failure:
                assert {"safeties", "spotter"} & set(asked.aids), asked.exercise


def test_a_form_gives_sets() -> None:
    """Form fields are named and written as in the file; empty and other fields are left alone."""
    fields = {
        "kind": "top",
        "sets": "2",
        "reps": " 5-7 ",
        "reserve": "1",
        "rest": "2:30",
        "load": "",
        "token": "abc",
    }
    assert sets_from_form(fields) == PrescribedSets(
        kind=SetKind.TOP, count=2, reps=Span(5, 7), reserve=Span(1, 1), rest_s=150
    )
    body = sets_from_form({"reps": "8+", "load": "body weight", "reserve": "fail"})
    assert (body.load, body.to_failure) == (LoadRule(LoadFrom.BODY_WEIGHT), True)


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"reps": "8-"}, "reps: “8-” has no upper end"),
        ({"sets": "two"}, "sets: “two” is not a whole number"),
        ({"sets": "11", "reps": "8"}, "sets: 11 is more than 10"),
        ({"reps": "8", "load": "60"}, "load: “60” has no unit"),
    ],
)
def test_a_form_field_is_named(fields: dict[str, str], sentence: str) -> None:
    """The complaint begins with the field, so that the page can put it there."""
    with pytest.raises(InputError) as caught:
        sets_from_form(fields)
    assert str(caught.value).startswith(sentence)


def test_a_form_changes_how_it_is_done() -> None:
    """Equipment, aids, reason and note change; what the form lacks stays."""
    old = PrescribedExercise(exercise="curl", sets=(PrescribedSets(reps=Span(8, 8)),), note="old")
    new = asked_from_form(old, {"aids": "straps, belt,", "equipment": "cable"})
    assert (new.aids, new.equipment, new.note, new.sets) == (
        ("straps", "belt"),
        "cable",
        "old",
        old.sets,
    )
    assert reason_from_form("sore joint") is Reason.SORE_JOINT
    assert reason_from_form(" ") is None
