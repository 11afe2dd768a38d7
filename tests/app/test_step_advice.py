"""What a step up costs, in words, on real items and on the card."""

from __future__ import annotations

import re
from math import log

import pytest

from pennate.app.book import Book
from pennate.app.card import TOO_BIG_A_STEP
from pennate.app.card_text import card_document, card_lines
from pennate.app.exercise_view import exercise_view
from pennate.app.gyms import starter_gym
from pennate.app.record import Recorded, record
from pennate.app.review import review
from pennate.app.step_advice import step_words
from pennate.app.today import card_for
from pennate.core.card import Card
from pennate.loading import ladder

GYM = starter_gym("commercial_kg")


def reps_at(one_rep: float, felt: float) -> float:
    """Reps by an exponential curve, 2.55 % of the load a rep (a definition for these tests)."""
    return max(0.0, 1 - log(max(felt, 1.0) / one_rep) / 0.0255)


def said(item_id: str, at: float, one_rep: float) -> tuple[str, ...]:
    """The lines about the step up from a felt load."""
    item = GYM.item(item_id)
    assert item
    return step_words(item, ladder(GYM, item), at, lambda felt: reps_at(one_rep, felt)).lines


def test_the_next_pair_of_dumbbells() -> None:
    """From 12 to 14 kg is 2 of 12, 17 % (arithmetic); ln(14/12)/0.0255 is 6 reps of this curve."""
    words, *more = said("dumbbells", 24, 34)
    assert words.startswith(
        "The next pair of dumbbells, 14 kg each, is 17 % up, about 6 reps fewer; "
    )
    assert "more reps first, then a wider range, harder reps or another machine" in words
    assert more[0].startswith("Stay until you can do 7 reps more")


def test_a_small_step_needs_no_advice() -> None:
    """From 60 to 62.5 kg is 4 %; ln(62.5/60)/0.0255 is 1.6 reps, fewer than the two of the rule."""
    assert said("rack_bar", 60, 80) == ("The next load, 62.5 kg, is 4 % up, about 2 reps fewer.",)


def test_the_heaviest_load_says_so() -> None:
    """At the top of an item there is no step, and that is said."""
    assert said("dumbbells", 100, 140)[0].startswith("This is the heaviest load here")


def test_less_help_is_said_as_help() -> None:
    """On a machine that helps, the step up is less help, never a minus sign."""
    item = GYM.item("assisted_chin")
    assert item
    found = step_words(item, ladder(GYM, item), -20, lambda felt: -felt, 60)
    assert found.words.startswith(
        "The next pin place, 15 kg of help, is 12 % up, about 5 reps fewer"
    )
    assert "-" not in " ".join(found.lines)


def cards(book: Book) -> list[Card]:
    """The cards of all her days."""
    week = book.week()
    assert week
    days = [day.day for day in week.days if not day.rest]
    found = [card_for(book, book.today, weekday=name) for name in days]
    return [card for card in found if isinstance(card, Card)]


def test_the_card_says_what_a_step_not_taken_costs(demo_book: Book) -> None:
    """Where a raise was due and the same load stands, its cost stands with it, and only there."""
    seen = [(one, c) for c in cards(demo_book) for stop in c.stops for one in stop.sets]
    held = [one for one, _ in seen if one.why == TOO_BIG_A_STEP]
    assert held
    assert all("about" in one.step[0] or "heaviest" in one.step[0] for one in held)
    assert {id(one) for one, _ in seen if one.step} == {id(one) for one in held}
    card = next(c for one, c in seen if one is held[0])
    assert held[0].step[0] in "\n".join(card_lines(card))
    steps = [one["step"] for stop in card_document(card)["stops"] for one in stop["sets"]]
    assert list(held[0].step) in steps


@pytest.mark.parametrize("exercise", ["bench_press", "lateral_raise"])
def test_the_exercise_page_knows_the_step(demo_book: Book, exercise: str) -> None:
    """The step of an exercise is judged at the load of the last session."""
    view = exercise_view(demo_book, exercise)
    assert view.step
    assert view.step.too_big == (" fewer; " in view.step.words)


def test_nothing_to_step_up_to_says_nothing(demo_book: Book) -> None:
    """An exercise without load on the floor has no step."""
    assert exercise_view(demo_book, "crunch").step is None


def test_after_the_session_the_reason_is_one_plain_sentence(demo_book: Book) -> None:
    """More reps than asked, and the same load again: by how much the next is up, about how many
    reps that costs, and what to do first.
    """
    week = demo_book.week()
    assert week
    held = []
    for day in [day.day for day in week.days if not day.rest][:2]:
        while True:
            card = card_for(demo_book, demo_book.today, weekday=day)
            assert isinstance(card, Card)
            if card.next_key is None:
                break
            found = card.find(card.next_key)
            assert found
            likely = found[1].likely
            reps = likely.middle + 1 if likely else None
            record(demo_book, demo_book.today, card.next_key, Recorded(reps=reps), weekday=day)
        steps = review(demo_book, demo_book.today, weekday=day).next_time
        held += [one.why for one in steps if one.why.startswith("the same load again: ")]
    assert len(held) > 1
    told = r"the same load again: the next .+ is \d+ % up, about \d+ reps? fewer; more reps first"
    assert all(re.match(told, why) or "heaviest load here" in why for why in held)
