"""The Week page, a day of it, and one exercise of a day."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.week_known import looking_at
from pennate.core.edit_week import asked_at
from pennate.core.prescribed import WEEKDAYS, PlannedDay, Week
from pennate.errors import InputError
from pennate.web.here import Audits, Records
from pennate.web.render import go, page
from pennate.web.views.week import DayView, day_view, week_view
from pennate.web.views.week_asked import asked_form, exercise_names

pages = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class DayPage:
    """A day with the forms that change it."""

    day: DayView
    minutes: str
    weekdays: tuple[tuple[str, str], ...]
    names: tuple[str, ...]
    typed: str = ""


def day_named(week: Week, name: str) -> PlannedDay:
    """The day of the week with this name; raises InputError when there is none."""
    found = week.day(name)
    if found is None:
        raise InputError(f"the week has no “{name}”", remedy="see the whole week")
    return found


@pages.get("/week")
def see_week(request: Request, book: Records, work: Audits) -> Response:
    """The lanes and the days."""
    week = book.week()
    if week is None:
        return go("/start")
    return page(request, "week", week_view(book, week, work))


@pages.get("/week/{day}")
def see_day(request: Request, book: Records, day: str) -> Response:
    """One day and the forms that change it."""
    week = book.week()
    if week is None:
        return go("/start")
    return page(request, "day", day_page(week, day_named(week, day), book))


def day_page(week: Week, planned: PlannedDay, book: Records, typed: str = "") -> DayPage:
    """The view of a day; `typed` keeps a name that was not found."""
    known = book.catalogue.with_own(week.own_exercises)
    return DayPage(
        day=day_view(planned, known, looking_at(book, week).pace),
        minutes=str(planned.minutes or ""),
        weekdays=tuple((name, name) for name in WEEKDAYS),
        names=exercise_names(known),
        typed=typed,
    )


@pages.get("/week/{day}/{place}")
def see_asked(request: Request, book: Records, day: str, place: int) -> Response:
    """One exercise of a day and the forms that change it."""
    week = book.week()
    if week is None:
        return go("/start")
    asked_at(week, day, place)
    planned = day_named(week, day)
    return page(request, "asked", asked_form(week, planned, place, book.catalogue, book.gym()))
