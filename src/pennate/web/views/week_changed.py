"""What may have happened to a week: days done or missed, less time, things gone, sore joints."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from pennate.app.book import Book
from pennate.app.week_brief import known_wishes
from pennate.app.week_known import gym_of_week
from pennate.core.exercise import EquipmentKind
from pennate.core.muscles import Joint
from pennate.core.prescribed import WEEKDAYS, Week
from pennate.core.week_time import day_minutes
from pennate.web.views.week_plan import LIMIT_WORDS, Choices

STATES = (("ahead", "to come"), ("done", "done"), ("missed", "missed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedDay:
    """One planned day as it may have gone."""

    day: str
    focus: str
    state: str
    minutes: str
    """What was typed; empty keeps the time there was."""
    usual: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedView:
    """The form, with what the log already knows filled in."""

    days: tuple[ChangedDay, ...]
    states: Choices
    items: Choices
    gone: tuple[str, ...]
    kinds: Choices
    kit: tuple[str, ...]
    joints: tuple[str, ...]
    limits: Choices
    sore: dict[str, str]
    this_week: bool = True


def changed_view(book: Book, week: Week) -> ChangedView:
    """Days with a session are done, days gone by without one are missed."""
    gym = gym_of_week(book, week)
    monday = book.today - timedelta(days=book.today.weekday())
    trained = {one.day for one in book.history().since(monday)}
    known = book.catalogue.with_own(week.own_exercises)
    days = []
    for day in week.days:
        if day.rest:
            continue
        date = monday + timedelta(days=WEEKDAYS.index(day.day))
        state = "done" if date in trained else "missed" if date < book.today else "ahead"
        usual = day.minutes or day_minutes(day, known).value
        days.append(
            ChangedDay(day=day.day, focus=day.focus, state=state, minutes="", usual=f"{usual:.0f}")
        )
    return ChangedView(
        days=tuple(days),
        states=STATES,
        items=tuple((item.id, item.name) for item in gym.items) if gym else (),
        gone=(),
        kinds=tuple((kind.value, kind.value) for kind in EquipmentKind),
        kit=(),
        joints=tuple(joint.value for joint in Joint if joint is not Joint.GRIP),
        limits=tuple(LIMIT_WORDS.items()),
        sore=dict(known_wishes(book).joints),
    )
