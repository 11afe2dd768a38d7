"""The loads next to the one shown, on the same item."""

from __future__ import annotations

from pennate.core.card import CardSet, CardStop
from pennate.core.evidence.session import PAIN_LOAD_SHARE
from pennate.core.gym import Gym
from pennate.core.loaded import Loaded
from pennate.core.quantities import Unit, exact_text, parse_number
from pennate.errors import InputError, Where
from pennate.loading import Written, read_load, steps_beside
from pennate.web.views.floor import Around


def around(gym: Gym | None, stop: CardStop, one: CardSet, at: str = "") -> Around:
    """The load of the set, or the one she went to (`at`, like “57.5 kg”), and its neighbours.

    Raises InputError when `at` is no load of this item.
    """
    if gym is None or stop.item is None or one.load is None:
        return Around(one.load)
    rungs = steps_beside(gym, stop.item, one.load)
    here = _moved_to(gym, stop, one.load, at) if at else one.load
    lighter = [rung for rung in rungs if rung.felt < here.felt]
    heavier = [rung for rung in rungs if rung.felt > here.felt]
    return Around(
        here=here,
        lighter=lighter[-1] if lighter else None,
        heavier=heavier[0] if heavier else None,
        by_hand=here.felt != one.load.felt,
    )


def spared(gym: Gym | None, stop: CardStop, one: CardSet, body_kg: float) -> str:
    """The load at which a joint that hurts at 3 to 5 is spared, as an address takes it.

    The heaviest of the item that asks a fifth less of all that is moved, `body_kg` (kg) with
    it, else its lightest; empty where nothing is lighter.
    """
    if gym is None or stop.item is None or one.load is None:
        return ""
    most = (one.load.felt_kg + body_kg) * PAIN_LOAD_SHARE - body_kg
    rungs = steps_beside(gym, stop.item, one.load)
    lighter = [rung for rung in rungs if rung.felt < one.load.felt]
    found = next((rung for rung in reversed(lighter) if rung.felt_kg <= most), None)
    if found is None and not lighter:
        return ""
    load = (found or lighter[0]).load
    return f"{exact_text(load.amount)} {load.unit}"


def _moved_to(gym: Gym, stop: CardStop, shown: Loaded, at: str) -> Loaded:
    number, _, unit = at.partition(" ")
    if unit not in set(Unit) or stop.item is None:
        raise InputError(f"“{at[:20]}” is not a load", Where(field="load"), "write it like 42.5 kg")
    written = Written(amount=parse_number(number), unit=Unit(unit), reading=shown.reading)
    return read_load(gym, stop.item, written, shown.count)
