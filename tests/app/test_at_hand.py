"""What the pages of the body derive is derived once: reads and filter passes are counted."""

from __future__ import annotations

from datetime import timedelta
from fractions import Fraction
from typing import Any

import pytest

from pennate.app.at_hand import AtHand
from pennate.app.body_notes import Taped, save_girths, save_weight
from pennate.app.body_record import training_log
from pennate.app.body_today import body_today
from pennate.app.book import Book
from pennate.app.exercise_view import desk_of, exercise_view, view_at
from pennate.app.today import the_week
from pennate.app.week_review_text import week_words
from pennate.body import weight
from pennate.core.body import Site
from pennate.core.performed import Side
from pennate.ledger import Ledger, store


@pytest.fixture
def reads(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """Every query for entries from here on; asking whether anything was written is none."""
    asked: list[object] = []
    plain = Ledger._rows

    def counted(self: Ledger, query: Any) -> Any:
        if query is not store._REVISION:
            asked.append(query)
        return plain(self, query)

    monkeypatch.setattr(Ledger, "_rows", counted)
    return asked


@pytest.fixture
def passes(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """How many grid points each pass of the weight filter carries."""
    found: list[int] = []
    plain = weight.filter_weighings

    def counted(weighings: Any, settings: Any, periods: Any = ()) -> Any:
        found.append(len(settings.noise))
        return plain(weighings, settings, periods)

    monkeypatch.setattr(weight, "filter_weighings", counted)
    return found


def weigh(book: Book, ago: int = 0) -> None:
    """A weighing some days ago."""
    save_weight(book, book.today - timedelta(days=ago), Fraction(644, 10))


def measure(book: Book) -> None:
    """One reading of a thigh."""
    save_girths(book, Taped(day=book.today, site=Site.THIGH, girths={Side.LEFT: (Fraction(55),)}))


def test_a_thing_is_made_anew_only_after_a_write(demo_book: Book) -> None:
    """Kept while nothing is written, made again after an entry."""
    made: list[Book] = []
    counted = AtHand(made.append)
    for _ in range(3):
        counted.of(demo_book)
    assert len(made) == 1
    weigh(demo_book)
    counted.of(demo_book)
    assert len(made) == 2


def test_reads_of_the_review_do_not_grow_with_her_exercises(
    demo_book: Book, reads: list[object]
) -> None:
    """Fewer reads than exercises, and none while nothing is written."""
    exercises = {one.exercise for day in the_week(demo_book).days for one in day.exercises}
    assert len(exercises) > 20
    weigh(demo_book)
    reads.clear()
    week_words(demo_book)
    assert len(reads) < len(exercises)
    reads.clear()
    week_words(demo_book)
    assert reads == []


def test_weight_is_filtered_once_and_only_after_a_weighing(
    demo_book: Book, passes: list[int]
) -> None:
    """Trend, chart and food share one pass of the filter; a girth or a night starts none."""
    for ago in range(5):
        weigh(demo_book, ago)
    now = body_today(demo_book)
    assert now.page.weight is not None
    assert now.food.days == 0
    assert len(passes) == 1
    measure(demo_book)
    assert body_today(demo_book).page.weight == now.page.weight
    assert len(passes) == 1


def test_one_desk_shows_every_exercise_as_it_is_alone(demo_book: Book) -> None:
    """Views that share the model and the records are those drawn each on its own."""
    desk = desk_of(demo_book)
    for day in the_week(demo_book).days:
        for one in day.exercises:
            assert view_at(desk, one.exercise) == exercise_view(demo_book, one.exercise)


def test_the_log_behind_the_verdicts_is_kept_until_a_set_is_written(demo_book: Book) -> None:
    """Nothing is worked out of the same sets twice."""
    before = training_log(demo_book)
    weigh(demo_book)
    assert training_log(demo_book) is before
