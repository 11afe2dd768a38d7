"""What earlier sets of the session still take away, in two time scales.

The slow part grows with reps near failure (in rep units; the model multiplies by a personal
log load per rep) and leaves within minutes. The acute part is the share of what failure at
that load implies and leaves within a minute or two. Exercises share both by overlap.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from pennate.core.evidence import strength_sets as t
from pennate.core.performed import SetKind


@dataclass(frozen=True, slots=True)
class Tired:
    """Fatigue left by one exercise at `clock` seconds of the session."""

    slow: float
    slow_by_log_s: float
    acute: float
    acute_by_log_s: float
    clock: float


@dataclass(frozen=True, slots=True)
class Deficit:
    """Fatigue as one exercise meets it: both parts with derivatives by log time scale."""

    slow: float
    slow_by_log_s: float
    acute: float
    acute_by_log_s: float


FRESH = Deficit(0.0, 0.0, 0.0, 0.0)


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
    )


def deficit(
    tired: dict[str, Tired], shared: dict[str, float], clock: float, slow_s: float, acute_s: float
) -> Deficit:
    """Fatigue for an exercise that shares muscle `shared[name]` with each earlier one."""
    slow = slow_by = acute = acute_by = 0.0
    for name, one in tired.items():
        weight = shared[name]
        if weight == 0.0:
            continue
        now = faded(one, clock, slow_s, acute_s)
        slow += weight * now.slow
        slow_by += weight * now.slow_by_log_s
        acute += weight * now.acute
        acute_by += weight * now.acute_by_log_s
    return Deficit(slow, slow_by, acute, acute_by)


def closeness(reserve: float, power: float) -> float:
    """How much a rep counts toward slow fatigue with this many reps left: 1 at failure."""
    return float((1.0 + max(reserve, 0.0)) ** -power)


def usual_rest(kind: SetKind) -> float:
    """Rest assumed where none is noted."""
    return t.USUAL_DROP_REST if kind is SetKind.DROP else t.USUAL_REST
