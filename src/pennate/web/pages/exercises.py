"""The catalogue, and the page of one exercise."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.book import Book
from pennate.app.catalogue import search
from pennate.app.exercise_view import exercise_view, why_strength
from pennate.app.known_items import KnownItem, known_items
from pennate.app.strength_words import why_lines
from pennate.core.exercise import Exercise
from pennate.core.history import History
from pennate.errors import InputError, NoAnswerError
from pennate.sheets.strength_chart import FRAMES, NARROW, strength_svg
from pennate.web.here import Records
from pennate.web.render import page
from pennate.web.views.exercise import chart_of, exercise_page, group_of
from pennate.web.views.exercise_item import unknown_item

pages = APIRouter()


@dataclass(frozen=True, slots=True)
class Listed:
    """One exercise in the list."""

    id: str
    name: str
    about: str


@dataclass(frozen=True, slots=True)
class Part:
    """Exercises under one heading."""

    title: str
    exercises: tuple[Listed, ...]


@dataclass(frozen=True, slots=True)
class Listing:
    """The list, or what is near a query that found nothing."""

    query: str
    parts: tuple[Part, ...]
    near: tuple[Listed, ...] = ()


@pages.get("/exercises")
def see_exercises(request: Request, book: Records, q: str = "") -> Response:
    """All exercises by muscle group, or those that fit a query."""
    history, catalogue = book.history(), book.catalogue
    if not q.strip():
        return page(
            request,
            "exercises",
            Listing("", _by_group(tuple(catalogue.exercises.values()), history)),
        )
    try:
        found = search(catalogue, q)
    except NoAnswerError as error:
        names = error.nearest.get("exercises", [])
        near = [catalogue.find(str(name)) for name in names] if isinstance(names, list) else []
        listed = tuple(_listed(one, history) for one in near if one)
        return page(request, "exercises", Listing(q, (), listed))
    part = Part("Found", tuple(_listed(one, history) for one in found))
    return page(request, "exercises", Listing(q, (part,)))


def _by_group(exercises: tuple[Exercise, ...], history: History) -> tuple[Part, ...]:
    """Those she does first, then the rest under the group each trains most."""
    done = {one.exercise for one in history}
    titles: dict[str, list[Listed]] = {}
    for one in sorted(exercises, key=lambda e: e.name):
        title = "Yours" if one.id in done else group_of(one)
        titles.setdefault(title, []).append(_listed(one, history))
    order = sorted(titles, key=lambda title: (title != "Yours", title))
    return tuple(Part(title, tuple(titles[title])) for title in order)


def _listed(one: Exercise, history: History) -> Listed:
    last = history.last_day(one.id)
    about = f"last {last:%-d %B}" if last else ", ".join(kind.value for kind in one.equipment[:2])
    return Listed(one.id, one.name, about)


@pages.get("/exercises/{exercise_id}")
def see_exercise(
    request: Request, book: Records, exercise_id: str, item: str | None = None, why: str = ""
) -> Response:
    """Strength with its interval, what comes next and why, what it trains."""
    exercise = _known(book, exercise_id)
    known = known_items(book, exercise)
    place = _place(item, known)
    if item and place is None:
        return page(request, "exercise_item", unknown_item(exercise, item, known), status=404)
    seen = exercise_view(book, exercise.id, place)
    lines: tuple[str, ...] = ()
    if why:
        found = why_strength(book, exercise.id, seen.item)
        lines = tuple(why_lines(found, seen.item, book.gym()))
    return page(request, "exercise", exercise_page(exercise, seen, lines))


@pages.get("/exercises/{exercise_id}/chart.svg")
def see_chart(
    book: Records, exercise_id: str, item: str | None = None, frame: str = "", look: str = ""
) -> Response:
    """The chart of an exercise as SVG, in one of the frames of the pages."""
    exercise = _known(book, exercise_id)
    place = _place(item, known_items(book, exercise))
    if item and place is None:
        raise InputError(f"{exercise.name} is not known on “{item}” here", remedy="see its page")
    chart = chart_of(exercise_view(book, exercise.id, place))
    svg = strength_svg(chart, FRAMES.get(frame, NARROW), dark=look == "dark")
    return Response(svg, media_type="image/svg+xml")


def _place(item: str | None, known: Sequence[KnownItem]) -> str | None:
    """The item asked for, if the exercise is known on it; None stands for what comes next."""
    return next((one.id for one in known if one.id == item), None)


def _known(book: Book, exercise_id: str) -> Exercise:
    found = book.catalogue.find(exercise_id)
    if found is None:
        raise InputError(f"there is no exercise “{exercise_id}”", remedy="see the list")
    return found
