"""Changes of the week: days, exercises, sets, order, supersets."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import zip_longest
from types import MappingProxyType

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.book import Book
from pennate.app.week_audit import audit_of, fix_for
from pennate.app.week_changes import change_week, undo_change
from pennate.app.weeks import asked_from_form, reason_from_form, sets_from_form
from pennate.core import edit_week as edit
from pennate.core.prescribed import PrescribedExercise, PrescribedSets, Week
from pennate.core.week_names import nearest_exercises
from pennate.errors import InputError, Where
from pennate.web.here import Audits, Form, Records, Text
from pennate.web.pages.week import day_named, day_page
from pennate.web.render import go, page

actions = APIRouter()

LONGEST_WAIT_S = 60.0
"""Seconds a change waits for its own computation, where it has to be made again."""

SET_FIELDS = (
    "sets", "kind", "reps", "seconds", "reserve", "load", "rest", "tempo", "style", "partials",
)  # fmt: skip

Change = Callable[[Week], Week]
ORDER_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "up": "one earlier",
        "down": "one later",
        "remove": "taken out",
        "join": "alternates with the next",
        "leave": "out of its superset",
    }
)


def _week(book: Book) -> Week:
    week = book.week()
    if week is None:
        raise InputError("there is no week yet", remedy="choose one on the start page")
    return week


def _changed(book: Book, change: Change, path: str, what: str) -> Response:
    change_week(book, change(_week(book)), what)
    return go(path, "week")


def _name(book: Book, day: str, place: int) -> str:
    """The name of what stands there, for the words of a change."""
    week = _week(book)
    known = book.catalogue.with_own(week.own_exercises)
    return known[edit.asked_at(week, day, place).exercise].name


def exercise_id(book: Book, name: str) -> str:
    """The exercise with this name; raises InputError with the nearest names otherwise."""
    found = book.catalogue.find(name)
    if found is None:
        near = nearest_exercises(name, book.catalogue)
        remedy = f"near it: {', '.join(near)}" if near else "choose one from the list"
        raise InputError(f"no exercise is called “{name}”", Where(field="Name"), remedy)
    return found.id


@actions.post("/week/fix")
def make_change(book: Records, work: Audits, key: Text = "", finding: Text = "") -> Response:
    """The change that the audit found best for a finding."""
    week = _week(book)
    found = audit_of(book, week, work, patience_s=LONGEST_WAIT_S)
    fix = fix_for(found, key, finding)
    return _changed(book, lambda _week: fix.week, "/week", fix.what)


@actions.post("/week/undo")
def undo(book: Records, change: Text = "") -> Response:
    """Put back the week as it was before the last change."""
    undo_change(book, change)
    return go("/week", "week")


@actions.post("/week/days")
def change_days(book: Records, day: Text = "") -> Response:
    """One more day."""
    return _changed(book, lambda week: edit.add_day(week, day), f"/week/{day}", f"{day} added")


@actions.post("/week/{day}/day")
def change_day(
    book: Records, day: str, do: Text, focus: Text = "", minutes: Text = "", to: Text = ""
) -> Response:
    """Focus, minutes and weekday of a day, or no such day any more."""
    if do == "remove":
        return _changed(book, lambda week: edit.remove_day(week, day), "/week", f"{day} taken out")
    wanted = _minutes(minutes)

    def change(week: Week) -> Week:
        changed = edit.set_day(week, day, focus=focus.strip(), minutes=wanted)
        return edit.move_day(changed, day, to) if to and to != day else changed

    return _changed(book, change, f"/week/{to or day}", f"{day} changed")


def _minutes(text: str) -> int | None:
    if not text.strip():
        return None
    if not text.strip().isdigit() or not 5 <= int(text) <= 300:
        raise InputError(f"“{text}” minutes is not a session", Where(field="Minutes"), "like 60")
    return int(text)


@actions.post("/week/{day}/add")
def add(request: Request, book: Records, day: str, exercise: Text) -> Response:
    """One more exercise at the end of a day."""
    week = _week(book)
    try:
        chosen = exercise_id(book, exercise)
    except InputError as error:
        view = day_page(week, day_named(week, day), book, typed=exercise)
        return page(request, "day", view, error=str(error), status=422)
    asked = PrescribedExercise(exercise=chosen, sets=edit.usual_sets(book.catalogue[chosen]))
    return _changed(
        book,
        lambda w: edit.add_exercise(w, day, asked, book.catalogue),
        f"/week/{day}",
        f"{book.catalogue[chosen].name} added on {day}",
    )


@actions.post("/week/{day}/{place}/order")
def order(book: Records, day: str, place: int, do: Text) -> Response:
    """Earlier, later, out, into a superset or out of it."""
    verbs: Mapping[str, Callable[[Week, str, int], Week]] = {
        "up": edit.move_up,
        "down": edit.move_down,
        "remove": edit.remove_exercise,
        "join": edit.join_superset,
        "leave": edit.leave_superset,
    }
    verb = verbs.get(do)
    if verb is None:
        raise InputError(f"“{do[:20]}” is nothing to do here", remedy="use the buttons")
    what = f"{_name(book, day, place)} on {day}: {ORDER_WORDS[do]}"
    return _changed(book, lambda week: verb(week, day, place), f"/week/{day}", what)


@actions.post("/week/{day}/{place}/move")
def move(book: Records, day: str, place: int, to: Text) -> Response:
    """To the end of another day."""
    what = f"{_name(book, day, place)} from {day} to {to}"
    return _changed(book, lambda week: edit.move_to_day(week, day, place, to), f"/week/{to}", what)


@actions.post("/week/{day}/{place}/replace")
def replace(book: Records, day: str, place: int, exercise: Text, reason: Text = "") -> Response:
    """Another exercise in the same place."""
    chosen, why = exercise_id(book, exercise), reason_from_form(reason)

    def change(week: Week) -> Week:
        return edit.replace_exercise(week, day, place, chosen, book.catalogue, reason=why)

    what = f"{book.catalogue[chosen].name} instead of {_name(book, day, place)} on {day}"
    return _changed(book, change, f"/week/{day}/{place}", what)


@actions.post("/week/{day}/{place}/about")
def about(book: Records, form: Form, day: str, place: int) -> Response:
    """Equipment, aids and note of an exercise; what the form leaves out stays."""
    told = {key: str(form[key]) for key in ("equipment", "aids", "note") if key in form}

    def change(week: Week) -> Week:
        old = edit.asked_at(week, day, place)
        return edit.change_exercise(week, day, place, asked_from_form(old, told))

    what = f"{_name(book, day, place)} on {day}: equipment, aids and note"
    return _changed(book, change, f"/week/{day}/{place}", what)


@actions.post("/week/{day}/{place}/sets")
def change_sets(book: Records, form: Form, day: str, place: int) -> Response:
    """All groups of sets of an exercise; a group without a count is taken out."""
    columns = [[str(text) for text in form.getlist(name)] for name in SET_FIELDS]
    notes = [str(text) for text in form.getlist("set_note")]
    groups = groups_of(columns, notes)
    what = f"{_name(book, day, place)} on {day}: sets"
    return _changed(
        book, lambda week: edit.change_sets(week, day, place, groups), f"/week/{day}", what
    )


def groups_of(columns: Sequence[Sequence[str]], notes: Sequence[str]) -> list[PrescribedSets]:
    """Form columns, a row a group, as groups of sets."""
    groups = []
    for *row, note in zip_longest(*columns, notes, fillvalue=""):
        fields = dict(zip(SET_FIELDS, row, strict=True))
        if fields["sets"].strip():
            groups.append(sets_from_form({**fields, "note": note}))
    if not groups:
        raise InputError("an exercise needs a set", Where(field="How many"), "or take it out")
    return groups
