"""What may have happened to a week: days done or missed, less time, things gone, sore joints."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.app.book import Book
from pennate.app.week_brief import known_wishes
from pennate.app.week_happened import DONE, MISSED, TO_COME, day_states
from pennate.app.week_known import gym_of_week
from pennate.app.week_log import pace_of
from pennate.core.exercise import EquipmentKind, Fixture
from pennate.core.gym import Gym
from pennate.core.muscles import Joint
from pennate.core.prescribed import PlannedDay, Week
from pennate.core.week_time import Minutes, day_minutes
from pennate.web.views.week_plan import LIMIT_WORDS, Choices

STATES = ((TO_COME, "to come"), (DONE, "done"), (MISSED, "missed"))

SPANS = (
    ("1", "this week only"),
    ("2", "this week and the next"),
    ("3", "three weeks with this one"),
    ("4", "four weeks with this one"),
    ("0", "until I change it"),
)
"""For how many weeks a change may be, this one included."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedDay:
    """One planned day as it may have gone."""

    day: str
    focus: str
    state: str
    minutes: str
    """What was typed; empty keeps the time there was."""
    usual: str
    """The time it takes as it is, and what she wants."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedView:
    """The form, with what the log already knows filled in."""

    days: tuple[ChangedDay, ...]
    states: Choices
    items: Choices
    gone: tuple[str, ...]
    kinds: Choices
    fixtures: Choices
    places: Choices
    """Her gyms, the one of her week first; empty where there is one."""
    kit: tuple[str, ...]
    joints: tuple[str, ...]
    limits: Choices
    sore: dict[str, str]
    place: str = ""
    spans: Choices = SPANS
    weeks: str = "1"


def changed_view(book: Book, week: Week) -> ChangedView:
    """Days with a session are done, days gone by without one are missed."""
    gym = gym_of_week(book, week)
    known, states = book.catalogue.with_own(week.own_exercises), day_states(book, week)
    pace = pace_of(book)
    days = tuple(
        ChangedDay(
            day=day.day,
            focus=day.focus,
            state=states[day.day],
            minutes="",
            usual=_usual(day, day_minutes(day, known, pace)),
        )
        for day in week.days
        if not day.rest
    )
    return ChangedView(
        days=days,
        states=STATES,
        items=tuple((item.id, item.name) for item in gym.items) if gym else (),
        gone=(),
        kinds=tuple((kind.value, kind.value) for kind in EquipmentKind),
        fixtures=tuple((one.value, one.value) for one in Fixture),
        places=_places(book, gym),
        kit=(),
        joints=tuple(joint.value for joint in Joint if joint is not Joint.GRIP),
        limits=tuple(LIMIT_WORDS.items()),
        sore=dict(known_wishes(book).joints),
    )


def _places(book: Book, gym: Gym | None) -> Choices:
    """Where she may train instead."""
    others = [(one.id, one.name) for one in book.gyms() if gym is None or one.id != gym.id]
    return (("", f"as ever, {gym.name}" if gym else "as ever"), *others) if others else ()


def _usual(day: PlannedDay, takes: Minutes) -> str:
    """“takes 46, 60 wanted”, as the Week page has it."""
    wanted = f", {day.minutes} wanted" if day.minutes else ""
    return f"takes {takes.value:.0f}{wanted}"
