"""Today: one question, then the session as a line with stops."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.app.card_text import preparation_words
from pennate.app.day import DayState
from pennate.app.minutes_told import card_minutes_facts
from pennate.core.card import Card, SetState
from pennate.core.cautions import Caution
from pennate.core.facts import Facts
from pennate.core.muscles import Group, Joint
from pennate.core.plural import plural
from pennate.core.readiness import Ill, Readiness
from pennate.core.week_time import Pace
from pennate.web.views.floor import Last, last_done
from pennate.web.views.line import LineStop, line_of, runs_of
from pennate.web.words import minutes_words

MINUTES_OFFERED = (10, 15, 20, 30, 45, 60)


ILL_WORDS = {Ill.NO: "ill", Ill.NOW: "ill today", Ill.BEFORE: "was ill"}
"""What stands on the choice, by what she said."""


@dataclass(frozen=True, slots=True)
class Chip:
    """A touch-sized choice, on or off."""

    value: str
    words: str
    on: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TodayView:
    """Everything the Today page shows."""

    day: str
    title: str
    about: str
    chips: tuple[Chip, ...]
    sore: tuple[Chip, ...]
    joints: tuple[str, ...]
    ask: str
    changes: tuple[str, ...]
    cautions: tuple[Caution, ...]
    preparation: str
    stops: tuple[LineStop, ...]
    minutes_offered: tuple[int, ...]
    started: bool
    open: bool
    finished: bool
    foot: str
    last: Last | None
    minutes: Facts
    """What the minutes of the session are made of."""


def today_view(card: Card, state: DayState, pace: Pace, ask: str = "") -> TodayView:
    """The page of a card; `ask` opens what is sore, what hurts, or the minutes left."""
    sets = [one for stop in card.stops for one in stop.sets]
    started = any(one.state is SetState.DONE for one in sets)
    return TodayView(
        day=card.day.isoformat(),
        title=card.title,
        about="" if started else _about(card),
        chips=chips_of(card.readiness, state.minutes),
        sore=_sore(card.readiness),
        joints=tuple(joint.value for joint in Joint),
        ask=ask,
        changes=card.changes,
        cautions=card.cautions,
        preparation=""
        if started
        else "; ".join(preparation_words(item) for item in card.preparation),
        stops=line_of(card, state.skipped),
        minutes_offered=MINUTES_OFFERED,
        started=started,
        open=card.next_key is not None,
        finished=state.finished,
        foot="the session is closed" if state.finished else _foot(card, started=started),
        last=last_done(card),
        minutes=card_minutes_facts(card, runs_of(card), pace),
    )


def _about(card: Card) -> str:
    items = dict.fromkeys(stop.item.name for stop in card.stops if stop.item)
    parts = [minutes_words(card.minutes), "; ".join(items)]  # a name may hold a comma
    return " · ".join(part for part in parts if part)


def chips_of(said: Readiness | None, minutes: int | None) -> tuple[Chip, ...]:
    """What may be different today, as she said so far."""
    nothing = said is not None and said == Readiness(day=said.day) and minutes is None
    hurts = "hurts"
    if said and said.pain:
        hurts = "hurts: " + ", ".join(
            f"{joint} {score}{', sharp' if joint in said.alarming else ''}"
            for joint, score in said.pain.items()
        )
    return (
        Chip("short_sleep", "short sleep", bool(said and said.short_sleep)),
        Chip("low_energy", "low energy", bool(said and said.low_energy)),
        Chip("ill", ILL_WORDS[said.ill if said else Ill.NO], bool(said and said.ill)),
        Chip("sore", "sore", bool(said and said.sore)),
        Chip("hurts", hurts, bool(said and said.pain)),
        Chip("time", "less time" if minutes is None else f"{minutes} min", minutes is not None),
        Chip("nothing", "nothing", nothing),
    )


def _sore(said: Readiness | None) -> tuple[Chip, ...]:
    on = said.sore if said else ()
    return tuple(Chip(f"sore:{group.value}", group.value, group.value in on) for group in Group)


def _foot(card: Card, *, started: bool) -> str:
    left = sum(1 for s in card.stops for one in s.sets if one.state is SetState.OPEN)
    if started:
        return f"{plural(left, 'set')} to go"
    low, high = round(card.minutes_low), round(card.minutes_high)
    return f"about {minutes_words(card.minutes)}, likely {low} to {high}"
