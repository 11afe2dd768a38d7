"""Which plates may go on an item, and the sums they make with the fewest plates each.

All plate counts are per side: a pair gives one plate to each of two sides. Where plates
hang in one place (a belt, a bar with one free end) both plates of a pair may be used.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from pennate.core.gym import AnyItem, Bar, BodyWeight, Gym, Plate, Sled
from pennate.core.quantities import Unit

MOST_ON_BELT = 4
"""Plates on a belt where the inventory does not say: more swing too far to train with."""
MOST_ON_END = 8  # number: bounds the search; a sleeve is full before
"""Plates on the free end of a bar at most."""
MOST_MIXED = 6  # number: bounds the search; two units make tens of thousands of sums
"""Plates of two units on one sleeve at most."""


@dataclass(frozen=True, slots=True)
class Sleeve:
    """Where plates go: how many of each kind per place, in what units, with how much room."""

    plates: tuple[Plate, ...]
    """Heaviest first."""
    caps: tuple[int, ...]
    """How many of each kind one place can have."""
    places: int
    """Two equal sides, or one place."""
    mixed: bool = False
    """Both units may be on at once."""
    room_mm: int | None = None
    most: int | None = None
    own: Unit | None = None
    """The unit she loads this place in; the other one only where it has no load near."""

    def without(self, taken: Sequence[Plate]) -> Sleeve:
        """The same place with some plates in use elsewhere (pairs, or single plates)."""
        left = list(self.caps)
        for plate in taken:
            index = self.plates.index(plate) if plate in self.plates else None
            if index is not None:
                left[index] = max(0, left[index] - 1)
        return self.capped(tuple(left))

    def capped(self, caps: tuple[int, ...]) -> Sleeve:
        """The same place with other counts."""
        return replace(self, caps=caps)

    def including(self, on: Sequence[Plate]) -> Sleeve:
        """The same place with room for the plates that are on it already."""
        new = [plate for plate in dict.fromkeys(on) if plate not in self.plates]
        plates = (*self.plates, *new)
        caps = (*self.caps, *(0 for _ in new))
        caps = tuple(max(cap, on.count(kind)) for cap, kind in zip(caps, plates, strict=True))
        thick = sum(plate.thickness_mm or 0 for plate in on)
        room = None if self.room_mm is None else max(self.room_mm, thick)
        most = None if self.most is None else max(self.most, len(on))
        return replace(self, plates=plates, caps=caps, room_mm=room, most=most)

    def only(self, kept: tuple[int, ...]) -> Sleeve:
        """The same place with these kinds of plates alone."""
        plates = tuple(self.plates[index] for index in kept)
        caps = tuple(self.caps[index] for index in kept)
        return replace(self, plates=plates, caps=caps)

    @property
    def groups(self) -> tuple[tuple[int, ...], ...]:
        """Indices of plates that may be on together."""
        everything = tuple(index for index, cap in enumerate(self.caps) if cap > 0)
        if self.mixed:
            return (everything,)
        by_unit = (tuple(i for i in everything if self.plates[i].mass.unit is u) for u in Unit)
        return tuple(group for group in by_unit if group)


def sleeve_of(gym: Gym, item: AnyItem) -> Sleeve | None:
    """Where plates go on this item; None when it takes none."""
    found = _sleeve_of(gym, item)
    return found and replace(found, own=gym.unit_on(item.id))


def _sleeve_of(gym: Gym, item: AnyItem) -> Sleeve | None:
    plates = tuple(sorted(gym.plates, key=lambda plate: plate.mass.in_kg, reverse=True))
    if isinstance(item, Sled):
        return Sleeve(plates, tuple(plate.pairs for plate in plates), 2)
    if isinstance(item, BodyWeight) and item.belt:
        caps = tuple(2 * plate.pairs for plate in plates)
        return Sleeve(plates, caps, 1, most=item.most_on_belt or MOST_ON_BELT)
    if isinstance(item, Bar):
        return _bar_sleeve(plates, item)
    return None


def _bar_sleeve(plates: tuple[Plate, ...], item: Bar) -> Sleeve:
    kept = tuple(p for p in plates if not item.units or p.mass.unit in item.units)
    places = 1 if item.one_end else 2
    caps = tuple(2 * plate.pairs if item.one_end else plate.pairs for plate in kept)
    mixed = len(set(item.units)) > 1
    most = MOST_MIXED if mixed else MOST_ON_END if item.one_end else None
    return Sleeve(kept, caps, places, mixed=mixed, room_mm=item.sleeve_mm, most=most)


@dataclass(frozen=True, slots=True)
class _Heap:
    """A way to make a sum: how many plates, how thick, how many of each kind."""

    size: int
    thick: int
    counts: tuple[int, ...]


@lru_cache(maxsize=256)  # number: cache size
def fewest_plates(sleeve: Sleeve) -> tuple[tuple[Fraction, tuple[Plate, ...]], ...]:
    """Every mass one place can carry, ascending, made of the fewest plates that fit.

    Plates are given heaviest first. A bounded subset-sum that keeps, for each sum, the
    ways not beaten in both count and thickness.
    """
    best: dict[int, _Heap] = {}
    scale = math.lcm(1, *(plate.mass.in_kg.denominator for plate in sleeve.plates))
    for group in sleeve.groups or ((),):
        for total, heaps in _sums(sleeve, group, scale).items():
            found = min(heaps, key=lambda heap: heap.size)
            if total not in best or found.size < best[total].size:
                best[total] = found
    return tuple(
        (Fraction(total, scale), _spread(sleeve, best[total].counts)) for total in sorted(best)
    )


def _sums(sleeve: Sleeve, group: tuple[int, ...], scale: int) -> dict[int, list[_Heap]]:
    reached = {0: [_Heap(0, 0, (0,) * len(sleeve.plates))]}
    for index in group:
        plate = sleeve.plates[index]
        step, thick = int(plate.mass.in_kg * scale), plate.thickness_mm or 0
        grown: dict[int, list[_Heap]] = {}
        for total, heaps in reached.items():
            for many in range(sleeve.caps[index] + 1):
                for heap in heaps:
                    taller = _taller(heap, index, many, thick)
                    if _fits(sleeve, taller):
                        _keep(grown.setdefault(total + many * step, []), taller)
        reached = {total: heaps for total, heaps in grown.items() if heaps}
    return reached


def _taller(heap: _Heap, index: int, many: int, thick: int) -> _Heap:
    counts = (*heap.counts[:index], many, *heap.counts[index + 1 :])
    return _Heap(heap.size + many, heap.thick + many * thick, counts)


def _fits(sleeve: Sleeve, heap: _Heap) -> bool:
    roomy = sleeve.room_mm is None or heap.thick <= sleeve.room_mm
    return roomy and (sleeve.most is None or heap.size <= sleeve.most)


def _keep(heaps: list[_Heap], new: _Heap) -> None:
    if any(old.size <= new.size and old.thick <= new.thick for old in heaps):
        return
    heaps[:] = [old for old in heaps if old.size < new.size or old.thick < new.thick] + [new]


def _spread(sleeve: Sleeve, counts: tuple[int, ...]) -> tuple[Plate, ...]:
    return tuple(
        plate for plate, many in zip(sleeve.plates, counts, strict=True) for _ in range(many)
    )
