"""The five ways to count a load, where another load or a remembered set is typed."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from html import unescape

import pytest
from fastapi.testclient import TestClient

from pennate.app.book import Book
from pennate.app.gym_page import gym_of
from pennate.app.remembered import remembered_sets
from pennate.core.gym import usual_reading
from pennate.core.prescribed import PrescribedExercise, PrescribedSets, Span
from pennate.core.quantities import LoadReading, Unit
from pennate.web.words import READING_CHOICES

from .test_session import card_of, close, next_set


def chosen(page: str, name: str) -> str:
    """What stands selected in a list."""
    found = re.search(rf'<select[^>]* name="{name}">(.*?)</select>', page, re.DOTALL)
    assert found
    mark = re.search(r'value="(\w+)" selected', found[1])
    assert mark
    return mark[1]


def test_all_five_are_offered() -> None:
    """The five readings of the log's contract, each once, in words."""
    assert [value for value, _ in READING_CHOICES] == ["total", "each", "side", "plates", "label"]
    assert {value for value, _ in READING_CHOICES} == {one.value for one in LoadReading}


@pytest.mark.parametrize("reading", list(LoadReading))
def test_another_load_is_stored_as_she_counted_it(
    client: TestClient, own_demo: Book, reading: LoadReading
) -> None:
    """Number, unit and reading go into the log as typed."""
    typed = {"other_reps": "6", "other_load": "12,5", "other_unit": "lb"}
    done = close(client, own_demo, other="1", other_reading=reading.value, **typed)
    assert (done.load, done.unit, done.reading) == (Fraction("12.5"), Unit.LB, reading)


def test_the_usual_reading_of_the_item_is_preselected(client: TestClient, own_demo: Book) -> None:
    """The list shows how a load of this item is said, so it need not be touched."""
    shown = next_set(own_demo).load
    assert shown
    assert chosen(client.get("/floor").text, "other_reading") == shown.reading.value
    done = close(client, own_demo, other="1", other_reps="6", other_load="20", other_unit="kg")
    assert done.reading is shown.reading


def test_a_reading_that_is_none_is_told(client: TestClient, own_demo: Book) -> None:
    """A made-up reading is one sentence, and nothing is stored."""
    before = own_demo.ledger.position()
    key = card_of(own_demo).next_key
    data = {"key": str(key), "other": "1", "other_load": "20", "other_reading": "felt"}
    answer = client.post("/floor/close", data=data)
    assert answer.status_code == 422
    assert "no way to count a load" in unescape(answer.text)
    assert own_demo.ledger.position() == before


def test_help_needs_no_minus(client: TestClient, own_demo: Book) -> None:
    """On a machine that helps a number is help: a decimal pad has no minus."""
    helper = next(i for i in gym_of(own_demo).items if i.kind.value == "assisted machine")
    week = own_demo.week()
    assert week
    asked = PrescribedExercise(
        exercise="chin_up", sets=(PrescribedSets(reps=Span(6, 8)),), equipment=helper.id
    )
    today = card_of(own_demo).session.capitalize()
    days = [replace(d, exercises=(asked,)) if d.day == today else d for d in week.days]
    own_demo.save_week(replace(week, days=tuple(days)))
    assert ">Help<" in client.get("/floor").text
    typed = {"other_reps": "6", "other_load": "40", "other_unit": "lb"}
    done = close(client, own_demo, other="1", **typed)
    assert (done.load, done.reading) == (Fraction(-40), LoadReading.LABEL)


def test_a_remembered_set_takes_any_reading(client: TestClient, own_demo: Book) -> None:
    """Plates on one side of the bar, though the whole is usual there."""
    page = client.get("/start/sets").text
    gym = gym_of(own_demo)
    rows = re.findall(
        r'name="exercise" value="(\w+)">\s*<input[^>]* name="item" value="(\w*)"', page
    )
    bar = next(item for item in gym.items if item.kind.value == "barbell")
    exercise = next(name for name, item in rows if item == bar.id)
    row = page[page.index(f'value="{exercise}"') :]
    assert chosen(row, "reading") == usual_reading(bar).value == "total"
    answer = client.post(
        "/start/sets",
        data={
            "exercise": exercise,
            "load": "45",
            "load_unit": "lb",
            "reading": "side",
            "reps": "8",
            "unit": "kg",
        },
    )
    assert answer.status_code == 200, answer.text
    kept = next(one for one in remembered_sets(own_demo.ledger) if one.exercise == exercise)
    assert (kept.load, kept.reading) == (Fraction(45), LoadReading.SIDE)
