"""The cycle, if she logs it: length with interval, like days, and clinician notices.

No phase is ever inferred and no load ever changes by a predicted day: the cycle serves to
compare like days with like, and to notice what a clinician should see.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from math import sqrt
from statistics import fmean, median

from pennate.core.evidence.body_recovery import (
    ABSENT_DAYS,
    CYCLE_BETWEEN,
    CYCLE_FREEDOM,
    CYCLE_MEAN,
    CYCLE_WITHIN,
    FEWEST_CYCLES,
    LONG_BLEEDING,
    LONG_CYCLE,
    SHORT_CYCLE,
)

_80 = 1.2816  # number: two-sided 80 % of a normal
_LATEST = 12  # number: cycles looked back on
_ALIKE_DAYS = 3  # number: cycle days that count as like
_YEAR = 365  # number: days of a year


@dataclass(frozen=True, slots=True)
class CycleLength:
    """Her next cycle's length in days with its 80 % interval, and cycles behind it."""

    low: float
    middle: float
    high: float
    cycles: int
    skipped: int
    """Lengths that look like two cycles with one not logged."""


def lengths(starts: Sequence[date]) -> list[int]:
    """Days between logged first days, oldest first."""
    ordered = sorted(set(starts))
    return [(later - earlier).days for earlier, later in pairwise(ordered)]


def cycle_length(starts: Sequence[date]) -> CycleLength:
    """The length of her next cycle, from everybody's and her own."""
    logged = lengths(starts)[-_LATEST:]
    usable = [length for length in logged if not _double(length, logged)]
    count = len(usable)
    squares = sum((one - fmean(usable)) ** 2 for one in usable)
    within2 = (CYCLE_FREEDOM * CYCLE_WITHIN**2 + squares) / (CYCLE_FREEDOM + max(0, count - 1))
    share = CYCLE_BETWEEN**2 / (CYCLE_BETWEEN**2 + within2 / count) if count else 0.0
    mean = CYCLE_MEAN + share * ((fmean(usable) if usable else CYCLE_MEAN) - CYCLE_MEAN)
    spread = sqrt(within2 + (1 - share) * CYCLE_BETWEEN**2)
    return CycleLength(mean - _80 * spread, mean, mean + _80 * spread, count, len(logged) - count)


def _double(length: int, logged: Sequence[int]) -> bool:
    """Whether a length looks like two cycles: near twice the usual of the others."""
    usual = median(logged) if len(logged) > 2 else CYCLE_MEAN
    return LONG_CYCLE < length < ABSENT_DAYS and abs(length / usual - 2) < 0.25


def next_start(starts: Sequence[date]) -> tuple[date, date]:
    """Between which dates her next period likely starts (80 %); raises ValueError unlogged."""
    if not starts:
        raise ValueError("no period is logged")
    length, last = cycle_length(starts), max(starts)
    return last + timedelta(days=round(length.low)), last + timedelta(days=round(length.high))


def cycle_day(day: date, starts: Sequence[date]) -> int | None:
    """Day of the cycle counted from the last logged start, that being day 1."""
    ordered = sorted(set(starts))
    place = bisect_right(ordered, day)
    return None if place == 0 else (day - ordered[place - 1]).days + 1


def alike(one: date, other: date, starts: Sequence[date]) -> bool | None:
    """Whether two dates stand at like days of the cycle; None where nobody can tell."""
    first, second = cycle_day(one, starts), cycle_day(other, starts)
    if first is None or second is None or max(first, second) > LONG_CYCLE:
        return None
    return abs(first - second) <= _ALIKE_DAYS


def clinician_notices(
    starts: Sequence[date],
    today: date,
    *,
    expected: bool = True,
    bleeding_days: int | None = None,
) -> tuple[str, ...]:
    """What a clinician should see; not `expected`: pregnant, or contraception stops periods."""
    if not expected or not starts:
        return ()
    notices = []
    since = (today - max(starts)).days
    if since >= ABSENT_DAYS:
        notices.append(f"No period for {since} days: see a clinician, and eat no deficit.")
    if bleeding_days is not None and bleeding_days > LONG_BLEEDING:
        notices.append(f"Bleeding for {bleeding_days} days: see a clinician.")
    notices.extend(_about_lengths(starts, today))
    return tuple(notices)


def irregular(starts: Sequence[date]) -> bool:
    """Whether two of the last three logged cycles were shorter or longer than is usual."""
    return len(_odd(starts)) >= 2


_LAST_FEW = 3  # number: cycles in which two odd ones count as irregular


def _odd(starts: Sequence[date]) -> list[int]:
    """Of the last cycles, those of an unusual length."""
    return [n for n in lengths(starts)[-_LAST_FEW:] if not SHORT_CYCLE <= n <= LONG_CYCLE]


def _about_lengths(starts: Sequence[date], today: date) -> list[str]:
    found = []
    if irregular(starts):
        few = min(_LAST_FEW, len(lengths(starts)))
        found.append(
            f"{len(_odd(starts))} of your last {few} cycles were shorter than {SHORT_CYCLE:.0f} or "
            f"longer than {LONG_CYCLE:.0f} days: worth a clinician's look."
        )
    year_ago = today - timedelta(days=_YEAR)
    within = sum(1 for start in set(starts) if start > year_ago)
    if min(starts) <= year_ago and within < FEWEST_CYCLES:
        found.append(f"{within} periods in a year: see a clinician.")
    return found
