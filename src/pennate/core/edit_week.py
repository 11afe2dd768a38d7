"""Changes to a week, one function each: a week in, a new week out.

An exercise is named by its day and its 0-based place on that day. Every function raises
InputError when the day or place does not exist or the result would not be a sound week.
Supersets stay together when their members move, and end when one member is left.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable
from dataclasses import replace
from itertools import accumulate, groupby

from pennate.core.exercise import Catalogue, Exercise
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
from pennate.core.week_check import sound_day
from pennate.core.week_names import known_exercise, known_variant
from pennate.errors import InputError, Where

Asked = tuple[PrescribedExercise, ...]

USUAL_REPS = Span(8, 12)
USUAL_HOLD_S = Span(20, 40)
USUAL_RESERVE = Span(1, 2)
"""What a new exercise begins with: common practice, for her to change."""


def usual_sets(exercise: Exercise) -> tuple[PrescribedSets, ...]:
    """Three sets as most would begin with: 8–12 reps or a hold, one or two in reserve."""
    if exercise.timed:
        return (PrescribedSets(count=3, seconds=USUAL_HOLD_S),)
    return (PrescribedSets(count=3, reps=USUAL_REPS, reserve=USUAL_RESERVE),)


def add_exercise(
    week: Week, day: str, asked: PrescribedExercise, catalogue: Catalogue, *, at: int | None = None
) -> Week:
    """The week with one more exercise on a day, at the end unless a place is given."""
    known = catalogue.with_own(week.own_exercises)
    exercise = known_exercise(asked.exercise, known)
    variant = asked.variant and known_variant(asked.variant, exercise)
    new = replace(asked, exercise=exercise.id, variant=variant, superset="")

    def added(exercises: Asked) -> Asked:
        place = len(exercises) if at is None else max(0, min(at, len(exercises)))
        return (*exercises[:place], new, *exercises[place:])

    return _with_exercises(week, day, added)


def remove_exercise(week: Week, day: str, place: int) -> Week:
    """The week without this exercise."""
    asked_at(week, day, place)
    return _with_exercises(week, day, lambda all_: (*all_[:place], *all_[place + 1 :]))


def move_up(week: Week, day: str, place: int) -> Week:
    """The exercise one stop earlier; the first stays first. A superset moves as one."""
    asked_at(week, day, place)
    return _with_exercises(week, day, lambda exercises: _moved_up(exercises, place))


def move_down(week: Week, day: str, place: int) -> Week:
    """The exercise one stop later; the last stays last. A superset moves as one."""
    asked_at(week, day, place)

    def moved(exercises: Asked) -> Asked:
        backwards = tuple(reversed(exercises))
        return tuple(reversed(_moved_up(backwards, len(exercises) - 1 - place)))

    return _with_exercises(week, day, moved)


def _moved_up(exercises: Asked, place: int) -> Asked:
    mark = exercises[place].superset
    if place and mark and exercises[place - 1].superset == mark:
        swapped = (exercises[place], exercises[place - 1])
        return (*exercises[: place - 1], *swapped, *exercises[place + 1 :])
    stops = stops_of(exercises)
    ends = list(accumulate(len(stop) for stop in stops))
    here = bisect_right(ends, place)
    if here:
        stops[here - 1], stops[here] = stops[here], stops[here - 1]
    return tuple(asked for stop in stops for asked in stop)


def stops_of(exercises: Asked) -> list[Asked]:
    """Exercises as stops: a superset's members together, all others alone."""
    marked = enumerate(exercises)
    groups = groupby(marked, key=lambda pair: pair[1].superset or pair[0])
    return [tuple(asked for _, asked in members) for _, members in groups]


def move_to_day(week: Week, day: str, place: int, to: str) -> Week:
    """The exercise at the end of another day, out of its superset."""
    if day == to:
        raise InputError(f"it is already on {day}", Where(field="day"), "choose another day")
    asked = replace(asked_at(week, day, place), superset="")
    _day(week, to)
    left = remove_exercise(week, day, place)
    return _with_exercises(left, to, lambda exercises: (*exercises, asked))


def replace_exercise(
    week: Week,
    day: str,
    place: int,
    exercise: str,
    catalogue: Catalogue,
    *,
    reason: Reason | None = None,
    because: str = "",
) -> Week:
    """Another exercise in the same place with the same sets, remembering what and why.

    Written loads belong to the old exercise, so the forecast chooses anew. Going back to
    the exercise that was replaced ends the replacement.
    """
    known = catalogue.with_own(week.own_exercises)
    old, new = asked_at(week, day, place), known_exercise(exercise, known)
    if new.id == old.exercise:
        raise InputError(f"“{new.name}” is already there", remedy="choose another exercise")
    back = new.id == old.replaces
    asked = PrescribedExercise(
        exercise=new.id,
        sets=tuple(_refitted(sets, new) for sets in old.sets),
        aids=old.aids,
        superset=old.superset,
        replaces="" if back else old.exercise,
        reason=None if back else reason,
        because=because,
    )
    return _with_exercise(week, day, place, asked)


def _refitted(sets: PrescribedSets, exercise: Exercise) -> PrescribedSets:
    own = sets.load.source in {LoadFrom.OF_TOP, LoadFrom.OF_PREVIOUS}
    kept = sets if own else replace(sets, load=LoadRule())
    if exercise.timed and kept.reps is not None:
        return replace(kept, reps=None, seconds=USUAL_HOLD_S)
    if not exercise.timed and kept.seconds is not None:
        return replace(kept, reps=USUAL_REPS, seconds=None)
    return kept


def change_exercise(week: Week, day: str, place: int, asked: PrescribedExercise) -> Week:
    """The exercise there asked for differently: sets, equipment, aids, note; same exercise."""
    old = asked_at(week, day, place)
    if asked.exercise != old.exercise:
        raise InputError("this would change the exercise itself", remedy="replace it instead")
    return _with_exercise(week, day, place, asked)


def change_sets(week: Week, day: str, place: int, sets: Iterable[PrescribedSets]) -> Week:
    """All sets of an exercise anew."""
    asked = replace(asked_at(week, day, place), sets=tuple(sets))
    return _with_exercise(week, day, place, asked)


def change_group(week: Week, day: str, place: int, group: int, sets: PrescribedSets) -> Week:
    """One group of alike sets of an exercise anew; the other groups stay."""
    groups = list(asked_at(week, day, place).sets)
    if not 0 <= group < len(groups):
        raise InputError(
            f"there is no group of sets {group + 1}", Where(field=day), "reload the page"
        )
    groups[group] = sets
    return change_sets(week, day, place, groups)


def join_superset(week: Week, day: str, place: int) -> Week:
    """The exercise and the one after it alternate from now on."""
    first, second = asked_at(week, day, place), asked_at(week, day, place + 1)
    mark = first.superset or second.superset or _free_mark(_day(week, day).exercises)
    marks = {one for one in (first.superset, second.superset) if one}

    def joined(exercises: Asked) -> Asked:
        return tuple(
            replace(asked, superset=mark)
            if index in {place, place + 1} or asked.superset in marks
            else asked
            for index, asked in enumerate(exercises)
        )

    return _with_exercises(week, day, joined)


def leave_superset(week: Week, day: str, place: int) -> Week:
    """The exercise alone again, after its former partners."""
    asked = asked_at(week, day, place)

    def left(exercises: Asked) -> Asked:
        last = max(i for i, one in enumerate(exercises) if one.superset == asked.superset)
        rest = [one for index, one in enumerate(exercises) if index != place]
        return (*rest[:last], replace(asked, superset=""), *rest[last:])

    return _with_exercises(week, day, left) if asked.superset else week


def add_day(week: Week, day: str, *, focus: str = "", minutes: int | None = None) -> Week:
    """The week with one more day, in its place among the others."""
    if week.day(day) is not None:
        raise InputError(f"{day} is there already", Where(field="day"), "choose another day")
    if day not in WEEKDAYS:
        raise InputError(f"“{day}” is not a day of the week", Where(field="day"), "write Monday")
    new = PlannedDay(day=day, focus=focus, minutes=minutes)
    return replace(week, days=tuple(sorted((*week.days, new), key=_order)))


def remove_day(week: Week, day: str) -> Week:
    """The week without this day and its exercises; one day must stay."""
    gone = _day(week, day)
    if len(week.days) == 1:
        raise InputError("a week needs a day", Where(field=day), "change the day instead")
    return replace(week, days=tuple(one for one in week.days if one is not gone))


def move_day(week: Week, day: str, to: str) -> Week:
    """The whole day on another weekday; two days there change places."""
    if to not in WEEKDAYS:
        raise InputError(f"“{to}” is not a day of the week", Where(field="day"), "write Monday")
    _day(week, day)
    names = {day: to, to: day}
    days = (replace(one, day=names.get(one.day, one.day)) for one in week.days)
    return replace(week, days=tuple(sorted(days, key=_order)))


def set_day(week: Week, day: str, *, focus: str, minutes: int | None) -> Week:
    """The day with this focus and these minutes."""
    new = replace(_day(week, day), focus=focus, minutes=minutes)
    return replace(week, days=tuple(new if one.day == day else one for one in week.days))


def asked_at(week: Week, day: str, place: int) -> PrescribedExercise:
    """The exercise at this place of a day; raises InputError when there is none."""
    exercises = _day(week, day).exercises
    if not 0 <= place < len(exercises):
        what = f"there is no exercise {place + 1} on {day}"
        raise InputError(what, Where(field=day), "reload the page: the week has changed")
    return exercises[place]


def _day(week: Week, day: str) -> PlannedDay:
    found = week.day(day)
    if found is None:
        raise InputError(f"the week has no “{day}”", Where(field="day"), "add the day first")
    return found


def _order(day: PlannedDay) -> int:
    return WEEKDAYS.index(day.day)


def _with_exercise(week: Week, day: str, place: int, asked: PrescribedExercise) -> Week:
    return _with_exercises(week, day, lambda all_: (*all_[:place], asked, *all_[place + 1 :]))


def _with_exercises(week: Week, day: str, change: Callable[[Asked], Asked]) -> Week:
    old = _day(week, day)
    new = sound_day(replace(old, exercises=_without_lone_marks(change(old.exercises))))
    return replace(week, days=tuple(new if one is old else one for one in week.days))


def _without_lone_marks(exercises: Asked) -> Asked:
    counts = [sum(one.superset == asked.superset for one in exercises) for asked in exercises]
    return tuple(
        replace(asked, superset="") if count == 1 else asked
        for asked, count in zip(exercises, counts, strict=True)
    )


def _free_mark(exercises: Asked) -> str:
    used = {asked.superset for asked in exercises}
    return next(letter for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ" if letter not in used)
