"""Today, the Floor and the review: the pages of a session."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter
from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.book import Book
from pennate.app.doubts import open_about
from pennate.app.own_units import gym_in_use
from pennate.app.stops import loaded_joints
from pennate.app.swaps import Offer, offers
from pennate.app.today import RestDay, card_for, day_state, told_at_rest
from pennate.app.week_log import pace_of
from pennate.core.card import Card, CardSet, CardStop, OwnNotes
from pennate.core.facts import Facts
from pennate.core.felt import body_share
from pennate.core.gym import AnyItem
from pennate.core.muscles import Joint
from pennate.core.readiness import PainAction
from pennate.sheets.pictures import picture
from pennate.web.here import Records, day_of
from pennate.web.hurts import MUSCLE, pain_said
from pennate.web.pages.start import next_step
from pennate.web.render import go, page
from pennate.web.views.around import around, spared
from pennate.web.views.floor import Around, FloorSet, Last, floor_set, last_done
from pennate.web.views.offer_opened import offer_facts
from pennate.web.views.rest import rest_view
from pennate.web.views.today import today_view
from pennate.web.words import amount_words, load_words, on_item

pages = APIRouter()

LIKELY_RULE = (
    "Of sets like this, eight in ten end inside this range. It comes from everything you have"
    " logged, what you did today, and the rest before this set."
)
PAIN_WORDS = {
    PainAction.GO_ON: "Go on, and watch it.",
    PainAction.REDUCE: (
        "Take less load, less range or another exercise now. Go on only if it does not rise, and"
        " has settled by tomorrow morning."
    ),
    PainAction.STOP: "Stop this exercise today. If it lasts, see a clinician.",
}
SETTING_ROWS = 3


@dataclass(frozen=True, slots=True)
class Substitute:
    """One exercise that can stand in."""

    exercise: str
    item: str
    name: str
    words: str
    facts: Facts
    """What it keeps, and how its load was found."""


@dataclass(frozen=True, slots=True)
class PainAnswer:
    """What the pain rule says to what hurts, and what can be done about it."""

    words: str
    stops: bool
    """The exercise is to be stopped: no lighter load is offered."""
    lighter: str
    """The load that spares the joint, as the address takes it; empty where there is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorPage:
    """The set, and the panel she asked for."""

    set: FloorSet
    day: str
    weekday: str
    unit: str
    ask: str
    pain: str
    answer: PainAnswer | None
    """To the pain named in the address."""
    last: Last | None
    questions: tuple[tuple[str, str], ...]
    """About the set closed last: id and words."""
    likely_rule: str
    joints: tuple[str, ...]
    substitutes: tuple[Substitute, ...]
    setting_rows: tuple[tuple[str, str], ...]
    own_cue: str


@pages.get("/")
def home(book: Records) -> Response:
    """Where she belongs: the start page until something can be done, then today."""
    return go("/start" if next_step(book) else "/today")


@pages.get("/today")
def today(request: Request, book: Records, ask: str = "") -> Response:
    """The session of today, or the rest day."""
    if next_step(book):
        return go("/start")
    card = card_for(book, book.today)
    if isinstance(card, RestDay):
        said, back = told_at_rest(book, card.day)
        return page(request, "rest_day", rest_view(card, said, back.say if back else "", ask))
    state = day_state(book, card.day, card.session.capitalize())
    return page(request, "today", today_view(card, state, pace_of(book), ask))


@pages.get("/floor")
def floor(  # the page's own state lies in its address, so that it needs no script
    request: Request,
    book: Records,
    at: str = "",
    effort: str = "",
    ask: str = "",
    key: str = "",
    pain: str = "",
) -> Response:
    """The next set, at the load planned or the one she moved to."""
    if next_step(book):
        return go("/start")
    card = card_for(book, book.today)
    if isinstance(card, RestDay):
        return go("/today")
    if card.next_key is None:
        return go(f"/review/{card.day.isoformat()}")
    moved = at if key == card.next_key else ""
    return page(request, "floor", floor_page(book, card, card.next_key, (moved, effort, ask, pain)))


def floor_page(book: Book, card: Card, key: str, asked: tuple[str, str, str, str]) -> FloorPage:
    """The Floor's view; `asked` is the load moved to, effort, open panel and pain."""
    at, effort, ask, pain = asked
    found = card.find(key)
    if found is None:
        raise KeyError(key)
    stop, one = found
    near = around(gym_in_use(book, book.today), stop, one, at)
    last = last_done(card)
    return FloorPage(
        set=floor_set(
            card, key, near, picture=_picture(stop.item, near), chosen=effort, now=book.now()
        ),
        day=card.day.isoformat(),
        weekday=card.session.capitalize(),
        unit=book.profile().unit.value,
        ask=ask,
        pain=pain,
        answer=_pain_answer(book, stop, one, pain),
        last=last,
        questions=open_about(book, last.id) if last else (),
        likely_rule=LIKELY_RULE,
        joints=(*(joint.value for joint in Joint), MUSCLE),
        substitutes=_substitutes(book, card, stop) if ask == "taken" else (),
        setting_rows=_setting_rows(stop.notes),
        own_cue=stop.notes.cue,
    )


def _picture(item: AnyItem | None, near: Around) -> Markup:
    if near.here is None or item is None:
        return Markup()
    return Markup(picture(near.here, item))  # noqa: S704 # our own drawing


def _pain_answer(book: Book, stop: CardStop, one: CardSet, pain: str) -> PainAnswer | None:
    """What the pain rule says to the pain in the address, and the load that spares the joint."""
    said = pain_said(pain)
    if said is None:
        return None
    words = f"{said.where.capitalize()}: {PAIN_WORDS[said.action]}"
    if said.action is PainAction.STOP:
        return PainAnswer(words, stops=True, lighter="")
    profile = book.profile()
    share = body_share(book.catalogue[stop.exercise], female=profile.female)
    body_kg = float(share * (profile.body_mass_kg or 0))
    return PainAnswer(
        words, stops=False, lighter=spared(gym_in_use(book, book.today), stop, one, body_kg)
    )


def _substitutes(book: Book, card: Card, stop: CardStop) -> tuple[Substitute, ...]:
    taken = stop.item.id if stop.item else ""
    found = offers(book, card.day, card.session.capitalize(), stop.index, taken=taken)
    return tuple(
        Substitute(
            one.exercise,
            one.item,
            on_item(one.name, one.item_name),
            _swap_words(one),
            offer_facts(one),
        )
        for one in found
    )


def _swap_words(one: Offer) -> str:
    first = (
        "" if one.first is None else f"{amount_words(one.first)} at {load_words(one.first.load)}"
    )
    return "; ".join(filter(None, (first, one.caveat)))


def _setting_rows(notes: OwnNotes) -> tuple[tuple[str, str], ...]:
    rows = list(notes.settings.items())
    return tuple(rows + [("", "")] * max(1, SETTING_ROWS - len(rows)))


@pages.get("/today/stop/{index}")
def stop_page(request: Request, book: Records, index: int) -> Response:
    """One stop before it is done: its order, skipping it, another exercise."""
    card = card_for(book, book.today)
    if isinstance(card, RestDay):
        return go("/today")
    stop = next((one for one in card.stops if one.index == index), None)
    if stop is None:
        return go("/today")
    return page(request, "stop", StopPage(
        day=card.day.isoformat(), weekday=card.session.capitalize(), index=index,
        exercise=stop.exercise, name=stop.name, done=stop.finished,
        substitutes=_substitutes(book, card, stop), told=_told(book, card, stop),
    ))  # fmt: skip


@dataclass(frozen=True, slots=True)
class JointTold:
    """What she told of a joint today, to be corrected."""

    joint: str
    words: str
    score: int
    alarming: bool


def _told(book: Book, card: Card, stop: CardStop) -> tuple[JointTold, ...]:
    """Joints that hurt today by what she told: all where the stop is over, else those it loads."""
    said, loaded = card.readiness, loaded_joints(book.catalogue[stop.exercise])
    if said is None:
        return ()
    return tuple(
        JointTold(joint, said.words(joint), score, joint in said.alarming)
        for joint, score in said.pain.items()
        if (score or joint in said.alarming) and (stop.finished or joint in loaded)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class StopPage:
    """What can be decided about a stop."""

    day: str
    weekday: str
    index: int
    exercise: str
    name: str
    done: bool
    substitutes: tuple[Substitute, ...]
    told: tuple[JointTold, ...]


@pages.get("/review/{day}")
def review_page(request: Request, book: Records, day: str) -> Response:
    """What was learned on a day and what changes next time."""
    from pennate.app.review import review
    from pennate.web.views.review import review_view

    return page(request, "review", review_view(review(book, day_of(day, book))))
