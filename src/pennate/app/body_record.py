"""Her record of the body out of the ledger, and the entries that only the body page writes.

Periods never leave this machine: no device and no shared page is sent entries of that kind.
"""

from __future__ import annotations

from datetime import date
from weakref import WeakKeyDictionary

from pennate.app.body_log import TrainingLog
from pennate.app.body_pages import BodyRecord
from pennate.app.book import Book
from pennate.ledger.entry import Entry
from pennate.ledger.measured import measurements_from, weighings_from

PERIOD = "period"


def record_of(book: Book, *, periods_expected: bool = True) -> BodyRecord:
    """What she has noted of her body, joints apart, read from her records."""
    return BodyRecord(
        measurements=measurements_from(book.ledger)[0],
        weighings=weighings_from(book.ledger)[0],
        training=training_log(book),
        periods=tuple(sorted({entry.day for entry in book.entries(PERIOD)})),
        periods_expected=periods_expected,
    )


_LOGS: WeakKeyDictionary[Book, TrainingLog] = WeakKeyDictionary()


def training_log(book: Book) -> TrainingLog:
    """Her sets as support for the verdicts; the same one until a set or an exercise changes."""
    sets, catalogue = book.history().sets, book.catalogue
    with book.lock:
        kept = _LOGS.get(book)
        if kept is None or kept.sets is not sets or kept.catalogue != catalogue:
            kept = _LOGS[book] = TrainingLog(sets, catalogue)
        return kept


def note_period(book: Book, day: date) -> Entry:
    """Write the first day of a period."""
    return book.put(PERIOD, day, {})
