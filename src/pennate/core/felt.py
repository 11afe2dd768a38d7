"""From what is written down to what the muscle feels, in kilograms.

The felt load keys strength: the same number must mean the same effort for one exercise
on one equipment. Dumbbells written `each` count twice; body-weight exercises add their
share of body mass; assistance subtracts.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from pennate.core.exercise import Exercise
from pennate.core.quantities import KG_PER_LB, LoadReading, Unit


@dataclass(frozen=True, slots=True)
class Carrier:
    """What the plates hang on, where it is known: added to `side` and `plates` readings."""

    mass_kg: Fraction = Fraction(0)
    factor: Fraction = Fraction(1)
    """Cable ratio or sine of the sled's angle."""


def written_kg(load: Fraction, unit: Unit | None) -> Fraction:
    """The written number in kilograms; no unit means it is already kilograms."""
    return load * KG_PER_LB if unit is Unit.LB else load


def felt_kg(
    exercise: Exercise | None,
    load: Fraction | None,
    unit: Unit | None,
    reading: LoadReading,
    body_mass_kg: Fraction,
    carrier: Carrier = Carrier(),
    *,
    female: bool | None = None,
) -> Fraction:
    """Felt load in kilograms.

    An unknown sex takes the mean of both published body-mass shares. A `label` reading is
    what the pin says: a known cable ratio applies, and where the machine's numbers mean
    nothing elsewhere its carrier is neutral, so that the label stands at face value.
    """
    written = Fraction(0) if load is None else written_kg(load, unit)
    if reading is LoadReading.EACH:
        written *= 2
    elif reading is LoadReading.SIDE:
        written = 2 * written + carrier.mass_kg
    elif reading is LoadReading.PLATES:
        written += carrier.mass_kg
    return written * carrier.factor + body_share(exercise, female=female) * body_mass_kg


def body_share(exercise: Exercise | None, *, female: bool | None) -> Fraction:
    """Fraction of body mass an exercise moves; zero where none is stated."""
    if exercise is None or exercise.body_mass is None:
        return Fraction(0)
    share = exercise.body_mass
    if female is None:
        return (share.female + share.male) / 2
    return share.female if female else share.male
