"""New work, after which the signs of muscle breakdown are told: known so far, and to come.

A day is new work when the seven days up to it hold half as many sets again as the fullest week
of late, when it ends a break of four weeks, and in a beginner's first weeks.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from pennate.core.cautions import hard_new_work
from pennate.core.evidence.safety import (
    BREAKDOWN_DAYS,
    NEW_AGAIN_DAYS,
    NEW_CARE_DAYS,
    SETS_JUMP,
)
from pennate.core.performed import PerformedSet, SetKind

WEEK = 7
USUAL_WEEKS = 4
"""Weeks whose fullest seven days say what her usual number of sets is."""


@dataclass(frozen=True, slots=True)
class Outlook:
    """What further working sets would make of a day, those of the days before it counted too."""

    due: bool
    """The signs are told on this day whatever is done."""
    jump: int | None
    """Further sets in the week up to it from which it is new work; None where no number is."""
    back: bool
    """The first further set on it ends a break."""


def working_days(history: Iterable[PerformedSet]) -> list[date]:
    """The day of every working set, in order."""
    return [done.day for done in history if done.kind is not SetKind.WARM_UP]


def days_ago(working: Sequence[date], today: date, *, trained: bool) -> int | None:
    """Days since the last new work, if it is no longer ago than its signs may come."""
    for ago in range(int(BREAKDOWN_DAYS) + 1):
        day = today - timedelta(days=ago)
        if day in working and _is_new(working, day, trained=trained):
            return ago
    return None


def outlook(working: Sequence[date], day: date, *, trained: bool) -> Outlook:
    """What a day is, and what further sets would make of it."""
    return Outlook(
        due=days_ago(working, day, trained=trained) is not None,
        jump=_jump(working, day, trained=trained),
        back=_days_off(working, day) >= NEW_AGAIN_DAYS,
    )


def _is_new(working: Sequence[date], day: date, *, trained: bool) -> bool:
    """Whether the week up to a day was new work; her first weeks are, unless she is trained."""
    if _first_weeks(working, day, trained=trained):
        return True
    usual = _usual(working, day)
    if usual is None:
        return False
    return hard_new_work(_week_up_to(working, day), usual, _days_off(working, day))


def _jump(working: Sequence[date], day: date, *, trained: bool) -> int | None:
    if _first_weeks(working, day, trained=trained):
        return 1
    usual = _usual(working, day)
    if usual is None:
        return None
    return max(1, math.ceil(usual * (1 + SETS_JUMP)) - _week_up_to(working, day))


def _first_weeks(working: Sequence[date], day: date, *, trained: bool) -> bool:
    return not trained and (not working or (day - working[0]).days < NEW_CARE_DAYS)


def _usual(working: Sequence[date], day: date) -> int | None:
    """Sets of the fullest week of late, the one up to this day apart; None where none is older."""
    week = day - timedelta(days=WEEK)
    before = working[: bisect_right(working, week)]
    if not before:
        return None
    lately = before[bisect_right(before, week - timedelta(weeks=USUAL_WEEKS)) :]
    return max((_week_up_to(lately, one) for one in set(lately)), default=0)


def _days_off(working: Sequence[date], day: date) -> int:
    earlier = bisect_left(working, day)
    return (day - working[earlier - 1]).days if earlier else 0


def _week_up_to(working: Sequence[date], day: date) -> int:
    return bisect_right(working, day) - bisect_right(working, day - timedelta(days=WEEK))
