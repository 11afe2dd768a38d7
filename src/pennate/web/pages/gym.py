"""The gym: what can be loaded there, and its text to change."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from pennate.core.gym import AnyItem, BandSet, Bar, Gym, Ladder, Sled, Stack
from pennate.files.gym_text import render_gym
from pennate.web.here import Records
from pennate.web.render import go, page
from pennate.web.words import mass_words, plural

pages = APIRouter()


@dataclass(frozen=True, slots=True)
class ItemWords:
    """One thing to load, in words."""

    name: str
    words: str
    place: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GymView:
    """What the Gym page shows."""

    name: str
    about: str
    plates: tuple[tuple[str, str], ...]
    items: tuple[ItemWords, ...]
    small: str
    text: str
    typed: bool


@pages.get("/gym")
def see_gym(request: Request, book: Records) -> Response:
    """The gym her week is done in."""
    gym = book.gym()
    if gym is None:
        return go("/start/gym")
    return page(request, "gym", gym_view(gym))


def gym_view(gym: Gym, typed: str = "") -> GymView:
    """The page of a gym; `typed` keeps a text that could not be read."""
    return GymView(
        name=gym.name,
        about=f"{plural(len(gym.items), 'thing')} to load",
        plates=tuple((mass_words(p.mass), plural(p.pairs, "pair")) for p in gym.plates),
        items=tuple(_item(item) for item in gym.items),
        small=", ".join(gym.small),
        text=typed or render_gym(gym),
        typed=bool(typed),
    )


def _item(item: AnyItem) -> ItemWords:
    place = " · ".join(part for part in (item.station, item.zone) if part)
    return ItemWords(item.name, f"{item.kind.value}, {_masses(item)}".rstrip(", "), place)


def _masses(item: AnyItem) -> str:
    if isinstance(item, Bar | Sled):
        return "start unknown" if item.label_only else mass_words(item.mass)
    if isinstance(item, Ladder):
        ends = f"{mass_words(item.masses[0])} to {mass_words(item.masses[-1])}"
        return f"{ends}, {len(item.masses)} steps"
    if isinstance(item, Stack):
        ends = f"{mass_words(item.start)} to {mass_words(item.top)}"
        return f"{ends} in steps of {mass_words(item.step)}"
    if isinstance(item, BandSet):
        return ", ".join(f"{band.name} {mass_words(band.tension)}" for band in item.bands)
    return "plates on a belt" if item.belt else ""
