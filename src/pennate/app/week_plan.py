"""A week proposed to her: planned from a brief, or changed after something happened.

The solving runs beside the pages (`week_work`); what comes of it is shown, used or dropped.
"""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from pennate.app.book import Book
from pennate.app.gym_page import save
from pennate.app.planning import (
    Asking,
    NoSuchWeekError,
    Planned,
    replan_week,
)
from pennate.app.week_asked import (
    Asked,
    asked_of,
    gym_for,
    minutes_now,
    plan_asked,
)
from pennate.app.week_brief import Wishes, brief_of
from pennate.app.week_changes import change_week
from pennate.app.week_happened import TO_COME, Told, happened_to
from pennate.app.week_known import gym_of_week
from pennate.app.week_log import pace_of
from pennate.app.week_work import Task, Work, key_of
from pennate.core.exercise import Catalogue
from pennate.core.gym import Gym
from pennate.core.muscles import Group
from pennate.core.prescribed import Week
from pennate.core.week_dose import week_dose
from pennate.core.week_effect import Effect, compare_weeks
from pennate.core.week_time import Pace
from pennate.errors import InputError
from pennate.files.week_text import render_week
from pennate.plan.changes import changes_between
from pennate.plan.explain import More
from pennate.plan.replan import Happened
from pennate.plan.solve import Solved


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """A week beside the one she follows, with everything said about it."""

    week: Week
    current: Week | None
    pace: Pace
    solved: Solved | None
    """None for the nearest week to wishes that clash."""
    clash: str = ""
    """Why no week meets every wish; empty when one does."""
    binding: tuple[str, ...] = ()
    more: tuple[More, ...] = ()
    changes: tuple[str, ...] = ()
    against: Mapping[Group, Effect]
    replanned: bool = False
    """Whether it is her week, changed as little as possible."""
    weeks: int = 0
    """How many weeks it is for, this one included; 0 until she changes it."""
    kit: Gym | None = None
    """What she has with her, where she is away with a kit."""
    room: Mapping[str, int] = field(default_factory=dict)
    """Minutes that each day was planned for; empty for a re-plan."""
    what: str = ""
    """The words of the change, if it is used."""

    @property
    def unproven(self) -> bool:
        """Whether somebody stopped the work before it was done."""
        return self.solved is not None and self.solved.stopped


def start_plan(book: Book, work: Work[Proposal], wishes: Wishes) -> Task[Proposal]:
    """Begin to plan; the same wishes, week and log are planned once. Raises InputError."""
    asked = asked_by_form(book, wishes)
    asking, week = asked.asking, asked.asking.current
    key = key_of(
        "plan", repr(asked.brief), render_week(week) if week else "", repr(sorted(asking.kinds)),
        repr(sorted(asking.lost)), repr(sorted(asking.unfit)),
        repr((asking.churn, asking.moving, asking.pace)),
    )  # fmt: skip
    return work.start(key, lambda task: _planned(task, asked), "a week")


def asked_by_form(book: Book, wishes: Wishes) -> Asked:
    """The question of the Week page's form; minutes as they were filled in are not hers."""
    current = book.week()
    brief = brief_of(wishes, book.catalogue, [gym.id for gym in book.gyms()])
    if current is not None:
        present = minutes_now(current, book.catalogue, pace_of(book))
        days = (replace(d, given=d.minutes != present.get(d.day)) for d in brief.days)
        brief = replace(brief, days=tuple(days))
    asking = Asking(clock=time.perf_counter)
    return asked_of(brief, current, gym_for(brief.gym, book), book, asking)


def _planned(task: Task[Proposal], asked: Asked) -> Proposal:
    catalogue, asking = asked.catalogue, replace(asked.asking, watch=task.watch)
    try:
        planned = plan_asked(replace(asked, asking=asking))
        found = _proposal(planned, catalogue, asking)
    except NoSuchWeekError as error:
        found = _clashing(error, catalogue, asking)
    return replace(found, room={day.day: day.minutes for day in asked.brief.days})


def _proposal(planned: Planned, catalogue: Catalogue, asking: Asking) -> Proposal:
    week = planned.week
    return Proposal(
        week=week,
        current=asking.current,
        pace=asking.pace,
        solved=planned.solved,
        binding=planned.binding,
        more=planned.more,
        changes=changes_between(asking.current, week, catalogue) if asking.current else (),
        against=planned.against_current,
        what="a planned week",
    )


def _clashing(error: NoSuchWeekError, catalogue: Catalogue, asking: Asking) -> Proposal:
    week = error.week
    before = asking.current
    known = catalogue.with_own(week.own_exercises)
    return Proposal(
        week=week,
        current=before,
        pace=asking.pace,
        solved=None,
        clash=error.reason,
        changes=changes_between(before, week, known) if before else (),
        against=compare_weeks(week_dose(week, known), week_dose(before, known)) if before else {},
        what="the week nearest to your wishes",
    )


def start_replan(book: Book, work: Work[Proposal], told: Told, *, weeks: int) -> Task[Proposal]:
    """Begin to change the rest of her week, or some weeks, as little as possible.

    What lasts beyond this week changes its days done or missed too: they come again.
    """
    week, catalogue = book.week(), book.catalogue
    if week is None:
        raise InputError("there is no week yet", remedy="choose one on the start page")
    gym = gym_of_week(book, week)
    if weeks != 1:
        told = replace(told, states=dict.fromkeys(told.states, TO_COME))
    happened, kit = happened_to(week, told, gym, book, catalogue), told.kit_of(gym, book)
    sets = (happened.missed, happened.done, happened.lost, happened.kinds, happened.fixtures)
    maps = (happened.joint_limits, happened.minutes, happened.misfits, happened.on)
    key = key_of(
        "replan", render_week(week), str(weeks), repr(happened.pace), happened.gym,
        *(repr(sorted(part)) for part in sets), *(repr(sorted(found.items())) for found in maps),
    )  # fmt: skip
    return work.start(
        key,
        lambda task: _there(_replanned(task, week, (happened, weeks), catalogue), kit),
        "the rest of the week",
    )


def _replanned(
    task: Task[Proposal], week: Week, what: tuple[Happened, int], catalogue: Catalogue
) -> Proposal:
    happened, weeks = what
    found = replan_week(week, happened, catalogue, watch=task.watch)
    known = catalogue.with_own(week.own_exercises)
    return Proposal(
        week=found.week,
        current=week,
        pace=happened.pace,
        solved=found.solved,
        changes=found.changes,
        against=compare_weeks(week_dose(found.week, known), week_dose(week, known)),
        replanned=True,
        weeks=weeks,
        what="the rest of this week" if weeks == 1 else "changed after something happened",
    )


def _there(found: Proposal, kit: Gym | None) -> Proposal:
    """The proposal as trained with a kit: its loads are those of the kit, not of her gym."""
    return replace(found, kit=kit, week=replace(found.week, gym=kit.id)) if kit else found


def use_proposal(book: Book, found: Proposal) -> None:
    """Follow the proposed week. Raises InputError where her week has changed meanwhile."""
    if found.current != book.week():
        raise InputError(
            "your week has been changed since this one was worked out",
            remedy="ask for it again, so that nothing of yours is lost",
        )
    if found.kit is not None:
        save(book, found.kit)
    name = found.current.name if found.current else found.week.name
    change_week(book, replace(found.week, name=name), found.what, weeks=found.weeks)
