"""Today: which planned day it is, the card, the check-in, and her decisions before and during."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from types import MappingProxyType
from weakref import WeakKeyDictionary

from pennate.app.at_hand import AtHand
from pennate.app.body_notes import pain_reports
from pennate.app.book import Book
from pennate.app.card import drawn, make_card
from pennate.app.day import DAY_KINDS, DayState, fold, readiness_body
from pennate.app.illness import after_illness, illness_now
from pennate.app.notes import notes_for
from pennate.app.outline import DayInputs
from pennate.app.own_units import gym_in_use
from pennate.app.pain_holds import without_held
from pennate.app.remembered import remembered_sets
from pennate.app.shorten import shorten
from pennate.app.stand import stand
from pennate.app.standing import Standing
from pennate.app.stops import items_for
from pennate.app.unnamed import apart_lines
from pennate.app.week_log import pace_of
from pennate.body.recovery import LayoffReturn
from pennate.core.card import Card
from pennate.core.prescribed import WEEKDAYS, PlannedDay, Week
from pennate.core.readiness import Readiness
from pennate.errors import InputError, NoAnswerError
from pennate.estimate import StrengthModel

SHORTEST_SESSION_MIN = 5
LONGEST_SESSION_MIN = 240


@dataclass(frozen=True, slots=True)
class RestDay:
    """Nothing is planned today; the next session and the ones that may be done instead."""

    day: date
    next_day: str
    next_date: date | None
    choices: tuple[str, ...]


def the_week(book: Book) -> Week:
    """Her week; raises NoAnswerError where none is set."""
    week = book.week()
    if week is None:
        raise NoAnswerError(
            "there is no week yet: choose one on the start page (pennate serve), "
            "or import a folder with a week.toml"
        )
    return week


def weekday_of(day: date) -> str:
    """The name of a date's weekday."""
    return WEEKDAYS[day.weekday()]


def planned_for(book: Book, day: date, weekday: str | None = None) -> PlannedDay | None:
    """The planned day done on a date: the one chosen, the one begun, or the calendar's."""
    week = the_week(book)
    if weekday is not None:
        found = week.day(weekday.capitalize())
        if found is None or found.rest:
            names = ", ".join(d.day for d in week.days if not d.rest)
            raise InputError(f"nothing is planned on “{weekday}”", remedy=f"one of: {names}")
        return found
    begun = [e.body.get("weekday") for e in book.ledger.entries("session", since=day, until=day)]
    name = str(begun[-1]) if begun else weekday_of(day)
    found = week.day(name)
    return None if found is None or found.rest else found


def day_state(book: Book, day: date, weekday: str) -> DayState:
    """Her decisions on a day, and what alarming pain of earlier days leaves out of it."""
    state = fold(day, weekday, book.ledger.entries(*DAY_KINDS, since=day, until=day))
    week = book.week()
    planned = week.day(weekday) if week else None
    return state if planned is None else without_held(book, planned, state)


def card_for(book: Book, day: date, *, weekday: str | None = None) -> Card | RestDay:
    """The session card of a date, or the rest day with what comes next."""
    planned = planned_for(book, day, weekday)
    if planned is None:
        return rest_day(book, day)
    inputs = inputs_for(book, day, planned)
    return drawn(standing_for(book, inputs), inputs, notes_for(book))


_STOOD: WeakKeyDictionary[Book, tuple[object, Standing]] = WeakKeyDictionary()
"""The session that was stood up last, with everything that it was stood up from."""


def standing_for(book: Book, inputs: DayInputs) -> Standing:
    """The session as it stands, worked out once a minute as long as nothing is written.

    Rest within the minute moves no load; a page and its substitutes ask for the same session.
    """
    minute = inputs.now.replace(second=0, microsecond=0)
    key = (*book.ledger.revision(), inputs.planned, inputs.state, minute)
    kept = _STOOD.get(book)
    if kept is None or kept[0] != key:
        kept = _STOOD[book] = (key, stand(inputs))
    return kept[1]


def within_minutes(book: Book, day: date, weekday: str | None, minutes: int) -> Card | RestDay:
    """The card as it would be with so many minutes; nothing is stored."""
    planned = planned_for(book, day, weekday)
    if planned is None:
        return rest_day(book, day)
    _check_minutes(minutes)
    inputs = inputs_for(book, day, planned)
    shorter = shorten(inputs, the_week(book), minutes)
    state = replace(inputs.state, left_out=frozenset(shorter.keys), minutes=minutes)
    return make_card(replace(inputs, state=state), notes_for(book))


def _check_minutes(minutes: int) -> None:
    if not SHORTEST_SESSION_MIN <= minutes <= LONGEST_SESSION_MIN:
        raise InputError(
            f"{minutes} minutes for a session",
            remedy=f"between {SHORTEST_SESSION_MIN} and {LONGEST_SESSION_MIN}",
        )


_REMEMBERED = AtHand(lambda book: frozenset(done.exercise for done in remembered_sets(book.ledger)))
"""Exercises of which she remembers a set."""


def inputs_for(
    book: Book, day: date, planned: PlannedDay, *, model: StrengthModel | None = None
) -> DayInputs:
    """Everything a card is made from; `model` where the day's morning is already known."""
    return DayInputs(
        planned=planned,
        state=day_state(book, day, planned.day),
        catalogue=book.catalogue,
        gym=gym_in_use(book, day),
        profile=book.profile(),
        history=book.history(),
        model=book.model_before(day) if model is None else model,
        now=book.now(),
        remembered=_REMEMBERED.of(book),
        pain=tuple(one for one in pain_reports(book) if one.day <= day),
        apart=apart_lines(
            book.unnamed(), book.catalogue, [one.exercise for one in planned.exercises]
        ),
        illness=illness_now(book, day),
        pace=pace_of(book),
    )


def rest_day(book: Book, day: date) -> RestDay:
    """A day without a session: what comes next, and what may be done instead."""
    week = the_week(book)
    choices = tuple(d.day for d in week.days if not d.rest)
    for ahead in range(1, 8):
        coming = day + timedelta(days=ahead)
        if weekday_of(coming) in choices:
            return RestDay(day, weekday_of(coming), coming, choices)
    return RestDay(day, "", None, choices)


def check_in(
    book: Book, day: date, weekday: str, readiness: Readiness, minutes: int | None
) -> None:
    """Store what is different today. Raises InputError for impossible pain or minutes."""
    for joint, score in readiness.pain.items():
        if not 0 <= score <= 10:
            raise InputError(f"pain {score} in the {joint}", remedy="use a number from 0 to 10")
    if minutes is not None:
        _check_minutes(minutes)
    book.put("readiness", day, readiness_body(readiness, minutes))
    open_session(book, day, weekday)
    fit_time(book, day, weekday, minutes)


def check_in_at_rest(book: Book, day: date, readiness: Readiness) -> None:
    """Store what she tells of a day without a session; none is begun by it."""
    book.put("readiness", day, readiness_body(readiness, None))


def told_at_rest(book: Book, day: date) -> tuple[Readiness | None, LayoffReturn | None]:
    """What she told of a day without a session, and how an illness eases the next ones."""
    said = day_state(book, day, weekday_of(day)).readiness
    return said, after_illness(illness_now(book, day))


def fit_time(book: Book, day: date, weekday: str, minutes: int | None) -> tuple[str, ...]:
    """Leave out the sets worth least a minute; None takes every set up again. Gives the keys."""
    planned = planned_for(book, day, weekday)
    keys: tuple[str, ...] = ()
    if minutes is not None and planned is not None:
        _check_minutes(minutes)
        keys = shorten(inputs_for(book, day, planned), the_week(book), minutes).keys
    if keys or day_state(book, day, weekday).left_out:
        decide(book, day, weekday, "leave out", keys=list(keys))
    return keys


def open_session(book: Book, day: date, weekday: str) -> None:
    """Begin a session; a second time changes nothing."""
    if not day_state(book, day, weekday).opened:
        book.put("session", day, {"event": "opened", "weekday": weekday})


def decide(book: Book, day: date, weekday: str, what: str, **body: object) -> None:
    """Store one decision of the day; see `app.day` for the words."""
    book.put("decision", day, {"what": what, "weekday": weekday, **body})


def swap(book: Book, day: date, weekday: str, stop: int, to: Mapping[str, str]) -> None:
    """Another exercise in a stop's place: `to` has exercise, item and reason."""
    exercise = book.catalogue.exercises.get(to["exercise"])
    if exercise is None:
        raise InputError(f"there is no exercise “{to['exercise']}”", remedy="choose one shown")
    gym = book.gym()
    item = to.get("item", "")
    if gym is not None and item and gym.item(item) not in items_for(gym, exercise):
        raise InputError(f"{exercise.name} cannot be done on “{item}”", remedy="leave it empty")
    _existing_stop(book, day, weekday, stop)
    reason = to.get("reason", "")
    decide(book, day, weekday, "swap", stop=stop, exercise=exercise.id, item=item, reason=reason)


def skip(
    book: Book,
    day: date,
    weekday: str,
    stop: int,
    *,
    exercise: str = "",
    pain: Mapping[str, int] = MappingProxyType({}),
    note: str = "",
    because: str = "",
) -> None:
    """Leave a stop out today, with what hurt at its exercise where that was told beside it.

    `because` are words on what a set of it told, where it is the set that keeps the pain.
    """
    _existing_stop(book, day, weekday, stop)
    hurt = {"exercise": exercise, "pain": dict(pain), "note": note} if pain or note else {}
    hurt |= {"because": because} if because else {}
    decide(book, day, weekday, "skip", stop=stop, **hurt)


def take_up(book: Book, day: date, weekday: str, stop: int) -> None:
    """Take a stop up again after all."""
    _existing_stop(book, day, weekday, stop)
    decide(book, day, weekday, "take up", stop=stop)


def keep_load(book: Book, day: date, weekday: str, key: str) -> None:
    """Refuse a change of load: the planned load of this set and its block stays."""
    decide(book, day, weekday, "keep load", key=key)


def move(book: Book, day: date, weekday: str, stop: int, *, earlier: bool) -> None:
    """Change the order of today's stops by one place."""
    planned = _existing_stop(book, day, weekday, stop)
    state = day_state(book, day, weekday)
    order = [*state.order] or list(range(len(planned.exercises)))
    at = order.index(stop)
    to = at - 1 if earlier else at + 1
    if 0 <= to < len(order):
        order[at], order[to] = order[to], order[at]
        decide(book, day, weekday, "order", stops=order)


def _existing_stop(book: Book, day: date, weekday: str, stop: int) -> PlannedDay:
    planned = planned_for(book, day, weekday)
    if planned is None or not 0 <= stop < len(planned.exercises):
        raise InputError(f"there is no stop {stop + 1} on {weekday}")
    return planned
