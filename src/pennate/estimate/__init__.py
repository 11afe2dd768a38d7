"""The strength model: how many reps, here, today, and how sure."""

from pennate.estimate.explain import Explanation, Influence, explain
from pennate.estimate.exposure import (
    Exposure,
    ExposureReader,
    Outcome,
    Person,
    exposure_of,
    outcome_of,
)
from pennate.estimate.model import StrengthModel
from pennate.estimate.replay import fit, one_step_ahead
from pennate.estimate.steps import NextStep, Plateau, Step, next_step, plateau
from pennate.estimate.trace import DatedStrength, trace

__all__ = [
    "DatedStrength",
    "Explanation",
    "Exposure",
    "ExposureReader",
    "Influence",
    "NextStep",
    "Outcome",
    "Person",
    "Plateau",
    "Step",
    "StrengthModel",
    "explain",
    "exposure_of",
    "fit",
    "next_step",
    "one_step_ahead",
    "outcome_of",
    "plateau",
    "trace",
]
