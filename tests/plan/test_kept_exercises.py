"""Exercises she keeps stay as she asks for them: in a plan, a re-plan, by command and on the page.

The rules of `bench.plan.rules` hold each kept exercise against her week; they know nothing of the
planner. Minutes are those of the time model on the finished week.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path

import pytest
import typer
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from typer.testing import CliRunner

from bench.plan.rules import complaints
from pennate.app.book import Book
from pennate.app.demo import make_demo
from pennate.app.planning import Asking, Planned, plan_week
from pennate.app.week_brief import known_wishes
from pennate.app.week_happened import MISSED, Told
from pennate.app.week_plan import Proposal, start_plan, start_replan
from pennate.app.week_work import Work
from pennate.cli.week import register
from pennate.core.brief import Brief, FreeDay
from pennate.core.exercise import Catalogue, EquipmentKind
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    LoadFrom,
    LoadRule,
    PlannedDay,
    Preferences,
    PrescribedExercise,
    PrescribedSets,
    Span,
    Week,
)
from pennate.core.week_time import day_seconds, preparation_seconds, stops_of
from pennate.files.catalogue import read_catalogue
from pennate.files.week import read_week
from pennate.files.week_text import render_week
from pennate.plan.build import Setting, build_problem
from pennate.plan.changes import changes_between
from pennate.plan.hers import Hers, counted, sets_span, with_sets
from pennate.plan.problem import day_seconds as option_seconds
from pennate.plan.replan import Happened, replan
from pennate.plan.solve import Effort, solve
from pennate.plan.substitute import substitutes

CATALOGUE = read_catalogue()
LITTLE = Effort(first=3_000, steps=100, searches=1, splits=0)
KINDS = frozenset(EquipmentKind)
WEEKS = Path(__file__).parents[2] / "src" / "pennate" / "data" / "weeks"
NOW = datetime(2026, 11, 23, 17, 5, tzinfo=UTC)

TOP = PrescribedSets(
    kind=SetKind.TOP, reps=Span(4, 6), reserve=Span(1, 1), rest_s=240, tempo="3-1-1", note="pause"
)
BACK = PrescribedSets(
    kind=SetKind.BACK_OFF,
    count=2,
    reps=Span(8, 10),
    reserve=Span(1, 2),
    load=LoadRule(LoadFrom.OF_TOP, share=Fraction("0.85")),
    rest_s=150,
)
SQUAT = PrescribedExercise(
    exercise="guided_bar_squat", sets=(TOP, BACK), equipment="rack_2", aids=("belt",), note="wide"
)
CURL = PrescribedExercise(
    exercise="curl",
    sets=(
        PrescribedSets(count=3, reps=Span(15, 20), reserve=Span(0, 1), rest_s=45, tempo="2-0-2"),
        PrescribedSets(
            kind=SetKind.DROP,
            count=2,
            reps=Span(8, 8),
            load=LoadRule(LoadFrom.OF_PREVIOUS, share=Fraction("0.8")),
        ),
    ),
)
ROW = PrescribedExercise(
    exercise="seated_cable_row",
    sets=(PrescribedSets(count=5, reps=Span(6, 8), reserve=Span(1, 2), rest_s=180),),
)
HERS = Week(
    name="Hers",
    days=(
        PlannedDay(day="Monday", minutes=60, exercises=(SQUAT, CURL, ROW)),
        PlannedDay(day="Thursday", minutes=60, exercises=(ROW, replace(CURL, sets=CURL.sets[:1]))),
    ),
    gym="hall",
    note="slowly does it",
)


NAMES = ("guided_bar_squat", "curl", "seated_cable_row")
WANTED = Preferences(required=dict.fromkeys(NAMES, ""))


def _brief(**more: object) -> Brief:
    """Two days of an hour, with her exercises in them."""
    days = (FreeDay("Monday", 60), FreeDay("Thursday", 60))
    return Brief(name="kept", days=days, preferences=WANTED, **more)  # type: ignore[arg-type] # keywords of the dataclass


def _planned(brief: Brief, current: Week) -> Week:
    asking = Asking(effort=LITTLE, current=current, with_more=False)
    return plan_week(brief, CATALOGUE, asking).week


def _asked(week: Week, name: str) -> Iterator[PrescribedExercise]:
    return (one for day in week.days for one in day.exercises if one.exercise == name)


def _as_hers(asked: PrescribedExercise, hers: PrescribedExercise) -> bool:
    """Everything but the number of sets in one block."""
    sets = ([replace(one, count=1) for one in way.sets] for way in (asked, hers))
    return next(sets) == next(sets) and (
        (asked.variant, asked.equipment, asked.aids, asked.note)
        == (hers.variant, hers.equipment, hers.aids, hers.note)
    )


def test_a_plan_keeps_reps_tempo_rests_notes_and_scheme() -> None:
    """Top set with back-offs, drops, fast curls, long rests: all as she asks for them."""
    week = _planned(_brief(), HERS)
    kept = [one for name in NAMES for one in _asked(week, name)]
    assert len(kept) >= 3
    ways = [one for day in HERS.days for one in day.exercises]
    assert all(any(_as_hers(one, way) for way in ways) for one in kept)
    assert complaints(week, _brief(), CATALOGUE, KINDS, HERS) == []
    assert week.note == HERS.note


def test_each_day_keeps_its_own_way() -> None:
    """Curls with drops on Monday and without on Thursday are kept apart."""
    own = Hers.of(HERS)
    monday, thursday = (own.on("curl", day) for day in ("Monday", "Thursday"))
    assert monday is not None
    assert thursday is not None
    assert (len(monday.sets), len(thursday.sets)) == (2, 1)
    assert own.on("curl", "Sunday") == monday
    assert own.always("curl") is None


def test_the_planner_reckons_with_her_sets() -> None:
    """Seconds in the planner are the time model's on the finished week, item by item.

    But for a top set that is made of straight ones once a day's order is known: it has fewer
    reps, so the day takes less than was reckoned, never more.
    """
    problem = build_problem(_brief(), CATALOGUE, Setting(current=HERS))
    solved = solve(problem, effort=LITTLE)
    asking = Asking(effort=LITTLE, current=HERS, with_more=False)
    week = plan_week(_brief(), CATALOGUE, asking).week
    for day, chosen in zip(week.days, solved.selection, strict=True):
        reckoned = option_seconds(problem, chosen)
        assert day_seconds(day, CATALOGUE) <= reckoned + 1e-6
        straight = replace(day, exercises=tuple(map(_without_top, day.exercises)))
        assert day_seconds(straight, CATALOGUE) == pytest.approx(reckoned)


def _without_top(asked: PrescribedExercise) -> PrescribedExercise:
    """An exercise as the planner reckons with it: hers as it is, others in straight sets."""
    if asked.exercise in NAMES or asked.sets[0].kind is not SetKind.TOP:
        return asked
    back = asked.sets[1]
    straight = replace(back, count=back.count + 1, kind=SetKind.WORKING)
    return replace(asked, sets=(straight,))


def test_five_sets_of_hers_may_stay_five() -> None:
    """More sets than the planner would ask for stay possible; fewer in one block too."""
    assert sets_span(ROW) == (2, 5)
    assert sets_span(SQUAT) == (2, 4)
    assert counted(with_sets(SQUAT, 4)) == 4
    assert [one.count for one in with_sets(SQUAT, 4).sets] == [1, 3]
    assert [one.count for one in with_sets(CURL, 2).sets] == [2, 2]


def test_another_gym_has_other_items() -> None:
    """What she does stays, the item of the old gym is forgotten."""
    week = _planned(_brief(gym="commercial_kg"), HERS)
    assert all(one.equipment == "" for day in week.days for one in day.exercises)
    assert all(one.note == "wide" for one in _asked(week, "guided_bar_squat"))


def test_her_superset_may_stay() -> None:
    """Two exercises she alternates are offered together, in her sets."""
    pair = tuple(
        replace(one, superset="A")
        for one in (
            PrescribedExercise(exercise="bench_press", sets=(TOP,)),
            PrescribedExercise(exercise="seated_cable_row", sets=ROW.sets),
        )
    )
    current = replace(HERS, days=(PlannedDay(day="Monday", exercises=pair), HERS.days[1]))
    problem = build_problem(_brief(), CATALOGUE, Setting(current=current))
    together = [o for o in problem.options if o.exercises == ("bench_press", "seated_cable_row")]
    assert together
    assert Hers.of(current).supersets == (("bench_press", "seated_cable_row"),)


def _three() -> Week:
    """Hers, with three exercises in turn on Monday, and two on Thursday under the same mark."""
    straight = PrescribedSets(count=3, reps=Span(10, 15), reserve=Span(1, 2), rest_s=60)
    names = ("seated_leg_curl", "lateral_raise", "seated_calf_raise")
    three = tuple(PrescribedExercise(exercise=n, sets=(straight,), superset="C") for n in names)
    two = tuple(replace(one, superset="C") for one in (ROW, replace(CURL, sets=(straight,))))
    monday = replace(HERS.days[0], exercises=(SQUAT, *three))
    return replace(HERS, days=(monday, replace(HERS.days[1], exercises=two)), gym="")


def _in_turn(week: Week) -> list[tuple[str, tuple[str, ...]]]:
    """Supersets of a week, by day."""
    return [
        (day.day, tuple(one.exercise for one in members))
        for day in week.days
        for members in stops_of(day)
        if len(members) > 1
    ]


def test_three_in_turn_stay_three() -> None:
    """A plan near her week keeps her supersets whole, in her sets; minutes are the model's."""
    hers = _three()
    wanted = {one.exercise: "" for day in hers.days for one in day.exercises}
    brief = replace(_brief(), preferences=Preferences(required=wanted))
    asking = Asking(effort=LITTLE, current=hers, churn=3.0, moving=0.5, with_more=False)
    week = plan_week(brief, CATALOGUE, asking).week
    assert _in_turn(hers)[0] in _in_turn(week)
    assert complaints(week, brief, CATALOGUE, KINDS, hers) == []
    problem = build_problem(brief, CATALOGUE, Setting(current=hers))
    together = [o for o in problem.options if len(o.exercises) == 3]
    alone = replace(hers.days[0], exercises=hers.days[0].exercises[1:])
    seconds = day_seconds(alone, CATALOGUE) - preparation_seconds(alone)
    assert together[0].seconds(3) == pytest.approx(seconds)


def test_a_replan_moves_three_in_turn_together() -> None:
    """Monday missed: the three stay together on Thursday, beside the two that were there."""
    hers = _three()
    found = replan(hers, Happened(missed={"Monday"}, minutes={"Thursday": 120}), CATALOGUE).week
    assert {names for _, names in _in_turn(found)} == {names for _, names in _in_turn(hers)}
    assert {day for day, _ in _in_turn(found)} == {"Thursday"}


def test_one_of_three_lost_leaves_the_others_in_turn() -> None:
    """An overhead press does not join leg curls and calf raises: they go on in turn without it."""
    found = replan(_three(), Happened(lost={"lateral_raise"}), CATALOGUE).week
    assert dict(_in_turn(found))["Monday"] == ("seated_leg_curl", "seated_calf_raise")
    assert any(one.replaces == "lateral_raise" for day in found.days for one in day.exercises)


def test_what_stands_in_joins_where_it_can() -> None:
    """Curls on another machine take the place of the lost ones in her superset."""
    curls = (("lying_leg_curl", "B"), ("lateral_raise", "B"))
    plain_sets = (PrescribedSets(count=3, reps=Span(10, 15), reserve=Span(1, 2)),)
    asked = (PrescribedExercise(exercise=n, sets=plain_sets, superset=m) for n, m in curls)
    hers = replace(HERS, days=(PlannedDay(day="Monday", exercises=tuple(asked)),), gym="")
    found = replan(hers, Happened(lost={"lying_leg_curl"}), CATALOGUE).week
    assert dict(_in_turn(found))["Monday"] == ("seated_leg_curl", "lateral_raise")
    assert {one.superset for one in found.days[0].exercises} == {"B"}


def test_what_is_no_longer_in_turn_is_said() -> None:
    """Two exercises that stay on their day but no longer alternate are named."""
    hers = _three()
    apart = tuple(replace(one, superset="") for one in hers.days[1].exercises)
    new = replace(hers, days=(hers.days[0], replace(hers.days[1], exercises=apart)))
    assert changes_between(hers, new, CATALOGUE) == (
        "Thursday: Seated row and Biceps curl no longer alternate",
    )
    assert changes_between(hers, hers, CATALOGUE) == ()


@settings(max_examples=6, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.sampled_from(("3_days", "4_days", "5_days", "6_days", "home")),
    st.integers(30, 90),
    st.booleans(),
)
def test_kept_exercises_are_hers_over_shipped_weeks(
    name: str,
    minutes: int,
    supersets: bool,  # noqa: FBT001 - drawn by position
) -> None:
    """From each shipped week, with other minutes: no rule broken, and all that stays is hers."""
    current = read_week(WEEKS / f"{name}.toml", CATALOGUE)
    days = tuple(FreeDay(day.day, minutes) for day in current.days if not day.rest)
    brief = Brief(name=name, days=days, supersets=supersets)
    week = _planned(brief, current)
    assert complaints(week, brief, CATALOGUE, KINDS, current) == []


def test_a_replan_keeps_them_too() -> None:
    """Monday missed: what moves to Thursday is what she asked for on Monday."""
    found = replan(HERS, Happened(missed={"Monday"}), CATALOGUE).week
    moved = list(_asked(found, "guided_bar_squat"))
    assert moved
    assert all(_as_hers(one, SQUAT) for one in moved)
    ways = [one for day in HERS.days for one in day.exercises]
    stayed = [one for day in found.days for one in day.exercises if one.exercise != "curl"]
    assert all(any(_as_hers(one, way) for way in ways) for one in stayed)


APP = typer.Typer()
register(APP)


def test_the_commands_keep_them(tmp_path: Path) -> None:
    """`plan --current` and `replan` write a week whose kept exercises read back as hers."""
    current, brief, out = (tmp_path / name for name in ("hers.toml", "brief.toml", "out.toml"))
    current.write_text(render_week(replace(HERS, gym="")), encoding="utf-8")
    days = "".join(f'[[day]]\nday = "{day}"\nminutes = 60\n' for day in ("Monday", "Thursday"))
    wanted = "[required]\n" + "".join(f'{name} = "mine"\n' for name in NAMES)
    brief.write_text(f'name = "again"\n{wanted}{days}', encoding="utf-8")
    for arguments in (
        ["plan", str(brief), "--current", str(current), "--stop-after", "3"],
        ["replan", str(current), "--missed", "Monday"],
    ):
        result = CliRunner().invoke(APP, [*arguments, "--out", str(out)])
        assert result.exit_code == 0, result.output
        found = list(_asked(read_week(out, CATALOGUE), "guided_bar_squat"))
        assert found
        assert all(_as_hers(one, SQUAT) for one in found)


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Book]:
    """The made-up lifter, following the week above."""
    found = make_demo(tmp_path_factory.mktemp("demo"), lambda: NOW, weeks=2)
    found.save_week(HERS)
    yield found
    found.close()


def test_the_page_keeps_them(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    """A plan and a re-plan of the page propose kept exercises as hers."""

    def quickly(brief: Brief, catalogue: Catalogue, asking: Asking) -> Planned:
        return plan_week(brief, catalogue, replace(asking, effort=LITTLE, with_more=False))

    monkeypatch.setattr("pennate.app.week_asked.plan_week", quickly)
    work: Work[Proposal] = Work()
    wishes = replace(known_wishes(book), gym="hall", years="3")
    with pytest.raises(Exception, match="hall"):
        start_plan(book, work, wishes)
    for task in (
        start_plan(book, work, replace(wishes, gym="", required=", ".join(NAMES))),
        start_replan(book, work, Told(states={"Monday": MISSED}), weeks=1),
    ):
        assert task.wait(240)
        found = list(_asked(task.outcome().week, "guided_bar_squat"))
        assert found
        assert all(_as_hers(one, SQUAT) for one in found)


def test_a_day_keeps_what_she_calls_it() -> None:
    """The focus of her day stays its name while half of what is done on it stays."""
    named = replace(HERS, days=(replace(HERS.days[0], focus="legs and arms"), HERS.days[1]))
    monday = _planned(_brief(), named).day("Monday")
    assert monday is not None
    before = {one.exercise for one in HERS.days[0].exercises}
    stayed = sum(one.exercise in before for one in monday.exercises)
    assert (monday.focus == "legs and arms") is (2 * stayed >= len(monday.exercises))
    other = replace(named, days=(replace(named.days[0], exercises=(CURL,)), named.days[1]))
    changed = _planned(_brief(), other).day("Monday")
    assert changed is not None
    assert changed.focus == "" or len(changed.exercises) <= 2


def test_a_misfit_at_body_weight_is_taken_last() -> None:
    """On a trip, of the two best the one nearer to the effort asked replaces her bench press."""
    asked = PrescribedExercise(exercise="bench_press", sets=(TOP, BACK))
    hers = replace(HERS, days=(PlannedDay(day="Monday", exercises=(asked,)),), gym="")
    kinds = frozenset({EquipmentKind.BODY_WEIGHT})
    first, second = (
        one.exercise
        for one in substitutes("bench_press", hers.days[0], hers, CATALOGUE, kinds, {})[:2]
    )
    for misfits, right in (
        ({first: 0.9, second: 0.6}, second),
        ({second: 0.9}, first),
    ):
        happened = Happened(kinds=kinds, misfits=misfits)
        found = replan(hers, happened, CATALOGUE).week
        assert [one.exercise for one in found.days[0].exercises] == [right]
