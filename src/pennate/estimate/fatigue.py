"""What earlier sets of the session still take away, in two time scales.

The slow part grows with reps near failure (in rep units; the model multiplies by a personal
log load per rep) and leaves within minutes. The acute part is the share of what failure at
that load implies and leaves within a minute or two. Exercises share both by overlap.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from pennate.core.evidence import strength_sets as t
from pennate.core.performed import SetKind
from pennate.estimate.curve import REPS, Array


class Tired(NamedTuple):
    """Fatigue left by one exercise at `clock` seconds of the session."""

    slow: float
    slow_by_log_s: float
    acute: float
    acute_by_log_s: float
    clock: float
    slow_variance: float = 0.0
    acute_variance: float = 0.0
    """How unsure both are because the reserve she left is."""


class Deficit(NamedTuple):
    """Fatigue as one exercise meets it: both parts with derivatives by log time scale."""

    slow: float
    slow_by_log_s: float
    acute: float
    acute_by_log_s: float
    slow_variance: float
    acute_variance: float


FRESH = Deficit(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


def deficit(
    parts: Iterable[tuple[float, Tired]], clock: float, slow_s: float, acute_s: float
) -> Deficit:
    """Fatigue at a moment from shares of what each earlier exercise left."""
    slow = slow_by = acute = acute_by = slow_var = acute_var = 0.0
    for share, (one, one_by, two, two_by, before, one_var, two_var) in parts:
        gone = max(clock - before, 0.0)
        keep = share * math.exp(-gone / slow_s)
        left = share * math.exp(-gone / acute_s)
        slow += keep * one
        slow_by += keep * (one_by + one * gone / slow_s)
        acute += left * two
        acute_by += left * (two_by + two * gone / acute_s)
        slow_var += keep * keep * one_var
        acute_var += left * left * two_var
    return Deficit(slow, slow_by, acute, acute_by, slow_var, acute_var)


class Cost(NamedTuple):
    """What a set leaves: slow part in rep units and acute part as log capacity, with variances."""

    slow: float
    slow_variance: float
    acute: float
    acute_variance: float


@lru_cache(maxsize=100)
def _rates(reps: int, power: float) -> Array:
    """What a set of `reps` leaves if t were possible: both parts and their squares."""
    left = np.maximum(REPS - reps, 0.0)
    near = reps * (1.0 + left) ** -power
    done = (reps / np.maximum(left + reps, 1.0)) ** 2
    return np.array((near, near * near, done, done * done))


def cost_of(reps: int, could: Array, room: float, power: float) -> Cost:
    """Fatigue left by a set of `reps`, when `could` are probabilities of reps to failure.

    None of them is below the reps done. A rep counts most at failure; the acute part is a
    share of `room`, the log capacity above the load, that grows with the square of the
    share of the set that was done.
    """
    slow, slow_square, acute, acute_square = _rates(reps, power).dot(could).tolist()
    slow_variance = max(slow_square - slow * slow, 0.0)
    acute_variance = max(acute_square - acute * acute, 0.0)
    return Cost(slow, slow_variance, room * acute, room * room * acute_variance)


def usual_rest(kind: SetKind) -> float:
    """Rest assumed where none is noted."""
    return t.USUAL_DROP_REST if kind is SetKind.DROP else t.USUAL_REST
