"""Every practice the trade knows and a week must be able to say, one test a practice."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import jsonschema_rs
import pytest
import tomlkit

from pennate.core.exercise import Sides
from pennate.core.muscles import Group
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    LoadFrom,
    LoadRule,
    PrescribedExercise,
    Reason,
    Span,
    Week,
)
from pennate.core.quantities import LoadReading, Mass, Unit
from pennate.files.catalogue import read_catalogue
from pennate.files.schema import SCHEMAS
from pennate.files.week import read_week, render_week

PATH = Path(__file__).parent / "practices.toml"


@pytest.fixture(scope="module")
def week() -> Week:
    """The week that says everything."""
    return read_week(PATH, read_catalogue())


def _asked(week: Week, exercise: str) -> PrescribedExercise:
    return next(asked for day in week.days for asked in day.exercises if asked.exercise == exercise)


def _fixed(amount: str, unit: Unit, reading: LoadReading = LoadReading.TOTAL) -> LoadRule:
    return LoadRule(LoadFrom.FIXED, mass=Mass(Fraction(amount), unit), reading=reading)


def test_assisted_to_unassisted_to_added(week: Week) -> None:
    """Assisted body-weight work to unassisted to added load; a ladder to a first pull-up."""
    pull_up = _asked(week, "pull_up")
    assert pull_up.sets[0].load == _fixed("-20", Unit.KG)
    loads = [rung.load for rung in pull_up.ladder]
    assert loads[1:3] == [_fixed("-30", Unit.KG), _fixed("-10", Unit.KG)]
    assert loads[4].source is LoadFrom.BODY_WEIGHT
    assert loads[5] == _fixed("2.5", Unit.KG)
    assert (pull_up.ladder[0].exercise, pull_up.ladder[0].until) == ("lat_pulldown", Span(10, 10))


def test_ramp_top_back_off_and_drops(week: Week) -> None:
    """Ramp, top, back-off and drop sets in any mix up to ten, drops with ranges of their own."""
    sets = _asked(week, "back_squat_free").sets
    counts = [(one.kind.value, one.count) for one in sets]
    assert counts == [
        *[("warm-up", 1)] * 4,
        ("top", 2),
        ("back-off", 2),
        ("drop", 1),
        ("drop", 1),
    ]
    assert sum(one.count for one in sets) == 10
    assert [one.reps for one in sets[-2:]] == [Span(6, 8), Span(10, 15)]
    assert sets[5].load == LoadRule(LoadFrom.OF_TOP, share=Fraction(4, 5))
    assert sets[-1].load == LoadRule(LoadFrom.OF_PREVIOUS, share=Fraction(3, 4))
    assert sets[-1].rest_s == 10


def test_core_work_with_load(week: Week) -> None:
    """Body-weight core work with load added so that progress can be seen."""
    assert _asked(week, "hanging_leg_raise").sets[0].load == _fixed("5", Unit.KG)
    plank = _asked(week, "plank")
    assert (plank.sets[0].seconds, plank.variant) == (Span(30, 45), "load_on_back")
    assert read_catalogue()["hanging_leg_raise"].body_mass is not None


def test_safety_before_a_hard_set(week: Week) -> None:
    """Equipment check and failure safety before a hard set: safeties, stops, a word on bracing."""
    squat = _asked(week, "back_squat_free")
    assert "safeties" in squat.aids
    assert "brace" in squat.sets[4].note
    assert _asked(week, "hack_squat").aids == ("stops",)


def test_replaced_for_each_reason(week: Week) -> None:
    """Replaced for a sore joint, for what gives out first, for taste, because it is taken."""
    replaced = {
        asked.reason: (asked.exercise, asked.replaces)
        for day in week.days
        for asked in day.exercises
        if asked.reason
    }
    assert replaced == {
        Reason.SORE_JOINT: ("hack_squat", "leg_press"),
        Reason.GIVES_OUT: ("chest_supported_row", "bent_row_overhand"),
        Reason.TAKEN: ("hip_abduction_kickback", "hip_abduction_machine"),
        Reason.TASTE: ("seated_leg_curl", "lying_leg_curl"),
    }


def test_preferences_are_remembered(week: Week) -> None:
    """Liked, barred and required exercises, each with her reason."""
    wishes = week.preferences
    assert wishes.liked == {"hip_thrust": "feels right"}
    assert wishes.barred == {"sissy_squat": "left knee"}
    assert wishes.required == {"pull_up": "the first one by summer"}


def test_the_rest_follows_the_first_hard_set(week: Week) -> None:
    """A weak or strong first top set changes the rest: later loads hang on it, none is fixed."""
    thrust = _asked(week, "hip_thrust").sets
    assert thrust[0].load.source is LoadFrom.MODEL
    assert thrust[1].load.source is LoadFrom.OF_TOP


def test_one_sided_work(week: Week) -> None:
    """One-sided work: a one-sided exercise, or the one-sided variant of another."""
    assert _asked(week, "leg_extension").variant == "one_leg"
    kickback = _asked(week, "hip_abduction_kickback").exercise
    assert read_catalogue()[kickback].sides is Sides.ONE


def test_open_ended_finisher(week: Week) -> None:
    """Open-ended reps; a finisher without load to failure."""
    finisher = _asked(week, "push_up").sets[0]
    assert finisher.kind is SetKind.AMRAP
    assert finisher.reps == Span(10, None)
    assert finisher.to_failure
    assert finisher.load.source is LoadFrom.BODY_WEIGHT


def test_units_are_mixed(week: Week) -> None:
    """Pounds on one machine, kilograms on the next, each read as it is written there."""
    first = {asked.exercise: asked.sets[0].load for day in week.days for asked in day.exercises}
    assert first["hack_squat"] == _fixed("90", Unit.LB, LoadReading.PLATES)
    assert first["leg_extension"] == _fixed("35", Unit.KG, LoadReading.LABEL)
    assert first["lateral_raise"] == _fixed("8", Unit.KG, LoadReading.EACH)
    assert first["rear_delt_fly"] == _fixed("15", Unit.LB, LoadReading.EACH)


def test_preparation_and_empty_bar(week: Week) -> None:
    """Preparation without load, and a ramp from the empty bar."""
    monday = week.days[0]
    assert [item.what for item in monday.preparation] == [
        "hip mobility list",
        "band walk, each way",
    ]
    assert monday.exercises[0].sets[0].load.source is LoadFrom.EMPTY_BAR


def test_priorities_and_order(week: Week) -> None:
    """What matters most is said, comes first, and gets another day."""
    assert week.priorities == (Group.GLUTES, Group.SIDE_GLUTES, Group.SHOULDERS)
    assert week.targets[Group.GLUTES] == Span(14, 18)
    assert week.targets[Group.SIDE_GLUTES] == Span(6, None)
    days = [day.day for day in week.days if "glutes" in day.focus]
    assert days == ["Monday", "Thursday"]
    assert week.days[-1].exercises[0].exercise == "hip_thrust"


def test_rep_styles(week: Week) -> None:
    """Partials with each rep or after the last, holds, slow lowering, longer range on a block."""
    extension = _asked(week, "leg_extension").sets
    assert extension[0].style == "one and a quarter"
    assert extension[1].partials == 6
    assert _asked(week, "hip_thrust").sets[1].style == "hold at the top"
    assert _asked(week, "pull_up").sets[1].tempo == "5-1-x"
    deadlift = _asked(week, "romanian_deadlift")
    assert (deadlift.sets[0].style, "block" in deadlift.aids) == ("longer range", True)


def test_set_up_variants(week: Week) -> None:
    """Set-up variants shift part weights: the catalogue's own weights change with the variant."""
    exercise = read_catalogue()["hack_squat"]
    variant = _asked(week, "hack_squat").variant
    assert variant == "feet_high"
    assert exercise.weights(variant) != exercise.weights()


def test_days_focus_and_rest(week: Week) -> None:
    """A split with named focus and rest days."""
    assert [(day.day, day.focus, day.rest) for day in week.days] == [
        ("Monday", "quads and glutes", False),
        ("Tuesday", "back and shoulders", False),
        ("Wednesday", "rest", True),
        ("Thursday", "glutes and hamstrings", False),
    ]


def test_straight_sets_in_a_range(week: Week) -> None:
    """Straight sets in a rep range, to failure or short of it."""
    sets = _asked(week, "hack_squat").sets[0]
    assert (sets.count, sets.reps, sets.reserve, sets.to_failure) == (
        3,
        Span(8, 12),
        Span(0, 1),
        False,
    )
    assert _asked(week, "leg_extension").sets[1].to_failure


def test_aids(week: Week) -> None:
    """Straps or a cuff where grip would end the set first; sleeves."""
    assert _asked(week, "romanian_deadlift").aids[0] == "straps"
    assert _asked(week, "hip_abduction_kickback").aids == ("cuff",)
    assert "sleeves" in _asked(week, "back_squat_free").aids


def test_supersets_and_giant_sets(week: Week) -> None:
    """Supersets of two and giant sets of three over rounds: rest only after a round."""
    tuesday = week.days[1]
    giant = [asked for asked in tuesday.exercises if asked.superset == "A"]
    assert [asked.sets[0].count for asked in giant] == [3, 3, 3]
    assert [asked.sets[0].rest_s for asked in giant] == [120, 0, 0]
    assert sum(asked.superset == "B" for asked in tuesday.exercises) == 2


def test_an_exercise_of_her_own(week: Week) -> None:
    """An exercise the catalogue lacks is defined in the file and used by its id."""
    assert [own.id for own in week.own_exercises] == ["cable_y_raise"]
    assert _asked(week, "cable_y_raise").superset == "A"


def test_said_the_same_when_written_again(week: Week) -> None:
    """Writing the week and reading it gives the same week, and the same text."""
    text = render_week(week)
    again = read_week(text, read_catalogue())
    assert again == week
    assert render_week(again) == text


@pytest.mark.parametrize("canonical", [False, True], ids=["as typed", "as rendered"])
def test_the_published_schema_accepts_it(week: Week, *, canonical: bool) -> None:
    """An independent JSON Schema validator accepts the file by the published schema."""
    text = render_week(week) if canonical else PATH.read_text(encoding="utf-8")
    jsonschema_rs.validate(SCHEMAS["week"](), tomlkit.parse(text).unwrap())
