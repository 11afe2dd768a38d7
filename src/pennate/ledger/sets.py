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

    def __str__(self) -> str:
        return f"{self.what} (entry {self.entry_id})" if self.entry_id else self.what


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
    for key, (field, _, write) in _OPTIONAL.items():
        said = write(getattr(done, field))
        if said is not None:
            body[key] = said
    return body


def set_of(entry: Entry, root: str = "") -> PerformedSet:
    """The set an entry holds. Raises InputError when it holds none."""
    body = entry.body
    try:
        values = {
            field: read(body[key]) for key, (field, read, _) in _OPTIONAL.items() if key in body
        }
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


def _number(value: Fraction | None) -> str | None:
    return None if value is None else _text(value)


def _word(value: StrEnum | None) -> str | None:
    return None if value is None or value in _USUAL else value.value


def _some(value: str) -> str | None:
    return value or None


def _whole(value: int | None) -> int | None:
    return value


def _list(value: tuple[str, ...]) -> list[str] | None:
    return list(value) or None


def _pairs(value: Mapping[str, Any]) -> dict[str, Any] | None:
    return dict(value) or None


def _words(value: Any) -> tuple[str, ...]:
    if not isinstance(value, list):
        raise TypeError(f"“{value}” is not a list")
    return tuple(str(word) for word in value)


def _scores(value: Any) -> dict[str, int]:
    return {str(joint): int(score) for joint, score in value.items()}


def _texts(value: Any) -> dict[str, str]:
    return {str(column): str(text) for column, text in value.items()}


_USUAL = (SetKind.WORKING, LoadReading.TOTAL)
"""Words that go without saying."""

_OPTIONAL: Mapping[str, tuple[str, Callable[[Any], Any], Callable[[Any], Any]]] = MappingProxyType(
    {
        "kind": ("kind", SetKind, _word),
        "load": ("load", _exact, _number),
        "unit": ("unit", Unit, _word),
        "load_is": ("reading", LoadReading, _word),
        "rir": ("effort", Effort, _word),
        "rest_s": ("rest_s", _exact, _number),
        "seconds": ("seconds", _exact, _number),
        "side": ("side", Side, _word),
        "group": ("group", str, _some),
        "round": ("round", int, _whole),
        "equipment": ("equipment", str, _some),
        "variant": ("variant", str, _some),
        "style": ("style", str, _some),
        "aids": ("aids", _words, _list),
        "pain": ("pain", _scores, _pairs),
        "as_asked": ("as_asked", bool, lambda value: value or None),
        "body_mass_kg": ("body_mass_kg", _exact, _number),
        "settings": ("settings", str, _some),
        "note": ("note", str, _some),
        "extra": ("extra", _texts, _pairs),
    }
)
"""Keys of the body that may be missing: the field of the set, how it is read and written.

What writes as nothing is left out.
"""
