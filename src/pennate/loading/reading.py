"""The five ways a lifter writes a load down, checked against what the item can carry."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from fractions import Fraction

from pennate.core.exercise import EquipmentKind
from pennate.core.felt import Carrier, felt_kg
from pennate.core.gym import AnyItem, Gym, carrier_of
from pennate.core.loaded import Loaded
from pennate.core.quantities import LoadReading, Mass, Unit, format_number
from pennate.errors import InputError, Where
from pennate.loading.ladder import every_load

_TOLERANCE = Fraction(1, 100) / 2
"""A written load is rounded to hundredths."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A load as written: number, unit, what it counts, and where it stands."""

    amount: Fraction
    unit: Unit
    reading: LoadReading = LoadReading.TOTAL
    where: Where | None = None


def read_load(gym: Gym, item: AnyItem, written: Written, count: int | None = None) -> Loaded:
    """The state that was meant; its `felt_kg` is what the muscle feels.

    A number rounded to hundredths finds its exact load. Raises InputError, naming the
    nearest loads that can be made, where this gym cannot make it.
    """
    felt = felt_kg(
        None, written.amount, written.unit, written.reading, Fraction(0), carrier_of(item)
    )
    rungs = every_load(gym, item, count)
    place = bisect_left(rungs, felt, key=lambda rung: rung.felt)
    around = rungs[max(0, place - 1) : place + 1]
    found = min(around, key=lambda rung: abs(rung.felt - felt))
    if abs(found.felt - felt) <= _TOLERANCE * _stretch(item, written):
        return found
    raise _cannot(item, written, around)


def _stretch(item: AnyItem, written: Written) -> Fraction:
    """How many felt kilograms one written unit is."""
    one = _felt_amount(item, written, Fraction(1)) - _felt_amount(item, written, Fraction(0))
    return abs(one)


def _felt_amount(item: AnyItem, written: Written, amount: Fraction) -> Fraction:
    return felt_kg(None, amount, written.unit, written.reading, Fraction(0), carrier_of(item))


def write_load(felt: Fraction, reading: LoadReading, unit: Unit, carrier: Carrier) -> Mass:
    """The number she would write for a felt load: the inverse of reading it."""
    whole = felt / carrier.factor
    if reading is LoadReading.EACH:
        whole /= 2
    elif reading is LoadReading.SIDE:
        whole = (whole - carrier.mass_kg) / 2
    elif reading is LoadReading.PLATES:
        whole -= carrier.mass_kg
    return Mass(whole, Unit.KG).to(unit)


def _cannot(item: AnyItem, written: Written, around: tuple[Loaded, ...]) -> InputError:
    asked = f"{format_number(written.amount)} {written.unit}"
    near = [
        format_number(write_load(rung.felt, written.reading, written.unit, carrier_of(item)).amount)
        for rung in around
    ]
    counted = "" if written.reading is LoadReading.TOTAL else f" ({written.reading})"
    what = f"{asked}{counted} cannot be made on “{item.name}”; nearest {' and '.join(near)}"
    return InputError(what, written.where, _remedy(item, written))


def _remedy(item: AnyItem, written: Written) -> str:
    helping = item.kind is EquipmentKind.ASSISTED or getattr(item, "assists", False)
    if helping and written.amount > 0:
        return f"help is written with a minus: -{format_number(written.amount)}"
    return "correct the load, or the gym's plates and masses"
