"""How hard sets are that say nothing of effort: by her forecast, as probability.

A planned set counts so where its load is written; a logged one where no effort was given.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import datetime
from statistics import mean
from typing import NamedTuple

from pennate.app.book import Book
from pennate.app.stops import item_asked
from pennate.app.unnamed import on_item
from pennate.core.dose import forecast_credit
from pennate.core.evidence.plan import USUAL_REPS
from pennate.core.exercise import Exercise, Sides
from pennate.core.gym import AnyItem
from pennate.core.history import History
from pennate.core.performed import PerformedSet, SetKind, Side
from pennate.core.prescribed import LoadFrom, PrescribedExercise, PrescribedSets, Week
from pennate.core.week_dose import effort_open
from pennate.estimate import ExposureReader, StrengthModel, outcome_of
from pennate.plan.seen import OpenSets, open_sets

WRITTEN = frozenset({LoadFrom.FIXED, LoadFrom.BODY_WEIGHT, LoadFrom.EMPTY_BAR})
"""Loads that are known before the session."""
THOUGHT_OF = "thought of"
"""Name of a session that is only played through."""


class _Asked(NamedTuple):
    """An exercise of a week on what it is done on."""

    asked: PrescribedExercise
    exercise: Exercise
    item: AnyItem | None


def model_now(book: Book) -> tuple[StrengthModel, ExposureReader]:
    """Her strength with today's sets, and the reader that knows her items."""
    model = book.model_before(book.today)
    reader = book.reader_on(book.today)
    for done in book.history().since(book.today):
        model.observe(reader.exposure(done), outcome_of(done))
    return model, reader


def asked_credits(book: Book, week: Week) -> Mapping[OpenSets, float]:
    """What the sets of a week that leave effort open count, where load and reps are written.

    Each exercise is played through from rested; one she has never logged stays unsaid.
    """
    known = book.catalogue.with_own(week.own_exercises)
    open_ = [
        asked
        for day in week.days
        for asked in day.exercises
        if any(_foreseen(sets, known[asked.exercise]) for sets in asked.sets)
    ]
    if not open_ or not len(book.history()):
        return {}
    model, reader = model_now(book)
    settled, now, gym = model.settled(), book.now(), book.gym()
    found: dict[OpenSets, float] = {}
    for asked in open_:
        exercise = known[asked.exercise]
        item = item_asked(gym, exercise, asked) if gym else None
        found |= _played(settled.copy(), reader, _Asked(asked, exercise, item), now)
    return found


def _foreseen(sets: PrescribedSets, exercise: Exercise) -> bool:
    """Whether load and reps are written and effort is not."""
    return effort_open(sets) and sets.load.source in WRITTEN and not exercise.timed


def _played(
    model: StrengthModel,
    reader: ExposureReader,
    what: _Asked,
    now: datetime,
) -> dict[OpenSets, float]:
    asked, exercise, item = what
    found: dict[OpenSets, float] = {}
    side = Side.LEFT if exercise.sides_in(asked.variant) is Sides.ONE else None
    for sets in asked.sets:
        if sets.load.source not in WRITTEN or sets.kind is SetKind.WARM_UP:
            continue
        doing = replace(_as_done(asked, sets, now), side=side)
        doing = on_item(doing, item) if item else doing
        exposure = reader.exposure(doing)
        credits_ = []
        for _ in range(sets.count):
            forecast = model.forecast(exposure)
            if not forecast.sets_behind:
                return {}
            credits_.append(forecast_credit(forecast.pmf, doing.reps))
            model.assume(exposure, doing.reps)
        if effort_open(sets):
            found[open_sets(asked, sets)] = mean(credits_)
    return found


def _as_done(asked: PrescribedExercise, sets: PrescribedSets, now: datetime) -> PerformedSet:
    """One of the asked sets as it would be logged; of a range of reps the middle."""
    reps = int(USUAL_REPS)
    if sets.reps is not None:
        reps = (sets.reps.low + (sets.reps.high or sets.reps.low)) // 2
    mass = sets.load.mass
    return PerformedSet(
        id=THOUGHT_OF,
        when=now,
        session=THOUGHT_OF,
        number=1,
        exercise=asked.exercise,
        reps=reps,
        kind=sets.kind,
        load=mass.amount if mass else None,
        unit=mass.unit if mass else None,
        reading=sets.load.reading,
        equipment=asked.equipment,
        variant=asked.variant,
        style=sets.style,
        aids=asked.aids,
    )


def done_credits(book: Book, history: History) -> Mapping[str, float]:
    """What logged sets without an effort count, by set, from what she can do now.

    Each session is played through again, so that the tiredness of earlier sets counts.
    """
    sessions = [one.sets for one in history.sessions() if any(_untold(done) for done in one.sets)]
    if not sessions:
        return {}
    model, reader = model_now(book)
    settled, now = model.settled(), book.now()
    found: dict[str, float] = {}
    for sets in sessions:
        found |= _replayed(settled.copy(), reader, sets, now)
    return found


def _untold(done: PerformedSet) -> bool:
    counted = done.seconds is None and done.kind is not SetKind.WARM_UP
    return done.effort is None and counted


def _replayed(
    model: StrengthModel, reader: ExposureReader, sets: Iterable[PerformedSet], now: datetime
) -> dict[str, float]:
    found: dict[str, float] = {}
    for done in sets:
        again = replace(done, when=now, session=THOUGHT_OF)
        exposure = reader.exposure(again)
        if exposure.unloaded:
            model.pass_by(exposure, done.reps)
            continue
        forecast = model.forecast(exposure)
        if _untold(done) and forecast.sets_behind:
            found[done.identity] = forecast_credit(forecast.pmf, done.reps)
        model.assume(exposure, done.reps)
    return found
