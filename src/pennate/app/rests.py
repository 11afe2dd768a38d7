"""The rest really taken before a set, from the moments two sets were closed at.

A set closed too soon after the one before to have been done in between was written down late:
its rest is not known. What was asked is never written as if it had been measured.
"""

from __future__ import annotations

from datetime import datetime
from fractions import Fraction

LATE_S = 20
"""A shorter rest, where half a minute or more was asked, is a set written down late."""
LONG_S = 30


def rest_taken(closed_s: float | None, set_s: float, asked_s: float) -> Fraction | None:
    """Seconds of rest before a set closed `closed_s` after the last one; None where not known.

    `set_s` is what the set itself takes. Where no rest was asked (the other side, a partner, a
    drop), a set closed sooner than that followed at once.
    """
    if closed_s is None:
        return None
    rest = round(closed_s - set_s)
    if asked_s >= LONG_S and rest < LATE_S:
        return None
    return Fraction(max(0, rest))


def seconds_between(before: object, now: object) -> float | None:
    """Seconds from one moment to a later one; None where one is a day alone, or none."""
    if not isinstance(before, datetime) or not isinstance(now, datetime):
        return None
    return max(0.0, (now - before).total_seconds())
