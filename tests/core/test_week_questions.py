"""Improbable numbers of a week are kept and asked about, ordinary ones pass in silence."""

from __future__ import annotations

import pytest

from pennate.app.weeks import STARTER_ORDER, starter_week
from pennate.core.week_questions import week_questions
from pennate.files.catalogue import read_catalogue
from pennate.files.week import read_week

CATALOGUE = read_catalogue()


def _questions(exercise: str, *sets: str) -> list[str]:
    rows = ", ".join(f"{{ {row} }}" for row in sets)
    text = f'[[day]]\nday = "Monday"\n[[day.exercise]]\nexercise = "{exercise}"\nsets = [{rows}]\n'
    week = read_week(text, CATALOGUE)
    return [str(question) for question in week_questions(week, CATALOGUE)]


def test_four_hundred_for_forty() -> None:
    """A load far above the exercise's other loads is asked about, with theirs beside it."""
    forty, slip = 'reps = 8, load = "40 kg"', 'reps = 8, load = "140 kg"'
    assert _questions("bench_press", forty, forty, slip) == [
        "Monday, bench_press, sets 3, load: 140 kg: the other sets have about 40 kg"
    ]


@pytest.mark.parametrize(
    ("exercise", "row", "says"),
    [
        ("lateral_raise", 'reps = 12, load = "400 kg each"', "more than such equipment carries"),
        ("back_squat_free", 'reps = "8-120"', "8–120 reps: a digit too many?"),
        ("plank", 'seconds = "1801"', "1801 s held: are these seconds?"),
    ],
)
def test_what_no_one_does(exercise: str, row: str, says: str) -> None:
    """Beyond the equipment, beyond the reps of a set, beyond the seconds of a hold."""
    [question] = _questions(exercise, row)
    assert question.endswith(says)


def test_warm_ups_and_drops_are_not_asked_about() -> None:
    """A ramp starts light and a drop ends light; neither is a slip."""
    assert not _questions(
        "leg_press",
        'kind = "warm-up", reps = 8, load = "20 kg"',
        'kind = "top", reps = 8, load = "120 kg"',
        'kind = "drop", reps = 8, load = "90 kg"',
        'kind = "drop", reps = 8, load = "60 kg"',
    )


@pytest.mark.parametrize("week_id", STARTER_ORDER)
def test_starter_weeks_raise_no_question(week_id: str) -> None:
    """Nothing improbable ships."""
    assert week_questions(starter_week(week_id, CATALOGUE), CATALOGUE) == ()
