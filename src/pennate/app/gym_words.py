"""What the things of a gym hold, in a lifter's words."""

from __future__ import annotations

from pennate.core.gym import AnyItem, BandSet, Bar, Ladder, Sled, Stack
from pennate.core.quantities import Mass, format_number


def holds(item: AnyItem) -> str:
    """What can be put on an item or taken from it, in a line."""
    if isinstance(item, Bar | Sled):
        return _carrier(item)
    if isinstance(item, Ladder):
        return f"{_ends(item.masses[0], item.masses[-1])}, {len(item.masses)} to pick from"
    if isinstance(item, Stack):
        return _stack(item)
    if isinstance(item, BandSet):
        way = "helping: " if item.assists else ""
        return way + ", ".join(f"{band.name} {_mass(band.tension)}" for band in item.bands)
    return "body weight, plates on a belt" if item.belt else "body weight"


def _carrier(item: Bar | Sled) -> str:
    if item.label_only:
        return "own mass unknown, plates"
    words = f"{_mass(item.mass)}, plates" if item.mass else "plates"
    if isinstance(item, Sled) and item.angle_deg is not None:
        return f"{words}, rails at {format_number(item.angle_deg)}°"
    return f"{words} on one end" if isinstance(item, Bar) and item.one_end else words


def _stack(item: Stack) -> str:
    words = f"{_ends(item.start, item.labels[-1])} by {format_number(item.step.amount)}"
    if item.ratio != 1:
        words += f", felt × {format_number(item.ratio)}"
    return f"{words}, numbers of its own" if item.label_only else words


def _ends(low: Mass, high: Mass) -> str:
    if low.unit is high.unit:
        return f"{format_number(low.amount)}–{_mass(high)}"
    return f"{_mass(low)} to {_mass(high)}"


def _mass(mass: Mass) -> str:
    return f"{format_number(mass.amount)} {mass.unit}"
