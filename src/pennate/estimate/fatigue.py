"""What earlier sets of the session still take away, in two time scales.

The slow part grows with reps near failure (in rep units; the model multiplies by a personal
log load per rep) and leaves within minutes. The acute part is the share of what failure at
that load implies and leaves within a minute or two. Exercises share both by overlap.

Where a lighter load follows, as in drop sets, both grow by a power of the room above it: with
0 tired muscle is weaker by the same share at every load, with 1 it is the reps that are fewer
by the same share, as when a work capacity is drawn on (Skiba 2012). People lie between.
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
    log_load: float = 0.0
    room: float = 1.0
    """Log load of the last set, and the log capacity above it when fresh."""


class Deficit(NamedTuple):
    """Fatigue as one exercise meets it: both parts with derivatives by log time scale and power."""

    slow: float
    slow_by_log_s: float
    acute: float
    acute_by_log_s: float
    slow_variance: float
    acute_variance: float
    slow_by_power: float
    acute_by_power: float


FRESH = Deficit(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
_ROOM_LEAST = 0.04  # number: log load; about two reps
_LIGHTER_MOST = math.log(4.0)
"""Room is compared within four times, either way."""
LESS_LEAST = 0.05  # number: share; small, so that the guard seldom acts
"""Of a kilogram less at least so much reaches the reps: a lighter load is never harder."""


class Lift(NamedTuple):
    """A load as fatigue meets it; `log_load` None where no load is asked about."""

    log_load: float | None
    power: float
    """Exponent by which fatigue grows with the room above a load."""
    slow: float
    """Log capacity that a unit of the slow part takes."""
    acute: float
    """Share of the acute part that is met."""
    eased: float = 1.0
    """Share of the usual fatigue that is met on such a day of the exercise."""


SAME_LOAD = Lift(None, 0.0, 0.0, 0.0)
"""Where no load differs from the one that tired, nothing of it matters."""

Met = tuple[float, float, Tired]
"""Fatigue that one exercise left, as a coming set meets it: the share of it that is met, and
the logarithm of the room above this set's load, in multiples of that above the last one's."""


def lighter_by(tired: Tired, log_load: float) -> float:
    """Logarithm of the room above a load, in multiples of that above the load that tired."""
    if log_load == tired.log_load:
        return 0.0
    ratio = 1.0 + (tired.log_load - log_load) / max(tired.room, _ROOM_LEAST)
    if ratio <= 0.0:
        return -_LIGHTER_MOST
    return min(max(math.log(ratio), -_LIGHTER_MOST), _LIGHTER_MOST)


def _power(lift: Lift, room: float, lighter: float, taken: float) -> float:
    """Her power, or less where a lighter load would turn out harder, or a heavier one easier.

    Where `taken` is a share f of the room, capacity less load falls by 1 − f · power ·
    ratio ^ (power − 1) for each part of the load; the ratio is a quarter at least.
    """
    most = (1.0 - LESS_LEAST) * max(room, _ROOM_LEAST) / max(taken, 1e-9)
    return min(lift.power, most if lighter > 0.0 else most / 4)


def deficit(
    parts: Iterable[Met], clock: float, slow_s: float, acute_s: float, lift: Lift
) -> Deficit:
    """Fatigue at a moment from shares of what each earlier exercise left."""
    slow = slow_by = acute = acute_by = slow_var = acute_var = slow_more = acute_more = 0.0
    for share, lighter, tired in parts:
        one, one_by, two, two_by, before, one_var, two_var, _, room = tired
        gone = max(clock - before, 0.0)
        slowly, soon = gone / slow_s, gone / acute_s
        keep, left = share * math.exp(-slowly), share * math.exp(-soon)
        if lighter:
            taken = lift.slow * keep * one + lift.acute * left * two
            power = _power(lift, room, lighter, taken)
            grown = math.exp(power * lighter)
            keep *= grown
            left *= grown
            # where the power is bounded, what she learns of it makes no difference
            by_power = 0.0 if power < lift.power else lighter
            slow_more += keep * one * by_power
            acute_more += left * two * by_power
        slow += keep * one
        slow_by += keep * (one_by + one * slowly)
        acute += left * two
        acute_by += left * (two_by + two * soon)
        slow_var += keep * keep * one_var
        acute_var += left * left * two_var
    return Deficit(slow, slow_by, acute, acute_by, slow_var, acute_var, slow_more, acute_more)


class Cost(NamedTuple):
    """What a set leaves: slow part in rep units and acute part as log capacity, with variances.

    And at which load: its logarithm, and the log capacity above it when fresh.
    """

    slow: float
    slow_variance: float
    acute: float
    acute_variance: float
    log_load: float
    room: float


@lru_cache(maxsize=100)
def _rates(reps: int, power: float) -> Array:
    """What a set of `reps` leaves if t were possible: both parts and their squares."""
    left = np.maximum(REPS - reps, 0.0)
    near = reps * (1.0 + left) ** -power
    done = (reps / np.maximum(left + reps, 1.0)) ** t.ACUTE_POWER
    return np.array((near, near * near, done, done * done))


def cost_of(reps: int, could: Array, lift: tuple[float, float], most: float, power: float) -> Cost:
    """Fatigue left by a set of `reps`, when `could` are probabilities of reps to failure.

    None of them is below the reps done. A rep counts most at failure; the acute part is a
    share of the room above the load, `most` of it, that grows with the square of the share
    of the set that was done. `lift` is the log load and the room above it when fresh.
    """
    log_load, room = lift
    near = min(max(room, 0.0), most)
    slow, slow_square, acute, acute_square = _rates(reps, power).dot(could).tolist()
    slow_variance = max(slow_square - slow * slow, 0.0)
    acute_variance = max(acute_square - acute * acute, 0.0)
    return Cost(slow, slow_variance, near * acute, near * near * acute_variance, log_load, room)


def usual_rest(kind: SetKind) -> float:
    """Rest assumed where none is noted."""
    return t.USUAL_DROP_REST if kind is SetKind.DROP else t.USUAL_REST
