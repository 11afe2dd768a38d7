"""What every page needs of her records, read before any asks for it."""

from __future__ import annotations

import gc

from pennate.app.book import Book
from pennate.app.replays import replayed


def read_ahead(book: Book) -> None:
    """Learn from the log at once: a year of it takes a second, which no page waits for.

    It is learned twice: for every page first, then with the copies on the way from which an
    exercise's page tells what moved it.

    What was read stays for good, so the collector of garbage is told to pass over it: looking
    through all of it now and then held a page up by a tenth of a second.
    """
    book.model_before(book.today)
    replayed(book).after(book.history().sets)
    gc.collect()
    gc.freeze()
