"""Help that is written is passed on: a follower too weak without it is told how much."""

from __future__ import annotations

from pathlib import Path

import pytest

from pennate.app.book import Book
from pennate.app.pass_on import passed
from pennate.app.pass_on_loads import can_be_helped
from pennate.core.exercise import EquipmentKind
from pennate.core.follow import Curves, Told, Typed, loads_for
from pennate.core.passed_on import PassedExercise, PassedOption
from pennate.files.catalogue import read_catalogue
from tests.app.own_week import exercise, plan
from tests.app.test_written_help import LADDER, SETS


def _followed(book: Book, folder: Path, *more: str) -> tuple[PassedExercise, Curves]:
    plan(book, folder, exercise("pull_up", SETS, *more))
    week = book.week()
    assert week is not None
    told = passed(week, book.catalogue, book.gym())
    return next(day for day in told.days if not day.rest).stops[0].exercises[0], told.curves


def _told(option: PassedOption, curves: Curves, typed: Typed) -> list[Told]:
    assert option.follow
    found = loads_for(option.follow, typed, curves)
    return [one for group in option.groups if (one := found[group.number])]


@pytest.mark.parametrize("more", [(), (LADDER,)])
def test_a_follower_gets_the_help_too(
    empty_book: Book, tmp_path: Path, more: tuple[str, ...]
) -> None:
    """A week with help passes help on: 4 pull-ups by 60 kg become 5 to 8 with some taken off."""
    one, curves = _followed(empty_book, tmp_path, *more)
    assert one.asked.kind is EquipmentKind.ASSISTED
    typed = Typed(load=0, reps=4, step=5_000, body=60_000)
    for told in _told(one.asked, curves, typed):
        assert told.load is not None
        assert told.load <= -5_000
        assert told.first
        assert told.first[1] >= 5


def test_at_body_weight_too_few_reps_bring_a_word_of_help(empty_book: Book, tmp_path: Path) -> None:
    """At the bar the same follower is told how much help; a strong one adds load."""
    one, curves = _followed(empty_book, tmp_path)
    bar = next(option for option in one.options if option.kind is EquipmentKind.BODY_WEIGHT)
    assert bar.name == "Pull-up"
    assert "taken off by a band or a machine" in bar.groups[0].rule
    weak = _told(bar, curves, Typed(load=0, reps=4, step=2_500, body=60_000))
    strong = _told(bar, curves, Typed(load=0, reps=20, step=2_500, body=60_000))
    assert all(told.load is not None and told.load < 0 for told in weak)
    assert all(told.load is not None and told.load > 0 for told in strong)


def test_nothing_helps_where_no_machine_is_made_for_it() -> None:
    """A squat at body weight stays as it was: nobody is told to take a band off it."""
    catalogue = read_catalogue()
    bodily = EquipmentKind.BODY_WEIGHT
    assert can_be_helped(catalogue["pull_up"], bodily)
    assert not can_be_helped(catalogue["pull_up"], EquipmentKind.ASSISTED)
    assert not can_be_helped(catalogue["push_up"], bodily)
