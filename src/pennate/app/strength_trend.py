"""How strength of an exercise goes, in words: its trend, or what is lost of one left for weeks."""

from __future__ import annotations

import math

from pennate.app.exercise_view import ExerciseView
from pennate.core.percent import percent, signed_percent
from pennate.core.plural import plural
from pennate.estimate.steps import SURE, give_words


def trend_words(seen: ExerciseView) -> str:
    """The 80 % interval of the one-rep load, and the change in four weeks with its 95 % one.

    Of an exercise left for weeks: what is expected to be lost of it instead.
    """
    sd = seen.trend_sd
    month, give = math.expm1(4 * seen.trend_per_week), give_words(4 * sd)
    told = f"{seen.now.low:.0f} to {seen.now.high:.0f} kg, eight times in ten"
    if seen.rested:
        return f"{told}; {_left_words(seen)}"
    if abs(month) < SURE * 4 * sd:
        return f"{told}; {signed_percent(month)} in four weeks ({give}): cannot tell yet"
    way = "rising" if month > 0 else "falling"
    return f"{told}; {way} by {percent(abs(month), 1)} in four weeks ({give})"


def _left_words(seen: ExerciseView) -> str:
    """“9 weeks since the last set: 7 % lower is expected; the next sets will tell”."""
    last = seen.strength[-1] if seen.strength else seen.now
    lost = 1 - seen.now.middle / last.middle
    much = f"{percent(lost)} lower" if round(100 * lost) > 0 else "no loss"
    weeks = plural((seen.now.day - seen.sets[-1].day).days // 7, "week")
    return f"{weeks} since the last set: {much} is expected; the next sets will tell"
