"""Small made-up logs for tests: plain sets of a lifter with a known capacity."""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from datetime import date, timedelta
from fractions import Fraction

from pennate.core.history import History
from pennate.core.performed import Effort, PerformedSet, SetKind
from pennate.core.quantities import LoadReading, Unit
from pennate.estimate import Exposure

START = date(2025, 1, 6)
TEN_REPS_KG = {
    "bench_press": 40.0,
    "back_squat_free": 60.0,
    "curl": 18.0,
    "seated_leg_curl": 40.0,
    "standing_calf_raise": 60.0,
}
SLOPE = 0.0255


def one_set(
    day: date,
    number: int,
    exercise: str,
    kg: float,
    reps: int,
    effort: Effort | None = Effort.FAIL,
    *,
    rest_s: int | None = 120,
    kind: SetKind = SetKind.WORKING,
    equipment: str = "",
    reading: LoadReading = LoadReading.TOTAL,
    style: str = "",
) -> PerformedSet:
    """One logged set."""
    return PerformedSet(
        id="",
        when=day,
        session="a",
        number=number,
        exercise=exercise,
        reps=reps,
        load=Fraction(str(kg)),
        unit=Unit.KG,
        effort=effort,
        rest_s=None if rest_s is None else Fraction(rest_s),
        kind=kind,
        equipment=equipment,
        reading=reading,
        style=style,
    )


def reps_at(exercise: str, kg: float, gain: float = 0.0) -> int:
    """Reps to failure of the made-up lifter, exponential law, no fatigue."""
    return max(0, round(10 + (math.log(TEN_REPS_KG[exercise] / kg) + gain) / SLOPE))


def steady(
    exercises: Sequence[str] = ("bench_press", "back_squat_free"),
    sessions: int = 12,
    sets: int = 2,
    *,
    seed: int = 1,
    effort: Effort | None = Effort.FAIL,
) -> History:
    """A lifter of constant strength, a little noise, every third day."""
    rng = random.Random(seed)
    rows = []
    for session in range(sessions):
        day = START + timedelta(days=3 * session)
        number = 0
        for exercise in exercises:
            for index in range(sets):
                number += 1
                kg = TEN_REPS_KG[exercise]
                reps = reps_at(exercise, kg) + rng.choice((-1, 0, 0, 1)) - index
                rows.append(one_set(day, number, exercise, kg, reps, effort, rest_s=180))
    return History.of(rows)


def asked(
    exercise: str = "bench_press",
    kg: float | None = 40.0,
    *,
    days: int = 40,
    rest_s: float | None = None,
    session: str = "b",
) -> Exposure:
    """A coming set."""
    return Exposure(
        when=START + timedelta(days=days),
        session=session,
        exercise=exercise,
        felt_kg=kg,
        rest_s=rest_s,
    )
