"""Forms of the first run."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from dataclasses import replace
from itertools import zip_longest
from pathlib import Path
from typing import Annotated

from fastapi import APIRouter, UploadFile
from fastapi import File as FastapiFile
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.book import Book
from pennate.app.start import (
    MOST_REPS,
    answer_health,
    begin_own_week,
    remember,
    set_person,
    start_state,
    take_starter_gym,
    take_starter_week,
    use_week,
)
from pennate.core.quantities import LoadReading, Mass, Unit, parse_number
from pennate.core.readiness import Health
from pennate.errors import InputError
from pennate.files.week import read_week
from pennate.loading import Written
from pennate.web.here import Form, Records, Text
from pennate.web.pages.start import RememberedRow, remembered_rows, sets_view
from pennate.web.render import go, page

actions = APIRouter()

Upload = Annotated[UploadFile, FastapiFile()]


@actions.post("/start/health")
def health(book: Records, health: Text) -> Response:
    """Her answer, or that she would rather not say."""
    if health not in set(Health):
        raise InputError(f"“{health[:20]}” is no answer", remedy="use the buttons")
    answer_health(book, Health(health))
    return go("/start")


@actions.post("/start/week")
def week(book: Records, week: Text) -> Response:
    """A starter week as hers."""
    changed = take_starter_week(book, week)
    return go("/start" if book.gym() is None else "/week", "fitted" if changed else "")


@actions.post("/start/week-file")
def week_file(book: Records, file: Upload) -> Response:
    """A week from a file."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "week.toml"
        path.write_bytes(file.file.read())
        use_week(book, read_week(path, book.catalogue, name=file.filename or "the week"))
    return go("/start")


@actions.post("/start/gym")
def gym(book: Records, gym: Text) -> Response:
    """A starter gym as hers."""
    changed = take_starter_gym(book, gym)
    if start_state(book).ask_about:
        return go("/start/sets")  # there what was replaced is named
    return go("/week", "fitted" if changed else "")


@actions.post("/start/own-week")
def own_week(book: Records, form: Form) -> Response:
    """An empty week on the days she chose; exercises are added on the Week page."""
    begin_own_week(book, tuple(str(day) for day in form.getlist("day")))
    return go("/start" if book.gym() is None else "/week")


@actions.post("/start/sets")
def sets(request: Request, book: Records, form: Form) -> Response:
    """Remembered sets: all rows that can be read are kept, the others come back marked."""
    columns = {
        name: [str(value).strip() for value in form.getlist(name)]
        for name in ("exercise", "load", "load_unit", "reps", "reading")
    }
    person_wrong = _person(book, form)
    rows = _typed_rows(remembered_rows(book), columns)
    kept = [_kept(book, row) for row in rows]
    if person_wrong or any(row.wrong for row in kept):
        view = replace(
            sets_view(book, tuple(kept)),
            body_mass=str(form.get("body_mass", "")),
            unit=str(form.get("unit", "")),
            female=str(form.get("female", "")),
            trained=str(form.get("trained", "")),
        )
        error = person_wrong or _marked(sum(bool(row.wrong) for row in kept))
        return page(request, "start_sets", view, error=error, status=422)
    return go("/today", "remembered" if any(row.reps for row in kept) else "")


def _marked(count: int) -> str:
    """How many rows come back, and that the others need not be typed again."""
    rows = "One row" if count == 1 else f"{count} rows"
    return f"{rows}, marked below, cannot be read; what could be read is saved."


def _typed_rows(
    rows: Sequence[RememberedRow], columns: dict[str, list[str]]
) -> list[RememberedRow]:
    typed = {
        exercise: (load, unit, reps, reading)
        for exercise, load, unit, reps, reading in zip_longest(*columns.values(), fillvalue="")
    }
    empty = ("", "", "", "")
    return [
        replace(row, load=load, unit=unit or row.unit, reps=reps, reading=reading or row.reading)
        for row in rows
        for load, unit, reps, reading in [typed.get(row.id, empty)]
    ]


def _kept(book: Book, row: RememberedRow) -> RememberedRow:
    """The row after it was stored, or with what is wrong about it."""
    if not row.reps and not row.load:
        return row
    if not (row.reps.isdecimal() and 1 <= int(row.reps) <= MOST_REPS):
        wrong = f"How many reps? A whole number like 8, at most {MOST_REPS}."
        return replace(row, wrong=wrong, wrong_field="reps")
    if row.load and not row.unit:
        wrong = (
            f"Is {row.load[:20]} kg or lb? It is marked in {row.marked}, and you count in another."
        )
        return replace(row, wrong=wrong, wrong_field="unit")
    try:
        remember(book, row.id, _written(row), int(row.reps), row.item)
    except InputError as error:
        return replace(row, wrong=str(error))
    return row


def _written(row: RememberedRow) -> Written | None:
    if not row.load:
        return None
    if row.reading not in set(LoadReading):
        remedy = f"one of: {', '.join(LoadReading)}"
        raise InputError(f"“{row.reading[:20]}” is no way to count a load", remedy=remedy)
    amount = parse_number(row.load)
    return Written(
        amount=-abs(amount) if row.helps else amount,
        unit=Unit(row.unit),
        reading=LoadReading(row.reading),
    )


def _person(book: Book, form: Form) -> str:
    """Body mass, sex and unit; what is wrong about them, if anything."""
    mass, unit = str(form.get("body_mass", "")).strip(), str(form.get("unit", "kg"))
    female = {"yes": True, "no": False}.get(str(form.get("female", "")))
    trained = {"yes": True, "no": False}.get(str(form.get("trained", "")))
    try:
        given = Mass(parse_number(mass), Unit(unit)).in_kg if mass else None
        set_person(book, female=female, body_mass_kg=given, trained=trained, unit=Unit(unit))
    except InputError as error:
        return str(error)
    return ""
