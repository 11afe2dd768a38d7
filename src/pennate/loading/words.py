"""What to put on, in words that can be read out."""

from __future__ import annotations

from pennate.core.exercise import EquipmentKind
from pennate.core.gym import AnyItem, BandSet, Bar, BarShape, Ladder, Plate, Sled, Stack
from pennate.core.loaded import Loaded
from pennate.core.quantities import Mass, format_number

_NAMES = {
    EquipmentKind.DUMBBELLS: ("dumbbell", "dumbbells"),
    EquipmentKind.KETTLEBELLS: ("kettlebell", "kettlebells"),
    EquipmentKind.FIXED_BARBELLS: ("fixed barbell", "fixed barbells"),
}
_NUMBERS = {1: "one", 2: "two"}


def bare_or_with_units(masses: tuple[Mass, ...], carrier: Mass | None) -> str:
    """Masses in a row; units are said only where they are not all the carrier's."""
    units = {mass.unit for mass in masses} | ({carrier.unit} if carrier else set())
    if len(units) == 1:
        return ", ".join(format_number(mass.amount, 3) for mass in masses)
    return ", ".join(str(mass) for mass in masses)


def plates_words(plates: tuple[Plate, ...], carrier: Mass | None) -> str:
    """The plates inner to outer."""
    text = bare_or_with_units(tuple(plate.mass for plate in plates), carrier)
    if carrier is None and len({plate.mass.unit for plate in plates}) == 1:
        return f"{text} {plates[0].mass.unit}"
    return text


def say(item: AnyItem, loaded: Loaded) -> str:
    """The physical state in words: “20 kg bar, each side: 15, 5, 1.25”."""
    if isinstance(item, Bar | Sled):
        return _plates_on(item, loaded)
    if isinstance(item, Ladder):
        return _picked(item, loaded)
    if isinstance(item, Stack):
        return _pin(item, loaded)
    if isinstance(item, BandSet):
        return _bands(item, loaded)
    if not loaded.single:
        return "body weight alone"
    return f"body weight, on the belt: {plates_words(loaded.single, None)}"


def _plates_on(item: Bar | Sled, loaded: Loaded) -> str:
    carrier = None if item.label_only or not item.mass else item.mass
    name = _carrier_name(item)
    head = f"{carrier} {name}" if carrier else name
    if isinstance(item, Bar) and item.collars and not item.label_only:
        head += f" with {item.collars} of collars"
    if not loaded.plates:
        return f"{head}, empty"
    where = "on the free end" if loaded.single else "each side"
    return f"{head}, {where}: {plates_words(loaded.plates, carrier)}"


def _carrier_name(item: Bar | Sled) -> str:
    if isinstance(item, Sled):
        return "sled" if item.kind is EquipmentKind.SLED else "machine"
    if item.kind is EquipmentKind.GUIDED_BAR:
        return "guided bar"
    return {BarShape.STRAIGHT: "bar"}.get(item.shape, f"{item.shape} bar")


def _picked(item: Ladder, loaded: Loaded) -> str:
    one, many = _NAMES.get(item.kind, ("piece", "pieces"))
    mass = loaded.label or loaded.load
    name = one if loaded.count == 1 else many
    return f"{_NUMBERS.get(loaded.count, str(loaded.count))} {name} of {mass}"


def _pin(item: Stack, loaded: Loaded) -> str:
    if loaded.label is None:
        return "no help"
    label = loaded.label
    text = f"pin at {format_number(label.amount, 3) if item.label_only else label}"
    if loaded.add_ons:
        text += f" with {' and '.join(str(mass) for mass in loaded.add_ons)} added on"
    return f"{text}, taken off your body weight" if item.kind is EquipmentKind.ASSISTED else text


def _bands(item: BandSet, loaded: Loaded) -> str:
    if not loaded.bands:
        return "no band"
    text = f"{'band' if len(loaded.bands) == 1 else 'bands'}: {' and '.join(loaded.bands)}"
    return f"{text}, helping" if item.assists else text
