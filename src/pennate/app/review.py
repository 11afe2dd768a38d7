"""After a session: what was learned, what changes next time, and the minutes; never a grade."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from pennate.app.book import Book
from pennate.app.card import drawn, make_card
from pennate.app.card_text import load_words
from pennate.app.coming import coming_at
from pennate.app.day import DayState
from pennate.app.outline import DayInputs
from pennate.app.session_stop import SAME_LOAD_KG
from pennate.app.stand import stand
from pennate.app.standing import Standing
from pennate.app.today import inputs_for, planned_for, weekday_of
from pennate.core.card import Card, CardSet, CardStop
from pennate.core.forecast import StrengthEstimate
from pennate.core.load_words import lacks_load
from pennate.core.performed import PerformedSet, SetKind
from pennate.core.week_time import Pace
from pennate.errors import NoAnswerError

LAST_TIME = "last time"


@dataclass(frozen=True, slots=True)
class NextTime:
    """One exercise the next time it comes up, as things stand."""

    exercise: str
    name: str
    load_now: str
    load_next: str
    change: str
    """heavier, lighter, the same, or new."""
    chance: float | None
    """Probability that the low end of the range is reached at that load in every set."""
    why: str


@dataclass(frozen=True, slots=True)
class Learned:
    """What a session did to the estimate of one exercise."""

    exercise: str
    name: str
    before: StrengthEstimate
    after: StrengthEstimate
    sets: int
    behind: int = 0
    """Working sets of it known before, done this way on this equipment."""
    without_load: int = 0
    """Of them, those whose load was not noted: they teach nothing."""

    @property
    def change(self) -> float:
        """Relative change of the one-rep load."""
        return self.after.one_rep_kg / self.before.one_rep_kg - 1

    @property
    def new(self) -> bool:
        """Whether these are the first sets of it done so: what moved was a guess, not strength."""
        return self.behind == 0


@dataclass(frozen=True, slots=True)
class SessionReview:
    """The whole of it."""

    day: date
    session: str
    finished: bool
    open: bool
    """Whether a set is still to be done."""
    sets_done: int
    sets_asked: int
    minutes: float | None
    card: Card
    """The session as it was asked, its minutes at her pace of now."""
    pace: Pace
    day_effect: tuple[float, float] | None
    """How far the day ran from what the morning expected, in log strength, and its SD."""
    learned: tuple[Learned, ...]
    next_time: tuple[NextTime, ...]
    note: str

    @property
    def minutes_asked(self) -> float:
        """What the whole session was to take."""
        return self.card.minutes


def review(book: Book, day: date, *, weekday: str | None = None) -> SessionReview:
    """Look back on a session. Raises NoAnswerError where nothing was logged."""
    weekday = weekday or last_session_of(book, day)
    planned = planned_for(book, day, weekday)
    if planned is None:
        raise NoAnswerError(f"nothing was planned on {day}")
    inputs = inputs_for(book, day, planned)
    if not inputs.done_today:
        raise NoAnswerError(f"no set of {planned.day} is logged on {day} yet")
    standing = stand(inputs)
    working = [d for d in inputs.done_today if d.kind is not SetKind.WARM_UP]
    asked = [s for _, s in standing.outline.order if s.asked.kind is not SetKind.WARM_UP]
    card = make_card(inputs, {})
    return SessionReview(
        day=day,
        session=inputs.state.session,
        finished=inputs.state.finished,
        open=card.next_key is not None,
        sets_done=len(working),
        sets_asked=len(asked),
        minutes=minutes_taken(inputs.done_today),
        card=card,
        pace=inputs.pace,
        day_effect=standing.day,
        learned=_learned(standing, inputs),
        next_time=_next_time(inputs, card),
        note=inputs.state.note,
    )


def last_session_of(book: Book, day: date) -> str:
    """The planned day that was begun last on a date, else the calendar's."""
    begun = [e.body.get("weekday") for e in book.ledger.entries("session", since=day, until=day)]
    return str(begun[-1]) if begun else weekday_of(day)


def minutes_taken(sets: Iterable[PerformedSet]) -> float | None:
    """Minutes from the first to the last logged set; None without times of day."""
    times = [done.when for done in sets if isinstance(done.when, datetime)]
    if len(times) < 2:
        return None
    return (max(times) - min(times)).total_seconds() / 60


def _learned(standing: Standing, inputs: DayInputs) -> tuple[Learned, ...]:
    found = []
    for index, plan in standing.outline.plans.items():
        sets = [
            done
            for done in inputs.done_today
            if done.exercise == plan.exercise.id and done.kind is not SetKind.WARM_UP
        ]
        if not sets or all(done.seconds is not None for done in sets):
            continue
        asking = standing.outline.stops[index].base
        found.append(
            Learned(
                exercise=plan.exercise.id,
                name=plan.exercise.name,
                before=inputs.model.estimate(asking),
                after=standing.model.estimate(asking),
                sets=len(sets),
                behind=inputs.model.sets_behind(asking),
                without_load=sum(lacks_load(done, plan.exercise) for done in sets),
            )
        )
    return tuple(found)


def _next_time(inputs: DayInputs, today: Card) -> tuple[NextTime, ...]:
    """The same planned day a week on, drawn from the model as it was after this session."""
    day = inputs.state.day + timedelta(days=7)
    standing = stand(inputs)
    coming = replace(
        inputs,
        state=DayState(day=day, weekday=inputs.state.weekday),
        history=inputs.history.before(inputs.state.day + timedelta(days=1)),
        model=standing.model,
        now=inputs.now + timedelta(days=7),
    )
    following = stand(coming)
    card = drawn(following, coming, {})
    steps = []
    for stop in card.stops:
        now = next((s for s in today.stops if s.exercise == stop.exercise), None)
        first = _first_working(stop.sets)
        if first is None or first.load is None:
            continue
        coming_first = coming_at("", following, stop)
        held = None if coming_first is None else coming_first.held_kg
        before = _before(now.sets if now else (), held)
        steps.append(
            NextTime(
                exercise=stop.exercise,
                name=stop.name,
                load_now=_words(before) if before else LAST_TIME,
                load_next=_words(first),
                change=_change(before, first, held),
                chance=_chance(following, stop),
                why=_why(first),
            )
        )
    return tuple(steps)


def _why(first: CardSet) -> str:
    """The rule behind the load; where a step up was due, what it costs and what to do first."""
    if not first.step:
        return first.why
    step = first.step[0]
    return f"the same load again: {step[0].lower()}{step[1:].rstrip('.')}"


def _first_working(sets: Iterable[CardSet]) -> CardSet | None:
    return next((one for one in sets if one.kind is not SetKind.WARM_UP), None)


def _before(sets: Iterable[CardSet], held: float | None) -> CardSet | None:
    """The set of today that the load of next time is held against, else the first one done."""
    done = [one for one in sets if one.done is not None and one.kind is not SetKind.WARM_UP]
    for one in done:
        if held is not None and one.load and abs(one.load.felt_kg - held) < SAME_LOAD_KG:
            return one
    return done[0] if done else None


def _words(one: CardSet) -> str:
    return load_words(one.load)


def _change(before: CardSet | None, after: CardSet, held: float | None) -> str:
    """Against a set of today; where none was done, against what it was the last time."""
    if after.load is None or (before is None and held is None):
        return "new"
    if before is None:
        more = after.load.felt_kg - (held or 0.0)
        way = "heavier" if more > 0 else "lighter"
        return way if abs(more) >= SAME_LOAD_KG else "the same"
    felt = before.load.felt if before.load is not None else 0  # nothing on it: body weight alone
    if felt == after.load.felt:
        return "the same"
    if before.load is None:
        return "new"
    return "heavier" if after.load.felt > felt else "lighter"


def _chance(following: Standing, stop: CardStop) -> float | None:
    """In every set, as the rule beside it and the weekly review speak of it."""
    coming = coming_at("", following, stop)
    return None if coming is None or coming.first.forecast is None else coming.chance
