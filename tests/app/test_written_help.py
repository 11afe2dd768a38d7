"""Help that is written, “-20 kg”, comes from what helps; where nothing does, it is said."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest

from pennate.app.book import Book
from pennate.app.record import Recorded, record
from pennate.core.card import CardStop
from pennate.core.quantities import Unit
from tests.app.conftest import NOW
from tests.app.own_week import DAY, exercise, hard, kg, plan, stop_of

SETS = '{ sets = 3, reps = "5-8", load = "-20 kg", rest = "2:30" }'
LADDER = """ladder = [
  { load = "-20 kg", until = 8 },
  { load = "-10 kg", until = 8 },
  { load = "body weight" },
]"""


def _pull_up(book: Book, folder: Path, gym: str, *more: str) -> CardStop:
    plan(book, folder, exercise("pull_up", SETS, *more), gym=gym)
    return stop_of(book, "pull_up")


@pytest.mark.parametrize(
    ("gym", "item", "felt"),
    [
        ("commercial_kg", "assisted_chin", -20),
        ("commercial_kg_lb", "assisted_chin", -50 * 0.45359237),
        ("home", "helping_bands", -27),
    ],
)
def test_the_help_comes_from_what_gives_it(
    empty_book: Book, tmp_path: Path, gym: str, item: str, felt: float
) -> None:
    """Without a word on equipment: the machine made for it, or bands; never body weight alone.

    Where its steps are others, more help than written while it is new, not less.
    """
    stop = _pull_up(empty_book, tmp_path, gym)
    assert stop.item
    assert stop.item.id == item
    assert [kg(one) for one in hard(stop)] == pytest.approx([felt] * 3)


def test_a_bar_that_is_named_gives_no_help(empty_book: Book, tmp_path: Path) -> None:
    """The written help outranks the named bar, and the stop says why it is elsewhere."""
    stop = _pull_up(empty_book, tmp_path, "commercial_kg", 'equipment = "chin_up_bar"')
    assert stop.item
    assert stop.item.id == "assisted_chin"
    assert stop.replaced == "on Assisted chin-up and dip, for the help that is written"


def test_where_nothing_helps_it_is_said(empty_book: Book, tmp_path: Path) -> None:
    """A gym with a bar alone: one plain sentence at the stop and with every set."""
    _pull_up(empty_book, tmp_path, "home")
    gym = empty_book.gym()
    assert gym
    empty_book.save_gym(replace(gym, items=tuple(i for i in gym.items if i.id != "helping_bands")))
    stop = stop_of(empty_book, "pull_up")
    assert stop.item
    assert stop.item.id == "chin_up_bar"
    assert stop.replaced == (
        "20 kg of help is written, but nothing here gives it: "
        "as many as you can without, or swap to something easier"
    )
    assert all("nothing here gives any" in one.why for one in hard(stop))


@pytest.mark.parametrize("gym", ["commercial_kg", "commercial_kg_lb"])
def test_one_session_as_asked_is_the_first_rung(tmp_path: Path, gym: str) -> None:
    """Three sets as asked stand on the first rung, the machine in pounds too, not on the last."""
    now = [NOW]
    book = Book.open(tmp_path, lambda: now[0], Random(4))
    stop = _pull_up(book, tmp_path, gym, LADDER)
    assert stop.ladder == "Your ladder begins with 20 kg of help"
    for one in hard(stop):
        record(book, book.today, one.key, Recorded(reps=6), weekday=DAY)
    now[0] += timedelta(days=7)
    assert stop_of(book, "pull_up").ladder.startswith("Rung 1 of 3; 10 kg of help when")
    book.close()


def test_a_try_without_the_help_is_no_rung(tmp_path: Path) -> None:
    """Two reps at body weight, of five asked, do not put her on the last rung."""
    now = [NOW]
    book = Book.open(tmp_path, lambda: now[0], Random(4))
    first, second, third = hard(_pull_up(book, tmp_path, "commercial_kg", LADDER))
    for one in (first, second):
        record(book, book.today, one.key, Recorded(reps=8), weekday=DAY)
    alone = Recorded(reps=2, load=Fraction(0), unit=Unit.KG)
    record(book, book.today, third.key, alone, weekday=DAY)
    now[0] += timedelta(days=7)
    assert stop_of(book, "pull_up").ladder == "Rung 1 of 3; due now: 10 kg of help"
    book.close()
