"""Ramp sets before the working load, and the test set of an unknown exercise."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from pennate.core.evidence.loading import (
    CALIBRATION_REPS,
    CALIBRATION_SHARE,
    CURVE_SPREAD,
    LOAD_PER_REP,
    RAMP_FIRST_REPS,
    RAMP_FIRST_SHARE,
    RAMP_MIN_RISE,
    RAMP_SECOND_REPS,
    RAMP_SECOND_SHARE,
    RESERVE_SD,
    RESERVE_SD_SLOPE,
    TRUSTED_RESERVE,
)
from pennate.core.performed import SetKind
from pennate.loading.effort import Target


class Warmth(StrEnum):
    """How warm the working muscles are before this exercise."""

    COLD = "not trained yet today"
    LUKEWARM = "helped in another exercise"
    WARM = "trained hard already"


@dataclass(frozen=True, slots=True)
class RampSet:
    """A warm-up set: its target and how many reps."""

    target: Target
    reps: int


_COLD = ((RAMP_FIRST_SHARE, RAMP_FIRST_REPS), (RAMP_SECOND_SHARE, RAMP_SECOND_REPS))


def ramp(
    working_kg: float,
    warmth: Warmth,
    *,
    body_kg: float = 0.0,
    lightest_kg: float = -math.inf,
    heavy: bool = True,
    short: bool = False,
) -> tuple[RampSet, ...]:
    """The ramp sets before a working felt load (kilograms without body mass).

    Cold: one set at about 55 % and one at 80 %; lukewarm or short of time: one at 80 %;
    warm: none, but one at 80 % before a heavy exercise unless time is short. Shares are of
    all that is moved, so body mass counts in. No ramp set lies below the lightest load.
    """
    sets: list[RampSet] = []
    ceiling = working_kg + body_kg
    for share, reps in reversed(_shares(warmth, heavy=heavy, short=short)):
        moved = max(share * (working_kg + body_kg), lightest_kg + body_kg)
        if moved > ceiling - RAMP_MIN_RISE * (working_kg + body_kg):
            continue
        ceiling = moved
        sets.append(RampSet(Target(felt_kg=moved - body_kg, kind=SetKind.WARM_UP), round(reps)))
    return tuple(reversed(sets))


def _shares(warmth: Warmth, *, heavy: bool, short: bool) -> tuple[tuple[float, float], ...]:
    if warmth is Warmth.WARM:
        return _COLD[1:] if heavy and not short else ()
    return _COLD if warmth is Warmth.COLD and not short else _COLD[1:]


@dataclass(frozen=True, slots=True)
class Reading:
    """What a test set says about the load of a single rep, body mass included."""

    one_rep_kg: float
    sd_log: float
    at_least: bool
    """The answer lies where people misjudge: only a lower bound."""
    again: Calibration | None
    """A second, heavier test set where the first one says too little."""


@dataclass(frozen=True, slots=True)
class Calibration:
    """A test set before the first working set: few reps at a safe load, then a question."""

    target: Target
    reps: int
    body_kg: float = 0.0
    question: str = "How many more could you have done?"

    def read(self, more: int, felt_kg: float | None = None) -> Reading:
        """The one-rep load from “so many more”; `felt_kg` is the load really used.

        The exponential load–reps curve; spread from how people differ in that curve and
        from how well reserve is judged. Raises ValueError for a negative answer.
        """
        if more < 0:
            raise ValueError("reps in reserve cannot be negative")
        moved = (self.target.felt_kg if felt_kg is None else felt_kg) + self.body_kg
        at_least = more > TRUSTED_RESERVE
        counted = min(more, round(TRUSTED_RESERVE) + 1)
        beyond = self.reps + counted - 1
        one_rep = moved * math.exp(LOAD_PER_REP * beyond)
        misjudged = RESERVE_SD + RESERVE_SD_SLOPE * counted
        spread = LOAD_PER_REP * math.hypot(CURVE_SPREAD * beyond, misjudged)
        again = calibration(_heavier(moved), self.body_kg) if at_least else None
        return Reading(one_rep, spread, at_least, again)


def _heavier(moved: float) -> float:
    """The guess whose test set is heavier by what the second ramp set adds to the first."""
    return moved * RAMP_SECOND_SHARE / RAMP_FIRST_SHARE / CALIBRATION_SHARE


def calibration(guess_kg: float, body_kg: float = 0.0) -> Calibration:
    """The test set for an exercise never done here.

    `guess_kg` is the guessed load of a single rep, body mass included where it is moved.
    The load is a ceiling: what is put on must not be heavier.
    """
    felt = CALIBRATION_SHARE * guess_kg - body_kg
    return Calibration(
        Target(felt_kg=felt, kind=SetKind.WARM_UP, ceiling=True), round(CALIBRATION_REPS), body_kg
    )
