"""The nearest words are the ones a person would have meant."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.core.near import did_you_mean, likeness, nearest, offered
from pennate.core.week_names import known_exercise, known_variant, nearest_exercises
from pennate.errors import InputError
from pennate.files.catalogue import read_catalogue

CATALOGUE = read_catalogue()


@given(st.text(max_size=12), st.text(max_size=12))
def test_likeness_is_a_share(word: str, other: str) -> None:
    """From nothing alike to the same."""
    assert 0 <= likeness(word, other) <= 1
    assert likeness(word, word) == 1


def test_offers_read_as_a_question() -> None:
    """One, two or three words, or the other remedy."""
    assert offered([], "see the list") == "see the list"
    assert offered(["a"], "") == "did you mean “a”?"
    assert offered(["a", "b", "c"], "") == "did you mean “a”, “b” or “c”?"
    assert did_you_mean("xyz", ["abc"], "see the list") == "see the list"


def test_nearest_is_the_same_in_any_order() -> None:
    """Ties are settled by the alphabet, not by the order given."""
    words = ["leg press", "leg curl", "leg extension"]
    assert nearest("leg", words) == nearest("leg", reversed(words))


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("hip thurst", "Hip thrust"),
        ("bulgarian split squt", "Bulgarian split squat"),
        ("lat puldown", "Lat pulldown"),
        ("romanian_dedlift", "romanian_deadlift"),
        ("calf rase", "Standing calf raise"),
        ("benchpress", "Bench press"),
    ],
)
def test_slips_of_the_finger_are_understood(typed: str, meant: str) -> None:
    """Usual slips bring the exercise among the first three, in the manner it was typed."""
    assert meant in nearest_exercises(typed, CATALOGUE)


@pytest.mark.parametrize(
    ("typed", "offered_are"),
    [
        ("benchpress2", ["Bench press", "Incline press"]),
        ("pulup", ["Pull-up"]),
        ("romanian_dedlift", ["romanian_deadlift"]),
        ("hipthrust", ["Hip thrust", "Single-leg hip thrust"]),
    ],
)
def test_what_is_far_off_is_not_offered(typed: str, offered_are: list[str]) -> None:
    """No triceps extension for a bench press because another name of it is “French press”."""
    assert nearest_exercises(typed, CATALOGUE) == offered_are


def test_names_lead_to_exercises_and_variants() -> None:
    """Ids and shown names both count, case ignored."""
    assert known_exercise(" BACK SQUAT ", CATALOGUE).id == "back_squat_free"
    press = CATALOGUE["leg_press"]
    variant = press.variants[0]
    assert (
        known_variant(variant.name.upper(), press) == variant.id == known_variant(variant.id, press)
    )


def test_an_exercise_without_variants_says_so() -> None:
    """Where there is nothing to offer, a note is the remedy."""
    with pytest.raises(InputError, match="it has none; say it in a note"):
        known_variant("wide", CATALOGUE["wall_sit"])
