"""Published equations from one exercise's load to another's, kilograms.

Load of the other exercise for the same number of reps = slope × load + offset.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from pennate.core.evidence.register import Status, constant


@dataclass(frozen=True, slots=True)
class Transfer:
    """One published equation, the reps it was measured at, and its error (SD of the log)."""

    source: str
    slope: float
    offset: float
    reps: int
    sd_log: float


def _transfer(
    target: str, line: tuple[str, float, float, int], sd: float, *, where: str
) -> Transfer:
    source, slope, offset, reps = line
    for part, value in (("slope", slope), ("offset", offset)):
        constant(
            f"strength.transfer.{target}.{part}",
            value,
            "kg per kg" if part == "slope" else "kg",
            low=value - 0.3 * abs(value) - 1,
            high=value + 0.3 * abs(value) + 1,
            status=Status.PUBLISHED,
            source=where,
            used_for=f"start of {target} from {source} at {reps} reps",
        )
    return Transfer(source, slope, offset, reps, sd)


_EBBEN = "Ebben 2008: from the squat 6RM of 21 students, R² 0.62–0.81"
_WONG = "Wong 2013: from the bench press 6RM of 29 students, error 6.5–8.5 %"
TRANSFERS: Mapping[str, Transfer] = MappingProxyType(
    {
        "conventional_deadlift": _transfer(
            "conventional_deadlift", ("back_squat_free", 0.83, 14.92, 6), 0.15, where=_EBBEN
        ),
        "leg_extension": _transfer(
            "leg_extension", ("back_squat_free", 0.48, 9.58, 6), 0.2, where=_EBBEN
        ),
        "hammer_curl": _transfer("hammer_curl", ("bench_press", 0.28, 6.30, 6), 0.12, where=_WONG),
        "curl": _transfer("curl", ("bench_press", 0.33, 6.20, 6), 0.12, where=_WONG),
        "overhead_triceps_extension": _transfer(
            "overhead_triceps_extension", ("bench_press", 0.33, -0.60, 6), 0.12, where=_WONG
        ),
        "back_squat_free": _transfer(
            "back_squat_free",
            ("leg_press", 0.354, 2.235, 10),
            0.25,
            where="Willardson 2004: from the 45° leg press 10RM of 60 men, all together",
        ),
    }
)
"""Equations by the exercise they lead to; those for men only, or for lifts that
carry body mass, are left out."""


def transferred_kg(target: str, kg: float) -> float | None:
    """Load of the target by its equation; None without one, or where it gives no load."""
    line = TRANSFERS.get(target)
    if line is None:
        return None
    there = line.slope * kg + line.offset
    return there if there > 0 else None
