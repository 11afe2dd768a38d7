"""What the log says to the week: her pace, left and right, and the last hard sets by group."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from itertools import groupby
from statistics import median
from types import MappingProxyType

from pennate.app.at_hand import AtHand
from pennate.app.book import Book
from pennate.app.week_effort import done_credits, model_now
from pennate.core.dose import RESERVE_OF, CountedSet, dose_by_group, dose_by_part, effort_credit
from pennate.core.evidence.audit import SIDE_SD_TIMES
from pennate.core.evidence.plan import OPEN_RESERVE
from pennate.core.exercise import Catalogue
from pennate.core.history import History
from pennate.core.muscles import Group
from pennate.core.performed import PerformedSet, Session, SetKind, Side
from pennate.core.prescribed import (
    WEEKDAYS,
    PlannedDay,
    PrescribedExercise,
    PrescribedSets,
    Span,
    Week,
)
from pennate.core.week_time import Pace, day_minutes, multi_joint
from pennate.estimate import Exposure, ExposureReader, StrengthModel
from pennate.estimate.sides import side_difference
from pennate.plan.log_findings import SIDES_WEEKS
from pennate.plan.recovery import Bout, Recovery, recovery
from pennate.plan.sides import FEWEST_SESSIONS, SideGap, SideLog

PACE_WEEKS = 8
"""Weeks of sessions that her pace is taken from."""
LEAST_SETS = 5
"""Sets from which a session says something about pace."""
LONGEST_MIN, SHORTEST_MIN = 180, 10
"""Sessions outside are clocks left running, or logs typed in afterwards."""
USUAL_START = time(18)
"""When a session begins where no log says."""
RECENT = timedelta(days=5)
"""Hard sets older than this cost nothing any more."""


def pace_of(book: Book) -> Pace:
    """How long her sessions take against the time model, from the clock of her sets."""
    return _PACE.of(book)


def _pace(book: Book) -> Pace:
    since = book.today - timedelta(weeks=PACE_WEEKS)
    found = []
    for session in book.history().since(since).sessions():
        if (took := _minutes_taken(session)) is not None:
            asked = day_minutes(_as_planned(session, book.catalogue), book.catalogue).value
            found.append((asked, took))
    return Pace.from_sessions(found)


_PACE = AtHand(_pace)


def _minutes_taken(session: Session) -> float | None:
    """Minutes from the first to the last set; None where the clock cannot be believed."""
    clock = sorted(one.when for one in session.sets if isinstance(one.when, datetime))
    if len(clock) < max(LEAST_SETS, len(session.sets)):
        return None
    minutes = (clock[-1] - clock[0]).total_seconds() / 60
    return minutes if SHORTEST_MIN <= minutes <= LONGEST_MIN else None


def _as_planned(session: Session, known: Catalogue) -> PlannedDay:
    """What was done, written as a day, so that one time model serves both."""
    exercises = []
    for (name, variant), done in groupby(session.sets, key=lambda d: (d.exercise, d.variant)):
        if name not in known.exercises:
            continue
        sets = tuple(_as_asked(one) for one in done if one.side is not Side.RIGHT)
        if sets:
            exercises.append(PrescribedExercise(exercise=name, variant=variant, sets=sets))
    return PlannedDay(day="Monday", exercises=tuple(exercises))


def _as_asked(one: PerformedSet) -> PrescribedSets:
    if one.seconds is not None:
        held = int(one.seconds)
        return PrescribedSets(kind=one.kind, seconds=Span(held, held))
    return PrescribedSets(kind=one.kind, reps=Span(one.reps, one.reps))


def sides_of(book: Book) -> tuple[SideLog, ...]:
    """Left and right of every exercise done a side at a time, over the last weeks."""
    since = book.today - timedelta(weeks=SIDES_WEEKS)
    by_exercise: dict[str, list[PerformedSet]] = defaultdict(list)
    for done in book.history().since(since):
        if done.side is not None and done.kind is not SetKind.WARM_UP:
            by_exercise[done.exercise].append(done)
    if not by_exercise:
        return ()
    model, reader = model_now(book)
    return tuple(_side_log(model, reader, name, done) for name, done in sorted(by_exercise.items()))


def _side_log(
    model: StrengthModel, reader: ExposureReader, exercise: str, done: Sequence[PerformedSet]
) -> SideLog:
    visits = {side: {(one.day, one.session) for one in done if one.side is side} for side in Side}
    both = visits[Side.LEFT] & visits[Side.RIGHT]
    return SideLog(
        exercise=exercise,
        left=sum(one.side is Side.LEFT for one in done),
        right=sum(one.side is Side.RIGHT for one in done),
        sessions=len(both),
        gap=_side_gap(model, reader.exposure(done[-1])) if len(both) >= FEWEST_SESSIONS else None,
    )


def _side_gap(model: StrengthModel, asking: Exposure) -> SideGap | None:
    """What the strength model says of the two sides, done as they were last, told wider."""
    left, right = (replace(asking, side=side) for side in (Side.LEFT, Side.RIGHT))
    found = side_difference(model, left, right)
    return SideGap(found[0], found[1] * SIDE_SD_TIMES) if found else None


def standing_now(book: Book) -> tuple[Recovery, ...]:
    """Hours since the last hard sets of each group, and the reps lost if trained now."""
    return standing_at(book, book.now())


def standing_at(book: Book, moment: datetime) -> tuple[Recovery, ...]:
    """The same for a moment to come, with nothing done until then."""
    now = book.now()
    recent = book.history().since((now - RECENT).date())
    credits_ = done_credits(book, recent)
    return recovery(moment, bouts_of(recent, book.catalogue, now, credits_))


def bouts_of(
    history: History,
    known: Catalogue,
    now: datetime,
    credits_: Mapping[str, float] = MappingProxyType({}),
) -> dict[Group, tuple[Bout, ...]]:
    """The sessions of the last days as hard sets of each group.

    `credits_` says by set what those of unknown effort count; the others count as usual.
    """
    found: dict[Group, list[Bout]] = defaultdict(list)
    for session in history.since((now - RECENT).date()).sessions():
        when = _moment(session.sets[-1].when, now.tzinfo)
        counted = {
            one.identity: _counted(one, known, credits_)
            for one in session.sets
            if one.exercise in known.exercises
        }
        whole = dose_by_group(dose_by_part(counted.values()))
        heavy = {
            one.identity
            for one in session.sets
            if one.identity in counted and multi_joint(known[one.exercise])
        }
        multi = dose_by_group(dose_by_part(counted[one] for one in sorted(heavy)))
        for group, dose in whole.items():
            if dose.value > 0 and when <= now:
                share = multi[group].value / dose.value
                found[group].append(Bout(when, dose.value, share))
    return {group: tuple(bouts) for group, bouts in found.items()}


def _counted(one: PerformedSet, known: Catalogue, credits_: Mapping[str, float]) -> CountedSet:
    reserve = OPEN_RESERVE if one.effort is None else RESERVE_OF[one.effort]
    half = 0.5 if one.side is not None else 1.0
    weights = known[one.exercise].weights(one.variant)
    credit = credits_.get(one.identity, effort_credit(reserve))
    return CountedSet(credit, one.kind, weights, half)


def _moment(when: datetime | date, zone: tzinfo | None) -> datetime:
    """A moment with a time zone; a day without a time is taken at the usual hour."""
    if not isinstance(when, datetime):
        when = datetime.combine(when, USUAL_START)
    return when if when.tzinfo else when.replace(tzinfo=zone or UTC)


def next_session(book: Book, week: Week) -> tuple[str, datetime] | None:
    """The next session of a week that she has not begun: its day, and its likely start."""
    trained = {one.day for one in book.history().since(book.today)}
    hour = _usual_hour(book)
    for ahead in range(8):
        day = book.today + timedelta(days=ahead)
        planned = week.day(_weekday(day))
        if planned is not None and not planned.rest and day not in trained:
            moment = datetime.combine(day, hour, tzinfo=book.now().tzinfo)
            return planned.day, max(moment, book.now().replace(minute=0, second=0, microsecond=0))
    return None


def _weekday(day: date) -> str:
    return WEEKDAYS[day.weekday()]


def ends_at(history: History, now: datetime) -> datetime:
    """The moment of the last set of a log; now where it is empty."""
    last = max(history, key=lambda one: one.order, default=None)
    return _moment(last.when, now.tzinfo) if last else now


def _usual_hour(book: Book) -> time:
    since = book.today - timedelta(weeks=PACE_WEEKS)
    starts = [
        session.sets[0].when.hour
        for session in book.history().since(since).sessions()
        if isinstance(session.sets[0].when, datetime)
    ]
    return time(int(median(starts))) if starts else USUAL_START
