"""A sore joint out of reach: what loads it stays lighter for the rest of the day, set after set."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from random import Random

import pytest
from playwright.sync_api import Page, expect

from pennate.app.book import Book
from pennate.core.card import SetState
from pennate.core.quantities import exact_text
from pennate.files.week import read_week
from tests.web.conftest import served
from tests.web.test_session import card_of

from .conftest import NewPhone
from .test_line import Line
from .test_replay import bare
from .test_said import apart
from .thumb import Thumb, number_on

__all__ = ["bare"]

pytestmark = pytest.mark.browser

WEEK = """
name = "Legs"
gym = "commercial_kg_lb"

[[day]]
day = "Monday"

[[day.exercise]]
exercise = "leg_press"
sets = [
  { kind = "warm-up", reps = 8, load = "50 % of top" },
  { kind = "top", reps = "6-8", reserve = "1", rest = "3:00" },
  { kind = "back-off", sets = 2, reps = "8-12", reserve = "1", load = "85 % of top" },
]

[[day.exercise]]
exercise = "walking_lunge"
equipment = "dumbbells"
sets = [{ sets = 2, reps = "10-12", reserve = "1-2", load = "20 kg each" }]

[[day.exercise]]
exercise = "reverse_lunge"
equipment = "dumbbells"
sets = [{ sets = 2, reps = "8-12", reserve = "1-2" }]
"""
"""A top set with a share of it after, written loads on both sides, and an exercise never done."""


@pytest.fixture
def legs(own_demo: Book, new_phone: NewPhone) -> Iterator[Thumb]:
    """Out of reach on the first set of that day, in the gym the week is written for."""
    week, days = read_week(WEEK, own_demo.catalogue), own_demo.week()
    assert days
    own_demo.save_week(replace(week, gym=days.gym))
    with served(own_demo) as address:
        thumb = Thumb(new_phone(), address, Random(1))
        thumb.context.route("**/api/cards?days=1", lambda route: route.abort())
        thumb.open()
        thumb.start()
        thumb.kept()
        thumb.context.set_offline(offline=True)
        yield thumb


def load(page: Page) -> float:
    """The load of the set shown, by its number."""
    found = re.match(r"[\d.]+", page.locator("#load").inner_text())
    assert found
    return float(found[0])


def lighter(page: Page) -> None:
    """The knee hurts 4 of 10, and she takes the lighter load."""
    page.get_by_role("button", name="hurts", exact=True).click()
    page.locator("input[name=where][value=knee]").check()
    page.locator("input[name=score][value='4']").check()
    page.get_by_role("button", name="What now?").click()
    page.get_by_role("button", name="lighter", exact=True).click()


def close(thumb: Thumb) -> None:
    """Close the set shown as it was likely."""
    thumb.close_with(number_on(thumb.seen.locator(".closing button.main")))


def through(thumb: Thumb, name: str) -> list[float]:
    """The loads of all sets of the exercise shown, each closed; those of its warm-up too."""
    loads = []
    while thumb.on_floor and thumb.seen.locator("h1").inner_text() == name:
        loads.append(load(thumb.seen))
        close(thumb)
    return loads


def planned(book: Book) -> dict[str, list[float]]:
    """The working loads of every exercise as the records have them, nothing said."""
    return {
        stop.exercise: [
            float(exact_text(one.load.load.amount))
            for one in stop.sets
            if one.load and one.state is SetState.OPEN and one.kind.value != "warm-up"
        ]
        for stop in card_of(book).stops
    }


def test_lighter_holds_for_every_later_set_of_what_loads_the_joint(
    legs: Thumb, own_demo: Book
) -> None:
    """Back-offs under the eased top, and written loads of both sides a fifth less of the whole."""
    page, morning = legs.seen, planned(own_demo)
    close(legs)
    lighter(page)
    top, *later = through(legs, page.locator("h1").inner_text())
    assert top < morning["leg_press"][0]
    assert len(later) == 2
    assert max(later) < min(top, *morning["leg_press"][1:])
    lunges = through(legs, page.locator("h1").inner_text())
    assert len(lunges[-4:]) == 4
    assert max(lunges) < min(morning["walking_lunge"])


def test_lighter_on_a_test_set_eases_it_and_what_follows(legs: Thumb, own_demo: Book) -> None:
    """The test set itself is taken lighter, and no working set is as planned."""
    page, morning = legs.seen, planned(own_demo)
    through(legs, page.locator("h1").inner_text())
    through(legs, page.locator("h1").inner_text())
    expect(page.get_by_text("test set")).to_be_visible()
    tested, name = load(page), page.locator("h1").inner_text()
    lighter(page)
    assert load(page) < tested
    first, *later = through(legs, name)
    assert first < tested
    assert len(later) == 4
    assert max(later) < min(morning["reverse_lunge"])


def test_the_server_asks_the_same_once_it_is_told(bare: tuple[Page, str], own_demo: Book) -> None:
    """Back-offs, written loads and test set: page and records agree, set after set, to a step."""
    week, days = read_week(WEEK, own_demo.catalogue), own_demo.week()
    assert days
    own_demo.save_week(replace(week, gym=days.gym))
    line = Line(*bare, own_demo, Random(4))
    line.put("readiness", {"pain": {"knee": 4}})
    for _ in range(6):  # into the written loads
        steps = apart(line)
        assert len(steps) > 4
        assert max(steps) <= 1
        shown = line.next()
        assert shown
        line.close(shown)
