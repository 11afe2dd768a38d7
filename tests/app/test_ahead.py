"""Strength in the coming weeks, as the page of an exercise tells it."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest

from pennate.app.book import Book
from pennate.app.coming import odds_words
from pennate.app.exercise_view import exercise_view
from pennate.core.prescribed import Span
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


CHANCE = re.compile(r"(\d+ reps or more) have a chance of ([\d ]+%)")
ASKED = ("hip_thrust", "back_squat_free", "bench_press", "lat_pulldown", "leg_extension")


def test_a_chance_says_of_what_it_is(demo_book: Book) -> None:
    """The reps it is the chance of, in words of the trade: those that the reason names too."""
    told = 0
    for exercise in ASKED:
        seen = exercise_view(demo_book, exercise)
        facts = dict(exercise_page(demo_book.catalogue[exercise], seen).next_facts)
        assert seen.next is not None
        assert "how likely" not in facts
        if found := CHANCE.search(seen.next.reason):
            assert facts["chance"].startswith(f"{found[2]}: {found[1]}")
            assert facts["chance"].endswith("in every set")
            told += 1
    assert told > 1


OF_WHAT = {
    Step.RAISE: "8 reps or more with 2 left at that load",
    Step.HOLD: "8 reps or more with 2 left at that load",
    Step.EASIER: "8 reps or more with 2 left at that load",
    Step.LOWER: "not reaching 8 reps with 2 left at the last load",
    Step.WIDER_RANGE: "12 reps or more with 2 left at the last load",
    Step.MORE_SETS: "a stall, a gain of less than a quarter of what is usual",
    Step.SWAP: "a stall, a gain of less than a quarter of what is usual",
}


@pytest.mark.parametrize("step", list(Step))
def test_without_a_card_the_chance_is_that_of_the_step(step: Step) -> None:
    """A load is lowered because its reps are missed, a set added because of a stall."""
    assert odds_words(step, Span(8, 12), 2) == OF_WHAT[step]
