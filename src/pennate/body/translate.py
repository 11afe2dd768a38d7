"""Girth, area and volume of a limb, so that a claim about one can be judged by another.

A limb is taken as round: area goes with the square of the girth. Fat lies as a ring whose
thickness is half the skinfold. When a girth grows, muscle grew by more if the fat kept its
area (stretched thinner) than if it kept its thickness; both are told.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

_MM_PER_CM = 10


def area_cm2(girth_cm: float) -> float:
    """Area of a round limb from its girth."""
    return girth_cm**2 / (4 * pi)


def girth_cm(area: float) -> float:
    """Girth of a round limb from its area in cm²."""
    return sqrt(4 * pi * area)


def area_ratio(girth_ratio: float) -> float:
    """How much the area grows when the girth grows by this ratio."""
    return girth_ratio**2


def volume_cm3(first_girth_cm: float, last_girth_cm: float, length_cm: float) -> float:
    """Volume of a limb between two girths a length apart: a truncated cone."""
    first, last = first_girth_cm, last_girth_cm
    return length_cm * (first**2 + first * last + last**2) / (12 * pi)  # number: cone's 3 times 4π


def corrected_girth_cm(girth: float, skinfold_mm: float) -> float:
    """Girth of what lies within the fat: girth − π × skinfold (the caliper's double fold)."""
    return girth - pi * skinfold_mm / _MM_PER_CM


def lean_area_cm2(girth: float, skinfold_mm: float) -> float:
    """Area of muscle and bone within the ring of fat."""
    return area_cm2(corrected_girth_cm(girth, skinfold_mm))


def girth_after(girth: float, area_gain_cm2: float) -> float:
    """Girth when the limb's area grows by so much, the fat's area unchanged."""
    return girth_cm(area_cm2(girth) + area_gain_cm2)


@dataclass(frozen=True, slots=True)
class MuscleChange:
    """Change of the area within the fat, cm², on the two readings of what fat did."""

    thickness_held: float
    area_held: float
    before: float
    """Area within the fat to start with, cm²."""


def muscle_change(girth: float, new_girth: float, skinfold_mm: float) -> MuscleChange:
    """What a change of girth says of muscle when the skinfold was measured once only."""
    before = lean_area_cm2(girth, skinfold_mm)
    held = lean_area_cm2(new_girth, skinfold_mm) - before
    return MuscleChange(held, area_cm2(new_girth) - area_cm2(girth), before)


def girth_gain(girth: float, skinfold_mm: float, lean_gain_cm2: float) -> tuple[float, float]:
    """Girth gained by so much muscle: (fat area held, fat thickness held), cm."""
    by_area = girth_after(girth, lean_gain_cm2) - girth
    inner = girth_cm(lean_area_cm2(girth, skinfold_mm) + lean_gain_cm2)
    by_thickness = inner - corrected_girth_cm(girth, skinfold_mm)
    return by_area, by_thickness
