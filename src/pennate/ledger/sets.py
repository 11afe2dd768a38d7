"""Performed sets as entries and back. Wrong data is returned beside the history, not raised."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache
from random import Random
from types import MappingProxyType
from typing import Any

from pennate.core.history import History
from pennate.core.performed import Effort, PerformedSet, SetKind, Side
from pennate.core.quantities import LoadReading, Unit, exact_text
from pennate.errors import InputError
from pennate.ledger.entry import Entry, is_entry_id, uuid7
from pennate.ledger.store import Ledger

SET = "set"
"""Kind of an entry that holds a performed set."""

CACHED = 8192
"""Loads, rests and days repeat."""


@dataclass(frozen=True, slots=True)
class Problem:
    """An entry that cannot be understood; it stays in the ledger."""

    entry_id: str
    what: str


def sets_from(
    ledger: Ledger, *, since: date | None = None, until: date | None = None
) -> tuple[History, tuple[Problem, ...]]:
    """Every current set, and the entries that make no sense as one.

    A set's `id` is the id its chain began with, or the one its file gave it: it stays the
    same over corrections.
    """
    return _read(ledger.current(SET, since=since, until=until))


def _read(current: Iterable[tuple[str, Entry]]) -> tuple[History, tuple[Problem, ...]]:
    sets, problems = [], []
    for root, entry in current:
        try:
            sets.append(set_of(entry, root))
        except InputError as error:
            problems.append(Problem(entry.id, error.what))
    return History.of(sets), tuple(problems)


def set_entry(
    done: PerformedSet, *, now: datetime, rng: Random, replaces: str | None = None
) -> Entry:
    """The set as a new entry; with `replaces`, as a correction of that entry.

    A version 7 id of the set becomes the entry's own; any other id stays in the body.
    """
    own = is_entry_id(done.id)
    body = set_body(done)
    if done.id and not own:
        body["id"] = done.id
    return Entry(
        id=done.id if own and replaces is None else uuid7(now, rng),
        kind=SET,
        day=done.day,
        made_at=now,
        replaces=replaces,
        body=body,
    )


def set_body(done: PerformedSet) -> dict[str, Any]:
    """The columns of the set as JSON, exact numbers as text; what is usual is left out."""
    body: dict[str, Any] = {
        "date": done.when.isoformat(),
        "session": done.session,
        "set": done.number,
        "exercise": done.exercise,
        "reps": done.reps,
    }
    for key, (field, _) in _OPTIONAL.items():
        value = getattr(done, field)
        if value not in (None, "", ()) and value != _USUAL.get(key):
            body[key] = _json(value)
    return body


def set_of(entry: Entry, root: str = "") -> PerformedSet:
    """The set an entry holds. Raises InputError when it holds none."""
    body = entry.body
    try:
        values = {field: read(body[key]) for key, (field, read) in _OPTIONAL.items() if key in body}
        return PerformedSet(
            id=str(body.get("id") or root or entry.id),
            when=_when(body["date"]),
            session=str(body["session"]),
            number=int(body["set"]),
            exercise=str(body["exercise"]),
            reps=int(body["reps"]),
            **values,
        )
    except KeyError as missing:
        raise InputError(f"the set has no {missing.args[0]}") from None
    except (ValueError, TypeError, AttributeError, ZeroDivisionError) as error:
        raise InputError(f"the set cannot be read: {error}") from None


@lru_cache(CACHED)
def _when(text: str) -> date | datetime:
    bare = len(text) == len("2026-03-31")
    return date.fromisoformat(text) if bare else datetime.fromisoformat(text)


@lru_cache(CACHED)
def _exact(text: str) -> Fraction:
    return Fraction(text)


@lru_cache(CACHED)
def _text(value: Fraction) -> str:
    return exact_text(value)


def _json(value: Any) -> Any:
    if isinstance(value, Fraction):
        return _text(value)
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, Mapping):
        return dict(value)
    return list(value) if isinstance(value, tuple) else value


def _words(value: Any) -> tuple[str, ...]:
    if not isinstance(value, list):
        raise TypeError(f"“{value}” is not a list")
    return tuple(str(word) for word in value)


def _scores(value: Any) -> dict[str, int]:
    return {str(joint): int(score) for joint, score in value.items()}


def _texts(value: Any) -> dict[str, str]:
    return {str(column): str(text) for column, text in value.items()}


_OPTIONAL: Mapping[str, tuple[str, Callable[[Any], Any]]] = MappingProxyType(
    {
        "kind": ("kind", SetKind),
        "load": ("load", _exact),
        "unit": ("unit", Unit),
        "load_is": ("reading", LoadReading),
        "rir": ("effort", Effort),
        "rest_s": ("rest_s", _exact),
        "seconds": ("seconds", _exact),
        "side": ("side", Side),
        "group": ("group", str),
        "round": ("round", int),
        "equipment": ("equipment", str),
        "variant": ("variant", str),
        "style": ("style", str),
        "aids": ("aids", _words),
        "pain": ("pain", _scores),
        "as_asked": ("as_asked", bool),
        "body_mass_kg": ("body_mass_kg", _exact),
        "settings": ("settings", str),
        "note": ("note", str),
        "extra": ("extra", _texts),
    }
)
"""Keys of the body that may be missing: the field of the set, and how it is read."""

_USUAL: Mapping[str, Any] = MappingProxyType(
    {
        "kind": SetKind.WORKING,
        "load_is": LoadReading.TOTAL,
        "pain": {},
        "extra": {},
        "as_asked": False,
    }
)
