"""Changes of a week: each does what it says, and nothing else is ever lost."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pennate.core.edit_week import (
    add_day,
    add_exercise,
    asked_at,
    change_exercise,
    change_group,
    change_sets,
    join_superset,
    leave_superset,
    move_day,
    move_down,
    move_to_day,
    move_up,
    remove_day,
    remove_exercise,
    replace_exercise,
    set_day,
    usual_sets,
)
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    WEEKDAYS,
    LoadFrom,
    LoadRule,
    PlannedDay,
    PrescribedExercise,
    PrescribedSets,
    Reason,
    Span,
    Week,
)
from pennate.core.quantities import Mass
from pennate.core.week_check import problems
from pennate.errors import InputError
from pennate.files.catalogue import read_catalogue

CATALOGUE = read_catalogue()


def _asked(exercise: str, superset: str = "") -> PrescribedExercise:
    sets = (PrescribedSets(count=3, reps=Span(8, 12)),)
    return PrescribedExercise(exercise=exercise, sets=sets, superset=superset)


def _week(*marked: str) -> Week:
    """Monday with exercises written as `curl` or `curl:A`, and an empty Thursday."""
    asked = [_asked(*one.split(":")) for one in marked]
    return Week(
        name="", days=(PlannedDay(day="Monday", exercises=tuple(asked)), PlannedDay(day="Thursday"))
    )


def _shown(week: Week, day: str = "Monday") -> list[str]:
    planned = week.day(day)
    assert planned is not None
    return [f"{a.exercise}:{a.superset}" if a.superset else a.exercise for a in planned.exercises]


FOUR = ("curl", "crunch:A", "face_pull:A", "dip")


def test_adding_at_the_end_or_at_a_place() -> None:
    """An added exercise is last, or where it is asked to be, under its id."""
    week = add_exercise(_week("curl"), "Monday", _asked("Hip thrust"), CATALOGUE)
    week = add_exercise(week, "Monday", _asked("dip"), CATALOGUE, at=0)
    assert _shown(week) == ["dip", "curl", "hip_thrust"]


def test_adding_the_unknown_offers_the_nearest() -> None:
    """A mistyped exercise is refused with the name that was probably meant."""
    with pytest.raises(InputError, match="did you mean “Hip thrust”"):
        add_exercise(_week(), "Monday", _asked("hip thurst"), CATALOGUE)


def test_usual_sets_fit_the_exercise() -> None:
    """Holds are offered seconds, all others reps."""
    assert usual_sets(CATALOGUE["plank"])[0].seconds is not None
    assert usual_sets(CATALOGUE["curl"])[0].reps == Span(8, 12)


def test_removing_one_of_two_ends_the_superset() -> None:
    """What is left of a superset of two stands alone."""
    assert _shown(remove_exercise(_week(*FOUR), "Monday", 1)) == ["curl", "face_pull", "dip"]


def test_a_superset_moves_as_one() -> None:
    """Moving past a superset goes around it; moving a superset's end takes all of it."""
    week = _week(*FOUR)
    assert _shown(move_up(week, "Monday", 3)) == ["curl", "dip", "crunch:A", "face_pull:A"]
    assert _shown(move_down(week, "Monday", 0)) == ["crunch:A", "face_pull:A", "curl", "dip"]
    assert _shown(move_up(week, "Monday", 1)) == ["crunch:A", "face_pull:A", "curl", "dip"]
    assert _shown(move_down(week, "Monday", 2)) == ["curl", "dip", "crunch:A", "face_pull:A"]


def test_partners_change_places_inside() -> None:
    """Moving a member toward its partner changes their order only."""
    assert _shown(move_up(_week(*FOUR), "Monday", 2)) == [
        "curl",
        "face_pull:A",
        "crunch:A",
        "dip",
    ]


def test_the_first_stays_first_and_the_last_last() -> None:
    """Moving beyond the ends changes nothing."""
    week = _week(*FOUR)
    assert move_up(week, "Monday", 0) == week
    assert move_down(week, "Monday", 3) == week


def test_equal_neighbours_move_too() -> None:
    """The same exercise twice a day: the one at the place moves, not its double."""
    week = _week("curl", "dip", "curl")
    assert _shown(move_up(week, "Monday", 2)) == ["curl", "curl", "dip"]


def test_moving_to_another_day() -> None:
    """It goes to the end of the other day, out of its superset."""
    week = move_to_day(_week(*FOUR), "Monday", 1, "Thursday")
    assert _shown(week) == ["curl", "face_pull", "dip"]
    assert _shown(week, "Thursday") == ["crunch"]


def test_replacing_remembers_what_and_why() -> None:
    """The sets and the superset stay; the written load goes; what and why are kept."""
    week = _week(*FOUR)
    fixed = LoadRule(LoadFrom.FIXED, mass=Mass.kg(20))
    week = change_sets(week, "Monday", 1, [PrescribedSets(reps=Span(5, 8), load=fixed)])
    week = replace_exercise(
        week, "Monday", 1, "V-up", CATALOGUE, reason=Reason.TAKEN, because="bench in use"
    )
    new = asked_at(week, "Monday", 1)
    assert (new.exercise, new.superset, new.sets[0].reps) == ("v_up", "A", Span(5, 8))
    assert (new.replaces, new.reason, new.because) == ("crunch", Reason.TAKEN, "bench in use")
    assert new.sets[0].load == LoadRule()


def test_going_back_ends_the_replacement() -> None:
    """Putting the old exercise back leaves no trace of a replacement."""
    week = _week("curl")
    there = replace_exercise(week, "Monday", 0, "dip", CATALOGUE, reason=Reason.TASTE)
    assert replace_exercise(there, "Monday", 0, "curl", CATALOGUE) == week


def test_replacing_reps_by_a_hold() -> None:
    """A held exercise is asked for in seconds."""
    week = replace_exercise(_week("crunch"), "Monday", 0, "plank", CATALOGUE)
    sets = asked_at(week, "Monday", 0).sets[0]
    assert (sets.reps, sets.seconds) == (None, Span(20, 40))


def test_replacing_by_itself_is_refused() -> None:
    """An exercise cannot stand in for itself."""
    with pytest.raises(InputError, match="already there"):
        replace_exercise(_week("curl"), "Monday", 0, "Biceps curl", CATALOGUE)


def test_changing_one_group_of_sets() -> None:
    """The other groups stay as they are."""
    top = PrescribedSets(kind=SetKind.TOP, reps=Span(5, 7))
    drop = PrescribedSets(kind=SetKind.DROP, reps=Span(8, 10), rest_s=10)
    week = change_sets(_week("curl"), "Monday", 0, [top, drop])
    longer = PrescribedSets(kind=SetKind.DROP, reps=Span(10, 15), rest_s=15)
    assert asked_at(change_group(week, "Monday", 0, 1, longer), "Monday", 0).sets == (top, longer)
    with pytest.raises(InputError, match="no group of sets 3"):
        change_group(week, "Monday", 0, 2, longer)


def test_an_unsound_change_is_refused() -> None:
    """The rules of a week file hold for forms too."""
    drop = PrescribedSets(kind=SetKind.DROP, reps=Span(8, 10))
    with pytest.raises(InputError, match="no set before it to drop from"):
        change_sets(_week("curl"), "Monday", 0, [drop])
    with pytest.raises(InputError, match="has no sets"):
        change_sets(_week("curl"), "Monday", 0, [])
    with pytest.raises(InputError, match="12 sets"):
        change_sets(_week("curl"), "Monday", 0, [PrescribedSets(count=12, reps=Span(8, 10))])
    with pytest.raises(InputError, match="too long"):
        change_exercise(
            _week("curl"),
            "Monday",
            0,
            PrescribedExercise(exercise="curl", sets=usual_sets(CATALOGUE["curl"]), note="x" * 201),
        )


def test_joining_and_leaving_a_superset() -> None:
    """Two neighbours become a superset; leaving it puts the exercise after its partners."""
    week = join_superset(_week("curl", "dip", "crunch"), "Monday", 0)
    assert _shown(week) == ["curl:A", "dip:A", "crunch"]
    giant = join_superset(week, "Monday", 1)
    assert _shown(giant) == ["curl:A", "dip:A", "crunch:A"]
    assert _shown(leave_superset(giant, "Monday", 0)) == ["dip:A", "crunch:A", "curl"]
    assert _shown(leave_superset(week, "Monday", 1)) == ["curl", "dip", "crunch"]


def test_days_come_and_go_in_order() -> None:
    """A new day takes its place in the week; a removed one takes its exercises along."""
    week = add_day(_week("curl"), "Tuesday", focus="arms", minutes=40)
    assert [day.day for day in week.days] == ["Monday", "Tuesday", "Thursday"]
    assert [day.day for day in remove_day(week, "Monday").days] == ["Tuesday", "Thursday"]
    with pytest.raises(InputError, match="Monday is there already"):
        add_day(week, "Monday")


def test_days_change_places() -> None:
    """Moving a day onto another swaps the two."""
    week = move_day(_week("curl"), "Monday", "Thursday")
    assert _shown(week, "Thursday") == ["curl"]
    assert _shown(week, "Monday") == []
    assert _shown(move_day(week, "Thursday", "Sunday"), "Sunday") == ["curl"]


def test_focus_and_minutes() -> None:
    """A day's focus and minutes change, its exercises stay."""
    day = set_day(_week("curl"), "Monday", focus="arms", minutes=30).day("Monday")
    assert day is not None
    assert (day.focus, day.minutes, len(day.exercises)) == ("arms", 30, 1)


@pytest.mark.parametrize(("day", "place"), [("Sunday", 0), ("Monday", 4), ("Monday", -1)])
def test_places_that_do_not_exist(day: str, place: int) -> None:
    """A stale form is told that the week has changed, and nothing is changed."""
    with pytest.raises(InputError, match=r"no “Sunday”|no exercise"):
        remove_exercise(_week(*FOUR), day, place)


_edits = st.tuples(
    st.sampled_from(
        ["up", "down", "day", "replace", "join", "leave", "swap days", "remove", "add"]
    ),
    st.sampled_from(["Monday", "Thursday"]),
    st.integers(0, 5),
)


def _edited(week: Week, edit: tuple[str, str, int]) -> Week:
    what, day, place = edit
    other = "Thursday" if day == "Monday" else "Monday"
    actions = {
        "up": lambda: move_up(week, day, place),
        "down": lambda: move_down(week, day, place),
        "day": lambda: move_to_day(week, day, place, other),
        "replace": lambda: replace_exercise(week, day, place, "shrug", CATALOGUE),
        "join": lambda: join_superset(week, day, place),
        "leave": lambda: leave_superset(week, day, place),
        "swap days": lambda: move_day(week, day, other),
        "remove": lambda: remove_exercise(week, day, place),
        "add": lambda: add_exercise(week, day, _asked("wall_sit"), CATALOGUE, at=place),
    }
    return actions[what]()


def _count(week: Week) -> Counter[str]:
    return Counter(asked.exercise for day in week.days for asked in day.exercises)


@settings(deadline=None, max_examples=150, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(_edits, max_size=12))
def test_edits_never_lose_other_exercises(edits: list[tuple[str, str, int]]) -> None:
    """After any edits the week is sound, and only what an edit names comes or goes."""
    week = _week("curl", "crunch:A", "face_pull:A", "dip:A", "v_up", "plank")
    for edit in edits:
        before = _count(week)
        try:
            changed = _edited(week, edit)
        except InputError:
            continue
        gained, lost = _count(changed) - before, before - _count(changed)
        most = {"replace": (1, 1), "remove": (0, 1), "add": (1, 0)}.get(edit[0], (0, 0))
        assert (gained.total(), lost.total()) == most
        assert list(problems(changed)) == []
        assert [day.day for day in changed.days] == sorted(
            (day.day for day in changed.days), key=WEEKDAYS.index
        )
        week = changed
