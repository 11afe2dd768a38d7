"""Changes of her gyms: plates, things, names, one more gym, and the gym of her week."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from urllib.parse import quote

from fastapi import APIRouter
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from pennate.app import gym_page as gyms
from pennate.app.book import Book
from pennate.app.gym_forms import Entry, form_fields
from pennate.app.gyms import with_plates, with_small
from pennate.core.gym import Gym
from pennate.core.prescribed import Week
from pennate.core.week_names import nearest_exercises
from pennate.errors import InputError, Where
from pennate.files.gym import read_gym
from pennate.web.here import Form, Records, Text
from pennate.web.pages.gym import gym_page, item_page, offered
from pennate.web.render import go, page
from pennate.web.views.gym import NewPlate, PlateRow, Slips
from pennate.web.views.gym_item import Typed, slips_of, words_of

actions = APIRouter()

PLATE_FIELDS = ("mass", "unit", "pairs", "diameter", "thickness", "competition")


def _text(form: FormData, name: str) -> str:
    value = form.get(name, "")
    return value.replace("\r\n", "\n").strip() if isinstance(value, str) else ""


def _there(gym_id: str, fragment: str = "", said: str = "gym") -> Response:
    return go(f"/gym?at={quote(gym_id)}{fragment}", said)


def _said(book: Book, before: Week | None) -> str:
    """Whether exercises of the week came back with what the gym has now."""
    after = book.week()
    same = before is None or after is None or before.days == after.days
    return "gym" if same else "asked_again"


def _again(request: Request, book: Book, gym: Gym, slips: Slips, error: str) -> Response:
    return page(request, "gym", gym_page(book, gym, slips), error=error, status=422)


# Plates and small things


@actions.post("/gym/plates")
def plates(request: Request, book: Records, form: Form) -> Response:
    """Pairs of every kind of plate; all are saved, or all come back as typed."""
    gym = gyms.gym_of(book, _text(form, "gym"))
    rows = _plate_rows(form)
    slips = tuple(replace(row, wrong=_plate_slip(gym, row)) for row in rows)
    if any(row.wrong for row in slips):
        return _again(request, book, gym, Slips(plates=slips), "One number cannot be read.")
    gyms.save_plates(book, gym.id, [_plate_fields(row) for row in rows if row.pairs])
    return _there(gym.id, "#plates")


def _plate_rows(form: FormData) -> list[PlateRow]:
    columns = [
        [str(one).strip() for one in form.getlist(name)] for name in ("mass", "unit", "pairs")
    ]
    return [
        PlateRow(f"{mass} {unit}", mass, unit, pairs)
        for mass, unit, pairs in zip(*columns, strict=False)
    ]


def _plate_fields(row: PlateRow) -> dict[str, str]:
    return {"mass": row.mass, "unit": row.unit, "pairs": row.pairs}


def _plate_slip(gym: Gym, row: PlateRow) -> str:
    try:
        with_plates(gym, _plate_fields(row))
    except InputError as error:
        return words_of(error, "pairs")
    return ""


@actions.post("/gym/plate")
def plate(request: Request, book: Records, form: Form) -> Response:
    """Another kind of plate, or the size of a known one."""
    gym = gyms.gym_of(book, _text(form, "gym"))
    typed = {name: text for name in PLATE_FIELDS if (text := _text(form, name))}
    try:
        gyms.save_plates(book, gym.id, [{"pairs": "1", **typed}])
    except InputError as error:
        slips = Slips(new_plate=NewPlate(typed, slips_of(error, "plate")))
        return _again(request, book, gym, slips, "The plate cannot be added yet.")
    return _there(gym.id, "#plates")


@actions.post("/gym/small")
def small(book: Records, gym: Text, small: Text = "") -> Response:
    """Straps, cuffs, belts, benches, mats: by name."""
    known = gyms.gym_of(book, gym)
    gyms.save(book, with_small(known, small.replace("\n", ",").split(",")))
    return _there(gym, "#small")


# Things


@actions.post("/gym/item")
def item(request: Request, book: Records, form: Form) -> Response:
    """A new thing, or a known one corrected; a slip stays beside its field."""
    gym = gyms.gym_of(book, _text(form, "gym"))
    kind, item_id = _text(form, "kind"), _text(form, "item")
    typed = {field.key: _text(form, field.key) for field in form_fields(kind)}
    before = book.week()
    try:
        gyms.save_item(book, gym.id, kind, _fields(book, kind, typed, item_id))
    except InputError as error:
        slips = Typed(typed, slips_of(error, kind))
        view = item_page(book, gym, item_id, kind, slips)
        told = slips.wrong.get("", "") or "See the marked field."
        return page(request, "gym_item", view, error=told, status=422)
    return _there(gym.id, "#things", _said(book, before))


def _fields(book: Book, kind: str, typed: Mapping[str, str], item_id: str) -> dict[str, object]:
    """The texts of the form; exercises by id, so that the file holds no names."""
    _need(kind, typed)
    fields: dict[str, object] = {**typed, "for": _exercises(book, typed.get("for", ""))}
    return {**fields, "id": item_id} if item_id else fields


def _need(kind: str, typed: Mapping[str, str]) -> None:
    """Raise InputError for the first needed field that is empty."""
    for field in form_fields(kind):
        if field.required and field.entry is not Entry.YES and not typed[field.key]:
            raise InputError("this is needed", Where(field=field.key), f"like {field.example}")


def _exercises(book: Book, text: str) -> list[str]:
    names = [name.strip() for name in text.replace(";", "\n").split("\n") if name.strip()]
    return [_exercise(book, name) for name in names]


def _exercise(book: Book, name: str) -> str:
    found = book.catalogue.find(name)
    if found is None:
        near = nearest_exercises(name, book.catalogue, most=2)
        remedy = f"near it: {', '.join(near)}" if near else "see the list of exercises"
        raise InputError(f"no exercise is called “{name}”", Where(field="for"), remedy)
    return found.id


@actions.post("/gym/away")
def away(book: Records, gym: Text, item: Text) -> Response:
    """A thing is not there any more."""
    gyms.take_away(book, gym, item)
    return _there(gym, "#things")


# Whole gyms


@actions.post("/gym/add")
def add(request: Request, book: Records, starter: Text = "", name: Text = "") -> Response:
    """One more gym, from a starter or bare."""
    try:
        made = gyms.take_starter(book, starter) if starter else gyms.begin_bare(book, name)
    except InputError as error:
        return page(request, "gym_add", offered(), error=str(error), status=422)
    return _there(made.id)


@actions.post("/gym/name")
def name(request: Request, book: Records, gym: Text, name: Text = "") -> Response:
    """Another name."""
    known = gyms.gym_of(book, gym)
    try:
        gyms.rename(book, gym, name)
    except InputError as error:
        slips = Slips(name=name, name_wrong=words_of(error, "name"))
        return _again(request, book, known, slips, "The name stays as it was.")
    return _there(gym)


@actions.post("/gym/choose")
def choose(book: Records, form: Form) -> Response:
    """Train the week here; first time round, what does not fit is shown and nothing changes."""
    gym, week = gyms.gym_of(book, _text(form, "gym")), book.week()
    asked = _text(form, "asked")
    found = gyms.misfits(week, gym, book.catalogue) if week is not None else ()
    if not asked and found:
        return go(f"/gym/choose?at={quote(gym.id)}")
    wanted = {"replace": {str(one) for one in form.getlist("replace")}}
    ticked = {**wanted, "all": {one.key for one in found}}.get(asked, set())
    gyms.choose(book, gym.id, ticked)
    return go("/week", "fitted") if ticked else _there(gym.id)


@actions.post("/gym")
def text(request: Request, book: Records, text: Text) -> Response:
    """A gym from its text; a text that cannot be read comes back as it was typed."""
    unix, before = text.replace("\r\n", "\n"), book.week()
    try:
        gym = gyms.save(book, read_gym(unix, name="the gym"))
    except InputError as error:
        current = book.gym()
        if current is None:
            raise
        return _again(request, book, current, Slips(text=unix), str(error))
    return _there(gym.id, said=_said(book, before))
