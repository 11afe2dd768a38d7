"""A gym that comes to have what the week asked for gets the written exercises back."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from pennate.app.book import Book
from pennate.app.gym_page import save, save_item, take_away
from pennate.app.start import take_starter_gym, use_week
from pennate.app.week_changes import last_change, undo_change
from pennate.core.prescribed import PrescribedExercise, Reason
from pennate.files.week import read_week
from pennate.web.server import make_app
from tests.app.own_week import DAY, exercise

SQUAT = '{ sets = 3, reps = "6-8", rest = "3:00" }'
CURL = '{ sets = 2, reps = "10-15" }'
MACHINE = {"id": "hack", "name": "Hack squat", "mass": "34", "angle": "45", "for": ["hack_squat"]}


def _begin(book: Book, folder: Path, *, gym_first: bool) -> None:
    """A written week with a hack squat, in a starter gym that has no machine for it."""
    file = folder / "own.toml"
    days = exercise("hack_squat", SQUAT, 'note = "feet low"') + exercise("seated_leg_curl", CURL)
    file.write_text(f'[[day]]\nday = "{DAY}"\n{days}', encoding="utf-8")
    week = read_week(file, book.catalogue)
    if gym_first:
        take_starter_gym(book, "commercial_kg_lb")
        use_week(book, week)
    else:
        use_week(book, week)
        take_starter_gym(book, "commercial_kg_lb")


def _asked(book: Book) -> tuple[PrescribedExercise, ...]:
    week = book.week()
    assert week is not None
    day = week.day(DAY)
    assert day is not None
    return day.exercises


@pytest.mark.parametrize("gym_first", [True, False])
def test_a_machine_added_after_the_start_brings_its_exercise_back(
    empty_book: Book, tmp_path: Path, *, gym_first: bool
) -> None:
    """As it was written, note and all; what the gym still lacks keeps its stand-in."""
    _begin(empty_book, tmp_path, gym_first=gym_first)
    assert [one.reason for one in _asked(empty_book)] == [Reason.TAKEN, Reason.TAKEN]
    stood_in = _asked(empty_book)
    save_item(empty_book, "commercial_kg_lb", "sled", MACHINE)
    squat, curl = _asked(empty_book)
    assert (squat.exercise, squat.reason, squat.replaces) == ("hack_squat", None, "")
    assert (squat.note, squat.sets[0].rest_s) == ("feet low", 180)
    assert curl == stood_in[1]


def test_it_is_said_in_a_line_and_can_be_undone(empty_book: Book, tmp_path: Path) -> None:
    """Who likes the stand-in better takes it back on the Week page, where it is told."""
    _begin(empty_book, tmp_path, gym_first=True)
    stood_in = _asked(empty_book)
    name = empty_book.catalogue[stood_in[0].exercise].name
    save_item(empty_book, "commercial_kg_lb", "sled", MACHINE)
    change = last_change(empty_book)
    assert change
    assert change.what == f"Hack squat again instead of {name} on {DAY}"
    undo_change(empty_book, change.id)
    assert _asked(empty_book) == stood_in
    save_item(empty_book, "commercial_kg_lb", "sled", {**MACHINE, "name": "Hack squat, old"})
    assert _asked(empty_book) == stood_in, "a machine that was there already brings nothing back"


def test_another_gym_or_another_thing_changes_nothing(empty_book: Book, tmp_path: Path) -> None:
    """Only what her week lacked, and only in the gym that the week is trained in."""
    _begin(empty_book, tmp_path, gym_first=True)
    before = empty_book.week()
    gym = empty_book.gym()
    assert gym
    save(empty_book, replace(gym, small=("mat",)))
    save(empty_book, replace(gym, id="elsewhere", name="Elsewhere"))
    save_item(empty_book, "elsewhere", "sled", MACHINE)
    assert empty_book.week() == before


def test_a_substitute_of_her_own_stays(empty_book: Book, tmp_path: Path) -> None:
    """What stands in for another reason than want of equipment is hers to keep."""
    _begin(empty_book, tmp_path, gym_first=True)
    week = empty_book.week()
    assert week
    liked = replace(_asked(empty_book)[0], reason=Reason.TASTE)
    days = tuple(
        replace(day, exercises=(liked, *day.exercises[1:])) if day.exercises else day
        for day in week.days
    )
    empty_book.save_week(replace(week, days=days))
    save_item(empty_book, "commercial_kg_lb", "sled", MACHINE)
    assert _asked(empty_book)[0] == liked


def test_what_goes_and_comes_again_comes_back_with_its_exercise(
    empty_book: Book, tmp_path: Path
) -> None:
    """Taking a machine away changes no exercise by itself, so its return changes none either."""
    _begin(empty_book, tmp_path, gym_first=True)
    save_item(empty_book, "commercial_kg_lb", "sled", MACHINE)
    asked = _asked(empty_book)
    take_away(empty_book, "commercial_kg_lb", "hack")
    save_item(empty_book, "commercial_kg_lb", "sled", MACHINE)
    assert _asked(empty_book) == asked


def test_the_gym_page_says_that_it_is_back(empty_book: Book, tmp_path: Path) -> None:
    """The form of the machine, sent as a browser sends it: the answer tells, and the Week page."""
    _begin(empty_book, tmp_path, gym_first=True)
    client = TestClient(make_app(empty_book), base_url="http://127.0.0.1:8420")
    form = {"gym": "commercial_kg_lb", "kind": "sled", "name": "Hack squat", "mass": "34",
            "unit": "kg", "for": "hack_squat"}  # fmt: skip
    shown = client.post("/gym/item", data=form, headers={"origin": "http://127.0.0.1:8420"})
    assert "what your week asked for first: that is back" in shown.text
    assert "Hack squat again instead of" in client.get("/week").text
