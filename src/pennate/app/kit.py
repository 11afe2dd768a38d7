"""A kit for the road as a gym: the floor, what she ticked of her own things, bands at the least."""

from __future__ import annotations

import re
from collections.abc import Set
from dataclasses import replace
from datetime import date
from pathlib import Path

from pennate.app.gym_page import FLOOR, another
from pennate.app.gyms import KIT, starter_gym
from pennate.core.exercise import EquipmentKind, Fixture
from pennate.core.gym import AnyItem, BandSet, Bar, Gym, Plate, Sled

_LENT_BY = ("travel", "home", "commercial_kg")
"""Starters that lend what she has not described, the smallest first."""
_ROAD = "on_the_road"


def kit_gym(
    kinds: Set[EquipmentKind], fixtures: Set[Fixture], gym: Gym | None, on: date | None = None
) -> Gym:
    """A place with her gym's things of these kinds, and no more than these fixtures.

    Of a kind she has not described it has those of a starter, for her to correct. A machine
    there is another than hers, known by the day the kit was told: what is done on it says nothing
    of hers, nor hers of it.
    """
    asked = kinds - {EquipmentKind.BODY_WEIGHT}
    items = [item for item in (gym.items if gym else ()) if item.kind in asked and _pulls(item)]
    plates = gym.plates if gym else ()
    for kind in sorted(asked - {item.kind for item in items}):
        lent, their_plates = _lent(kind)
        items += lent
        plates = plates or their_plates
    items = [_away(item, on) for item in items]
    order = tuple(one for one in Fixture if one in fixtures)
    return Gym(
        id=KIT, name="Away, with a kit", plates=plates, items=(*items, FLOOR), fixtures=order
    )


def _away(item: AnyItem, on: date | None) -> AnyItem:
    """A machine of the road, by id and name; one of this trip already, and iron, as it is."""
    if item.id.startswith(_ROAD):
        return item
    there = another(item, f"{_ROAD}_{on:%Y_%m_%d}" if on else _ROAD)
    return item if there is item else replace(there, name=f"{item.name}, away")


def kit_beside(week_file: Path, kit: Gym) -> tuple[Gym, Path]:
    """The kit under a name of its own, and its file beside the week's: `trip_kit.toml`."""
    name = "_".join([*re.findall("[a-z0-9]+", week_file.stem.casefold()), "kit"])
    return replace(kit, id=name), week_file.with_name(f"{name}.toml")


def _lent(kind: EquipmentKind) -> tuple[tuple[AnyItem, ...], tuple[Plate, ...]]:
    """The items of a kind in the first starter that has some, with the plates they take."""
    for starter in map(starter_gym, _LENT_BY):
        if items := tuple(item for item in starter.of_kind(kind) if _pulls(item)):
            loaded = any(isinstance(item, Bar | Sled) for item in items)
            return items, starter.plates if loaded else ()
    return (), ()


def _pulls(item: AnyItem) -> bool:
    """Whether it is a load; loops that only help are none on the road."""
    return not (isinstance(item, BandSet) and item.assists)
