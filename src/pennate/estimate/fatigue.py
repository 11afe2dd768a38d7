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


def faded(tired: Tired, clock: float, slow_s: float, acute_s: float) -> Tired:
    """The same fatigue at a later moment."""
    slow, slow_by, acute, acute_by, before, slow_variance, acute_variance = tired
    gone = clock - before
    if gone <= 0.0:
        return tired
    keep = math.exp(-gone / slow_s)
    left = math.exp(-gone / acute_s)
    return Tired(
        slow * keep,
        (slow_by + slow * gone / slow_s) * keep,
        acute * left,
        (acute_by + acute * gone / acute_s) * left,
        clock,
        slow_variance * keep * keep,
        acute_variance * left * left,
    )


def deficit(parts: Iterable[tuple[float, Tired]]) -> Deficit:
    """Fatigue for an exercise from shares of what each earlier one still takes away."""
    slow = slow_by = acute = acute_by = slow_var = acute_var = 0.0
    for share, (one, one_by, two, two_by, _, one_var, two_var) in parts:
        slow += share * one
        slow_by += share * one_by
        acute += share * two
        acute_by += share * two_by
        slow_var += share * share * one_var
        acute_var += share * share * two_var
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
