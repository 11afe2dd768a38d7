"""Food: maintenance learned from intake and weight, what a change would do, and the guards.

The linearised dynamic model (Sanghvi 2015): ρ·dW/dt = ΔI − ε·(W − W₀). Fat mass enters the
model as a number she may give and is never shown or estimated as a share of her body.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, sqrt

from pennate.core.evidence.body_energy import (
    ACTIVITY_SPREAD,
    ADAPTIVE,
    ADULT_YEARS,
    DEFICIT_FLOOR,
    FAT_BUILDING,
    FAT_COST,
    FAT_DENSITY,
    FORBES,
    INTAKE_BIAS,
    LEAN_BUILDING,
    LEAN_COST,
    LEAN_DENSITY,
    LOW_AVAILABILITY,
    MIFFLIN_AGE,
    MIFFLIN_HEIGHT,
    MIFFLIN_MASS,
    MIFFLIN_MEN,
    MIFFLIN_SPREAD,
    MIFFLIN_WOMEN,
    PROTEIN_HIGH,
    PROTEIN_LOW,
    PROTEIN_TARGET,
    SURPLUS_SHARE,
    THERMIC,
    USUAL_ACTIVITY,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """What energy needs to know of her; all of it optional elsewhere in the product."""

    mass_kg: float
    height_cm: float
    age: float
    female: bool
    fat_kg: float
    """Fat mass by whatever means she trusts; used inside the model only."""
    activity: float = USUAL_ACTIVITY

    @property
    def lean_kg(self) -> float:
        """Fat-free mass."""
        return self.mass_kg - self.fat_kg


@dataclass(frozen=True, slots=True)
class Range:
    """A middle with its interval."""

    low: float
    middle: float
    high: float


def resting_kcal(person: Person) -> float:
    """Resting energy a day by Mifflin–St Jeor."""
    constant = MIFFLIN_WOMEN if person.female else MIFFLIN_MEN
    return (
        MIFFLIN_MASS * person.mass_kg
        + MIFFLIN_HEIGHT * person.height_cm
        - MIFFLIN_AGE * person.age
        + constant
    )


@dataclass(frozen=True, slots=True)
class Dynamics:
    """How weight answers to intake: kcal per kg of change, and per kg and day to keep it."""

    per_kg: float
    per_kg_day: float

    @property
    def days(self) -> float:
        """Time constant of the answer."""
        return self.per_kg / self.per_kg_day


def dynamics(person: Person) -> Dynamics:
    """The two constants of the linearised model for this person."""
    lean_per_fat = FORBES / person.fat_kg
    kept = 1 - THERMIC - ADAPTIVE
    activity = ((1 - THERMIC) * person.activity - 1) * resting_kcal(person) / person.mass_kg
    stored = FAT_BUILDING + FAT_DENSITY + lean_per_fat * (LEAN_BUILDING + LEAN_DENSITY)
    burnt = (FAT_COST + lean_per_fat * LEAN_COST) / (1 + lean_per_fat) + activity
    return Dynamics(stored / (kept * (1 + lean_per_fat)), burnt / kept)


def weight_after(change_kcal: float, days: float, model: Dynamics) -> float:
    """Change of weight after so many days of so many kcal more or less than maintenance."""
    return change_kcal / model.per_kg_day * (1 - exp(-days / model.days))


def maintenance_before(person: Person) -> Range:
    """Maintenance from body size alone, with its wide 80 % range."""
    middle = resting_kcal(person) * person.activity
    spread = middle * sqrt(MIFFLIN_SPREAD**2 + ACTIVITY_SPREAD**2)
    return _range80(middle, spread)


@dataclass(frozen=True, slots=True, kw_only=True)
class Logged:
    """Intake and weight over a stretch: mean kcal a day, and the slope of the trend."""

    days: int
    intake_kcal: float
    intake_se: float
    slope_kg_week: float
    slope_se: float


def maintenance_from(logged: Logged, person: Person) -> Range:
    """Maintenance from intake and weight, shrunk to what body size says, 80 % range.

    In her own logged units: if she notes a tenth too little, maintenance comes out a tenth
    too low, and eating by the same notes still works. The intake error widens only how far
    it may be from the value that body size gives.
    """
    model = dynamics(person)
    stored = model.per_kg / 7
    seen = logged.intake_kcal - stored * logged.slope_kg_week
    error2 = logged.intake_se**2 + (stored * logged.slope_se) ** 2
    before = resting_kcal(person) * person.activity
    spread2 = before**2 * (MIFFLIN_SPREAD**2 + ACTIVITY_SPREAD**2 + INTAKE_BIAS**2)
    share = spread2 / (spread2 + error2)
    return _range80(before + share * (seen - before), sqrt(share * error2))


_80 = 1.2816  # number: two-sided 80 % of a normal


def _range80(middle: float, spread: float) -> Range:
    return Range(middle - _80 * spread, middle, middle + _80 * spread)


def protein_grams(mass_kg: float) -> Range:
    """Protein a day by body mass: published breakpoint and its interval."""
    return Range(PROTEIN_LOW * mass_kg, PROTEIN_TARGET * mass_kg, PROTEIN_HIGH * mass_kg)


def energy_availability(intake_kcal: float, exercise_kcal: float, lean_kg: float) -> float:
    """Energy left for the body, kcal per kg of lean mass and day."""
    return (intake_kcal - exercise_kcal) / lean_kg


def intake_for_availability(level: float, exercise_kcal: float, lean_kg: float) -> float:
    """Intake that leaves so many kcal per kg of lean mass."""
    return level * lean_kg + exercise_kcal


@dataclass(frozen=True, slots=True)
class Guidance:
    """An intake that may be offered, and which guards spoke."""

    intake_kcal: float | None
    """None: nothing below maintenance is offered."""
    guards: tuple[str, ...]


def deficit_guidance(
    wanted_kcal: float,
    maintenance_kcal: float,
    person: Person,
    exercise_kcal: float,
) -> Guidance:
    """The intake for a wanted deficit after every guard; guards only ever raise it."""
    if person.age < ADULT_YEARS:
        return Guidance(None, ("No deficit under 18.",))
    guards = []
    deficit = wanted_kcal
    if deficit > DEFICIT_FLOOR:
        deficit = DEFICIT_FLOOR
        guards.append(
            f"Never more than {DEFICIT_FLOOR:.0f} kcal a day below maintenance: from there on no "
            "lean mass is gained."
        )
    intake = maintenance_kcal - deficit
    least = intake_for_availability(LOW_AVAILABILITY, exercise_kcal, person.lean_kg)
    if intake < least:
        intake = least
        guards.append(
            f"Raised to leave {LOW_AVAILABILITY:.0f} kcal per kg of lean mass after training."
        )
    if intake > maintenance_kcal:
        guards.append("That is above maintenance: no deficit is offered, see a clinician.")
        return Guidance(None, tuple(guards))
    return Guidance(intake, tuple(guards))


def surplus_guidance(maintenance_kcal: float) -> Guidance:
    """The intake offered when she wants to gain: small, because more mostly adds fat."""
    return Guidance(maintenance_kcal * (1 + SURPLUS_SHARE), ())
