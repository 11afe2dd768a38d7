"""Performed sets as entries: nothing is lost, and nonsense is returned, not raised."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given, settings

from pennate.core.performed import PerformedSet
from pennate.core.quantities import Unit
from pennate.ledger import Ledger
from pennate.ledger.entry import body_text
from pennate.ledger.sets import set_body, set_entry, set_of, sets_from
from tests.files.sets_made import performed_sets

from .made import CHANCE, START, made

DONE = PerformedSet(
    id="", when=date(2026, 3, 2), session="A", number=1, exercise="back_squat_free", reps=8
)


@settings(deadline=None)
@given(performed_sets())
def test_a_set_comes_back_as_it_went_in(done: PerformedSet) -> None:
    """Entry and back is identity, exact fractions and unknown columns included."""
    entry = set_entry(done, now=START, rng=CHANCE)
    assert body_text(entry.body)
    back = set_of(entry)
    assert set_body(back) == set_body(done)
    assert (back.load, back.rest_s, back.extra) == (done.load, done.rest_s, done.extra)
    if done.id:
        assert back.id == done.id


def test_usual_values_take_no_room() -> None:
    """A plain set is stored by what was said about it."""
    assert sorted(set_body(DONE)) == ["date", "exercise", "reps", "session", "set"]


def test_a_third_of_a_kilogram_stays_exact(ledger: Ledger) -> None:
    """No binary rounding on the way through the database."""
    third = PerformedSet(
        id="", when=DONE.when, session="A", number=1, exercise="x", reps=1,
        load=Fraction(1, 3), unit=Unit.KG,
    )  # fmt: skip
    ledger.append([set_entry(third, now=START, rng=CHANCE)])
    history, problems = sets_from(ledger)
    assert problems == ()
    assert history.sets[0].load == Fraction(1, 3)


def test_the_id_of_a_set_outlives_corrections(ledger: Ledger) -> None:
    """Whoever knows a set by its id finds it after it was corrected twice."""
    first = set_entry(DONE, now=START, rng=CHANCE)
    second = set_entry(DONE, now=START, rng=CHANCE, replaces=first.id)
    third = set_entry(DONE, now=START, rng=CHANCE, replaces=second.id)
    ledger.append([first, second, third])
    history, _ = sets_from(ledger)
    assert [done.id for done in history] == [first.id]


def test_a_foreign_id_is_kept() -> None:
    """The id a file gave a set is the one it is exported with."""
    named = PerformedSet(id="row-17", when=DONE.when, session="A", number=1, exercise="x", reps=1)
    assert set_of(set_entry(named, now=START, rng=CHANCE)).id == "row-17"


@pytest.mark.parametrize(
    "wrong",
    [
        {"reps": "many"},
        {"load": "heavy"},
        {"unit": "stone"},
        {"date": "yesterday"},
        {"date": 5},
        {"aids": "straps"},
        {"pain": ["knee"]},
        {"load": "1/0"},
    ],
)
def test_one_odd_entry_hides_nothing(ledger: Ledger, wrong: dict[str, object]) -> None:
    """A set that cannot be read is reported beside the ones that can."""
    odd = made({**set_body(DONE), **wrong}, kind="set")
    ledger.append([odd, set_entry(DONE, now=START, rng=CHANCE)])
    history, problems = sets_from(ledger)
    assert len(history) == 1
    assert [problem.entry_id for problem in problems] == [odd.id]


def test_a_set_without_reps_is_named(ledger: Ledger) -> None:
    """The problem says what is missing."""
    ledger.append([made({"date": "2026-03-02", "session": "A", "set": 1}, kind="set")])
    _, (problem,) = sets_from(ledger)
    assert "exercise" in problem.what
