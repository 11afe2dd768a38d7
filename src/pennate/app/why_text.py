"""What is known of one exercise's strength, what comes next, and why: lines and JSON values."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pennate.app.book import Book
from pennate.app.exercise_view import ExerciseView, exercise_view, why_strength
from pennate.app.strength_words import (
    plateau_words,
    sentence,
    step_sentence,
    trend_words,
    why_lines,
)
from pennate.estimate import Explanation


@dataclass(frozen=True, slots=True)
class Why:
    """An exercise as its page shows it, and which sets moved its estimate."""

    name: str
    seen: ExerciseView
    found: Explanation
    words: tuple[str, ...]


def why_of(book: Book, exercise: str) -> Why:
    """By id or any name. Raises InputError where there is no such exercise."""
    seen = exercise_view(book, exercise)
    found = why_strength(book, seen.exercise, seen.item)
    words = tuple(why_lines(found, seen.item, book.gym()))
    return Why(book.catalogue[seen.exercise].name, seen, found, words)


def why_text(why: Why) -> Iterator[str]:
    """The same sentences as on the page of the exercise."""
    seen = why.seen
    yield f"{why.name}, {seen.item_name}" if seen.item_name else why.name
    if seen.sets:
        ends = (seen.now.low, seen.now.high)
        yield f"1RM {seen.now.middle:.0f} kg"
        yield trend_words(ends, seen.trend_per_week, seen.trend_sd)
    if seen.halt is not None:
        yield sentence(plateau_words(seen.halt))
    if seen.next is not None:
        yield f"Next: {step_sentence(seen.next, seen.next_load)}"
    yield ""
    yield from why.words


def why_document(why: Why) -> dict[str, Any]:
    """The numbers and the words as JSON values."""
    seen, found = why.seen, why.found
    return {
        "exercise": seen.exercise,
        "item": seen.item,
        "one_rep_kg": seen.now.middle,
        "low80": seen.now.low,
        "high80": seen.now.high,
        "sets": found.sets_behind,
        "prior_share": found.prior_share,
        "day_effect": found.day,
        "stalled": seen.halt.stalled if seen.halt else None,
        "next": _next(seen),
        "moved_by": [
            {
                "date": one.done.when.isoformat(),
                "session": one.done.session,
                "set": one.done.number,
                "moved": one.moved,
                "in_sd": one.in_sd,
            }
            for one in found.influences
        ],
        "words": list(why.words),
    }


def _next(seen: ExerciseView) -> dict[str, Any] | None:
    if seen.next is None:
        return None
    return {
        "step": seen.next.step.value,
        "load": seen.next_load,
        "chance": seen.next.probability,
        "why": seen.next.reason,
    }
