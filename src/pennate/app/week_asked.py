"""What the planner is asked: a brief with what her week and her records say beside it.

One way for the page and for files, so that the same brief gives the same week.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from pathlib import Path

from pennate.app.book import Book
from pennate.app.pain_holds import held_words, holds
from pennate.app.planning import (
    Asking,
    NoSuchWeekError,
    Planned,
    gym_named,
    impossible_in,
    kinds_of,
    plan_week,
    some_years,
    unloaded_in,
)
from pennate.app.reach import misfits_in, unknown_lifter
from pennate.app.today import inputs_for, weekday_of
from pennate.app.week_log import pace_of
from pennate.core.brief import Brief, JointLimit
from pennate.core.evidence.planner import MOVE_COST, NEAR_TIMES, OPEN_GROUP_SETS
from pennate.core.exercise import Catalogue, EquipmentKind, Exercise
from pennate.core.gym import Gym
from pennate.core.muscles import Group, Joint
from pennate.core.prescribed import PlannedDay, Preferences, PrescribedExercise, Week
from pennate.core.week_dose import week_dose
from pennate.core.week_time import Pace, day_minutes
from pennate.estimate import Person
from pennate.files.brief import Present, read_brief
from pennate.files.catalogue import read_catalogue
from pennate.files.week import read_week
from pennate.plan.build import joint_limits
from pennate.plan.fitting import fitting
from pennate.plan.schemes import usual_ask
from pennate.plan.substitute import within_limits

FIVE = 5
"""Minutes that a day's length is rounded up to."""
FEWEST_MIN, MOST_MIN = 10, 300
FAR_FROM_HERS = 0.0
"""Cost of change, in times the usual one, where she wants to start afresh."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A whole question for the planner, and what pain keeps out of it."""

    brief: Brief
    catalogue: Catalogue
    asking: Asking
    held: tuple[str, ...] = ()
    """What is left out until she says that it has settled, in words."""


def minutes_now(week: Week, catalogue: Catalogue, pace: Pace) -> dict[str, int]:
    """Minutes of each day as it is now at her pace, up to the next five, within what she allows.

    A better week asks for no more time than she spends, unless she gives it more.
    """
    known = catalogue.with_own(week.own_exercises)
    found = {}
    for day in week.days:
        if not day.rest:
            takes = FIVE * math.ceil(day_minutes(day, known, pace).value / FIVE)
            found[day.day] = max(FEWEST_MIN, min(takes, day.minutes or MOST_MIN))
    return found


def asked_of(
    brief: Brief,
    current: Week | None,
    gym: Gym | None,
    book: Book | None,
    asking: Asking = Asking(),
) -> Asked:
    """The question that a brief asks, beside the week she trains now and her records.

    What the brief says itself stands. `asking` holds what belongs to neither: seed, watch, clock.
    """
    catalogue = book.catalogue if book else read_catalogue()
    if current is not None:
        brief = replace(
            brief,
            own_exercises=brief.own_exercises or current.own_exercises,
            preferences=_with_reasons(brief.preferences, current.preferences),
            ceilings=open_ceilings(brief, current, catalogue),
        )
    known = catalogue.with_own(brief.own_exercises)
    brief = replace(brief, unloaded=unloaded_in(gym, known))
    asking = replace(
        asking,
        kinds=kinds_of(gym, brief.equipment),
        lost=impossible_in(gym, known) | _too_much(brief, known),
        pinch=gym is not None,
        unfit=frozenset(misfits_for(book, brief, gym, known)),
        current=current,
        churn=float(NEAR_TIMES) if brief.near else FAR_FROM_HERS,
        moving=float(MOVE_COST) if brief.near else FAR_FROM_HERS,
        pace=pace_of(book) if book else asking.pace,
    )
    return Asked(brief=brief, catalogue=catalogue, asking=asking)


def _too_much(brief: Brief, known: Catalogue) -> frozenset[str]:
    """What a sore joint goes without here as in a re-plan: split squats too, where a knee hurts."""
    limits = joint_limits(brief)
    return frozenset(e.id for e in known.exercises.values() if not within_limits(e, limits))


def asked_by_file(
    path: Path, current: Path | None, book: Book | None, asking: Asking = Asking()
) -> Asked:
    """The question of a brief file; her week is `current`, else the file's, else her own.

    What alarming pain holds is left out, as from the page. Raises InputError.
    """
    catalogue = book.catalogue if book else read_catalogue()
    pace = pace_of(book) if book else asking.pace

    def hers(named: str) -> Week | None:
        where = current or (path.parent / named if named else None)
        if where is not None:
            return read_week(where, catalogue)
        return book.week() if book else None

    def present(named: str) -> Present:
        week = hers(named)
        if week is None:
            return Present()
        return Present(minutes_now(week, catalogue, pace), week.own_exercises)

    brief = read_brief(path, catalogue, present=present)
    gym, week = gym_for(brief.gym, book, path.parent), hers(brief.current)
    if book is None:
        return asked_of(brief, week, gym, book, asking)
    tomorrow = book.today + timedelta(days=1)
    asked = asked_of(_without_held(brief, book, tomorrow), week, gym, book, asking)
    return replace(asked, held=tuple(one.rstrip(".") for one in held_words(book, tomorrow)))


def plan_asked(asked: Asked) -> Planned:
    """The best week; what is kept of groups she left open gives way where wishes clash with it.

    Raises NoSuchWeekError where her own wishes clash.
    """
    brief, catalogue, asking = asked.brief, asked.catalogue, asked.asking
    try:
        found = plan_week(brief, catalogue, asking)
    except NoSuchWeekError:
        if not brief.ceilings:
            raise
        found = plan_week(replace(brief, ceilings={}), catalogue, asking)
    return replace(found, binding=(*found.binding, *asked.held))


def gym_for(named: str, book: Book | None, folder: Path | None = None) -> Gym | None:
    """Her own gym of this id, a gym file in the folder, or a starter gym; None for nothing."""
    own = next((gym for gym in book.gyms() if gym.id == named), None) if book else None
    return own or gym_named(named, folder)


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


def misfits_for(
    book: Book | None,
    brief: Brief,
    gym: Gym | None,
    known: Catalogue,
    *,
    fitted: bool = False,
) -> dict[str, float]:
    """Exercises at body weight that strength makes far too light or heavy for hard sets, and how
    likely each misses the effort.

    Hers by her log; without one that of people with her years of training. `fitted` judges the
    sets of a stand-in, with more reps where the load is not set, instead of planned ones.
    """
    years = some_years(brief)
    if book is None:
        inputs = unknown_lifter(known, gym, Person(trained=True if years else None))
    else:
        alone = PlannedDay(day=weekday_of(book.today))
        inputs = replace(inputs_for(book, book.today, alone), gym=gym)

    def ask(exercise: Exercise) -> PrescribedExercise:
        usual = usual_ask(exercise, brief)
        return fitting(usual, exercise, EquipmentKind.BODY_WEIGHT) if fitted else usual

    return misfits_in(inputs, ask, known_only=not years)


def _with_reasons(asked: Preferences, hers: Preferences) -> Preferences:
    """The wishes of the brief; where it gives no reason, the one her week has."""

    def told(new: Mapping[str, str], old: Mapping[str, str]) -> dict[str, str]:
        return {one: reason or old.get(one, "") for one, reason in new.items()}

    return Preferences(
        liked=told(asked.liked, hers.liked),
        barred=told(asked.barred, hers.barred),
        required=told(asked.required, hers.required),
    )


def _without_held(brief: Brief, book: Book, day: date) -> Brief:
    """The brief without what alarming pain holds on a day."""
    held = holds(book, day)
    names = {one: why for one, why in held.exercises.items() if one in book.catalogue.exercises}
    barred = {**brief.preferences.barred, **{one: why.words for one, why in names.items()}}
    limits = {Joint(one): JointLimit.NONE for one in held.joints}
    return replace(
        brief,
        preferences=replace(brief.preferences, barred=barred),
        joint_limits={**brief.joint_limits, **limits},
    )
