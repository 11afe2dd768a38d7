"""Gyms from starters and forms: everything a page can do to an inventory."""

from __future__ import annotations

import pytest

from pennate.app.gym_forms import PLATE, Entry, form_fields, shown_values, values_from_form
from pennate.app.gyms import (
    KIND_OF,
    carriers_of,
    item_named,
    open_gym,
    read_gym,
    render_gym,
    starter_gym,
    starter_gyms,
    with_item,
    with_plates,
    with_small,
    without_item,
)
from pennate.core.exercise import EquipmentKind
from pennate.core.gym import Bar, Gym, Stack
from pennate.core.quantities import Mass
from pennate.errors import InputError
from pennate.files.catalogue import read_catalogue

HOME = starter_gym("home")


def test_every_starter_says_what_it_holds() -> None:
    """Four starter gyms, each with a line that tells them apart."""
    starters = starter_gyms()
    assert [one.id for one in starters] == ["commercial_kg", "commercial_kg_lb", "home", "travel"]
    assert len({one.holds for one in starters}) == 4
    assert all(read_gym(one.text).name == one.name for one in starters)


def test_unknown_starters_name_the_known_ones() -> None:
    """A wrong starter id lists the right ones; so does a path that is none."""
    with pytest.raises(InputError, match="commercial_kg"):
        starter_gym("hotel")
    with pytest.raises(InputError, match="cannot be read"):
        open_gym("hotel")


def test_a_form_adds_an_item_with_an_id_of_its_own() -> None:
    """A name is enough; the id is made from it and never taken twice."""
    once = with_item(HOME, "stack", {"name": "Leg curl", "start": "5", "step": "5", "top": ""})
    twice = with_item(once, "stack", {"name": "Leg curl", "start": "10", "step": "10"})
    assert isinstance(twice.item("leg_curl"), Stack)
    second = twice.item("leg_curl_2")
    assert isinstance(second, Stack)
    assert second.start == Mass.kg(10)
    assert len(twice.items) == len(HOME.items) + 2


def test_a_known_id_is_replaced() -> None:
    """Correcting an item keeps its id and changes nothing else."""
    changed = with_item(HOME, "bar", {"id": "bar", "name": "Bar", "mass": "15"})
    bar = changed.item("bar")
    assert isinstance(bar, Bar)
    assert bar.mass == Mass.kg(15)
    assert len(changed.items) == len(HOME.items)
    assert changed.plates == HOME.plates


def test_wrong_forms_complain_as_the_file_does() -> None:
    """A form with a slip is refused with field and remedy, and nothing changes."""
    with pytest.raises(InputError, match="mass"):
        with_item(HOME, "bar", {"id": "x", "mass": "heavy"})
    with pytest.raises(InputError, match="not a kind of equipment"):
        with_item(HOME, "trampoline", {"id": "x"})


def test_items_can_be_taken_away() -> None:
    """Removing by id leaves the others; an unknown id offers the nearest."""
    assert without_item(HOME, "bar").item("bar") is None
    with pytest.raises(InputError, match="did you mean “bar”"):
        without_item(HOME, "bra")
    assert item_named(HOME, "bar").kind is EquipmentKind.BARBELL


def count(gym: Gym, mass: str) -> int:
    return sum(plate.pairs for plate in gym.plates if plate.mass == Mass.kg(mass))


def test_plates_are_counted_by_pairs() -> None:
    """Setting a count changes one kind of plate, keeps its size, adds or removes kinds."""
    more = with_plates(HOME, {"mass": "5", "pairs": 4})
    assert count(more, "5") == 4
    assert next(p for p in more.plates if p.mass == Mass.kg(5)).diameter_mm == 230
    assert count(with_plates(HOME, {"mass": "5", "pairs": 0}), "5") == 0
    new = with_plates(HOME, {"mass": "7.5", "pairs": 1})
    masses = [plate.mass for plate in new.plates]
    assert Mass.kg("7.5") in masses
    assert masses == sorted(masses, reverse=True)


def test_small_things_are_tidied() -> None:
    """Empty and repeated names fall away."""
    assert with_small(HOME, [" straps ", "", "straps", "cuff"]).small == ("straps", "cuff")


def test_changes_survive_the_file() -> None:
    """A changed gym is written and read back unchanged."""
    changed = with_small(with_plates(HOME, {"mass": "7.5", "pairs": 1}), ["straps"])
    assert read_gym(render_gym(changed)) == changed


def test_carriers_cover_every_item() -> None:
    """Every item has its carrier: the bar its mass, the half pulley its factor."""
    gym = starter_gym("commercial_kg")
    carriers = carriers_of(gym)
    assert set(carriers) == {item.id for item in gym.items}
    assert carriers["rack_bar"].mass_kg == 20
    assert carriers["cable_tower"].factor == 1 / 2
    assert carriers["leg_extension"].factor == 1


KEY_OF = {kind: key for key, kind in KIND_OF.items()}


@pytest.mark.parametrize("starter", [one.id for one in starter_gyms()])
def test_every_form_filled_in_again_changes_nothing(starter: str) -> None:
    """A form shown with an item's or plate's own values and sent back leaves the gym alone."""
    gym = starter_gym(starter)
    for item in gym.items:
        assert with_item(gym, KEY_OF[item.kind], shown_values(item)).item(item.id) == item
    for plate in gym.plates:
        assert with_plates(gym, shown_values(plate)).plates.count(plate) == 1


@pytest.mark.parametrize("starter", [one.id for one in starter_gyms()])
def test_starters_name_exercises_of_the_catalogue(starter: str) -> None:
    """What a machine is made for is a known exercise."""
    catalogue = read_catalogue()
    for item in starter_gym(starter).items:
        assert all(exercise in catalogue for exercise in item.serves)


@pytest.mark.parametrize("kind", [*KIND_OF, PLATE])
def test_forms_ask_first_what_must_be_known(kind: str) -> None:
    """Required questions come first, none asks for the id, each has a plain label."""
    fields = form_fields(kind)
    needed = [field.required for field in fields]
    assert needed == sorted(needed, reverse=True)
    assert "id" not in {field.key for field in fields}
    assert all("_" not in field.label for field in fields)


def test_texts_become_values() -> None:
    """Whole numbers, yes or no, lists and bands are read from what is typed."""
    assert values_from_form(PLATE, {"mass": "22,5", "pairs": "4", "diameter": " "}) == {
        "mass": "22,5",
        "pairs": 4,
    }
    assert values_from_form("stack", {"label_only": "on", "add_ons": "2.5; 1.25"}) == {
        "label_only": True,
        "add_ons": ["2.5", "1.25"],
    }
    bands = values_from_form("bands", {"band": "red 12 kg\nblack 30"})
    assert bands["band"] == [
        {"name": "red", "tension": "12", "unit": "kg"},
        {"name": "black", "tension": "30"},
    ]
    assert {field.entry for field in form_fields("bar")} >= {Entry.NUMBER, Entry.YES, Entry.LIST}


def test_wrong_texts_are_refused() -> None:
    """Half a pair and a band without its pull are answered with the remedy."""
    with pytest.raises(InputError, match="whole number"):
        values_from_form(PLATE, {"mass": "5", "pairs": "2.5"})
    with pytest.raises(InputError, match="red 12 kg"):
        values_from_form("bands", {"band": "red"})


def test_a_band_keeps_its_spread_through_its_form() -> None:
    """How unsure a pull is goes out and comes back with the band; usual spreads are not said."""
    typed = {"name": "Loops", "band": "red 12 kg ± 0.25; black 20 lb"}
    once = with_item(HOME, "bands", typed)
    spelt = with_item(HOME, "bands", {**typed, "band": "red 12 kg ± 0.25; black 20 lbs"})
    assert spelt == once
    item = item_named(once, "loops")
    assert shown_values(item)["band"] == "red 12 kg ± 0.25; black 20 lb"
    assert with_item(once, "bands", shown_values(item)).item("loops") == item
