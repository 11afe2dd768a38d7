"""How many loads a thing makes opens to the loads, what is put on for each, and the rule."""

from __future__ import annotations

import re
from html import unescape

import pytest
from fastapi.testclient import TestClient

from pennate.app.book import Book
from pennate.app.gym_page import gym_of
from pennate.app.gyms import starter_gym
from pennate.core.exercise import EquipmentKind
from pennate.core.gym import AnyItem, BandSet, Bar, Gym, Ladder
from pennate.core.quantities import Mass
from pennate.loading import ladder
from pennate.web.views.gym_item import item_view

COUNTED = re.compile(r"<details><summary>(\d+) loads, (.+?) to (.+?)</summary>(.*?)</details>")


def test_every_count_of_loads_opens_to_that_many(demo: TestClient, demo_book: Book) -> None:
    """As many rows as the count says, from the least load it names to the most."""
    opened = 0
    for item in gym_of(demo_book).items:
        page = unescape(demo.get("/gym/item", params={"item": item.id}).text).replace("\xa0", " ")
        if (found := COUNTED.search(page.replace("\n", ""))) is None:
            assert not re.search(r"\d+ loads", page), item.id
            continue
        rows = re.findall(r"<tr><td>(.*?)</td><td>(.*?)</td></tr>", found[4])
        assert len(rows) == int(found[1]), item.id
        ends = {load for load, _ in (rows[0], rows[-1])}
        assert found[3] in ends, item.id
        assert any(load.startswith(found[2]) for load in ends - {found[3]}), item.id
        assert "The cards ask for no other." in found[4], item.id
        opened += 1
    assert opened > 10


def test_a_row_says_what_is_put_on(demo_book: Book) -> None:
    """The rows are the loads the cards choose from, in their order and words."""
    gym = gym_of(demo_book)
    bar = next(one for one in gym.items if isinstance(one, Bar))
    shown = item_view(gym, bar, demo_book.catalogue)
    assert [words for _, words in shown.loads] == [one.words for one in ladder(gym, bar)]
    assert all(" " not in load for load, _ in shown.loads)  # a load and its unit stay together


RULES: list[tuple[type[AnyItem], str]] = [(Bar, "plates"), (Ladder, "masses"), (BandSet, "bands")]


@pytest.mark.parametrize(("kind", "of"), RULES)
def test_the_rule_names_what_the_loads_are_made_of(
    demo_book: Book, kind: type[AnyItem], of: str
) -> None:
    """Plates for a bar, the saved masses for dumbbells, the bands for bands."""
    gym = starter_gym("home")
    item = next(one for one in gym.items if isinstance(one, kind))
    assert of in item_view(gym, item, demo_book.catalogue).loads_rule


def test_one_load_needs_no_list(demo_book: Book) -> None:
    """A bar without any plates is the bar: said, and nothing to open."""
    bar = Bar(id="bare", name="Bare bar", kind=EquipmentKind.BARBELL, mass=Mass.kg(20))
    shown = item_view(Gym(id="g", name="G", items=(bar,)), bar, demo_book.catalogue)
    assert (shown.loads_words, shown.loads) == ("one load: 20 kg", ())
