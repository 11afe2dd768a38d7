"""Changes of her week that say what they were, and can be undone in one touch.

The ledger keeps every week she ever followed; undoing writes the one before again.
"""

from __future__ import annotations

from dataclasses import dataclass

from pennate.app.book import Book
from pennate.core.prescribed import Week
from pennate.errors import InputError
from pennate.files.week import read_week
from pennate.files.week_text import render_week
from pennate.ledger import Entry

WEEK = "week"


@dataclass(frozen=True, slots=True)
class LastChange:
    """The change that made the week what it is."""

    id: str
    """Id of the entry, so that only this change can be undone."""
    what: str
    undone: bool
    """Whether it was itself an undoing, which can be done again."""


def change_week(book: Book, week: Week, what: str) -> None:
    """Follow another week from now on, remembering the one it takes the place of."""
    _write(book, render_week(week), what)


def _write(book: Book, text: str, what: str, *, undone: bool = False) -> None:
    with book.lock:
        before = book.latest(WEEK)
        body = {"text": text, "what": what, "undone": undone}
        if before is not None:
            body["instead_of"] = before.id
        book.put(WEEK, book.today, body)


def last_change(book: Book) -> LastChange | None:
    """The last change, where there is a week to go back to."""
    entry = book.latest(WEEK)
    if entry is None or not entry.body.get("instead_of"):
        return None
    what = str(entry.body.get("what", ""))
    return LastChange(entry.id, what, bool(entry.body.get("undone")))


def undo_change(book: Book, change: str) -> str:
    """Put back the week that this change replaced; gives what was undone.

    Raises InputError where another change came after it.
    """
    with book.lock:
        entry = book.latest(WEEK)
        if entry is None or entry.id != change:
            raise InputError(
                "the week has been changed since", remedy="look at it again before undoing"
            )
        before = _entry(book, str(entry.body.get("instead_of", "")))
        text = str(before.body["text"])
        read_week(text, book.catalogue, name="the week before")
        what = str(entry.body.get("what", ""))
        _write(book, text, what, undone=not entry.body.get("undone"))
        return what


def _entry(book: Book, entry_id: str) -> Entry:
    found = next((one for one in book.ledger.entries(WEEK) if one.id == entry_id), None)
    if found is None:
        raise InputError("there is no week before this one", remedy="change it by hand")
    return found
