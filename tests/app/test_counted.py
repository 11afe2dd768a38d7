"""A 1RM stands beside loads that are written otherwise: what it counts is said with it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pennate.app.book import Book
from pennate.app.counted import counted_words
from pennate.app.exercise_view import exercise_view


@pytest.mark.parametrize(
    ("exercise", "words"),
    [
        ("back_squat_free", ""),
        ("lateral_raise", "the pair counted"),
        ("chin_up", "with the body mass it moves"),
        (
            "rear_foot_elevated_split_squat",
            "right side, the pair counted, with the body mass it moves",
        ),
        ("leg_press", "as felt, with what the plates hang on"),
        ("leg_extension", ""),
        ("chest_fly", "as felt, pulleys counted"),
        ("hip_abduction_kickback", "right side, as felt, pulleys counted"),
    ],
)
def test_a_1rm_says_what_it_counts(demo_book: Book, exercise: str, words: str) -> None:
    """Pairs, body mass, sleds and pulleys make it another number than the load on the card."""
    seen = exercise_view(demo_book, exercise)
    assert counted_words(demo_book.catalogue[exercise], seen) == words


def test_a_machine_that_the_gym_does_not_describe_has_its_own_kilograms(demo_book: Book) -> None:
    """Its marks mean nothing elsewhere, and neither does a 1RM in them."""
    seen = replace(exercise_view(demo_book, "leg_extension"), label=True)
    assert counted_words(demo_book.catalogue["leg_extension"], seen) == "by this machine's mark"
