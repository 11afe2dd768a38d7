"""What happened to a week: what she says, with her gym, her log and her pace beside it.

One way for the page and for files, so that the same question gives the same week.
"""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, field, replace
from datetime import timedelta
from fractions import Fraction
from pathlib import Path

from pennate.app.book import Book
from pennate.app.gym_page import gym_of
from pennate.app.kit import kit_gym
from pennate.app.planning import SOME_YEARS, gym_named, impossible_in, kinds_of
from pennate.app.stops import item_for
from pennate.app.week_asked import misfits_for
from pennate.app.week_brief import known_wishes
from pennate.app.week_known import gym_of_week
from pennate.app.week_log import pace_of
from pennate.core.brief import Brief, JointLimit
from pennate.core.exercise import EVERY_FIXTURE, Catalogue, EquipmentKind, Fixture
from pennate.core.gym import Gym
from pennate.core.muscles import Joint
from pennate.core.near import nearest, offered
from pennate.core.performed import PerformedSet, SetKind
from pennate.core.prescribed import WEEKDAYS, Week
from pennate.core.week_names import nearest_exercises
from pennate.errors import InputError
from pennate.files.catalogue import read_catalogue
from pennate.files.week import read_week
from pennate.plan.replan import Happened

TO_COME, DONE, MISSED = "ahead", "done", "missed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What she says is different from the week as planned."""

    states: Mapping[str, str] = field(default_factory=dict)
    """Days that are done, missed or still to come; the others as her log has them."""
    gone: Set[str] = frozenset()
    """Exercises, or ids of items, that are not there."""
    kit: Set[EquipmentKind] = frozenset()
    """The only equipment there is; empty for the gym's."""
    fixtures: Set[Fixture] = frozenset()
    """With a kit: all there is to hang from, lie on and step on."""
    place: Gym | None = None
    """Another gym she trains in from now on."""
    joint_limits: Mapping[Joint, int] = field(default_factory=dict)
    minutes: Mapping[str, int] = field(default_factory=dict)

    def kit_of(self, gym: Gym | None, book: Book | None) -> Gym | None:
        """The kit as a place to train; None where she is in a gym."""
        on = book.today if book else None
        return kit_gym(self.kit, self.fixtures, gym, on) if self.kit or self.fixtures else None


def day_states(book: Book, week: Week) -> dict[str, str]:
    """Each training day by her log: with a working set it is done, gone by without one missed.

    Warm-up sets alone are no session: today it is still to come, unless she closed it. A
    session is the planned day it was begun as, on whichever date it was done.
    """
    monday = book.today - timedelta(days=book.today.weekday())
    planned = {day.day for day in week.days if not day.rest}
    trained = {
        _day_of(one, planned)
        for one in book.history().since(monday)
        if one.kind is not SetKind.WARM_UP
    }
    closed = {
        str(one.body.get("weekday"))
        for one in book.entries("session")
        if one.day >= monday and one.body.get("event") == "finished"
    }
    found = {}
    for name in WEEKDAYS:
        if name in planned:
            date = monday + timedelta(days=WEEKDAYS.index(name))
            gone = MISSED if date < book.today or name in closed else TO_COME
            found[name] = DONE if name in trained else gone
    return found


def _day_of(done: PerformedSet, planned: Set[str]) -> str:
    """The planned day whose session a set belongs to, else the day of its date."""
    named = done.session.capitalize()
    return named if named in planned else WEEKDAYS[done.day.weekday()]


def sore_joints(book: Book) -> dict[Joint, int]:
    """The most each sore joint may bear, as the form is filled in."""
    known = known_wishes(book).joints.items()
    return {Joint(joint): JointLimit(limit).highest for joint, limit in known if limit}


def happened_to(
    week: Week, told: Told, gym: Gym | None, book: Book | None, catalogue: Catalogue
) -> Happened:
    """Everything a re-plan is told, from what she says, the gym and her records."""
    here = told.place or gym
    left = (
        replace(here, items=tuple(i for i in here.items if i.id not in told.gone)) if here else None
    )
    known = catalogue.with_own(week.own_exercises)
    kit = told.kit | {EquipmentKind.BODY_WEIGHT} if told.kit or told.fixtures else None
    happened = Happened(
        missed=frozenset(day for day, state in told.states.items() if state == MISSED),
        done=frozenset(day for day, state in told.states.items() if state == DONE),
        lost=frozenset(told.gone) | (frozenset() if kit else impossible_in(left, known)),
        kinds=kit or kinds_of(left),
        fixtures=told.fixtures if kit else left.has if left else EVERY_FIXTURE,
        on={} if kit else done_on(left, known),
        away=kit is not None or told.place is not None,
        gym=told.place.id if told.place and not kit else "",
        joint_limits=dict(told.joint_limits),
        minutes=dict(told.minutes),
    )
    return with_records(happened, week, told.kit_of(gym, book) or here, book, known)


def done_on(gym: Gym | None, catalogue: Catalogue) -> dict[str, EquipmentKind]:
    """What each exercise is done on in a gym; nothing without one."""
    items = ((e.id, item_for(gym, e)) for e in catalogue.exercises.values()) if gym else ()
    return {name: item.kind for name, item in items if item is not None}


def place_named(book: Book, gym_id: str) -> Gym | None:
    """Another gym of hers to train in; None for the one of her week. Raises InputError."""
    used = book.gym()
    if not gym_id or (used and gym_id == used.id):
        return None
    return gym_of(book, gym_id)


def with_records(
    happened: Happened, week: Week, gym: Gym | None, book: Book | None, catalogue: Catalogue
) -> Happened:
    """The same with her pace, and what a re-plan takes last of body weight alone, by her
    strength and experience; without records that of people like her.
    """
    trained = book is not None and book.profile().trained
    brief = Brief(name="", days=(), years=Fraction(SOME_YEARS) if trained else None)
    known = catalogue.with_own(week.own_exercises)
    return replace(
        happened,
        pace=pace_of(book) if book else happened.pace,
        misfits=misfits_for(book, brief, gym, known, fitted=True),
    )


@dataclass(frozen=True, slots=True)
class AskedAgain:
    """A whole question for the re-plan of a week file, and what her records said of it."""

    week: Week
    happened: Happened
    catalogue: Catalogue
    by_log: Mapping[str, str]
    """Days that are done or missed because her log says so."""
    kit: Gym | None = None
    """What she has with her, where she is away with a kit."""


def happened_by_file(path: Path, told: Told, book: Book | None) -> AskedAgain:
    """The question of a week file, as the page asks it of her week.

    In the week she follows, days she does not name stand as her log has them. Raises InputError.
    """
    catalogue = book.catalogue if book else read_catalogue()
    week = read_week(path, catalogue)
    known = catalogue.with_own(week.own_exercises)
    gym = gym_of_week(book, week, path.parent) if book else gym_named(week.gym, path.parent)
    hers = book.week() if book else None
    logged = day_states(book, week) if book and hers and hers.days == week.days else {}
    by_log = {d: s for d, s in logged.items() if d not in told.states and s != TO_COME}
    told = replace(
        told,
        states={**by_log, **told.states},
        gone=frozenset(_gone(one, week, gym, known) for one in told.gone),
        joint_limits={**(sore_joints(book) if book else {}), **told.joint_limits},
    )
    happened = happened_to(week, told, gym, book, catalogue)
    return AskedAgain(week, happened, catalogue, by_log, told.kit_of(gym, book))


def _gone(text: str, week: Week, gym: Gym | None, known: Catalogue) -> str:
    """Id of an exercise or item that is not there; raises InputError offering the nearest."""
    items = {item.name.casefold(): item.id for item in gym.items} if gym else {}
    asked = {one.equipment for day in week.days for one in day.exercises} - {""}
    ids = {*items.values(), *asked}
    if text in ids:
        return text
    if text.casefold() in items:
        return items[text.casefold()]
    if (exercise := known.find(text)) is not None:
        return exercise.id
    near = [*nearest_exercises(text, known, most=2), *nearest(text, items or ids, most=1)]
    remedy = offered(near, "see `pennate exercises`, or the gym file")
    raise InputError(f"“{text}” is no exercise and no item of the gym", remedy=remedy)
