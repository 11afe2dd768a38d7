"""Simulated lifters: who they are, how strong, how their days and weeks go.

Level, slope and muscle structure come from the evidence files' spreads, not from the
model's priors: every exercise's usual load is shifted by a draw the model cannot know.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from bench.forecast.laws import Curve
from pennate.core.evidence.strength_levels import LEVELS
from pennate.core.exercise import Catalogue, Exercise

SLOPES = {
    "back_squat_free": 0.0180,
    "guided_bar_squat": 0.0195,
    "conventional_deadlift": 0.0212,
    "bench_press": 0.0235,
    "leg_press": 0.0175,
    "seated_leg_curl": 0.032,
    "lying_leg_curl": 0.032,
}
EASY = {
    "back_squat_free": 0.43,
    "leg_press": 0.55,
    "conventional_deadlift": 0.65,
    "hip_thrust": 0.7,
}
"""Exercises that tire less from set to set (Willardson & Burkett 2005: squat against bench)."""
USUAL_SLOPE = 0.0255
WOMAN_SLOPE = 1.0
MAN_SLOPE = 1.12


@dataclass
class Skill:
    """One exercise of one person: log capacity at the start, curve, growth."""

    exercise: Exercise
    level: float
    curve: Curve
    growth: float
    tiring: float


@dataclass
class Lifter:
    """One simulated person with laws of her own."""

    seed: int
    female: bool
    mass: float
    curve_law: str
    fatigue_law: str
    skills: dict[str, Skill]
    day_sd: float
    day_memory: float
    fatigue_amount: float
    fatigue_seconds: float
    noise: tuple[float, float]
    report_bias: float
    report_noise: float
    report_law: str
    novice: bool
    tail: float = 4.0
    rng: np.random.Generator = field(default_factory=np.random.default_rng, repr=False)

    def noise_sd(self, reps: float) -> float:
        """Set-to-set noise in reps."""
        return self.noise[0] + self.noise[1] * max(reps, 0.0)


def slope_of(exercise: str, *, female: bool) -> float:
    """Population slope of an exercise in the zoo."""
    return SLOPES.get(exercise, USUAL_SLOPE) * (WOMAN_SLOPE if female else MAN_SLOPE)


def make_lifter(
    seed: int,
    curve_law: str,
    fatigue_law: str,
    catalogue: Catalogue,
    exercises: tuple[str, ...],
    *,
    report_law: str = "additive",
    female: bool | None = None,
    novice: bool = False,
) -> Lifter:
    """Draw one lifter of a population."""
    rng = np.random.default_rng([20261124, seed])
    woman = bool(rng.random() < 0.6) if female is None else female
    mass = float(rng.normal(64, 8) if woman else rng.normal(81, 10))
    strength = float(rng.normal(0.0 if woman else 0.45, 0.20)) + 0.6 * math.log(mass / 64)
    pattern = {
        name: float(rng.normal(0, 0.13))
        for name in sorted({catalogue[e].pattern for e in exercises})
    }
    person_slope = float(rng.normal(0, 0.205))
    shape = float(rng.normal(0, 0.6))
    growth = float(abs(rng.normal(0.10, 0.03))) if novice else float(rng.normal(0.035, 0.03))
    skills = {}
    for name in exercises:
        exercise = catalogue[name]
        shift = float(np.random.default_rng([7, sum(map(ord, name))]).normal(0, 0.15))
        kg = LEVELS.get(name, 20.0)
        share = float(exercise.body_mass.female if exercise.body_mass else 0)
        base = math.log(max(kg + share * 62, 6.0)) + shift
        level = base + strength + pattern[exercise.pattern] + float(rng.normal(0, 0.14)) + 0.24
        slope = slope_of(name, female=woman) * math.exp(person_slope + float(rng.normal(0, 0.205)))
        curve = Curve(curve_law, slope, shape + float(rng.normal(0, 0.5)))
        skills[name] = Skill(
            exercise,
            level,
            curve,
            growth * math.exp(float(rng.normal(0, 0.5))),
            EASY.get(name, 1.0) * math.exp(float(rng.normal(0, 0.2))),
        )
    quick = 0.62 if woman else 1.0
    return Lifter(
        seed=seed,
        female=woman,
        mass=mass,
        curve_law=curve_law,
        fatigue_law=fatigue_law,
        skills=skills,
        day_sd=float(0.0166 * math.exp(0.7 * person_slope + rng.normal(0, 0.2))),
        day_memory=float(rng.uniform(0.1, 0.55)),
        fatigue_amount=float(0.0135 * math.exp(rng.normal(0, 0.3)) * (0.9 if woman else 1.0)),
        fatigue_seconds=float(215 * quick * math.exp(rng.normal(0, 0.35))),
        noise=(0.27, 0.033),
        report_bias=float(rng.normal(0.1, 0.45)),
        report_noise=float(math.exp(rng.normal(0, 0.2))),
        report_law=report_law,
        novice=novice,
        rng=rng,
    )


def overlap(one: Exercise, other: Exercise) -> float:
    """Shared work of two exercises by their largest common part weight, 0 to 1."""
    if one.id == other.id:
        return 1.0
    a, b = one.weights(), other.weights()
    shared = sum(min(float(a[p]), float(b[p])) for p in a.keys() & b.keys())
    total = min(sum(map(float, a.values())), sum(map(float, b.values())))
    return 0.5 * shared / total if total else 0.0
