"""Where an exercise starts: usual level, muscle shares, slope, family."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from pennate.core.evidence import strength as s
from pennate.core.evidence import strength_levels as lv
from pennate.core.evidence import strength_sets as ts
from pennate.core.exercise import Catalogue, Exercise
from pennate.core.felt import body_share
from pennate.core.muscles import GROUP_SHARES, Group, Part
from pennate.estimate.exposure import Person

GROUPS = tuple(Group)
_LOWER = frozenset({Group.QUADS, Group.HAMSTRINGS, Group.GLUTES, Group.SIDE_GLUTES, Group.CALVES})
_SLOPES: Mapping[str, float] = MappingProxyType(
    {
        "knee_dominant": s.SLOPE_KNEE,
        "hip_dominant": s.SLOPE_HIP,
        "horizontal_push": s.SLOPE_PRESS,
        "incline_push": s.SLOPE_PRESS,
        "vertical_push": s.SLOPE_PRESS,
        "vertical_push_down": s.SLOPE_PRESS,
        "horizontal_pull": s.SLOPE_PULL,
        "vertical_pull": s.SLOPE_PULL,
        "knee_isolation": s.SLOPE_SINGLE,
        "chest_isolation": s.SLOPE_SINGLE,
        "delt_isolation": s.SLOPE_SINGLE,
        "elbow_flexion": s.SLOPE_SINGLE,
        "elbow_extension": s.SLOPE_SINGLE,
        "hip_abduction": s.SLOPE_SINGLE,
        "hip_adduction": s.SLOPE_SINGLE,
        "knee_flexion": s.SLOPE_LEG_CURL,
    }
)

_EASY = frozenset({"knee_dominant", "hip_dominant"})
"""Patterns that tire less from set to set."""


WOMAN: Mapping[bool | None, float] = MappingProxyType({True: 1.0, None: 0.5, False: 0.0})
"""How far a population value is a woman's, by what was said of her sex."""


@dataclass(frozen=True, slots=True)
class ExercisePrior:
    """What is believed of an exercise before its first set.

    `shares` are loadings on the muscle factors with squares summing to one; empty for an
    exercise nobody defined. `work` holds part weights for fatigue shared by overlap.
    """

    family: str
    level: float
    known: bool
    log_slope: float
    shares: tuple[tuple[int, float], ...]
    tiring: float
    """Usual factor on fatigue, by sex and kind of exercise."""
    work: Mapping[Part, float]


def exercise_prior(exercise_id: str, catalogue: Catalogue, person: Person) -> ExercisePrior:
    """The prior of one exercise for one person."""
    exercise = catalogue.exercises.get(exercise_id)
    if exercise is None:
        return ExercisePrior(
            family=exercise_id,
            level=math.log(lv.OWN_LEVEL),
            known=False,
            log_slope=_slope("", person),
            shares=(),
            tiring=_tiring("", person),
            work=MappingProxyType({}),
        )
    shares = _shares(exercise)
    level = _level(exercise, person)
    return ExercisePrior(
        family=_family(exercise, catalogue),
        level=level,
        known=exercise_id in lv.LEVELS,
        log_slope=_slope(exercise.pattern, person),
        shares=shares,
        tiring=_tiring(exercise.pattern, person),
        work=MappingProxyType({p: float(w) for p, w in exercise.weights().items()}),
    )


def _family(exercise: Exercise, catalogue: Catalogue) -> str:
    seen = {exercise.id}
    while exercise.parent and exercise.parent in catalogue and exercise.parent not in seen:
        exercise = catalogue[exercise.parent]
        seen.add(exercise.id)
    return exercise.id


def _shares(exercise: Exercise) -> tuple[tuple[int, float], ...]:
    weights = exercise.weights()
    raw = [
        sum(
            float(weights.get(part, 0)) * float(share)
            for part, share in GROUP_SHARES[group].items()
        )
        for group in GROUPS
    ]
    norm = math.sqrt(sum(value * value for value in raw))
    if norm == 0:
        return ()
    return tuple((index, value / norm) for index, value in enumerate(raw) if value > 0)


def _level(exercise: Exercise, person: Person) -> float:
    mass = person.body_mass_kg or lv.USUAL_MASS
    written = lv.LEVELS.get(exercise.id, lv.OWN_LEVEL)
    scale = (mass / lv.LEVEL_MASS) ** lv.MASS_POWER
    felt = written * scale + float(body_share(exercise, female=person.female)) * mass
    man = {True: 0.0, None: 0.5, False: 1.0}[person.female]
    untrained = {True: 0.0, None: 0.25, False: 1.0}[person.trained]
    gain = man * _man_gain(exercise) + untrained * lv.UNTRAINED
    return math.log(max(felt, lv.FELT_LEAST)) + gain


def _man_gain(exercise: Exercise) -> float:
    if exercise.body_mass is not None:
        return 0.0
    groups = _shares(exercise)
    lower = sum(value * value for index, value in groups if GROUPS[index] in _LOWER)
    return lower * lv.MAN_LOWER + (1 - lower) * lv.MAN_UPPER


def _slope(pattern: str, person: Person) -> float:
    woman = WOMAN[person.female]
    return math.log(_SLOPES.get(pattern, s.SLOPE)) + woman * math.log(s.SLOPE_WOMAN)


def _tiring(pattern: str, person: Person) -> float:
    easy = ts.TIRING_LOWER if pattern in _EASY else 1.0
    return float(ts.TIRING_WOMAN ** WOMAN[person.female] * easy)


def overlap(one: Mapping[Part, float], other: Mapping[Part, float]) -> float:
    """How much muscle two exercises share: cosine of their part weights, 0 to 1."""
    dot = sum(weight * other.get(part, 0.0) for part, weight in one.items())
    if dot == 0:
        return 0.0
    size = math.sqrt(sum(w * w for w in one.values()) * sum(w * w for w in other.values()))
    return dot / size
