"""The gym file: TOML that lists the bars, plates, dumbbells, stacks and bands of a place."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from pathlib import Path
from types import MappingProxyType
from typing import Any

from pennate.core.exercise import EquipmentKind
from pennate.core.gym import (
    AnyItem,
    Band,
    BandSet,
    Bar,
    BodyWeight,
    Gym,
    Ladder,
    Plate,
    Sled,
    Stack,
)
from pennate.core.quantities import Mass, Unit
from pennate.files.gym_tables import (
    BandsTable,
    BarTable,
    BodyWeightTable,
    GuidedBarTable,
    GymTable,
    ItemTable,
    Measured,
    PickTable,
    PlateTable,
    SledTable,
    StackTable,
)
from pennate.files.toml import At, TomlFile, checked, read_toml

WHEN_EMPTY = 'begin with a [[bar]]: id = "bar", mass = 20, unit = "kg"'
USUAL_STEPS = 30
"""Pin places assumed above the start of a stack whose top is not given."""

MOST_STEPS = 200
"""More pin places than any stack has."""

KIND_OF = {
    "bar": EquipmentKind.BARBELL,
    "guided_bar": EquipmentKind.GUIDED_BAR,
    "dumbbells": EquipmentKind.DUMBBELLS,
    "fixed_barbells": EquipmentKind.FIXED_BARBELLS,
    "kettlebells": EquipmentKind.KETTLEBELLS,
    "stack": EquipmentKind.STACK,
    "cable": EquipmentKind.CABLE,
    "sled": EquipmentKind.SLED,
    "plate_loaded": EquipmentKind.PLATE_LOADED,
    "bands": EquipmentKind.BANDS,
    "assisted": EquipmentKind.ASSISTED,
    "body_weight": EquipmentKind.BODY_WEIGHT,
}
"""The key of each table of items, in the order they are kept, and what it makes."""


def read_gym(source: Path | str, *, name: str = "") -> Gym:
    """The gym in a file, or in text; `name` is what complaints call it.

    Raises InputError naming file, line, field, slip and remedy.
    """
    return _gym_in(read_toml(source, name=name, when_empty=WHEN_EMPTY))


def gym_from(values: Mapping[str, Any], *, name: str = "") -> Gym:
    """The gym in plain values shaped like the file, for example from a form.

    Raises InputError naming field, slip and remedy.
    """
    return _gym_in(TomlFile(name, values, {}))


def _gym_in(file: TomlFile) -> Gym:
    table, top = checked(GymTable, file), At(file)
    _refuse_twins(table, top)
    items = tuple(
        _item(key, entry, table.unit, top.down(key, place)) for key, place, entry in _entries(table)
    )
    plates = tuple(_plate(plate, table.unit) for plate in table.plates)
    if not items and not plates:
        raise top.error("this gym has nothing in it", WHEN_EMPTY)
    return Gym(
        id=table.id,
        name=table.name or _title(table.id),
        plates=plates,
        items=items,
        small=tuple(table.small),
        fixtures=None if table.fixtures is None else tuple(dict.fromkeys(table.fixtures)),
    )


def _entries(table: GymTable) -> Iterator[tuple[str, int, ItemTable]]:
    """Every item with the key of its table and its place there."""
    fields = {field.alias or name: name for name, field in GymTable.model_fields.items()}
    for key in KIND_OF:
        for place, entry in enumerate(getattr(table, fields[key])):
            yield key, place, entry


def _refuse_twins(table: GymTable, top: At) -> None:
    seen: set[str] = set()
    for key, place, entry in _entries(table):
        if entry.id in seen:
            at = top.down(key, place, "id")
            raise at.error(f"“{entry.id}” is there twice", "give each item an id of its own")
        seen.add(entry.id)


def _title(word: str) -> str:
    text = word.replace("_", " ").replace("-", " ")
    return text[:1].upper() + text[1:]


def _mass(amount: Fraction, *unit_from: Measured | Unit) -> Mass:
    """A mass in the unit of the first of these that names one; the gym's unit comes last."""
    for source in unit_from:
        unit = source if isinstance(source, Unit) else source.unit
        if unit is not None:
            return Mass(amount, unit)
    raise ValueError("no unit at all")  # the gym always has one


def _plate(table: PlateTable, unit: Unit) -> Plate:
    mass = _mass(table.mass, table, unit)
    return Plate(mass, table.pairs, table.diameter, table.competition, table.thickness)


def _item(key: str, table: ItemTable, unit: Unit, at: At) -> AnyItem:
    common = {
        "id": table.id,
        "name": table.name or _title(table.id),
        "kind": KIND_OF[key],
        "station": table.station,
        "zone": table.zone,
        "safeties": table.safeties,
        "serves": tuple(table.serves),
    }
    if isinstance(table, StackTable):
        return _stack(table, common, unit, at)
    return _PLAIN[type(table)](table, common, unit)


def _stack(table: StackTable, common: dict[str, Any], unit: Unit, at: At) -> Stack:
    top = table.start + USUAL_STEPS * table.step if table.top is None else table.top
    if top < table.start:
        raise at.down("top").error("the top lies below the start", "check which label is which")
    if (top - table.start) / table.step > MOST_STEPS:
        remedy = "check start, step and top"
        raise at.down("step").error(f"this stack has more than {MOST_STEPS} pin places", remedy)
    return Stack(
        **common,
        start=_mass(table.start, table, unit),
        step=_mass(table.step, table, unit),
        top=_mass(top, table, unit),
        add_ons=tuple(_mass(one, table, unit) for one in table.add_ons),
        ratio=table.ratio,
        label_only=table.label_only,
    )


def _bar(table: BarTable, common: dict[str, Any], unit: Unit) -> Bar:
    return Bar(
        **common,
        mass=_mass(table.mass, table, unit),
        collars=_mass(table.collars, table, unit),
        sleeve_mm=table.sleeve,
        shape=table.shape,
        units=tuple(table.units),
        one_end=table.one_end,
    )


def _guided_bar(table: GuidedBarTable, common: dict[str, Any], unit: Unit) -> Bar:
    return Bar(
        **common,
        mass=_mass(table.start, table, unit),
        units=tuple(table.units),
        label_only=table.label_only,
    )


def _picks(table: PickTable, common: dict[str, Any], unit: Unit) -> Ladder:
    return Ladder(**common, masses=tuple(_mass(mass, table, unit) for mass in table.masses))


def _sled(table: SledTable, common: dict[str, Any], unit: Unit) -> Sled:
    return Sled(
        **common,
        mass=_mass(table.mass, table, unit),
        angle_deg=table.angle,
        label_only=table.label_only,
    )


def _bands(table: BandsTable, common: dict[str, Any], unit: Unit) -> BandSet:
    bands = tuple(
        Band(band.name, _mass(band.tension, band, table, unit), band.spread) for band in table.bands
    )
    return BandSet(**common, bands=bands, assists=table.assists)


def _body_weight(table: BodyWeightTable, common: dict[str, Any], _: Unit) -> BodyWeight:
    return BodyWeight(**common, belt=table.belt, most_on_belt=table.most_on_belt)


_PLAIN: Mapping[type[ItemTable], Callable[..., AnyItem]] = MappingProxyType(
    {
        BarTable: _bar,
        GuidedBarTable: _guided_bar,
        PickTable: _picks,
        SledTable: _sled,
        BandsTable: _bands,
        BodyWeightTable: _body_weight,
    }
)
