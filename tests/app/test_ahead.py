"""Strength in the coming weeks, as the page of an exercise tells it."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from pennate.app.book import Book
from pennate.app.exercise_view import exercise_view
from pennate.estimate import Step
from pennate.web.views.exercise import chart_of, exercise_page


def test_the_coming_weeks_begin_at_today_and_widen(demo_book: Book) -> None:
    """The range goes on from today's without a jump, and only grows less sure."""
    seen = exercise_view(demo_book, "hip_thrust")
    assert seen.ahead[0] == seen.now
    assert [(one.day - seen.now.day).days for one in seen.ahead] == [0, 7, 14, 21, 28]
    assert all(b.high / b.low > a.high / a.low for a, b in pairwise(seen.ahead))


def test_chart_and_words_tell_the_same_weeks(demo_book: Book) -> None:
    """What is drawn ahead is what the opened number and the spoken chart say."""
    seen = exercise_view(demo_book, "hip_thrust")
    page = exercise_page(demo_book.catalogue["hip_thrust"], seen)
    last = chart_of(seen).ahead[-1]
    told = f"{last.low:.0f} to {last.high:.0f} kg"
    assert told in dict(page.now_facts)["in four weeks"]
    assert told in page.chart_alt


def test_a_step_s_probability_says_of_what_it_is(demo_book: Book) -> None:
    """Against a stall it is the chance of the stall, else how likely the reps are."""
    seen = exercise_view(demo_book, "hip_thrust")
    assert seen.next is not None
    for step, word in ((Step.HOLD, "how likely"), (Step.MORE_SETS, "chance of a stall")):
        page = exercise_page(
            demo_book.catalogue["hip_thrust"], replace(seen, next=replace(seen.next, step=step))
        )
        assert word in dict(page.next_facts)
