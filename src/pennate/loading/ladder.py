"""Every load an item can carry, as physical states in ascending order of what is felt."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from itertools import combinations

from pennate.core.exercise import EquipmentKind
from pennate.core.felt import felt_kg
from pennate.core.gym import (
    AnyItem,
    BandSet,
    Bar,
    Gym,
    Ladder,
    Plate,
    Sled,
    Stack,
    carrier_of,
    usual_reading,
)
from pennate.core.loaded import Loaded
from pennate.core.quantities import LoadReading, Mass, Unit
from pennate.loading.effort import body_reference
from pennate.loading.own_unit import in_unit
from pennate.loading.sleeves import fewest_plates, sleeve_of
from pennate.loading.words import say

_MOST_BANDS = 2
"""More than two bands at once are hard to hang and harder to repeat."""


def usual_count(item: AnyItem) -> int:
    """How many alike things are held unless said otherwise: a pair of dumbbells, else one."""
    return 2 if item.kind is EquipmentKind.DUMBBELLS else 1


@lru_cache(maxsize=512)  # number: cache size
def ladder(
    gym: Gym, item: AnyItem, count: int | None = None, unit: Unit | None = None
) -> tuple[Loaded, ...]:
    """The loads she steps through, ascending in felt kilograms, with the fewest plates each.

    `count` is how many dumbbells or kettlebells she holds; None takes the usual number. They
    stay in `unit`, else in the one the gym knows her to use on this item, else in neither.
    """
    own = unit or gym.unit_on(item.id)
    return in_unit(every_load(gym, item, count), own, body_reference(item))


def steps_beside(gym: Gym, item: AnyItem, shown: Loaded) -> tuple[Loaded, ...]:
    """The loads a load is stepped from: in its own unit, where she asked for the other one."""
    unit = shown.unit if gym.unit_on(item.id) else None
    return ladder(gym, item, shown.count, unit)


@lru_cache(maxsize=512)  # number: cache size
def every_load(gym: Gym, item: AnyItem, count: int | None = None) -> tuple[Loaded, ...]:
    """Every loadable load in whatever unit, as `ladder` gives those of hers."""
    sleeve = sleeve_of(gym, item)
    if sleeve is not None:
        states: Iterable[Loaded] = (
            with_plates(item, plates, kg) for kg, plates in fewest_plates(sleeve)
        )
    elif isinstance(item, Ladder):
        many = count or usual_count(item)
        states = (_picked(item, mass, many) for mass in sorted(set(item.masses)))
    elif isinstance(item, Stack):
        states = _stack_states(item)
    elif isinstance(item, BandSet):
        states = _band_states(item)
    else:
        states = (with_plates(item, ()),)
    return _ascending(states)


def _ascending(states: Iterable[Loaded]) -> tuple[Loaded, ...]:
    by_felt: dict[Fraction, Loaded] = {}
    for state in states:
        kept = by_felt.get(state.felt)
        if kept is None or _parts(state) < _parts(kept):
            by_felt[state.felt] = state
    return tuple(by_felt[felt] for felt in sorted(by_felt))


def _parts(state: Loaded) -> int:
    return len(state.plates) + len(state.add_ons) + len(state.bands)


def with_plates(item: AnyItem, plates: tuple[Plate, ...], kg: Fraction | None = None) -> Loaded:
    """The state of an item with these plates on each side (or in its one place).

    `kg` is what they weigh together, where it is known.
    """
    two_sided = isinstance(item, Sled) or (isinstance(item, Bar) and not item.one_end)
    hung = _total(plates, item, kg) * (2 if two_sided else 1)
    reading = usual_reading(item)
    load = hung
    if isinstance(item, Bar) and reading is LoadReading.TOTAL:
        load = item.mass + item.collars + hung if item.collars else item.mass + hung
    return _finish(
        item,
        load,
        reading,
        each_side=plates if two_sided else (),
        single=() if two_sided else plates,
    )


def _total(plates: tuple[Plate, ...], item: AnyItem, kg: Fraction | None) -> Mass:
    """Sum of the plates; nothing is written in the unit of the carrier, or kilograms."""
    if not plates:
        carrier = item.mass if isinstance(item, Bar | Sled) else Mass.kg(0)
        return Mass(Fraction(0), carrier.unit)
    units = {plate.mass.unit for plate in plates}
    if kg is None:
        kg = sum((plate.mass.in_kg for plate in plates), Fraction(0))
    return Mass(kg, Unit.KG).to(units.pop() if len(units) == 1 else Unit.KG)


def _picked(item: Ladder, mass: Mass, count: int) -> Loaded:
    reading = usual_reading(item, count)
    return _finish(item, mass, reading, label=mass, count=count)


def _stack_states(item: Stack) -> Iterable[Loaded]:
    sign = -1 if item.kind is EquipmentKind.ASSISTED else 1
    for rung in item.labels:
        for many in range(len(item.add_ons) + 1):
            for extra in combinations(item.add_ons, many):
                whole = rung
                for mass in extra:
                    whole += mass
                yield _finish(item, whole * sign, LoadReading.LABEL, label=rung, add_ons=extra)
    if item.kind is EquipmentKind.ASSISTED:
        yield _finish(item, Mass(Fraction(0), item.start.unit), LoadReading.LABEL)


def _band_states(item: BandSet) -> Iterable[Loaded]:
    sign = -1 if item.assists else 1
    for many in range(0 if item.assists else 1, _MOST_BANDS + 1):
        for chosen in combinations(item.bands, many):
            pull = Mass.kg(0) if not chosen else chosen[0].tension
            for band in chosen[1:]:
                pull += band.tension
            names = tuple(band.name for band in chosen)
            yield _finish(item, pull * sign, LoadReading.LABEL, bands=names)


def _finish(  # noqa: PLR0913 - one keyword for each physical part of a state
    item: AnyItem,
    load: Mass,
    reading: LoadReading,
    *,
    each_side: tuple[Plate, ...] = (),
    single: tuple[Plate, ...] = (),
    label: Mass | None = None,
    add_ons: tuple[Mass, ...] = (),
    bands: tuple[str, ...] = (),
    count: int = 1,
) -> Loaded:
    felt = felt_kg(None, load.amount, load.unit, reading, Fraction(0), carrier_of(item))
    bare = Loaded(
        item_id=item.id,
        load=load,
        reading=reading,
        felt=felt,
        each_side=each_side,
        single=single,
        label=label,
        add_ons=add_ons,
        bands=bands,
        count=count,
    )
    return replace(bare, words=say(item, bare))
