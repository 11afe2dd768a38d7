"""Sync: take in entries that devices made themselves, and hand out what is stored.

Every entry is judged on its own: a wrong one is answered with its reason and stays with its
sender, the others are stored. The same entry twice is one entry, so a batch may be sent
again in any order until it is answered.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum
from types import MappingProxyType
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter, ValidationError

from pennate.app.book import Book
from pennate.app.doubts import doubt
from pennate.app.notes import LONGEST
from pennate.app.outline import CARD_KEY
from pennate.app.record import MOST_REPS, MOST_SECONDS, untell_pain
from pennate.core.performed import PerformedSet
from pennate.errors import InputError, PennateError
from pennate.ledger import RETRACTION, Entry, entry_from_json
from pennate.ledger.sets import SET, set_of

AHEAD = timedelta(minutes=5)
"""A device clock may be this much fast before its time is taken as now."""
DOUBLED_DAYS = 14
MOST_AHEAD = timedelta(days=366)
"""A day further to come than this is refused; a nearer one is stored, and asked about."""
MOST_STOPS = 60

Pain = Annotated[int, Field(ge=0, le=10)]
Stop = Annotated[int, Field(ge=0, lt=MOST_STOPS)]
Weekday = Literal["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]
Line = Annotated[str, Field(max_length=LONGEST)]


class _Shape(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)


class _OfDay(_Shape):
    weekday: Weekday


class Swap(_OfDay):
    """Another exercise at a stop."""

    what: Literal["swap"]
    stop: Stop
    exercise: Line
    item: Line = ""
    reason: Line = ""


class AtStop(_OfDay):
    """A stop left out or taken up again."""

    what: Literal["skip", "take up"]
    stop: Stop
    exercise: Line = ""
    pain: dict[str, Pain] = Field(default_factory=dict)
    """What hurt, where it was told beside the skip."""
    note: Line = ""
    because: Line = ""
    """What a set of it told, in words, where it is the set that keeps the pain."""


class LeaveOut(_OfDay):
    """Single sets left out for lack of time."""

    what: Literal["leave out"]
    keys: list[Line] = Field(max_length=200)


class KeepLoad(_OfDay):
    """A change of load refused."""

    what: Literal["keep load"]
    key: Line


class Order(_OfDay):
    """The stops in another order."""

    what: Literal["order"]
    stops: list[Stop]


class SessionEvent(_OfDay):
    """The session begins or ends."""

    event: Literal["opened", "finished"]
    note: Line = ""


class CheckIn(_Shape):
    """What is different today."""

    short_sleep: bool = False
    low_energy: bool = False
    sore: list[Line] = Field(default_factory=list, max_length=20)
    pain: dict[str, Pain] = Field(default_factory=dict)
    alarming: list[Line] = Field(default_factory=list, max_length=20)
    corrected: list[Line] = Field(default_factory=list, max_length=20)
    ill: Literal["", "now", "before"] = ""
    minutes: Annotated[int, Field(ge=5, le=240)] | None = None
    set: Line = ""


class Note(_Shape):
    """Her notes for an exercise on an item."""

    exercise: Line
    item: Line = ""
    settings: dict[str, Line] = Field(default_factory=dict, max_length=20)
    cue: Line = ""
    next_time: Line = ""


class Retraction(_Shape):
    """Why something is taken back."""

    why: Line = ""


_DECISION: TypeAdapter[Any] = TypeAdapter(
    Annotated[Swap | AtStop | LeaveOut | KeepLoad | Order, Field(discriminator="what")]
)
_BODIES: Mapping[str, TypeAdapter[Any]] = MappingProxyType(
    {
        "decision": _DECISION,
        "session": TypeAdapter(SessionEvent),
        "readiness": TypeAdapter(CheckIn),
        "note": TypeAdapter(Note),
        RETRACTION: TypeAdapter(Retraction),
    }
)
KINDS = (SET, *_BODIES)
"""Kinds of entry a device may send and gets; nothing about body, cycle or health."""


class Fate(StrEnum):
    """What became of one entry that was sent."""

    STORED = "stored"
    KNOWN = "known"
    CONFLICT = "conflict"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class Answer:
    """The answer to one entry; `why` says what was wrong with a refused one."""

    id: str
    fate: Fate
    why: str = ""


@dataclass(frozen=True, slots=True)
class Doubled:
    """One place of a session's card that was logged more than once."""

    day: date
    key: str
    sets: tuple[PerformedSet, ...]


@dataclass(frozen=True, slots=True)
class Page:
    """Entries of a stretch of the ledger, and the position up to which it was read."""

    position: int
    entries: tuple[tuple[int, Entry], ...]


def take_in(book: Book, documents: Iterable[object]) -> tuple[Answer, ...]:
    """Store what can be stored and answer each entry in its turn."""
    return tuple(_take(book, document) for document in documents)


def _take(book: Book, document: object) -> Answer:
    name = str(document.get("id", "")) if isinstance(document, Mapping) else ""
    with book.lock:
        try:
            entry = _read(book, document)
            appended = book.ledger.append([entry])
        except PennateError as error:
            return Answer(name, Fate.REFUSED, str(error))
        if appended.added and entry.kind == SET:
            doubt(book, entry.id)
        if appended.added and entry.kind == RETRACTION and entry.replaces:
            untell_pain(book, entry.day, entry.replaces)
    if appended.added:
        return Answer(entry.id, Fate.STORED)
    return Answer(entry.id, Fate.CONFLICT if appended.conflicts else Fate.KNOWN)


def _read(book: Book, document: object) -> Entry:
    entry = entry_from_json(document)
    if entry.kind not in KINDS:
        raise InputError(f"“{entry.kind}” is not something a device sends")
    now = book.now()
    if entry.day > now.date() + MOST_AHEAD:
        raise InputError(f"{entry.day} is still to come", remedy="set the device's clock")
    _check_target(book, entry)
    if entry.kind == SET:
        _check_set(book, set_of(entry), entry.day)
    else:
        _check_body(entry)
    return replace(entry, made_at=now) if entry.made_at > now + AHEAD else entry


def _check_target(book: Book, entry: Entry) -> None:
    if entry.kind == RETRACTION and entry.replaces is None:
        raise InputError("a retraction names no entry")
    target = None if entry.replaces is None else book.ledger.find(entry.replaces)
    if target is not None and target.kind not in KINDS:
        raise InputError(f"a device may not change a {target.kind}")


def _check_body(entry: Entry) -> None:
    try:
        _BODIES[entry.kind].validate_python(dict(entry.body))
    except ValidationError as error:
        first = error.errors()[0]
        where = ".".join(str(part) for part in first["loc"])
        raise InputError(f"{entry.kind} {where}: {first['msg']}") from None


def _check_set(book: Book, done: PerformedSet, day: date) -> None:
    if done.day != day:
        raise InputError(f"the set says {done.day}, its entry {day}")
    if done.exercise not in book.catalogue:
        raise InputError(f"there is no exercise “{done.exercise}”")
    if not 0 <= done.reps <= MOST_REPS or done.number < 1:
        raise InputError(f"{done.reps} reps in set {done.number}")
    if done.seconds is not None and not 0 < done.seconds <= MOST_SECONDS:
        raise InputError(f"{float(done.seconds):g} seconds")
    if any(not 0 <= score <= 10 for score in done.pain.values()):
        raise InputError("pain is a number from 0 to 10")


def entries_after(book: Book, position: int, limit: int) -> Page:
    """Entries a device may have, beyond a position in the order of arrival."""
    read = book.ledger.everything(after=position, limit=limit)
    last = max((at for at, _ in read), default=position)
    return Page(last, tuple((at, entry) for at, entry in read if entry.kind in KINDS))


def doubled(book: Book) -> tuple[Doubled, ...]:
    """Places of recent cards that hold two sets: two devices logged the same one."""
    since = book.today - timedelta(days=DOUBLED_DAYS)
    places: dict[tuple[date, str, str], list[PerformedSet]] = defaultdict(list)
    for done in book.history().since(since):
        if key := done.extra.get(CARD_KEY):
            places[done.day, done.session, key].append(done)
    return tuple(
        Doubled(day, key, tuple(sets)) for (day, _, key), sets in places.items() if len(sets) > 1
    )
