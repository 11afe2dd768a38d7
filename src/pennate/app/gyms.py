"""Places to train: starter gyms, changes of a gym from a form, and loads on its equipment.

A gym travels as plain values shaped like the gym file (`gym_values`), so that a form, a file
and another program all pass through the same checks and get the same complaints.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from pennate.app.gym_forms import PLATE, values_from_form
from pennate.core.exercise import Fixture
from pennate.core.felt import Carrier
from pennate.core.gym import AnyItem, Gym, carrier_of
from pennate.core.near import did_you_mean, nearest, offered
from pennate.errors import InputError, Where
from pennate.files.gym import KIND_OF, gym_from, read_gym
from pennate.files.gym_text import gym_values, render_gym

STARTER_ORDER = ("commercial_kg", "commercial_kg_lb", "home", "travel")
LIKE_A_STARTER = 0.75
"""Likeness from which a name is a mistyped starter, and not another place."""
KIT = "away_kit"
"""Id of the gym that is a kit for the road: the next trip's takes the place of the last one's."""
__all__ = [
    "KIND_OF",
    "KIT",
    "STARTER_ORDER",
    "StarterGym",
    "carriers_of",
    "gym_from",
    "gym_values",
    "item_named",
    "open_gym",
    "read_gym",
    "render_gym",
    "starter_gym",
    "starter_gyms",
    "with_fixtures",
    "with_item",
    "with_plates",
    "with_small",
    "without_item",
]


@dataclass(frozen=True, slots=True)
class StarterGym:
    """A gym to begin with and to correct: its file, and what is in it in a line."""

    id: str
    name: str
    holds: str
    text: str


@cache
def starter_gyms() -> tuple[StarterGym, ...]:
    """All starter gyms, largest first, then home and travel."""
    return tuple(_starter(one) for one in STARTER_ORDER)


def _starter(gym_id: str) -> StarterGym:
    path = files("pennate") / "data" / "gyms" / f"{gym_id}.toml"
    text = path.read_text(encoding="utf-8")
    gym = read_gym(text, name=f"{gym_id}.toml")
    return StarterGym(gym_id, gym.name, _holds(gym), text)


def _holds(gym: Gym) -> str:
    kinds = list(dict.fromkeys(item.kind.value for item in gym.items))
    plates = f"{sum(plate.pairs for plate in gym.plates)} pairs of plates"
    return ", ".join([*kinds, plates] if gym.plates else kinds)


def starter_gym(gym_id: str) -> Gym:
    """The starter gym with this id; raises InputError naming the ids."""
    for one in starter_gyms():
        if one.id == gym_id:
            return read_gym(one.text, name=f"{gym_id}.toml")
    ids = ", ".join(STARTER_ORDER)
    raise InputError(f"there is no starter gym “{gym_id}”", remedy=f"one of: {ids}")


def open_gym(named: str) -> Gym:
    """The gym in a file, or the starter gym of this id.

    Raises InputError where it is neither, or the file is wrong.
    """
    if named in STARTER_ORDER and not Path(named).exists():
        return starter_gym(named)
    near = nearest(named, STARTER_ORDER, least=LIKE_A_STARTER)
    if near and not Path(named).exists():
        raise InputError(f"there is no gym “{named}”", remedy=offered(near, ""))
    return read_gym(Path(named))


def carriers_of(gym: Gym) -> dict[str, Carrier]:
    """What the plates of each item hang on, by item id: the bar, the sled, the pulley."""
    return {item.id: carrier_of(item) for item in gym.items}


def item_named(gym: Gym, item_id: str, where: Where | None = None) -> AnyItem:
    """The item with this id; raises InputError offering the nearest ids."""
    item = gym.item(item_id)
    if item is None:
        ids = [one.id for one in gym.items]
        remedy = did_you_mean(item_id, ids, f"known here: {', '.join(ids) or 'nothing yet'}")
        raise InputError(f"“{gym.name}” has no “{item_id}”", where, remedy)
    return item


def with_item(gym: Gym, kind: str, fields: Mapping[str, Any]) -> Gym:
    """The gym with an item added, or replaced where its id is known already.

    `kind` is the key of its table in the gym file (see `KIND_OF`), `fields` its keys with
    texts as typed (`app.gym_forms`) or values as in the file; without a unit they are
    kilograms. Without an id it gets one from its name. Raises InputError as the file would.
    """
    given = values_from_form(kind, fields)
    given.setdefault("id", _free_id(gym, str(given.get("name", kind))))
    values: dict[str, Any] = gym_values(gym)
    rows = [row for row in values.get(kind, []) if row["id"] != given["id"]]
    for other in KIND_OF:
        values[other] = [row for row in values.get(other, []) if row["id"] != given["id"]]
    values[kind] = [*rows, given]
    return gym_from(values)


def _free_id(gym: Gym, name: str) -> str:
    letters = "".join(char if char.isalnum() else "_" for char in name.casefold().strip())
    base = "_".join(part for part in letters.split("_") if part)[:50] or "item"
    taken = {item.id for item in gym.items}
    numbered = (f"{base}_{place}" for place in range(2, len(taken) + 3))
    return base if base not in taken else next(one for one in numbered if one not in taken)


def without_item(gym: Gym, item_id: str) -> Gym:
    """The gym without this item; raises InputError where it has none of this id."""
    gone = item_named(gym, item_id)
    kept = tuple(item for item in gym.items if item is not gone)
    return replace(gym, items=kept)


def with_plates(gym: Gym, fields: Mapping[str, Any]) -> Gym:
    """The gym with this many pairs of a kind of plate; none takes the kind away.

    `fields` are the keys of a `[[plate]]` table. Raises InputError as the file would.
    """
    given = values_from_form(PLATE, fields)
    values: dict[str, Any] = gym_values(gym)
    new = gym_from({"id": gym.id, "plate": [given]}).plates[0]
    same = [plate.mass == new.mass and plate.mass.unit is new.mass.unit for plate in gym.plates]
    rows: list[Any] = values.get("plate", [])
    kept = [row for row, match in zip(rows, same, strict=True) if not match]
    if new.pairs > 0:
        old = [row for row, match in zip(rows, same, strict=True) if match]
        kept.append({**(old[0] if old else {}), **given})
    return gym_from({**values, "plate": _heaviest_first(kept)})


def _heaviest_first(rows: Sequence[Mapping[str, Any]]) -> list[Mapping[str, Any]]:
    masses = [gym_from({"plate": [dict(row)]}).plates[0].mass for row in rows]
    order = sorted(range(len(rows)), key=lambda place: masses[place], reverse=True)
    return [rows[place] for place in order]


def with_small(gym: Gym, names: Sequence[str]) -> Gym:
    """The gym with these small things: straps, cuffs, belts, benches, mats."""
    tidy = dict.fromkeys(name.strip() for name in names if name.strip())
    return gym_from({**gym_values(gym), "small": list(tidy)})


def with_fixtures(gym: Gym, words: Collection[str]) -> Gym:
    """The gym with these to hang from, lie on and step on, and no others.

    Raises InputError as the file would.
    """
    order = [one.value for one in Fixture]
    told = sorted(words, key=lambda word: order.index(word) if word in order else len(order))
    return gym_from({**gym_values(gym), "fixtures": told})
