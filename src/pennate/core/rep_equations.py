"""Published 1RM equations, shown beside our estimate, and the effort scale in reps.

They give one number without spread and know nothing of the day, so nothing here decides a
load. Formulas from memory, as definitions.
"""

from __future__ import annotations

from pennate.core.evidence.catalogue import BRZYCKI_TOP, EPLEY_DIVISOR, EQUATION_MOST_REPS
from pennate.errors import InputError, NoAnswerError


def epley(load: float, reps: int) -> float:
    """One-rep maximum by Epley 1985: load × (1 + reps/30), in the unit of the load.

    A single is its own maximum, which the formula itself would miss by a thirtieth.
    """
    _at_least_one(reps)
    return load if reps == 1 else load * (1 + reps / EPLEY_DIVISOR)


def brzycki(load: float, reps: int) -> float:
    """One-rep maximum by Brzycki 1993: load × 36/(37 − reps), in the unit of the load.

    Raises NoAnswerError from 37 reps on, where the formula has no value.
    """
    _at_least_one(reps)
    left = BRZYCKI_TOP + 1 - reps
    if left <= 0:
        raise NoAnswerError(f"the Brzycki equation has no value at {reps} reps; it ends at 36")
    return load if reps == 1 else load * BRZYCKI_TOP / left


def within_equations(reps: int) -> bool:
    """Whether the published equations were meant for this many reps."""
    return 1 <= reps <= EQUATION_MOST_REPS


def _at_least_one(reps: int) -> None:
    if reps < 1:
        raise NoAnswerError("a set without a full rep says nothing about the maximum")


NO_MORE_REPS = 9.5
"""Half point for “no more reps, but perhaps a little more load”: still nothing left."""


def reserve_from_rpe(rpe: float) -> float:
    """Reps in reserve from an effort of 1 to 10 (Zourdos 2016): 10 is 0, 9 is 1, 7.5 is 2.5.

    Half points between 5 and 10 are from memory; 4 and below is light, six or more left.
    """
    if not 1 <= rpe <= 10:
        raise InputError(f"“{rpe:g}” is not an effort", remedy="it runs from 1 to 10")
    if rpe >= NO_MORE_REPS:
        return 0.0
    return min(10 - rpe, 6.0)


def rpe_from_reserve(reserve: float) -> float:
    """Effort of 1 to 10 for reps in reserve; 6 and more all read as 4."""
    if reserve < 0:
        raise InputError(f"“{reserve:g}” is not a reserve", remedy="it starts at 0")
    return 10 - min(reserve, 6.0)
