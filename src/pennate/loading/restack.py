"""A load on the plates that are on already: what comes off and goes on, as little as can be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from pennate.core.gym import AnyItem, Gym, Plate
from pennate.core.loaded import Loaded
from pennate.loading.ladder import with_plates
from pennate.loading.sleeves import Sleeve, fewest_plates, sleeve_of
from pennate.loading.solve import plates_moved


def restacked(gym: Gym, item: AnyItem, load: Loaded, on: Sequence[Plate]) -> Loaded:
    """The same load with the fewest plates moved from those `on`, inner to outer.

    What takes no plates, or is not made of these, stays as it is.
    """
    sleeve = sleeve_of(gym, item)
    if sleeve is None or not on:
        return load
    whole, wanted = sleeve.including(on), _mass(load.plates)
    best, fewest = load.plates, plates_moved(tuple(on), load.plates)
    for kept in range(len(on), 0, -1):
        inner = tuple(on[:kept])
        more = _made(_above(whole, inner), wanted - _mass(inner))
        if more is not None and (moves := len(on) - kept + len(more)) < fewest:
            best, fewest = (*inner, *more), moves
    return load if best == load.plates else with_plates(item, best)


def _mass(plates: Sequence[Plate]) -> Fraction:
    return sum((plate.mass.in_kg for plate in plates), Fraction(0))


def _above(sleeve: Sleeve, inner: Sequence[Plate]) -> Sleeve:
    """What still fits outside these plates, of their unit unless both may be mixed."""
    left = sleeve.without(inner)
    unit = inner[0].mass.unit
    kinds = enumerate(left.plates)
    kept = tuple(i for i, plate in kinds if sleeve.mixed or plate.mass.unit is unit)
    thick = sum(plate.thickness_mm or 0 for plate in inner)
    only = left.only(kept)
    return replace(
        only,
        room_mm=None if only.room_mm is None else only.room_mm - thick,
        most=None if only.most is None else only.most - len(inner),
    )


def _made(sleeve: Sleeve, wanted: Fraction) -> tuple[Plate, ...] | None:
    """The fewest plates of this mass; None where they cannot make it."""
    if wanted < 0:
        return None
    return next((plates for mass, plates in fewest_plates(sleeve) if mass == wanted), None)
