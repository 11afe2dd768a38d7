"""What the columns of a log hold where none is called load: asked for and answered."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from pennate.app.book import Book
from pennate.app.choices import COLUMN, Choice, columns_kept, keep, kept_choices
from pennate.errors import InputError
from pennate.files.log_cells import COLUMNS
from pennate.files.log_columns import LOAD, UNREAD, headings_of, log_table

HOLDS: Mapping[str, str] = MappingProxyType(
    {
        "load": "the loads",
        "unit": "the units of the loads",
        "note": "notes on the sets",
        "kind": "the kind of set",
        "rest_s": "the rest before the set, in seconds",
        "seconds": "the seconds of a hold",
        "equipment": "the equipment",
        "body_mass_kg": "body mass in kg",
        "rir": "reps in reserve",
    }
)
"""What a column holds, in words; the others are called by their name."""


@dataclass(frozen=True, slots=True)
class AskedColumn:
    """A column to be said what it holds."""

    heading: str
    cells: str
    """The first of its cells, so that she knows which it is."""
    meant: str
    """The column of the contract that it likely is."""
    holds: str
    """That in words."""
    answer: str
    """`meant`, `UNREAD`, or empty while nothing is said."""


def asked_columns(
    book: Book, log: bytes, file: str, said: Mapping[str, str]
) -> tuple[AskedColumn, ...]:
    """The columns to be asked about, with what she said of them, now or before.

    Raises InputError where the log is no table at all.
    """
    before = columns_kept(kept_choices(book.ledger))
    table, _ = log_table(log, file, {})
    return tuple(
        AskedColumn(
            one.written,
            ", ".join(one.cells),
            one.meant,
            HOLDS.get(one.meant, one.meant),
            said.get(one.written) or before.get(one.written, ""),
        )
        for one in headings_of(table)
    )


def keep_columns(book: Book, said: Mapping[str, str]) -> None:
    """Keep what she said columns hold, whether or not their log can be taken in yet.

    Raises InputError where an answer is no column.
    """
    told = {heading: holds for heading, holds in said.items() if heading and holds}
    wrong = next((one for one in told.values() if one != UNREAD and one not in COLUMNS), None)
    if wrong is not None:
        raise InputError(f"no column is called “{wrong[:60]}”", remedy="choose one from the list")
    choices = (Choice(COLUMN, heading, holds) for heading, holds in told.items())
    keep(book, choices)


def columns_wanted(asked: tuple[AskedColumn, ...], file: str) -> str:
    """The sentence that asks for what is still unsaid; empty where all is."""
    waiting = [one for one in asked if not one.answer]
    if not waiting:
        return ""
    loads = [one.heading for one in waiting if one.meant == LOAD]
    if loads:
        return f"{file}: no column is called load; say below whether “{loads[0]}” holds the loads"
    return f"{file}: say below what “{'”, “'.join(one.heading for one in waiting)}” holds"
