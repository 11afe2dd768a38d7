"""The pages of the body, and the weekly review."""

from __future__ import annotations

from datetime import datetime, timedelta

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.body_food import aim as aimed_at
from pennate.app.body_today import BodyToday, body_today
from pennate.app.book import Book
from pennate.app.photo_removal import delete_older, removed_photos
from pennate.app.photos import content_of, packed, photo, photos
from pennate.app.week_review_text import week_words
from pennate.core.body import Site, TapeState
from pennate.core.quantities import format_number, parse_number
from pennate.errors import InputError
from pennate.sheets.body_chart import girth_svg, weight_svg
from pennate.sheets.strength_chart import FRAMES, NARROW
from pennate.web.here import Records
from pennate.web.pages.start import next_step
from pennate.web.render import go, page
from pennate.web.seen import cautious_page
from pennate.web.views.body import (
    GirthForm,
    body_view,
    boxes_for,
    landmark_words,
    muscles_at,
)
from pennate.web.views.body_parts import (
    food_page,
    girth_points,
    site_page,
    weight_page,
    weight_points,
)
from pennate.web.views.body_photos import photo_page, photos_page
from pennate.web.views.body_recovery import cycle_page, recovery_page
from pennate.web.views.translate import Asked, translate_page

pages = APIRouter()

SVG = "image/svg+xml"
GAIN = "gain"
PUMPED_HOURS = 3


def site_of(text: str) -> Site:
    """A place of the tape by its name. Raises InputError for anything else."""
    if text not in set(Site):
        raise InputError(f"“{text[:20]}” is not a site", remedy=f"one of: {', '.join(Site)}")
    return Site(text)


@pages.get("/body")
def see_body(request: Request, book: Records) -> Response:
    """Is it growing: the verdicts, what to measure next, and the other pages of the body."""
    delete_older(book)
    return cautious_page(request, "body", body_view(body_today(book)))


@pages.get("/body/girth")
def see_girth(request: Request, book: Records, site: str = "", day: str = "") -> Response:
    """The form for one place of the tape."""
    now = body_today(book)
    chosen = site_of(site or body_view(now).first_site)
    return page(request, "body_girth", girth_form(now, chosen, {"day": [day] if day else []}))


def girth_form(now: BodyToday, site: Site, typed: dict[str, list[str]]) -> GirthForm:
    """The form with what was typed kept."""
    trained = _trained_lately(now.book)
    day = (typed.get("day") or [now.today.isoformat()])[0]
    state = (typed.get("state") or [""])[0]
    if not state:
        state = TapeState.PUMPED.value if trained else TapeState.RELAXED.value
    names = [one.value for one in Site]
    return GirthForm(
        site=site.value,
        name=site.value.capitalize(),
        landmark=landmark_words(site),
        muscles=muscles_at(site),
        day=day,
        today=now.today.isoformat(),
        state=state,
        boxes=boxes_for(now, site, typed),
        sites=tuple((name, name) for name in names),
        trained=trained,
        next_site=_next_site(now, site),
        saved=_noted(now, site, day),
        more=any(value for name, values in typed.items() if "fold" in name for value in values),
    )


def _next_site(now: BodyToday, site: Site) -> str:
    """The next place of those she measures; the order of the body otherwise."""
    measured = list(dict.fromkeys(series.site for series in now.series)) or list(Site)
    if site not in measured:
        return ""
    place = measured.index(site) + 1
    return measured[place].value if place < len(measured) else ""


def _noted(now: BodyToday, site: Site, day: str) -> tuple[tuple[str, str, str], ...]:
    found = []
    for entry in now.book.ledger.entries("girth"):
        if entry.day.isoformat() == day and entry.body.get("site") == site.value:
            readings = ", ".join(f"{float(parse_number(g)):g}" for g in _readings(entry.body))
            side, state = entry.body.get("side", ""), entry.body.get("state", "")
            flag = ", pumped: not used" if state == TapeState.PUMPED.value else ""
            fold = entry.body.get("skinfold_mm")
            extra = f", skinfold {fold} mm" if fold else ""
            found.append((entry.id, side or site.value, f"{readings} cm{extra}{flag}"))
    return tuple(found)


def _readings(body: object) -> list[str]:
    readings = body.get("girths_cm", []) if hasattr(body, "get") else []
    return [str(one) for one in readings]


def _trained_lately(book: Book) -> str:
    """Said where a set was logged within three hours: the reading would be a pumped one."""
    moment = book.now().replace(tzinfo=None)
    sets = book.history().sets
    last = sets[-1].when if sets else None
    if isinstance(last, datetime) and timedelta(0) <= moment - last < timedelta(hours=PUMPED_HOURS):
        return (
            "You trained within three hours: a reading now is a pumped one. It is kept and not"
            " used; tomorrow morning is better."
        )
    return ""


@pages.get("/body/site/{site}")
def see_site(request: Request, book: Records, site: str) -> Response:
    """One place of the tape: verdicts, chart and table."""
    return cautious_page(request, "body_site", site_page(body_today(book), site_of(site)))


@pages.get("/body/girth.svg")
def girth_chart(book: Records, site: str, frame: str = "", look: str = "") -> Response:
    """The girths of a place as SVG."""
    points = girth_points(body_today(book).series, site_of(site))
    return Response(
        girth_svg(points, FRAMES.get(frame, NARROW), dark=look == "dark"), media_type=SVG
    )


@pages.get("/body/weight")
def see_weight(request: Request, book: Records) -> Response:
    """Weight: trend, forecast, a new weighing, hide it."""
    return cautious_page(request, "body_weight", weight_page(body_today(book)))


@pages.get("/body/weight.svg")
def weight_chart(book: Records, frame: str = "", look: str = "") -> Response:
    """The weight trend as SVG."""
    points = weight_points(body_today(book))
    return Response(
        weight_svg(points, FRAMES.get(frame, NARROW), dark=look == "dark"), media_type=SVG
    )


@pages.get("/body/food")
def see_food(request: Request, book: Records, aim: str = "") -> Response:
    """Protein, maintenance, and guidance with its guards; all optional."""
    now = body_today(book)
    if not aim:
        return cautious_page(request, "body_food", food_page(now))
    wanted = 0.0 if aim == GAIN else _deficit(aim)
    return cautious_page(
        request, "body_food", food_page(now, aim, aimed_at(book, now.food, wanted))
    )


def _deficit(text: str) -> float:
    value = float(parse_number(text))
    if not 0 < value <= 5000:
        raise InputError(f"{format_number(parse_number(text))} kcal below", remedy="up to 500")
    return value


@pages.get("/body/recovery")
def see_recovery(request: Request, book: Records) -> Response:
    """Sleep, joints, a lighter week only on evidence, the return after days off."""
    return page(request, "body_recovery", recovery_page(body_today(book)))


@pages.get("/body/cycle")
def see_cycle(request: Request, book: Records) -> Response:
    """The cycle, off unless she turns it on."""
    return cautious_page(request, "body_cycle", cycle_page(body_today(book)))


@pages.get("/body/photos")
def see_photos(
    request: Request, book: Records, pose: str = "", first: str = "", second: str = ""
) -> Response:
    """Photos side by side."""
    delete_older(book)
    chosen, gone = (first, second), removed_photos(book)
    view = photos_page(photos(book), book.today.isoformat(), pose, chosen, removed=gone)
    return page(request, "body_photos", view)


@pages.get("/body/photos.zip")
def photos_zip(book: Records) -> Response:
    """All photos in one file, because she asked for it."""
    name = f"photos-{book.today.isoformat()}.zip"
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(packed(book), media_type="application/zip", headers=headers)


@pages.get("/body/photos/{photo_id}")
def see_photo(request: Request, book: Records, photo_id: str) -> Response:
    """One photo with a ruler."""
    return page(request, "body_photo", photo_page(photo(book, photo_id)))


@pages.get("/body/photos/{photo_id}/file")
def photo_file(book: Records, photo_id: str) -> Response:
    """The image itself, kept by no cache."""
    content, media = content_of(book, photo_id)
    return Response(content, media_type=media, headers={"Cache-Control": "private, no-store"})


@pages.get("/body/translate")
def see_translate(
    request: Request,
    before: str = "",
    after: str = "",
    fold: str = "",
    length: str = "",
) -> Response:
    """Girth, area and volume, one from another."""
    asked = Asked(
        before=before.strip(), after=after.strip(), fold=fold.strip(), length=length.strip()
    )
    view = translate_page(asked)
    return page(request, "body_translate", view, status=422 if view.wrong else 200)


@pages.get("/review/week")
def see_week_review(request: Request, book: Records) -> Response:
    """What changed, what comes next, what to measure: one page that prints."""
    if next_step(book):
        return go("/start")
    return cautious_page(request, "week_review", week_words(book))
