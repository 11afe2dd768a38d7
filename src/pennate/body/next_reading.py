"""Which reading would settle a verdict soonest, and how many readings it takes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from pennate.body.change import Change, Corrected, Correction, kriged_change
from pennate.body.error_model import Array, ErrorGrid, departure, weeks_since_first
from pennate.core.evidence.body import (
    HOLDING_SESSIONS,
    HOLDING_WEEKS,
    SAME_BAND,
)

_READINGS = 3  # number: readings asked on each coming date
_FURTHEST = 26  # number: weeks looked ahead
_ROUTINE = 4  # number: weeks to the next reading when nothing is open
_TWO_SIDED_95 = 1.96  # number: standard normal quantile
_TWO_SIDED_90 = 1.645  # number: standard normal quantile


@dataclass(frozen=True, slots=True)
class NextReading:
    """A date and what to read then; `detectable_cm` is the change it could show."""

    date: date
    readings: int
    detectable_cm: float
    settles: bool
    say: str


def next_reading(
    corrected: Corrected,
    error: ErrorGrid,
    change: Change,
    *,
    settled: bool,
    counted: int | None = None,
) -> NextReading:
    """The first week in which weekly readings would settle the verdict, if she goes on as now.

    `counted` is the sessions logged so far: ‘holding’ then waits for sessions, not weeks.
    """
    last = corrected.series.points[-1].day
    if settled:
        half = _half_width(corrected, error, _ROUTINE)
        when = last + timedelta(weeks=_ROUTINE)
        say = f"Next reading in {_ROUTINE} weeks, as usual."
        return NextReading(when, _READINGS, half, settles=True, say=say)
    for ahead in range(1, _FURTHEST + 1):
        if _would_settle(corrected, error, change, ahead, counted):
            return _settling(corrected, error, last, ahead)
    half = _half_width(corrected, error, _FURTHEST)
    return NextReading(
        last + timedelta(weeks=1),
        _READINGS,
        half,
        settles=False,
        say=f"Not to be settled within {_FURTHEST} weeks at this rate: {_help(corrected)}",
    )


def _help(corrected: Corrected) -> str:
    if corrected.correction is Correction.NONE:
        return "weigh yourself, or pinch a skinfold, on every date, and take three readings."
    return "keep the same place and time of day, take five readings a date."


def _settling(corrected: Corrected, error: ErrorGrid, last: date, ahead: int) -> NextReading:
    when = last + timedelta(weeks=ahead)
    weekly = "three readings" if ahead == 1 else "three readings once a week until then"
    return NextReading(
        when,
        _READINGS,
        _half_width(corrected, error, ahead),
        settles=True,
        say=f"Likely settled on {when.day} {when:%B}: {weekly}, same place, not after training.",
    )


def _half_width(corrected: Corrected, error: ErrorGrid, ahead: int) -> float:
    return _TWO_SIDED_95 * _planned_error(corrected, error, ahead)


def _would_settle(
    corrected: Corrected, error: ErrorGrid, change: Change, ahead: int, counted: int | None
) -> bool:
    weeks = corrected.series.weeks
    total = weeks + ahead
    going_on = abs(change.mean) * total / max(weeks, 1.0)
    se = _planned_error(corrected, error, ahead)
    if going_on >= _TWO_SIDED_95 * se:
        return True
    band = SAME_BAND / 100 * corrected.series.points[0].girth_cm
    return _allowed(weeks, ahead, counted) and going_on + _TWO_SIDED_90 * se <= band


def _allowed(weeks: float, ahead: int, counted: int | None) -> bool:
    if counted is None:
        return weeks + ahead >= HOLDING_WEEKS
    pace = counted / max(weeks, 1.0)
    return counted + pace * ahead >= HOLDING_SESSIONS


def _planned_error(corrected: Corrected, error: ErrorGrid, ahead: int) -> float:
    """Standard error of the change if she adds weekly dates of three readings."""
    series = corrected.series
    now = weeks_since_first(series)
    weeks = np.concatenate([now, now[-1] + np.arange(1, ahead + 1)])
    counts = np.array([p.readings for p in series.points] + [_READINGS] * ahead)
    cm = series.mean_cm / 100
    reading2 = error.weight @ error.reading**2
    day2 = error.weight @ error.day**2
    noise = cm**2 * (reading2 / counts + day2) + _extra(corrected, ahead)
    values = np.zeros(len(weeks))
    _, variance = kriged_change(weeks, values, noise[None], cm**2 * departure(weeks))
    return float(np.sqrt(variance[0] + corrected.shared_variance))


def _extra(corrected: Corrected, ahead: int) -> Array:
    usual = float(np.mean(corrected.extra_variance))
    return np.concatenate([corrected.extra_variance, np.full(ahead, usual)])
