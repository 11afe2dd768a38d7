"""Which plates to pull before a drop: said the same by the page and by the phone's script."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from fastapi.testclient import TestClient
from playwright.sync_api import Browser

from pennate.app.book import Book
from pennate.core.gym import Plate
from pennate.core.loaded import Loaded
from pennate.core.quantities import LoadReading, Mass
from pennate.files.catalogue import read_catalogue
from pennate.files.week import read_week
from pennate.loading import ladder
from pennate.web.render import static
from pennate.web.views.plates import plate_names, pull_words

from .conftest import served
from .test_session import card_of, close

DROPS = """
name = "Drops"
[[day]]
day = "Monday"
[[day.exercise]]
exercise = "shoulder_press"
sets = [
  { reps = "6-8", reserve = "0-1", rest = "2:30" },
  { kind = "drop", reps = "8-12", reserve = "fail", load = "70 % of the set before" },
]
"""
PULLED = """async ([url, pairs]) => {
  const { pulled } = await import(url);
  return pairs.map(([on, wanted, sides]) => pulled(on, wanted, sides));
}"""


def _loaded(*plates: str) -> Loaded:
    on = tuple(Plate(Mass.kg(kg), 1) for kg in plates)
    total = Fraction(20) + 2 * sum((plate.mass.in_kg for plate in on), Fraction(0))
    return Loaded(
        item_id="bar",
        load=Mass.kg(total),
        reading=LoadReading.TOTAL,
        felt=total,
        each_side=on,
    )


@pytest.mark.parametrize(
    ("before", "now", "words"),
    [
        (("20", "10"), ("20",), "pull 10 kg from each side"),
        (("20", "10", "5"), ("20",), "pull 5 and 10 kg from each side"),
        (("20", "10", "10"), ("20", "10"), "pull 10 kg from each side"),
        (("20", "10"), ("20", "5"), "pull 10 kg from each side, put 5 kg on each side"),
        (("20",), ("20",), ""),
    ],
)
def test_what_comes_off_by_hand(before: tuple[str, ...], now: tuple[str, ...], words: str) -> None:
    """Counted out by hand: outer plates first, what goes on said too."""
    assert pull_words(_loaded(*before), _loaded(*now)) == words


def test_plates_left_are_the_load_of_the_drop(own_demo: Book) -> None:
    """On the demo's bar: what is on, less what is pulled, with what is put on, is the drop."""
    gym = own_demo.gym()
    assert gym
    bar = gym.item(card_of(own_demo).stops[0].item.id)  # type: ignore[union-attr] # it has one
    assert bar
    steps = ladder(gym, bar)
    for before, now in product(steps[::4], repeat=2):
        words = pull_words(before, now)
        assert bool(words) is (before.plates != now.plates)


def test_the_phone_says_it_in_the_same_words(own_demo: Book, chromium: Browser) -> None:
    """Every pair of steps of the demo's bar, through the page's own script."""
    gym = own_demo.gym()
    assert gym
    bar = gym.item(card_of(own_demo).stops[0].item.id)  # type: ignore[union-attr] # it has one
    assert bar
    pairs = list(product(ladder(gym, bar)[::3], repeat=2))
    asked = [[plate_names(a), plate_names(b), bool(a.each_side or b.each_side)] for a, b in pairs]
    with served(own_demo) as address:
        page = chromium.new_page()
        page.goto(address + "/data")
        found = page.evaluate(PULLED, [address + static("views.js"), asked])
        page.close()
    assert found == [pull_words(a, b) for a, b in pairs]
    assert len({*found}) > 5


def test_the_plain_floor_says_which_plates_to_pull(client: TestClient, own_demo: Book) -> None:
    """At the drop, and only there."""
    own_demo.save_week(read_week(DROPS, read_catalogue()))
    said = []
    while card_of(own_demo).next_key:
        said.append("pull " in client.get("/floor").text)
        close(client, own_demo, reps="8")
    assert said[-1]
    assert not any(said[:-1])
