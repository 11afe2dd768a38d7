"""What earlier sets of the session still take away, in two time scales.

The slow part grows with reps near failure (in rep units; the model multiplies by a personal
log load per rep) and leaves within minutes. The acute part is the share of what failure at
that load implies and leaves within a minute or two. Exercises share both by overlap.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from pennate.core.evidence import strength_sets as t
from pennate.core.performed import SetKind
from pennate.estimate.curve import REPS, Array


@dataclass(frozen=True, slots=True)
class Tired:
    """Fatigue left by one exercise at `clock` seconds of the session."""

    slow: float
    slow_by_log_s: float
    acute: float
    acute_by_log_s: float
    clock: float
    slow_variance: float = 0.0
    acute_variance: float = 0.0
    """How unsure both are because the reserve she left is."""


@dataclass(frozen=True, slots=True)
class Deficit:
    """Fatigue as one exercise meets it: both parts with derivatives by log time scale."""

    slow: float
    slow_by_log_s: float
    acute: float
    acute_by_log_s: float
    slow_variance: float
    acute_variance: float


FRESH = Deficit(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


def faded(tired: Tired, clock: float, slow_s: float, acute_s: float) -> Tired:
    """The same fatigue at a later moment."""
    gone = max(clock - tired.clock, 0.0)
    if gone == 0.0:
        return tired
    keep = math.exp(-gone / slow_s)
    left = math.exp(-gone / acute_s)
    return Tired(
        tired.slow * keep,
        (tired.slow_by_log_s + tired.slow * gone / slow_s) * keep,
        tired.acute * left,
        (tired.acute_by_log_s + tired.acute * gone / acute_s) * left,
        clock,
        tired.slow_variance * keep * keep,
        tired.acute_variance * left * left,
    )


def deficit(
    tired: dict[str, Tired], shared: dict[str, float], clock: float, slow_s: float, acute_s: float
) -> Deficit:
    """Fatigue for an exercise that shares muscle `shared[name]` with each earlier one."""
    slow = slow_by = acute = acute_by = slow_var = acute_var = 0.0
    for name, one in tired.items():
        weight = shared[name]
        if weight == 0.0:
            continue
        now = faded(one, clock, slow_s, acute_s)
        slow += weight * now.slow
        slow_by += weight * now.slow_by_log_s
        acute += weight * now.acute
        acute_by += weight * now.acute_by_log_s
        slow_var += weight * weight * now.slow_variance
        acute_var += weight * weight * now.acute_variance
    return Deficit(slow, slow_by, acute, acute_by, slow_var, acute_var)


class Cost(NamedTuple):
    """What a set leaves: slow part in rep units and acute part as log capacity, with variances."""

    slow: float
    slow_variance: float
    acute: float
    acute_variance: float


def cost_of(reps: int, could: Array, room: float, power: float) -> Cost:
    """Fatigue left by a set of `reps`, when `could` are probabilities of reps to failure.

    A rep counts most at failure; the acute part is a share of `room`, the log capacity
    above the load, that grows with the square of the share of the set that was done.
    """
    could = could[reps:]
    left = REPS[: len(could)]
    near = reps * (1.0 + left) ** -power
    done = (reps / np.maximum(left + reps, 1.0)) ** 2
    slow, acute = float(could @ near), float(could @ done)
    slow_variance = max(float(could @ (near * near)) - slow * slow, 0.0)
    acute_variance = max(float(could @ (done * done)) - acute * acute, 0.0)
    return Cost(slow, slow_variance, room * acute, room * room * acute_variance)


def usual_rest(kind: SetKind) -> float:
    """Rest assumed where none is noted."""
    return t.USUAL_DROP_REST if kind is SetKind.DROP else t.USUAL_REST
