"""Something derived from her records, kept at hand until an entry is written or the day ends."""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, TypeVar
from weakref import WeakKeyDictionary

from pennate.app.book import Book

T = TypeVar("T")


class AtHand(Generic[T]):
    """What `make` gives of a book on a day, made anew only after a write."""

    def __init__(self, make: Callable[[Book], T]) -> None:
        self._make = make
        self._kept: WeakKeyDictionary[Book, tuple[object, T]] = WeakKeyDictionary()

    def of(self, book: Book) -> T:
        """The thing as the records stand now.

        It is made without the lock, so that a page that takes its time holds nobody up; two who
        ask at once may both make it.
        """
        key = (*book.ledger.revision(), book.today)
        kept = self._kept.get(book)
        if kept is None or kept[0] != key:
            kept = self._kept[book] = (key, self._make(book))
        return kept[1]
