"""The first run: one question, a week, a gym, a few remembered sets."""

from __future__ import annotations

from dataclasses import dataclass, replace

from fastapi import APIRouter
from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.book import Book
from pennate.app.gyms import starter_gyms
from pennate.app.start import AskAbout, start_state
from pennate.app.weeks import starter_weeks
from pennate.core.caution_texts import STRAIN_FIRST
from pennate.core.gym import Gym
from pennate.core.plural import plural
from pennate.core.prescribed import WEEKDAYS, Reason, Week
from pennate.core.quantities import KG_PER_LB, LoadReading, Unit, format_number
from pennate.core.readiness import Health
from pennate.core.week_names import stand_in_words
from pennate.loading import ladder
from pennate.sheets.mark import mark_svg
from pennate.web.here import Records
from pennate.web.render import go, page
from pennate.web.views.floor import takes_off
from pennate.web.words import READING_CHOICES

pages = APIRouter()

STEPS = ("health", "week", "gym", "sets")
ANSWERS = {
    Health.UNDER_18: "I am under 18",
    Health.PREGNANCY: "Pregnant, or recently gave birth",
    Health.AVOID_STRAIN: "Told to avoid strain; high blood pressure, heart, eye or hernia trouble",
    Health.NONE: "None of these",
    Health.NOT_SAID: "I would rather not say",
}


@dataclass(frozen=True, slots=True)
class Offered:
    """A starter week or gym."""

    id: str
    name: str
    about: str


@dataclass(frozen=True, slots=True)
class RememberedRow:
    """One exercise that she may remember a set of, with what she typed."""

    id: str
    item: str
    name: str
    on: str
    known: str
    soon: bool
    """It belongs to the coming session."""
    loaded: bool
    load_label: str
    helps: bool
    """The number is help, which she writes without a sign."""
    reading: str
    readings: tuple[tuple[str, str], ...]
    unit: str
    """What the number is in; empty where the item has another unit than she counts in: asked."""
    marked: str = ""
    """The unit that the item is marked in."""
    load: str = ""
    reps: str = ""
    wrong: str = ""
    wrong_field: str = "load"
    """The box that is marked where something is wrong."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StartView:
    """One step of the first run."""

    step: int
    steps: int
    mark: Markup
    answers: tuple[tuple[str, str], ...] = ()
    strain: str = ""
    weeks: tuple[Offered, ...] = ()
    weekdays: tuple[str, ...] = ()
    gyms: tuple[Offered, ...] = ()
    exercises: tuple[RememberedRow, ...] = ()
    body_mass: str = ""
    unit: str = "kg"
    female: str = ""
    trained: str = ""
    replaced: tuple[str, ...] = ()
    """What her gym made the week do instead, in words."""
    foot: str = ""


def _step(name: str) -> StartView:
    mark = Markup(mark_svg())  # noqa: S704 # our own drawing
    return StartView(step=STEPS.index(name) + 1, steps=len(STEPS), mark=mark)


@pages.get("/start")
def start(book: Records) -> Response:
    """The first step that is still open."""
    step = next_step(book)
    return go(f"/start/{step}" if step else "/today")


def next_step(book: Book) -> str:
    """The step that is still open; empty when a session can begin."""
    state = start_state(book)
    if not state.health_answered and not state.sets_logged:
        return "health"
    if not state.has_week:
        return "week"
    return "" if state.has_gym else "gym"


@pages.get("/start/health")
def health(request: Request) -> Response:
    """The one question."""
    answers = tuple((answer.value, words) for answer, words in ANSWERS.items())
    view = replace(_step("health"), answers=answers, strain=STRAIN_FIRST.text)
    return page(request, "start_health", view)


@pages.get("/start/week")
def week(request: Request) -> Response:
    """Starter weeks."""
    weeks = tuple(
        Offered(one.id, one.name, f"{plural(one.days, 'session')} a week")
        for one in starter_weeks()
    )
    return page(request, "start_week", replace(_step("week"), weeks=weeks, weekdays=WEEKDAYS))


@pages.get("/start/gym")
def gym(request: Request) -> Response:
    """Starter gyms."""
    gyms = tuple(Offered(one.id, one.name, one.holds) for one in starter_gyms())
    return page(request, "start_gym", replace(_step("gym"), gyms=gyms))


@pages.get("/start/sets")
def sets(request: Request, book: Records) -> Response:
    """A remembered set for as many exercises as she likes."""
    if book.week() is None or book.gym() is None:
        return go("/start")
    return page(request, "start_sets", sets_view(book, remembered_rows(book)))


def sets_view(book: Book, rows: tuple[RememberedRow, ...]) -> StartView:
    """The page of remembered sets."""
    profile = book.profile()
    mass = profile.body_mass_kg
    if mass is not None and profile.unit is Unit.LB:
        mass = mass / KG_PER_LB
    said = {True: "yes", False: "no", None: ""}
    return replace(
        _step("sets"),
        exercises=rows,
        body_mass=format_number(mass) if mass else "",
        unit=profile.unit.value,
        female=said[profile.female],
        trained=said[profile.trained],
        replaced=_replaced(book),
        foot="an empty row begins light",
    )


def _replaced(book: Book) -> tuple[str, ...]:
    """Exercises that stand in her week for want of equipment, with their day."""
    week = book.week()
    return tuple(
        f"{day.day}: {book.catalogue[asked.exercise].name} {words}"
        for day in (week.days if week else ())
        for asked in day.exercises
        if asked.reason is Reason.TAKEN and (words := stand_in_words(asked, book.catalogue))
    )


def remembered_rows(book: Book) -> tuple[RememberedRow, ...]:
    """The exercises of her week, those of the coming session first."""
    current, place = book.week(), book.gym()
    if current is None or place is None:
        return ()
    days = _coming(current, book.today.weekday())
    order = list(dict.fromkeys(id_ for day in days for id_ in day))
    asked = sorted(start_state(book).ask_about, key=lambda one: order.index(one.exercise))
    usual, first = book.profile().unit, set(days[0])
    return tuple(_row(one, place, usual, soon=one.exercise in first) for one in asked)


def _coming(current: Week, weekday: int) -> list[list[str]]:
    """Exercises of the days that train, from today on."""
    names = [*WEEKDAYS[weekday:], *WEEKDAYS[:weekday]]
    planned = [day for name in names if (day := current.day(name)) and not day.rest]
    return [[asked.exercise for asked in day.exercises] for day in planned] or [[]]


def _row(asked: AskAbout, place: Gym, usual: Unit, *, soon: bool) -> RememberedRow:
    """A row in the unit and the way of counting of its item."""
    item = place.item(asked.item)
    rungs = ladder(place, item) if item is not None and asked.loaded else ()
    shown = next((rung for rung in rungs if rung.load.amount), None)
    reading = shown.reading if shown else LoadReading.TOTAL
    helps = item is not None and takes_off(item)
    return RememberedRow(
        id=asked.exercise,
        item=asked.item,
        name=asked.name,
        on=asked.item_name,
        known=asked.known,
        soon=soon,
        loaded=shown is not None,
        load_label="Help" if helps else "Load",
        helps=helps,
        reading=reading.value,
        readings=READING_CHOICES,
        unit="" if shown and shown.load.unit is not usual else usual.value,
        marked=shown.load.unit.value if shown else "",
    )
