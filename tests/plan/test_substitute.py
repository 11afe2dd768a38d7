"""Substitutes for one exercise."""

from __future__ import annotations

from dataclasses import replace

from pennate.core.exercise import EquipmentKind
from pennate.core.muscles import Joint, Part
from pennate.core.prescribed import LoadFrom, Preferences, PrescribedExercise, Reason
from pennate.core.week_names import why_here
from pennate.files.catalogue import read_catalogue
from pennate.plan.substitute import carry_over, other_kinds, substitutes
from tests.plan.floor import ALL_KINDS, FLOOR, day, sets, to_failure, week

LEGS = day("Monday", ("squat", to_failure(3)), ("leg_curl", sets(3)))
WEEK = week(LEGS)


def _ids(exercise: str, **more: object) -> list[str]:
    asked = {"available_kinds": ALL_KINDS, "joint_limits": {}} | more
    found = substitutes(exercise, LEGS, WEEK, FLOOR, **asked)  # type: ignore[arg-type] # keywords
    return [one.exercise for one in found]


def test_same_muscles_come_first() -> None:
    """For the squat: exercises that keep thigh and glutes, never a curl for the arm."""
    found = _ids("squat")
    assert set(found[:2]) == {"split_squat", "leg_press"}
    assert "curl" not in found
    assert "leg_curl" not in found


def test_missing_equipment_is_left_out() -> None:
    """With body weight and bands alone, only what needs nothing else is offered."""
    kinds = frozenset({EquipmentKind.BODY_WEIGHT, EquipmentKind.BANDS})
    assert _ids("row", available_kinds=kinds) == ["pull_up"]


def test_a_sore_joint_bars_what_loads_it() -> None:
    """A knee limited to 1 leaves no knee-dominant substitute."""
    found = _ids("squat", joint_limits={Joint.KNEE: 1})
    assert found
    assert all(FLOOR[name].joints.get(Joint.KNEE, 0) <= 1 for name in found)


def test_barred_and_present_are_left_out() -> None:
    """What she bars and what the day already has are not offered."""
    barred = week(LEGS, preferences=Preferences(barred={"leg_press": "hurts"}))
    found = [o.exercise for o in substitutes("squat", LEGS, barred, FLOOR, ALL_KINDS, {})]
    assert "leg_press" not in found
    assert "squat" not in found


def test_liked_breaks_a_tie() -> None:
    """Of two kinds of lunge that serve alike the liked one comes first."""
    catalogue = read_catalogue()
    monday = day("Monday", ("rear_foot_elevated_split_squat", sets(3)))
    for liked in ("reverse_lunge", "split_squat"):
        one = week(monday, preferences=Preferences(liked={liked: ""}))
        found = substitutes(monday.exercises[0].exercise, monday, one, catalogue, ALL_KINDS, {})
        assert found[0].exercise == liked


def test_a_loaded_exercise_is_not_replaced_by_body_weight_first() -> None:
    """For a row at the stack the pulldown stands before the pull-up (common practice)."""
    monday = day("Monday", ("row", sets(3)))
    found = [o.exercise for o in substitutes("row", monday, week(monday), FLOOR, ALL_KINDS, {})]
    assert found.index("pulldown") < found.index("pull_up")


def test_direct_work_comes_before_help() -> None:
    """Common practice: what works a prime mover stands before all that only helps it."""
    catalogue = read_catalogue()
    for name in ("shoulder_press", "lying_leg_curl", "hip_thrust", "leg_press", "crunch"):
        monday = day("Monday", (name, sets(3)))
        found = substitutes(name, monday, week(monday), catalogue, ALL_KINDS, {})
        direct = [one.direct for one in found]
        assert any(direct)
        assert direct == sorted(direct, reverse=True)
        prime = {part for part, share in catalogue[name].weights().items() if share == 1}
        for one in found:
            own = catalogue[one.exercise].weights()
            assert one.direct == any(own.get(part) == 1 for part in prime)


def test_the_exercise_itself_elsewhere_stands_before_every_other() -> None:
    """Nothing to learn: no other exercise ties with it or passes it, liked and easier or not."""
    known = read_catalogue()
    for exercise in known.exercises.values():
        planned = day("Monday", (exercise.id, sets(3)))
        hers = replace(
            week(planned), preferences=Preferences(liked=dict.fromkeys(known.exercises, "fine"))
        )
        others = substitutes(exercise.id, planned, hers, known, ALL_KINDS, {})
        itself = other_kinds(exercise, planned, hers, exercise.equipment[1:])
        level = [one for one in others if one.direct and one.loadable]
        if itself and itself[0].loadable and level:
            assert itself[0].rank < min(one.rank for one in level), exercise.id


def test_the_asked_sets_are_carried_over() -> None:
    """Sets stay; failure becomes one in reserve where stops are needed; the load is new."""
    press = next(
        one
        for one in substitutes("squat", LEGS, WEEK, FLOOR, ALL_KINDS, {})
        if one.exercise == "leg_press"
    )
    asked = press.asked.sets[0]
    assert (asked.count, asked.to_failure, asked.load.source) == (3, False, LoadFrom.MODEL)
    assert press.asked.replaces == "squat"
    assert why_here(press.asked, FLOOR) == "instead of Squat"
    assert press.joints[Joint.LUMBAR] == -2
    assert press.lost == ()


def test_going_back_ends_the_replacement() -> None:
    """A swap and the swap back leave no trace of either."""
    asked = PrescribedExercise(exercise="squat", sets=(sets(3),))
    assert carry_over(FLOOR["squat"], asked, FLOOR["squat"]).replaces == ""
    there = carry_over(FLOOR["squat"], asked, FLOOR["leg_press"], reason=Reason.SORE_JOINT)
    assert why_here(there, FLOOR) == "instead of Squat: sore joint"
    back = carry_over(FLOOR["leg_press"], there, FLOOR["squat"])
    assert (back.replaces, back.reason) == ("", None)


def test_counted_sets_become_holds() -> None:
    """A plank for a crunch is held for seconds."""
    core = day("Monday", ("crunch", sets(3)))
    plank = substitutes("crunch", core, week(core), FLOOR, ALL_KINDS, {})[0]
    assert plank.exercise == "plank"
    assert plank.asked.sets[0].reps is None
    assert plank.asked.sets[0].seconds is not None


def test_lost_parts_are_named() -> None:
    """A leg extension for the squat loses the glutes, and says so."""
    found = substitutes("squat", LEGS, WEEK, FLOOR, ALL_KINDS, {})
    extension = next(one for one in found if one.exercise == "leg_extension")
    assert Part.GLUTE_MAX in extension.lost
    assert "less gluteus maximus" in extension.because


def test_an_exercise_outside_the_week_can_be_swapped() -> None:
    """The question needs no place in the week: three usual sets are assumed."""
    found = substitutes("fly", LEGS, WEEK, FLOOR, ALL_KINDS, {})
    assert found[0].exercise == "bench"
    assert isinstance(found[0].asked, PrescribedExercise)
