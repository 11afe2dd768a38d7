"""What she noted of her body lately, each to be taken back; a slip is nobody's record."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction
from types import MappingProxyType
from typing import Any

from pennate.app.body_notes import (
    BLEEDING,
    INTAKE,
    PAIN,
    READINESS,
    SLEEP,
    check_ins,
    choices,
)
from pennate.app.body_record import PERIOD
from pennate.app.book import Book
from pennate.core.quantities import format_number
from pennate.core.readiness import ALARM
from pennate.errors import InputError
from pennate.ledger import Entry
from pennate.ledger.measured import GIRTH, WEIGHT

LATELY = 5
"""Notes offered to be taken back; older ones are mended by an import."""


@dataclass(frozen=True, slots=True)
class Noted:
    """One note: its id, its day, and what it says."""

    id: str
    day: date
    what: str


def noted_lately(book: Book, *kinds: str) -> tuple[Noted, ...]:
    """The notes of these kinds that were written last, the latest first."""
    entries = [entry for kind in kinds for entry in _entries(book, kind)]
    hidden = choices(book).hide_weight
    said = (
        Noted(entry.id, entry.day, "a weighing" if hidden and entry.kind == WEIGHT else what)
        for entry in sorted(entries, key=_lately, reverse=True)
        if (what := _SAYS[entry.kind](entry.body))
    )
    return tuple(one for one, _ in zip(said, range(LATELY), strict=False))


def _entries(book: Book, kind: str) -> tuple[Entry, ...]:
    return check_ins(book) if kind == READINESS else book.entries(kind)


def _lately(entry: Entry) -> tuple[datetime, date, datetime]:
    """When it was written, to the minute; what came in at once goes by its day."""
    made = entry.made_at
    return made.replace(second=0, microsecond=0), entry.day, made


def take_back(book: Book, entry_id: str) -> None:
    """Take back a note about the body; of a check-in, all that was said that day.

    Raises InputError where there is none such.
    """
    found = book.ledger.find(entry_id)
    if found is None or found.kind not in _SAYS:
        raise InputError("there is no such note", remedy="reload the page")
    whole = [found]
    if found.kind == READINESS:
        whole = list(book.ledger.entries(READINESS, since=found.day, until=found.day))
    for entry in whole:
        book.ledger.retract(entry.id, now=book.now(), rng=book.rng, why="taken back")


def _number(text: object) -> str:
    return format_number(Fraction(str(text)))


def _girth(body: Mapping[str, Any]) -> str:
    readings = ", ".join(_number(one) for one in body.get("girths_cm", ()))
    fold = body.get("skinfold_mm")
    said = [f"{readings} cm" if readings else "", f"skinfold {_number(fold)} mm" if fold else ""]
    where = " ".join(filter(None, (body.get("side"), body["site"])))
    return f"{where}: {', '.join(filter(None, said))}"


def _eaten(body: Mapping[str, Any]) -> str:
    protein = body.get("protein_g")
    return f"{_number(body['kcal'])} kcal" + (f", {_number(protein)} g protein" if protein else "")


def _pain(body: Mapping[str, Any]) -> str:
    alarming = f", {ALARM}" if body.get("alarming") else ""
    return f"{body['joint']} {body['score']} in the morning{alarming}"


_ILL = {"now": "ill", "before": "was ill"}


def _check_in(body: Mapping[str, Any]) -> str:
    pain = dict(body.get("pain", {}))
    said = (
        _ILL.get(body.get("ill", ""), ""),
        "short sleep" if body.get("short_sleep") else "",
        "low energy" if body.get("low_energy") else "",
        f"sore: {', '.join(body['sore'])}" if body.get("sore") else "",
        ", ".join(
            f"{joint} hurts {score}{f', {ALARM}' if joint in body.get('alarming', ()) else ''}"
            for joint, score in sorted(pain.items())
        ),
    )
    return ", ".join(filter(None, said))


_SAYS: Mapping[str, Callable[[Mapping[str, Any]], str]] = MappingProxyType(
    {
        GIRTH: _girth,
        WEIGHT: lambda body: f"{_number(body['kg'])} kg",
        SLEEP: lambda body: f"slept {_number(body['hours'])} hours",
        INTAKE: _eaten,
        PERIOD: lambda _: "a period began",
        BLEEDING: lambda _: "bleeding ended",
        PAIN: _pain,
        READINESS: _check_in,
    }
)
"""What a note says, by kind; an empty check-in says nothing and is not listed."""
