"""What is known of one exercise's strength, what comes next, and why: lines and JSON values."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pennate.app.book import Book
from pennate.app.counted import counted_words
from pennate.app.exercise_view import ExerciseView, desk_of, told_of, view_at, why_strength
from pennate.app.replays import replay
from pennate.app.strength_trend import trend_words
from pennate.app.strength_words import (
    halt_words,
    no_load_words,
    sentence,
    step_sentence,
    why_lines,
)
from pennate.estimate import Explanation

HELD = "Held for time: seconds have no load of one repetition, so there is no strength to explain."


@dataclass(frozen=True, slots=True)
class Why:
    """An exercise as its page shows it, and which sets moved its estimate."""

    name: str
    seen: ExerciseView
    found: Explanation
    words: tuple[str, ...]
    counted: str
    """What the 1RM counts beside the load as written."""


def why_of(book: Book, exercise: str) -> Why:
    """By id or any name. Raises InputError where there is no such exercise."""
    model = replay(book)
    seen = view_at(desk_of(book, model), exercise)
    found = why_strength(book, seen.exercise, seen.item)
    done = book.catalogue[seen.exercise]
    words: tuple[str, ...] = (HELD,)
    if seen.sets or not (done.timed or seen.holds):
        words = tuple(why_lines(found, seen.item, book.gym()))
    if seen.sets and not found.sets_behind:
        words = (no_load_words(len(seen.sets)),)
    return Why(done.name, seen, found, words, counted_words(done, seen))


def why_text(why: Why) -> Iterator[str]:
    """The same sentences as on the page of the exercise."""
    seen = why.seen
    yield f"{why.name}, {seen.item_name}" if seen.item_name else why.name
    yield from _strength(why)
    if halt := halt_words(seen.halt, seen.next):
        yield halt
    if seen.next is not None:
        yield f"Next: {step_sentence(seen.next, seen.next_load)}"
    if seen.unnamed:
        yield sentence(seen.unnamed)
    yield ""
    yield from why.words


def _strength(why: Why) -> Iterator[str]:
    """The 1RM with its range; of an exercise not done yet the range alone."""
    seen, counted = why.seen, f", {why.counted}" if why.counted else ""
    if told_of(seen.sets):
        yield f"1RM {seen.now.middle:.0f} kg{counted}"
        yield trend_words(seen)
    elif not seen.sets and why.words != (HELD,):
        yield f"1RM {seen.now.low:.0f} to {seen.now.high:.0f} kg, eight times in ten{counted}"


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
        "chance_of": seen.next_odds,
        "why": seen.next.reason,
    }
