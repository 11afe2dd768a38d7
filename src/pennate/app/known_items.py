"""The items an exercise is known on: those it was done on, and what of her gym carries it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from pennate.app.book import Book
from pennate.app.stops import items_for
from pennate.app.strength_words import item_words
from pennate.core.exercise import Exercise
from pennate.core.performed import SetKind


@dataclass(frozen=True, slots=True)
class KnownItem:
    """An item, and the day the exercise was last done on it; None where it never was."""

    id: str
    name: str
    last: date | None


def known_items(book: Book, exercise: Exercise) -> tuple[KnownItem, ...]:
    """Those done on, the last one first, then what else of her gym carries it, best fit first."""
    gym = book.gym()
    last: dict[str, date | None] = {}
    for done in reversed(book.history().of_exercise(exercise.id)):
        if done.kind is not SetKind.WARM_UP:
            last.setdefault(done.equipment, done.day)
    for item in items_for(gym, exercise) if gym else ():
        last.setdefault(item.id, None)
    return tuple(KnownItem(one, item_words(gym, one), day) for one, day in last.items())
