"""Recording: one tap is one entry, undo takes the last one back, finish closes the session."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from fractions import Fraction

from pennate.app.book import Book
from pennate.app.day import WITH_SET, readiness_body
from pennate.app.outline import CARD_KEY
from pennate.app.pain_holds import hurt_words, stopped_by
from pennate.app.rests import rest_taken, seconds_between
from pennate.app.today import card_for, day_state, open_session, skip, take_up
from pennate.core.card import Card, CardSet, CardStop
from pennate.core.cautions import alarming_joint_words
from pennate.core.performed import Effort, PerformedSet
from pennate.core.quantities import LoadReading, Unit
from pennate.core.readiness import Readiness
from pennate.core.still_to_come import slip_of
from pennate.core.week_time import seconds_per_rep
from pennate.errors import InputError
from pennate.ledger import uuid7
from pennate.ledger.sets import set_entry

MOST_REPS = 200
MOST_SECONDS = 3600


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded:
    """What she reports of one set. Fields left at None stand as asked."""

    reps: int | None = None
    seconds: Fraction | None = None
    load: Fraction | None = None
    unit: Unit | None = None
    reading: LoadReading = LoadReading.TOTAL
    no_load: bool = False
    """Body weight alone, whatever was asked."""
    effort: Effort | None = None
    pain: Mapping[str, int] = field(default_factory=dict)
    note: str = ""
    stops: bool = False
    """The pain rule stops the exercise by what is said of no joint, such as its muscle."""


def record(book: Book, day: date, key: str, reported: Recorded, *, weekday: str) -> str:
    """Store one set of today's card and give its id.

    Reps, seconds and load that she did not touch are taken as asked and marked so. Pain that
    stops the exercise leaves out the rest of it; pain of a joint counts today for all that loads
    it. Raises InputError for a set the card does not have, impossible values, or a day to come.
    """
    if slip := slip_of(day, book.today):
        raise InputError(slip)
    with book.lock:
        card = card_for(book, day, weekday=weekday)
        found = card.find(key) if isinstance(card, Card) else None
        if found is None or not isinstance(card, Card):
            raise InputError(f"there is no set {key} on the card of {day}")
        stop, one = found
        if one.done is not None:
            raise InputError(f"set {key} is already logged", remedy="undo it first")
        open_session(book, day, weekday)
        done = performed(book, card, stop, one, reported)
        done = replace(done, rest_s=_rest(book, card, one, done))
        book.ledger.append([set_entry(done, now=book.now(), rng=book.rng)])
        if done.pain:
            _tell_pain(book, day, weekday, done)
        if reported.stops or stopped_by(done):
            skip(book, day, weekday, stop.index, because=hurt_words(done) or done.note)
        return done.id


def _tell_pain(book: Book, day: date, weekday: str, done: PerformedSet) -> None:
    """Take the pain of a set into account in all that loads the joint, as if told by itself."""
    state = day_state(book, day, weekday)
    said = state.readiness or Readiness(day=day)
    hurting = said.hurting(done.pain, alarming=bool(alarming_joint_words(done.note)))
    book.put("readiness", day, {**readiness_body(hurting, state.minutes), WITH_SET: done.id})


def untell_pain(book: Book, day: date, set_id: str) -> None:
    """Take back what was told of a joint with a set that is taken back."""
    for entry in book.ledger.entries("readiness", since=day, until=day):
        if entry.body.get(WITH_SET) == set_id:
            why = "its set was taken back"
            book.ledger.retract(entry.id, now=book.now(), rng=book.rng, why=why)


def _rest(book: Book, card: Card, one: CardSet, done: PerformedSet) -> Fraction | None:
    """The rest really taken since the last set of the session, where both moments are known."""
    own = _of_session(book, card)
    last = max(own, key=lambda other: other.number).when if own else None
    pace = seconds_per_rep(book.catalogue[done.exercise], one.asked.tempo)
    took = done.reps * pace if done.seconds is None else float(done.seconds)
    return rest_taken(seconds_between(last, done.when), took, one.rest_s)


def performed(book: Book, card: Card, stop: CardStop, one: CardSet, said: Recorded) -> PerformedSet:
    """A set of the card as she reports it, next in its session."""
    seconds = said.seconds
    if seconds is None and one.seconds is not None and said.reps is None:
        seconds = Fraction(one.seconds.low)
    reps = said.reps if said.reps is not None else _asked_reps(one)
    _check(reps, seconds, said.pain)
    load, unit, reading = _load(one, said)
    held = one.seconds is not None and one.reps is None
    return PerformedSet(
        id=uuid7(book.now(), book.rng),
        when=_when(book, card),
        session=card.session,
        number=1 + max((d.number for d in _of_session(book, card)), default=0),
        exercise=stop.exercise,
        reps=1 if held else reps,
        kind=one.kind,
        load=load,
        unit=unit,
        reading=reading,
        effort=said.effort,
        rest_s=Fraction(one.rest_s),
        seconds=seconds,
        side=one.side,
        group=stop.superset,
        round=one.round,
        equipment=stop.item.id if stop.item else "",
        variant=stop.asked.variant,
        style=one.asked.style,
        aids=stop.asked.aids,
        pain=dict(said.pain),
        as_asked=said.reps is None and said.seconds is None and said.load is None,
        body_mass_kg=book.profile().body_mass_kg,
        settings="; ".join(f"{k} {v}" for k, v in stop.notes.settings.items()),
        note=said.note.strip(),
        extra={CARD_KEY: one.key},
    )


def _when(book: Book, card: Card) -> datetime | date:
    """The moment, or the day alone for a session that is written down later."""
    moment = book.now().replace(tzinfo=None, microsecond=0)
    return moment if moment.date() == card.day else card.day


def _of_session(book: Book, card: Card) -> list[PerformedSet]:
    return [d for d in book.history() if d.day == card.day and d.session == card.session]


def _asked_reps(one: CardSet) -> int:
    """The reps that stand as asked: the fixed number, or what was likely in a range."""
    if one.reps is None:
        return 1
    if one.reps.low == one.reps.high or one.likely is None:
        return one.reps.low
    return one.likely.middle


def _load(one: CardSet, said: Recorded) -> tuple[Fraction | None, Unit | None, LoadReading]:
    if said.no_load:
        return None, None, LoadReading.TOTAL
    if said.load is not None:
        return said.load, said.unit or Unit.KG, said.reading
    if one.load is None or (not one.load.felt and not one.load.load):
        return None, None, LoadReading.TOTAL
    return one.load.load.amount, one.load.load.unit, one.load.reading


def _check(reps: int, seconds: Fraction | None, pain: Mapping[str, int]) -> None:
    if not 0 <= reps <= MOST_REPS:
        raise InputError(f"{reps} reps", remedy=f"a number from 0 to {MOST_REPS}")
    if seconds is not None and not 0 < seconds <= MOST_SECONDS:
        raise InputError(f"{float(seconds):g} seconds", remedy=f"from 1 to {MOST_SECONDS}")
    for joint, score in pain.items():
        if not 0 <= score <= 10:
            raise InputError(f"pain {score} in the {joint}", remedy="a number from 0 to 10")


def undo(book: Book, day: date, *, weekday: str) -> str | None:
    """Take back the set logged last in this session; gives its card key, or None.

    An exercise that its pain stopped, or that was skipped after it, is taken up again; its pain
    counts for the others no more.
    """
    with book.lock:
        own = [d for d in book.history() if d.day == day and d.session == weekday.lower()]
        if not own:
            return None
        last = max(own, key=lambda done: done.number)
        book.ledger.retract(last.id, now=book.now(), rng=book.rng, why="undone at once")
        untell_pain(book, day, last.id)
        key = last.extra.get(CARD_KEY)
        if key and (stop := int(key.split(".")[0])) in day_state(book, day, weekday).skipped:
            take_up(book, day, weekday, stop)
        return key


def finish(book: Book, day: date, *, weekday: str, note: str = "") -> None:
    """Close the session; what is logged stays as it is."""
    open_session(book, day, weekday)
    book.put("session", day, {"event": "finished", "weekday": weekday, "note": note.strip()})
