"""A week proposed to her: planned from a brief, or changed after something happened.

The solving runs beside the pages (`week_work`); what comes of it is shown, used or dropped.
"""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import dataclass, replace

from pennate.app.book import Book
from pennate.app.planning import (
    Asking,
    NoSuchWeekError,
    Planned,
    gym_named,
    impossible_in,
    kinds_of,
    plan_week,
    replan_week,
    some_years,
)
from pennate.app.reach import unfit_in
from pennate.app.today import inputs_for, weekday_of
from pennate.app.week_brief import Wishes, brief_of
from pennate.app.week_changes import change_week
from pennate.app.week_log import pace_of
from pennate.app.week_work import Task, Work, key_of
from pennate.core.brief import Brief
from pennate.core.evidence.planner import MOVE_COST, NEAR_TIMES, OPEN_GROUP_SETS
from pennate.core.exercise import Catalogue
from pennate.core.gym import Gym
from pennate.core.muscles import Group
from pennate.core.prescribed import PlannedDay, Week
from pennate.core.week_dose import week_dose
from pennate.core.week_effect import Effect, compare_weeks
from pennate.core.week_time import Pace
from pennate.errors import InputError
from pennate.files.week_text import render_week
from pennate.plan.changes import changes_between
from pennate.plan.explain import More
from pennate.plan.replan import Happened
from pennate.plan.schemes import usual_ask
from pennate.plan.solve import Solved

FAR_FROM_HERS = 0.0
"""Cost of change, in times the usual one, where she wants to start afresh."""


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
    this_week: bool = False
    """Whether it is for the rest of this week only."""
    what: str = ""
    """The words of the change, if it is used."""

    @property
    def unproven(self) -> bool:
        """Whether somebody stopped the work before it was done."""
        return self.solved is not None and self.solved.stopped


def start_plan(book: Book, work: Work[Proposal], wishes: Wishes) -> Task[Proposal]:
    """Begin to plan; the same wishes, week and log are planned once. Raises InputError."""
    catalogue, current = book.catalogue, book.week()
    brief = brief_of(wishes, catalogue, [gym.id for gym in book.gyms()])
    gym = _gym(book, brief.gym)
    if current is not None:
        ceilings = open_ceilings(brief, current, catalogue)
        brief = replace(brief, own_exercises=current.own_exercises, ceilings=ceilings)
    asking = Asking(
        kinds=kinds_of(gym),
        lost=impossible_in(gym, catalogue),
        current=current,
        unfit=unfit_for(book, brief, gym),
        churn=float(NEAR_TIMES) if wishes.near else FAR_FROM_HERS,
        moving=float(MOVE_COST) if wishes.near else FAR_FROM_HERS,
        pace=pace_of(book),
        clock=time.perf_counter,
    )
    key = key_of(
        "plan", repr(brief), render_week(current) if current else "", repr(sorted(asking.kinds)),
        repr(sorted(asking.lost)), repr(sorted(asking.unfit)),
        repr((asking.churn, asking.moving, asking.pace)),
    )  # fmt: skip
    return work.start(key, lambda task: _planned(task, brief, catalogue, asking), "a week")


def open_ceilings(brief: Brief, current: Week, catalogue: Catalogue) -> dict[Group, float]:
    """The most of each group she neither ranks nor sets a range for: about what she has.

    More where she has less than a moderate dose, and half of a rise that she asks of others,
    since their exercises work these groups too.
    """
    now = week_dose(current, catalogue.with_own(current.own_exercises)).groups
    have = {group: now[group].value if group in now else 0.0 for group in Group}
    rise = sum(
        max(0.0, float(span.low) - have[group]) for group, span in brief.targets.items() if span.low
    )
    return {
        group: max(have[group], OPEN_GROUP_SETS) + rise / 2
        for group in Group
        if group not in brief.targets and group not in brief.priorities
    }


def unfit_for(book: Book, brief: Brief, gym: Gym | None) -> frozenset[str]:
    """Exercises at body weight that her strength makes far too light or heavy for hard sets."""
    alone = PlannedDay(day=weekday_of(book.today))
    inputs = replace(inputs_for(book, book.today, alone), gym=gym)
    return unfit_in(
        inputs, lambda exercise: usual_ask(exercise, brief), known_only=not some_years(brief)
    )


def _gym(book: Book, named: str) -> Gym | None:
    own = next((gym for gym in book.gyms() if gym.id == named), None)
    return own or gym_named(named)


def _planned(task: Task[Proposal], brief: Brief, catalogue: Catalogue, asking: Asking) -> Proposal:
    try:
        planned = plan_week(brief, catalogue, replace(asking, watch=task.watch))
    except NoSuchWeekError as error:
        if brief.ceilings:  # ours, not hers: they give way to what she asked for
            return _planned(task, replace(brief, ceilings={}), catalogue, asking)
        return _clashing(error, catalogue, asking)
    return _proposal(planned, catalogue, asking)


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


def start_replan(
    book: Book, work: Work[Proposal], happened: Happened, *, this_week: bool
) -> Task[Proposal]:
    """Begin to change the rest of her week as little as possible."""
    week, catalogue = book.week(), book.catalogue
    if week is None:
        raise InputError("there is no week yet", remedy="choose one on the start page")
    happened = replace(happened, pace=pace_of(book))
    told = [
        repr(sorted(part))
        for part in (happened.missed, happened.done, happened.lost, happened.kinds)
    ]
    limits = repr(sorted(happened.joint_limits.items()))
    minutes = repr(sorted(happened.minutes.items()))
    key = key_of(
        "replan", render_week(week), *told, limits, minutes, repr(happened.pace), str(this_week)
    )
    return work.start(
        key,
        lambda task: _replanned(task, week, (happened, this_week), catalogue),
        "the rest of the week",
    )


def _replanned(
    task: Task[Proposal], week: Week, what: tuple[Happened, bool], catalogue: Catalogue
) -> Proposal:
    happened, this_week = what
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
        this_week=this_week,
        what="the rest of this week" if this_week else "changed after something happened",
    )


def use_proposal(book: Book, found: Proposal) -> None:
    """Follow the proposed week. Raises InputError where her week has changed meanwhile."""
    if found.current != book.week():
        raise InputError(
            "your week has been changed since this one was worked out",
            remedy="ask for it again, so that nothing of yours is lost",
        )
    name = found.current.name if found.current else found.week.name
    change_week(book, replace(found.week, name=name), found.what, this_week=found.this_week)
