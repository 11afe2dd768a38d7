"""Her log replayed for explanations, and kept for the next one."""

from __future__ import annotations

from weakref import WeakKeyDictionary

from pennate.app.book import Book
from pennate.app.remembered import before_the_log, remembered_sets
from pennate.app.watched import unwatched
from pennate.estimate import StrengthModel
from pennate.estimate.explain import Replayed

STRIDE = 250
"""Sets taken in between two tellings: as many as lie between two copies that are kept."""

_KEPT: WeakKeyDictionary[Book, tuple[object, Replayed]] = WeakKeyDictionary()


def replayed(book: Book) -> Replayed:
    """The same one until what gives her sets their meaning changes; new sets only add to it."""
    remembered = before_the_log(remembered_sets(book.ledger), book.history())
    about = (book.catalogue, book.person(), book.carriers(), remembered)
    kept = _KEPT.get(book)
    if kept is None or kept[0] != about:
        kept = _KEPT[book] = (about, Replayed(*about))
    return kept[1]


def replay(book: Book) -> StrengthModel:
    """The model after all her sets; who watches is told on the way."""
    kept, sets = replayed(book), book.history().sets
    if book.watch is not unwatched:
        for end in range(STRIDE + 1, len(sets), STRIDE):
            kept.after(sets[:end])
            book.watch(end, len(sets))
    model = kept.after(sets)
    book.watch(len(sets), len(sets))
    return model
