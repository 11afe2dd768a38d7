"""Her own notes for an exercise on an item: settings, cue, a note for next time."""

from __future__ import annotations

from collections.abc import Mapping

from pennate.app.book import Book
from pennate.core.card import OwnNotes
from pennate.errors import InputError

LONGEST = 400


def save_notes(
    book: Book,
    exercise: str,
    item: str,
    *,
    settings: Mapping[str, str],
    cue: str = "",
    next_time: str = "",
) -> None:
    """Store her notes; empty fields are dropped, the old notes stay in the ledger's past.

    Raises InputError for an unknown exercise or a note longer than 400 characters.
    """
    if exercise not in book.catalogue:
        raise InputError(f"there is no exercise “{exercise}”", remedy="choose one from the list")
    kept = {k.strip(): v.strip() for k, v in settings.items() if k.strip() and v.strip()}
    for text in (cue, next_time, *kept, *kept.values()):
        if len(text) > LONGEST:
            raise InputError(f"“{text[:30]}…” is too long", remedy=f"keep it under {LONGEST}")
    body = {
        "exercise": exercise,
        "item": item,
        "settings": kept,
        "cue": cue.strip(),
        "next_time": next_time.strip(),
    }
    book.put("note", book.today, body)


def notes_for(book: Book) -> dict[tuple[str, str], OwnNotes]:
    """Her newest notes by exercise and item."""
    found: dict[tuple[str, str], OwnNotes] = {}
    for entry in sorted(book.ledger.entries("note"), key=lambda e: e.made_at):
        body = entry.body
        found[body["exercise"], body.get("item", "")] = OwnNotes(
            settings=dict(body.get("settings", {})),
            cue=str(body.get("cue", "")),
            next_time=str(body.get("next_time", "")),
        )
    return found
