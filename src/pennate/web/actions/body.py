"""Forms of the body: readings, weighings, nights, food, pain, cycle, choices, photos."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Annotated

from fastapi import APIRouter, UploadFile
from fastapi import File as FastapiFile
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.body_notes import (
    Choices,
    Taped,
    choices,
    choose,
    save_girths,
    save_intake,
    save_morning,
    save_period,
    save_sleep,
    save_weight,
)
from pennate.app.body_today import body_today
from pennate.app.body_undo import take_back
from pennate.app.book import Book
from pennate.app.photo_removal import delete_for_good, put_back, remove_photo, removed_photos
from pennate.app.photos import Told, mark_scale, photo, photos, save_photo
from pennate.core.body import TRUNK, Site, TapeState
from pennate.core.performed import Side
from pennate.core.quantities import parse_number
from pennate.errors import InputError, Where
from pennate.web.here import Form, Records, Text, day_of
from pennate.web.pages.body import girth_form, site_of
from pennate.web.render import go, page
from pennate.web.seen import cautious_page
from pennate.web.views.body_parts import food_page, weight_page
from pennate.web.views.body_photos import photo_page, photos_page
from pennate.web.views.body_recovery import recovery_page

actions = APIRouter()

Upload = Annotated[UploadFile, FastapiFile()]

BACK = frozenset(
    {"/body", "/body/girth", "/body/weight", "/body/food", "/body/recovery", "/body/cycle"}
)


def _text(form: FormData, name: str) -> str:
    value = form.get(name, "")
    return value.strip() if isinstance(value, str) else ""


def _number(text: str, field: str) -> Fraction:
    """A number with comma or point. Raises InputError naming the field."""
    try:
        return parse_number(text)
    except InputError:
        raise InputError(
            f"“{text[:20]}” is not a number", Where(field=field), "like 42.5"
        ) from None


# Girths


@actions.post("/body/girth")
def girth(request: Request, book: Records, form: Form) -> Response:
    """Readings of one place; what cannot be read comes back as it was typed."""
    site = site_of(_text(form, "site"))
    typed = _typed(form)
    try:
        taped = _taped(book, site, form, typed)
        save_girths(book, taped)
    except InputError as error:
        view = girth_form(body_today(book), site, typed)
        return page(request, "body_girth", view, error=str(error), status=422)
    following = _text(form, "next")
    said = "pumped" if taped.state is TapeState.PUMPED else "saved"
    if following in set(Site):
        return go(f"/body/girth?site={following.replace(' ', '+')}&day={taped.day}", said)
    return go(f"/body/site/{site.value}", said)


def _typed(form: FormData) -> dict[str, list[str]]:
    names = ("left", "right", "once", "left_fold", "right_fold", "once_fold", "state", "day")
    return {name: [str(value).strip() for value in form.getlist(name)] for name in names}


def _taped(book: Book, site: Site, form: FormData, typed: dict[str, list[str]]) -> Taped:
    sides: dict[str, Side | None] = {"once": None} if site in TRUNK else {s.value: s for s in Side}
    state = _text(form, "state") or TapeState.RELAXED.value
    if state not in set(TapeState):
        raise InputError(f"“{state[:20]}” is no state", remedy="use the buttons")
    girths: dict[Side | None, tuple[Fraction, ...]] = {}
    folds: dict[Side | None, Fraction] = {}
    for name, side in sides.items():
        label = f"{name} {site.value}" if side else site.value
        girths[side] = tuple(_number(text, label) for text in typed[name] if text)
        for text in filter(None, typed[f"{name}_fold"]):
            folds[side] = _number(text, f"{label}, skinfold")
    return Taped(
        day=day_of(_text(form, "day"), book),
        site=site,
        state=TapeState(state),
        girths=girths,
        skinfolds=folds,
    )


@actions.post("/body/undo")
def undo(book: Records, id: Text, back: Text = "", site: Text = "") -> Response:  # noqa: A002 - the form's own field
    """Take a note back."""
    take_back(book, id)
    if site in set(Site):
        return go(f"/body/girth?site={site.replace(' ', '+')}", "taken_back")
    return go(back if back in BACK else "/body", "taken_back")


# Weight, food, sleep


@actions.post("/body/weight")
def weight(request: Request, book: Records, kg: Text = "", day: Text = "") -> Response:
    """A weighing."""
    try:
        save_weight(book, day_of(day, book), _number(kg, "Weight"))
    except InputError as error:
        view = weight_page(body_today(book), kg)
        return cautious_page(request, "body_weight", view, error=str(error), status=422)
    return go("/body/weight", "saved")


@actions.post("/body/intake")
def intake(
    request: Request, book: Records, kcal: Text = "", protein: Text = "", day: Text = ""
) -> Response:
    """A day's food."""
    try:
        grams = _number(protein, "Protein") if protein else None
        save_intake(book, day_of(day, book), _number(kcal, "Energy"), grams)
    except InputError as error:
        view = food_page(body_today(book), typed=(kcal, protein))
        return cautious_page(request, "body_food", view, error=str(error), status=422)
    return go("/body/food", "saved")


@actions.post("/body/sleep")
def sleep(request: Request, book: Records, hours: Text = "", day: Text = "") -> Response:
    """Hours slept before a day."""
    try:
        save_sleep(book, day_of(day, book), _number(hours, "Hours slept"))
    except InputError as error:
        view = recovery_page(body_today(book), hours)
        return page(request, "body_recovery", view, error=str(error), status=422)
    return go("/body/recovery", "saved")


@actions.post("/body/morning")
def morning(book: Records, joint: Text, score: Text, alarming: Text = "") -> Response:
    """How a joint feels this morning."""
    if not score.isdigit():
        raise InputError(f"“{score[:10]}” is not a number from 0 to 10", Where(field="How much"))
    save_morning(book, book.today, joint, int(score), alarming=bool(alarming))
    return go("/body/recovery", "saved")


# Cycle and choices


@actions.post("/body/period")
def period(book: Records, day: Text = "", what: Text = "start") -> Response:
    """The first day of a period, or the last day of bleeding."""
    save_period(book, day_of(day, book), last=what == "last")
    return go("/body/cycle", "saved")


@actions.post("/body/choices")
def choosing(request: Request, book: Records, form: Form) -> Response:
    """What she wants to see, and what energy may know of her."""
    back = _text(form, "back") if _text(form, "back") in BACK else "/body"
    try:
        choose(book, _changed(choices(book), form))
    except InputError as error:
        height, age, fat = (_text(form, name) for name in ("height", "age", "fat"))
        view = replace(food_page(body_today(book)), height=height, age=age, fat=fat)
        return cautious_page(request, "body_food", view, error=str(error), status=422)
    return go(back, "saved")


def _changed(now: Choices, form: FormData) -> Choices:
    """Only what the form carries is changed."""
    return Choices(
        hide_weight=_flag(form, "hide_weight", kept=now.hide_weight),
        cycle=_flag(form, "cycle", kept=now.cycle),
        periods_expected=_flag(form, "expected", kept=now.periods_expected),
        bone_stress=_flag(form, "bone_stress", kept=now.bone_stress),
        height_cm=_given(form, "height", now.height_cm),
        age=_given(form, "age", now.age),
        fat_kg=_given(form, "fat", now.fat_kg),
    )


def _flag(form: FormData, name: str, *, kept: bool) -> bool:
    return _text(form, name) == "yes" if name in form else kept


def _given(form: FormData, name: str, kept: Fraction | None) -> Fraction | None:
    if name not in form:
        return kept
    text = _text(form, name)
    return _number(text, name.capitalize()) if text else None


# Photos


@actions.post("/body/photos")
def new_photo(
    request: Request,
    book: Records,
    file: Upload,
    pose: Text = "",
    light: Text = "",
    note: Text = "",
    day: Text = "",
) -> Response:
    """A photo to keep."""
    try:
        told = Told(day=day_of(day, book), pose=pose, light=light.strip(), note=note.strip())
        save_photo(book, file.file.read(), told)
    except InputError as error:
        view = replace(
            photos_page(photos(book), book.today.isoformat(), pose, removed=removed_photos(book)),
            light=light,
        )
        return page(request, "body_photos", view, error=str(error), status=422)
    return go(f"/body/photos?pose={pose.replace(' ', '+')}", "saved")


@actions.post("/body/photos/{photo_id}/marks")
def marks(
    request: Request, book: Records, photo_id: str, top: Text = "", floor: Text = ""
) -> Response:
    """Where head and floor lie, in per cent from the upper edge."""
    try:
        mark_scale(book, photo_id, _number(top, "Head"), _number(floor, "Floor"))
    except InputError as error:
        view = photo_page(photo(book, photo_id), (top, floor))
        return page(request, "body_photo", view, error=str(error), status=422)
    pose = photo(book, photo_id).pose.value.replace(" ", "+")
    return go(f"/body/photos?pose={pose}", "saved")


@actions.post("/body/photos/{photo_id}/remove")
def remove(book: Records, photo_id: str) -> Response:
    """Remove a photo; its file is deleted on another day, so that a slip can be undone."""
    remove_photo(book, photo_id)
    return go("/body/photos", "removed")


@actions.post("/body/photos/{photo_id}/put-back")
def undo_removal(book: Records, photo_id: str) -> Response:
    """A removed photo as it was."""
    pose = photo(book, put_back(book, photo_id)).pose.value.replace(" ", "+")
    return go(f"/body/photos?pose={pose}", "put_back")


@actions.post("/body/photos/{photo_id}/delete")
def delete(book: Records, photo_id: str) -> Response:
    """The file of a removed photo is deleted at once."""
    delete_for_good(book, photo_id)
    return go("/body/photos", "deleted")
