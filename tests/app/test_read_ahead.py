"""The records are read before a page asks, and passed over by the collector from then on."""

from __future__ import annotations

import gc
from collections.abc import Iterator

import pytest

from pennate.app.book import Book
from pennate.app.read_ahead import read_ahead
from pennate.app.replays import replayed
from pennate.estimate import Exposure, exposure_of


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


def test_the_first_explanation_waits_for_no_replay(
    demo_book: Book, observed: list[Exposure]
) -> None:
    """What moved an exercise is told from copies made beforehand, not from the first set on."""
    gc.unfreeze()
    read_ahead(demo_book)
    observed.clear()
    history = demo_book.history()
    question = exposure_of(history.of_exercise("lateral_raise")[-1], demo_book.catalogue)
    assert len(replayed(demo_book).explain(history, question, sets=1).influences) == 1
    assert len(observed) < len(history) / 2
