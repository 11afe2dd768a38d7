"""The records are read before a page asks, and passed over by the collector from then on."""

from __future__ import annotations

import gc
from collections.abc import Iterator

import pytest

from pennate.app.book import Book
from pennate.app.read_ahead import read_ahead


@pytest.fixture(autouse=True)
def _as_before() -> Iterator[None]:
    """What was frozen here is let go again."""
    yield
    gc.unfreeze()


def test_what_was_read_is_passed_over(demo_book: Book) -> None:
    """Ten weeks of sets and what was learned of them are no longer looked through."""
    gc.unfreeze()
    read_ahead(demo_book)
    sets = len(demo_book.history().sets)
    assert sets > 500
    assert gc.get_freeze_count() > sets
    assert len(gc.get_objects()) < gc.get_freeze_count()
