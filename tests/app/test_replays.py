"""The log replayed for explanations: kept, and never staler than the page it explains."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from pennate.app.book import Book
from pennate.app.exercise_view import exercise_view, why_strength
from pennate.app.remembered import REMEMBERED, remembered_body
from pennate.app.replays import replayed
from pennate.app.why_text import why_of
from pennate.core.performed import Effort, PerformedSet
from pennate.core.quantities import LoadReading, Unit
from pennate.estimate import Exposure
from pennate.ledger.sets import set_entry
from pennate.loading import Written

SQUAT, RACK = "back_squat_free", "rack_bar"


def _squat(book: Book, reps: int) -> None:
    done = PerformedSet(
        id="",
        when=book.now(),
        session="extra",
        number=1,
        exercise=SQUAT,
        load=Fraction(80),
        unit=Unit.KG,
        reps=reps,
        effort=Effort.NONE_LEFT,
        equipment=RACK,
    )
    book.ledger.append([set_entry(done, now=book.now(), rng=book.rng)])


def _alike(book: Book) -> None:
    """What is explained is what the page shows."""
    now = exercise_view(book, SQUAT, RACK).now.middle
    assert why_strength(book, SQUAT, RACK).one_rep_kg == pytest.approx(now, rel=1e-12)
    assert why_of(book, SQUAT).seen.now.middle == pytest.approx(now, rel=1e-12)


def test_a_new_set_is_explained_without_a_new_replay(demo_book: Book) -> None:
    """After a set the replay is the same one, and it explains the estimate with that set."""
    kept, before = replayed(demo_book), why_strength(demo_book, SQUAT, RACK)
    _squat(demo_book, 12)
    assert replayed(demo_book) is kept
    after = why_strength(demo_book, SQUAT, RACK)
    assert after.sets_behind == before.sets_behind + 1
    assert after.one_rep_kg > before.one_rep_kg
    _alike(demo_book)


def test_what_she_says_of_herself_is_in_the_next_explanation(demo_book: Book) -> None:
    """Another body mass and a remembered set change the estimate; the explanation follows."""
    demo_book.save_profile(replace(demo_book.profile(), body_mass_kg=Fraction(70), trained=False))
    _alike(demo_book)
    written = Written(amount=Fraction(90), unit=Unit.KG, reading=LoadReading.TOTAL)
    body = remembered_body(SQUAT, RACK, written, 5)
    demo_book.put(REMEMBERED, demo_book.today, body)
    _alike(demo_book)


def test_what_she_remembers_late_does_not_stop_the_time_of_her_log(demo_book: Book) -> None:
    """A remembered set told after a year of log is a hint: another exercise keeps its strength.

    Taken in on the day it was told, it made all days of the log before it one day: no trend was
    seen, and years of progress were taken for the strength of a day.
    """
    before = exercise_view(demo_book, SQUAT, RACK)
    written = Written(amount=Fraction(10), unit=Unit.KG, reading=LoadReading.TOTAL)
    demo_book.put(REMEMBERED, demo_book.today, remembered_body("curl", "", written, 10))
    after = exercise_view(demo_book, SQUAT, RACK)
    assert after.now.middle == pytest.approx(before.now.middle, rel=0.01)
    assert after.now.low == pytest.approx(before.now.low, rel=0.01)
    assert after.trend_sd == pytest.approx(before.trend_sd, rel=0.1)
    _alike(demo_book)


def test_the_command_replays_the_log_once(demo_book: Book, observed: list[Exposure]) -> None:
    """Strength, step and reasons of `review --why` rest on one replay of the log, not on two."""
    found = why_of(demo_book, SQUAT).found
    first = min(one.done.day for one in found.influences)
    since = len(demo_book.history().since(first))
    log = len(demo_book.history())
    assert log < len(observed) < log + since * (len(found.influences) / 2 + 3)
