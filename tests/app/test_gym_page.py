"""Several gyms, and the week in one of them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pennate.app.book import Book
from pennate.app.gym_page import (
    begin_bare,
    choose,
    gym_of,
    misfits,
    rename,
    save,
    save_item,
    save_plates,
    take_away,
    take_starter,
)
from pennate.app.start import begin_own_week
from pennate.app.swaps import fitted_to
from pennate.core.gym import Sled
from pennate.core.prescribed import Week
from pennate.core.quantities import Mass
from pennate.errors import InputError


def week_of(book: Book) -> Week:
    """The week, which is there."""
    week = book.week()
    assert week
    return week


def test_one_more_gym_does_not_move_the_week(demo_book: Book) -> None:
    """The gym in use stays in use, though another was described later."""
    used = gym_of(demo_book).id
    travel = take_starter(demo_book, "travel")
    again = take_starter(demo_book, "travel")
    assert gym_of(demo_book).id == used
    assert {travel.id, again.id} <= {gym.id for gym in demo_book.gyms()}
    assert travel.name != again.name


def test_a_week_that_names_no_gym_keeps_the_one_it_had(empty_book: Book) -> None:
    """Without a named gym the newest would win; the one in use is written down first."""
    begin_own_week(empty_book, ("Monday",))
    take_starter(empty_book, "home")
    take_starter(empty_book, "travel")
    assert gym_of(empty_book).id == "home"


def test_items_and_plates_change_one_gym_only(empty_book: Book) -> None:
    """Added, corrected, counted and taken away, each stored at once."""
    first = take_starter(empty_book, "home").id
    second = begin_bare(empty_book, "  The  cellar ").id
    save_item(empty_book, second, "sled", {"name": "Press", "mass": "40", "angle": "30"})
    press = gym_of(empty_book, second).item("press")
    assert isinstance(press, Sled)
    assert press.angle_deg == 30
    save_plates(empty_book, second, [{"mass": "20", "unit": "kg", "pairs": "3"}])
    take_away(empty_book, second, "press")
    there = gym_of(empty_book, second)
    assert [(plate.mass, plate.pairs) for plate in there.plates] == [(Mass.kg(20), 3)]
    assert [item.id for item in there.items] == ["floor"]
    assert there.name == "The cellar"
    assert gym_of(empty_book, first).items


def test_what_is_taken_away_keeps_its_meaning(empty_book: Book) -> None:
    """Sets counted in plates on a sled that is gone still count the sled and its angle."""
    home = take_starter(empty_book, "home").id
    save_item(empty_book, home, "sled", {"name": "Press", "mass": "40", "angle": "30"})
    before = empty_book.carriers()["press"]
    take_away(empty_book, home, "press")
    assert empty_book.carriers()["press"] == before
    assert before.mass_kg == 40


def test_what_is_wrong_changes_nothing(empty_book: Book) -> None:
    """A slip is told with its field, and the stored gym stays as it was."""
    home = take_starter(empty_book, "home")
    before = empty_book.ledger.position()
    with pytest.raises(InputError, match="mass"):
        save_item(empty_book, home.id, "bar", {"name": "x", "mass": "heavy"})
    with pytest.raises(InputError, match="pairs"):
        save_plates(
            empty_book,
            home.id,
            [{"mass": "5", "unit": "kg", "pairs": "1"}, {"mass": "5", "pairs": "two"}],
        )
    with pytest.raises(InputError, match="needs a name"):
        rename(empty_book, home.id, " ")
    with pytest.raises(InputError, match="nothing would be left"):
        save(empty_book, replace(home, items=(), plates=()))
    with pytest.raises(InputError, match="no such gym"):
        gym_of(empty_book, "moon")
    assert empty_book.ledger.position() == before


def test_another_gym_replaces_only_what_is_ticked(demo_book: Book) -> None:
    """With nothing ticked the week keeps every exercise; one ticked, one replaced."""
    travel = take_starter(demo_book, "travel")
    before = week_of(demo_book)
    found = misfits(before, travel, demo_book.catalogue)
    assert found
    choose(demo_book, travel.id)
    assert week_of(demo_book).days == before.days
    assert gym_of(demo_book).id == travel.id
    one = next(m for m in found if m.instead)
    choose(demo_book, travel.id, {one.key})
    day = week_of(demo_book).day(one.day)
    assert day
    assert day.exercises[one.place] == one.instead
    old = before.day(one.day)
    assert old
    assert sum(a != b for a, b in zip(day.exercises, old.exercises, strict=True)) == 1


def test_all_ticked_is_the_week_fitted_to_the_gym(demo_book: Book) -> None:
    """The same answer as fitting a week at the start, which is computed on another way."""
    travel = take_starter(demo_book, "travel")
    before = week_of(demo_book)
    expected, _ = fitted_to(before, travel, demo_book.catalogue)
    choose(demo_book, travel.id, {m.key for m in misfits(before, travel, demo_book.catalogue)})
    assert week_of(demo_book).days == expected.days


def test_a_gym_that_carries_all_has_no_misfits(demo_book: Book) -> None:
    """The gym the week was made for replaces nothing."""
    assert misfits(week_of(demo_book), gym_of(demo_book), demo_book.catalogue) == ()
