"""Her gyms: what can be loaded there, one thing as a form, and the gym of her week."""

from __future__ import annotations

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.book import Book
from pennate.app.gym_page import gym_of, misfits
from pennate.app.gyms import item_named, starter_gyms
from pennate.app.stops import item_asked
from pennate.core.gym import AnyItem, Gym
from pennate.web.here import Records
from pennate.web.pages.start import Offered
from pennate.web.render import go, page
from pennate.web.views.gym import NO_SLIPS, GymView, Slips, choose_view, gym_view
from pennate.web.views.gym_item import ItemView, Typed, item_view, new_view

pages = APIRouter()


@pages.get("/gym")
def see_gym(request: Request, book: Records, at: str = "") -> Response:
    """One of her gyms; without an id the one her week is trained in."""
    if book.gym() is None:
        return go("/start/gym")
    return page(request, "gym", gym_page(book, gym_of(book, at)))


def gym_page(book: Book, gym: Gym, slips: Slips = NO_SLIPS) -> GymView:
    """The page of a gym; slips keep what could not be read."""
    used = book.gym()
    return gym_view(gym, book.gyms(), used.id if used else "", slips)


@pages.get("/gym/add")
def add_gym(request: Request) -> Response:
    """Starter gyms to take, or a bare one with a name."""
    return page(request, "gym_add", offered())


def offered() -> tuple[Offered, ...]:
    """The starter gyms, each with what it holds."""
    return tuple(Offered(one.id, one.name, one.holds) for one in starter_gyms())


@pages.get("/gym/item")
def see_item(
    request: Request, book: Records, at: str = "", item: str = "", kind: str = ""
) -> Response:
    """One thing to correct, or a new one of a kind."""
    gym = gym_of(book, at)
    return page(request, "gym_item", item_page(book, gym, item, kind))


def item_page(
    book: Book, gym: Gym, item_id: str, kind: str, typed: Typed | None = None
) -> ItemView:
    """The form of a thing that is there, or of a new one of this kind."""
    if not item_id:
        return new_view(gym, kind, book.profile().unit.value, typed)
    item = item_named(gym, item_id)
    return item_view(gym, item, book.catalogue, typed, _done_on(book, gym, item))


def _done_on(book: Book, gym: Gym, item: AnyItem) -> tuple[str, ...]:
    """Exercises of the week that are done on a thing, if the week is trained in this gym."""
    week = book.week()
    if week is None or week.gym != gym.id:
        return ()
    asked = [one for day in week.days for one in day.exercises]
    found = [
        book.catalogue[one.exercise].name
        for one in asked
        if item_asked(gym, book.catalogue[one.exercise], one) is item
    ]
    return tuple(dict.fromkeys(found))


@pages.get("/gym/choose")
def see_choice(request: Request, book: Records, at: str = "") -> Response:
    """What this gym cannot carry of her week, before the week is moved there."""
    gym, week = gym_of(book, at), book.week()
    found = misfits(week, gym, book.catalogue) if week else ()
    return page(request, "gym_choose", choose_view(gym, found))
