"""What a week asked for first comes back once its gym has come to carry it.

A week is fitted to a gym before that gym is corrected: the hack squat becomes a leg press
because the starter gym has no hack squat machine. Once she adds the machine, the exercise the
week was written with returns, as it was written; it can be undone like any change of the week.
"""

from __future__ import annotations

from dataclasses import replace

from pennate.app.book import Book
from pennate.app.stops import item_for
from pennate.app.week_changes import change_week
from pennate.core.exercise import Catalogue
from pennate.core.gym import Gym
from pennate.core.prescribed import PlannedDay, PrescribedExercise, Reason, Week
from pennate.plan.substitute import carry_over


def bring_back(book: Book, before: Gym, now: Gym) -> str:
    """Put back what her week lacked only for want of equipment that `now` has; gives what."""
    week, lines = book.week(), list[str]()
    if week is None:
        return ""
    earlier = [one for one in book.weeks() if one is not week]
    days = []
    for day in week.days:
        kept = [_again(one, day, earlier, (before, now), book.catalogue) for one in day.exercises]
        pairs = zip(day.exercises, kept, strict=True)
        lines += [_words(*pair, day.day, book.catalogue) for pair in pairs if pair[0] != pair[1]]
        days.append(replace(day, exercises=tuple(kept)))
    if lines:
        change_week(book, replace(week, days=tuple(days)), "; ".join(lines))
    return "; ".join(lines)


def _again(
    asked: PrescribedExercise,
    day: PlannedDay,
    earlier: list[Week],
    gyms: tuple[Gym, Gym],
    catalogue: Catalogue,
) -> PrescribedExercise:
    """The exercise in whose place one stands, where only the second gym carries it."""
    before, now = gyms
    first = catalogue.exercises.get(asked.replaces)
    if asked.reason is not Reason.TAKEN or first is None:
        return asked
    written = _written(first.id, day, earlier)
    wanted = written.equipment if written else ""
    if item_for(before, first, wanted) is not None or item_for(now, first, wanted) is None:
        return asked
    if any(one.exercise == first.id for one in day.exercises):
        return asked  # she has it on this day already
    if written is not None:
        return replace(written, superset=asked.superset)
    return carry_over(catalogue[asked.exercise], asked, first)


def _written(exercise: str, day: PlannedDay, earlier: list[Week]) -> PrescribedExercise | None:
    """The exercise as it was last written on this day before something stood in for it."""
    for week in reversed(earlier):
        then = week.day(day.day)
        for one in then.exercises if then else ():
            if one.exercise == exercise and not one.replaces:
                return one
    return None


def _words(
    was: PrescribedExercise, back: PrescribedExercise, day: str, catalogue: Catalogue
) -> str:
    name, stood_in = catalogue[back.exercise].name, catalogue[was.exercise].name
    return f"{name} again instead of {stood_in} on {day}"
