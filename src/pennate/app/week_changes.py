"""Changes of her week that say what they were, and can be undone in one touch.

The ledger keeps every week she ever followed; undoing writes the one before again.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from pennate.app.book import Book
from pennate.core.prescribed import Week
from pennate.errors import InputError
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


def change_week(book: Book, week: Week, what: str, *, weeks: int = 0) -> None:
    """Follow another week, remembering the one it takes the place of.

    For some `weeks` only, this one included, the one before comes back by itself on the Monday
    after; an edit of such a week is for the same days.
    """
    with book.lock:
        before = book.week_entry()
        body: dict[str, object] = {"text": render_week(week), "what": what, "undone": False}
        if before is not None:
            body["instead_of"] = before.id
            body |= _some_weeks(book, before, weeks) if weeks else _only_until(before)
        book.put(WEEK, book.today, body)


def _some_weeks(book: Book, before: Entry, weeks: int) -> dict[str, object]:
    sunday = book.today + timedelta(days=7 * weeks - 1 - book.today.weekday())
    return {"until": sunday.isoformat(), "then": before.id}


def _only_until(before: Entry) -> dict[str, object]:
    """The days a week holds that was itself for some days only."""
    return {key: before.body[key] for key in ("until", "then") if key in before.body}


def ends_on(book: Book) -> date | None:
    """The last day of a week that is for some days only."""
    entry = book.week_entry()
    until = entry.body.get("until") if entry else None
    return date.fromisoformat(str(until)) if until else None


def last_change(book: Book) -> LastChange | None:
    """The last change, where there is a week to go back to."""
    entry = book.week_entry()
    if entry is None or not entry.body.get("instead_of"):
        return None
    what = str(entry.body.get("what", ""))
    return LastChange(entry.id, what, bool(entry.body.get("undone")))


def undo_change(book: Book, change: str) -> str:
    """Put back the week that this change replaced; gives what was undone.

    Raises InputError where another change came after it.
    """
    with book.lock:
        entry = book.week_entry()
        if entry is None or entry.id != change:
            raise InputError(
                "the week has been changed since", remedy="look at it again before undoing"
            )
        before = _entry(book, str(entry.body.get("instead_of", "")))
        what = str(entry.body.get("what", ""))
        undone = not entry.body.get("undone")
        body = {"text": before.body["text"], "what": what, "undone": undone}
        days = _only_until(before)
        book.put(WEEK, book.today, {**body, "instead_of": entry.id, **days})
        return what


def _entry(book: Book, entry_id: str) -> Entry:
    found = next((one for one in book.ledger.entries(WEEK) if one.id == entry_id), None)
    if found is None:
        raise InputError("there is no week before this one", remedy="change it by hand")
    return found
