"""The loads next to the one shown, on the same item."""

from __future__ import annotations

from pennate.core.card import CardSet, CardStop
from pennate.core.gym import Gym
from pennate.core.loaded import Loaded
from pennate.core.quantities import Unit, parse_number
from pennate.errors import InputError, Where
from pennate.loading import Written, ladder, read_load
from pennate.web.views.floor import Around


def around(gym: Gym | None, stop: CardStop, one: CardSet, at: str = "") -> Around:
    """The load of the set, or the one she went to (`at`, like “57.5 kg”), and its neighbours.

    Raises InputError when `at` is no load of this item.
    """
    if gym is None or stop.item is None or one.load is None:
        return Around(one.load)
    rungs = ladder(gym, stop.item, one.load.count)
    here = _moved_to(gym, stop, one.load, at) if at else one.load
    lighter = [rung for rung in rungs if rung.felt < here.felt]
    heavier = [rung for rung in rungs if rung.felt > here.felt]
    return Around(
        here=here,
        lighter=lighter[-1] if lighter else None,
        heavier=heavier[0] if heavier else None,
        by_hand=here.felt != one.load.felt,
    )


def _moved_to(gym: Gym, stop: CardStop, shown: Loaded, at: str) -> Loaded:
    number, _, unit = at.partition(" ")
    if unit not in set(Unit) or stop.item is None:
        raise InputError(f"“{at[:20]}” is not a load", Where(field="load"), "write it like 42.5 kg")
    written = Written(amount=parse_number(number), unit=Unit(unit), reading=shown.reading)
    return read_load(gym, stop.item, written, shown.count)
