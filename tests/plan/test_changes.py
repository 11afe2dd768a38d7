"""What differs between two weeks, as it is told."""

from __future__ import annotations

from dataclasses import replace

from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    PlannedDay,
    PrescribedExercise,
    PrescribedSets,
    Reason,
    Span,
    Week,
)
from pennate.files.catalogue import read_catalogue
from pennate.plan.changes import changes_between, moved_from
from pennate.plan.replan import Happened, replan

CATALOGUE = read_catalogue()
WARM = PrescribedSets(kind=SetKind.WARM_UP, count=2, reps=Span(5, 5))
WORK = PrescribedSets(count=3, reps=Span(8, 10))


def _asked(exercise: str, *sets: PrescribedSets) -> PrescribedExercise:
    return PrescribedExercise(exercise=exercise, sets=sets or (WORK,))


def _week(**days: tuple[PrescribedExercise, ...]) -> Week:
    """A week of these days."""
    return Week(name="hers", days=tuple(PlannedDay(day=d, exercises=e) for d, e in days.items()))


PULL = _asked("lat_pulldown")
HERS = _week(Monday=(PULL,), Thursday=(_asked("curl"),))


def _told(new: Week, *, old: Week = HERS, missed: frozenset[str] = frozenset()) -> tuple[str, ...]:
    return changes_between(old, new, CATALOGUE, missed=missed)


def test_warm_ups_are_no_sets() -> None:
    """Two written warm-ups and three working sets are three sets; ramps alone change nothing."""
    ramped, bare = _asked("back_squat_free", WARM, WORK), _asked("back_squat_free")
    assert _told(_week(Monday=(ramped,)), old=_week(Monday=(bare,))) == ()
    more = _asked("back_squat_free", WARM, replace(WORK, count=4))
    assert _told(_week(Monday=(more,)), old=_week(Monday=(ramped,))) == (
        "Monday: Back squat, 4 sets and not 3",
    )
    assert _told(_week(Monday=(ramped,)), old=_week(Monday=())) == ("Monday: Back squat, 3 sets",)


def test_an_exercise_that_moved_is_said_once() -> None:
    """Where it went is told, not that it is gone from where it was."""
    moved = replace(PULL, because=moved_from("Monday"))
    new = _week(Monday=(), Thursday=(_asked("curl"), moved))
    assert _told(new) == ("Thursday: Lat pulldown, 3 sets, moved from Monday",)


def test_a_stand_in_that_moved_is_said_once() -> None:
    """Its place is told with what it replaces; neither Monday lacks it, nor is it left out."""
    chin = replace(
        _asked("chin_up"),
        replaces="lat_pulldown",
        reason=Reason.TAKEN,
        because=moved_from("Monday"),
    )
    new = _week(Monday=(), Thursday=(_asked("curl"), chin))
    told = (
        "Thursday: Chin-up, 3 sets, instead of Lat pulldown: taken or not there; moved from Monday",
    )
    assert _told(new) == told
    assert _told(new, missed=frozenset({"Monday"})) == told


def test_what_a_missed_day_loses_is_told_although_another_day_has_it() -> None:
    """Curls of Thursday do not make up for those of Monday; days come in their order."""
    old = _week(
        Monday=(PULL, _asked("curl")),
        Tuesday=(_asked("leg_press"),),
        Thursday=(_asked("curl"),),
    )
    new = _week(Monday=(), Tuesday=(), Thursday=(_asked("curl"),))
    assert _told(new, old=old, missed=frozenset({"Tuesday", "Monday"})) == (
        "Monday missed: Lat pulldown, Biceps curl left out this week",
        "Tuesday missed: Leg press left out this week",
    )


def test_what_moved_beside_its_like_is_counted_with_it() -> None:
    """Curls of Monday done on Thursday too are more sets of Thursday, and nothing is left out."""
    old = _week(Monday=(_asked("curl"),), Thursday=(_asked("curl"),))
    moved = replace(_asked("curl"), because=moved_from("Monday"))
    new = _week(Monday=(), Thursday=(_asked("curl"), moved))
    assert _told(new, old=old, missed=frozenset({"Monday"})) == (
        "Thursday: Biceps curl, 6 sets and not 3",
    )


def test_a_replan_does_not_say_what_is_gone_beside_its_stand_in() -> None:
    """What replaces a lost machine's exercise is told, not that it is no longer there."""
    lost = replan(HERS, Happened(lost={"lat_pulldown"}), CATALOGUE).changes
    assert any("instead of Lat pulldown" in line for line in lost)
    assert not any(line.endswith("no Lat pulldown") for line in lost)
