"""Her log replayed for explanations, and kept for the next one."""

from __future__ import annotations

from weakref import WeakKeyDictionary

from pennate.app.book import Book
from pennate.app.remembered import remembered_sets
from pennate.estimate.explain import Replayed

_KEPT: WeakKeyDictionary[Book, tuple[object, Replayed]] = WeakKeyDictionary()


def replayed(book: Book) -> Replayed:
    """The same one until what gives her sets their meaning changes; new sets only add to it."""
    about = (book.catalogue, book.person(), book.carriers(), remembered_sets(book.ledger))
    kept = _KEPT.get(book)
    if kept is None or kept[0] != about:
        kept = _KEPT[book] = (about, Replayed(*about))
    return kept[1]
