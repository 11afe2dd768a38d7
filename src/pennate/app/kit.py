"""A kit for the road as a gym: the floor, what she ticked of her own things, bands at the least."""

from __future__ import annotations

from collections.abc import Set

from pennate.app.gym_page import FLOOR
from pennate.app.gyms import starter_gym
from pennate.core.exercise import EquipmentKind, Fixture
from pennate.core.gym import AnyItem, BandSet, Gym

KIT = "away_kit"
"""Its id: the next trip's kit takes the place of the last one's."""


def kit_gym(kinds: Set[EquipmentKind], fixtures: Set[Fixture], gym: Gym | None) -> Gym:
    """A place with her gym's things of these kinds, and no more than these fixtures.

    Bands she has not described are those of the starter for travel, for her to correct.
    """
    asked = kinds - {EquipmentKind.BODY_WEIGHT}
    items = [item for item in (gym.items if gym else ()) if item.kind in asked and _pulls(item)]
    if EquipmentKind.BANDS in asked - {item.kind for item in items}:
        items += starter_gym("travel").of_kind(EquipmentKind.BANDS)
    plates = gym.plates if gym else ()
    order = tuple(one for one in Fixture if one in fixtures)
    return Gym(
        id=KIT, name="Away, with a kit", plates=plates, items=(*items, FLOOR), fixtures=order
    )


def _pulls(item: AnyItem) -> bool:
    """Whether it is a load; loops that only help are none on the road."""
    return not (isinstance(item, BandSet) and item.assists)
