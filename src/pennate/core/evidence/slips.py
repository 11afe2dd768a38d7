"""Bounds beyond which a logged value is asked about; none of them refuses anything."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pennate.core.evidence.register import Status, constant
from pennate.core.exercise import EquipmentKind

_SOURCE = "wide enough for strong lifters, narrow enough for a digit too many"


def _bound(name: str, value: float, unit: str, used_for: str) -> float:
    return constant(
        f"slip.{name}",
        value,
        unit,
        low=value / 2,
        high=value * 2,
        status=Status.OUR_CHOICE,
        source=_SOURCE,
        used_for=used_for,
    )


SLIP_HIGH = _bound("high_ratio", 3.0, "×", "load against the median of the sets around it")
SLIP_LOW = _bound("low_ratio", 5.0, "×", "load below the median of the sets around it")
SLIP_NEIGHBOURS = _bound("neighbours", 4.0, "sets", "sets looked at on either side")
SLIP_MIN_NEIGHBOURS = _bound("min_neighbours", 3.0, "sets", "fewest sets that can be compared with")
SLIP_STEADY = _bound("steady_ratio", 1.3, "×", "sets this alike show a pound taken for a kilogram")
SLIP_UNIT_TOLERANCE = _bound(
    "unit_tolerance", 0.03, "–", "how near a ratio is to that of the units"
)
SLIP_REPS = _bound("reps", 100.0, "reps", "reps of one set")
SLIP_REPS_RATIO = _bound("reps_ratio", 5.0, "×", "reps against the median of the sets around")
SLIP_REPS_FLOOR = _bound("reps_floor", 30.0, "reps", "fewer reps are never compared")
SLIP_REST_S = _bound("rest", 3600.0, "s", "rest before a set")
SLIP_HOLD_S = _bound("hold", 1800.0, "s", "seconds of a hold")
SLIP_MASS_LOW = _bound("body_mass_low", 30.0, "kg", "body mass")
SLIP_MASS_HIGH = _bound("body_mass_high", 250.0, "kg", "body mass")
SLIP_MASS_RATIO = _bound("body_mass_ratio", 1.25, "×", "body mass against the days around")
SLIP_YEARS = _bound("years", 60.0, "years", "age of a logged set")

_LARGEST = {
    EquipmentKind.BARBELL: 350.0,
    EquipmentKind.GUIDED_BAR: 350.0,
    EquipmentKind.DUMBBELLS: 160.0,
    EquipmentKind.FIXED_BARBELLS: 100.0,
    EquipmentKind.KETTLEBELLS: 160.0,
    EquipmentKind.STACK: 250.0,
    EquipmentKind.CABLE: 200.0,
    EquipmentKind.SLED: 600.0,
    EquipmentKind.PLATE_LOADED: 400.0,
    EquipmentKind.BANDS: 120.0,
    EquipmentKind.ASSISTED: 150.0,
    EquipmentKind.BODY_WEIGHT: 150.0,
}
SLIP_LARGEST_KG: Mapping[EquipmentKind, float] = MappingProxyType(
    {
        kind: _bound(f"largest_{kind.name.lower()}", value, "kg", f"load on {kind.value}, total")
        for kind, value in _LARGEST.items()
    }
)
"""A load beyond this is asked about even on the first exposure."""
