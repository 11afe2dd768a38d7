"""Strength, dose and time as supporting evidence: shown with their weight, never decisive.

Each source of support says how large a true change is likely, as a normal prior on it. The
weight of strength is the correlation between gain in strength and gain in lean mass in the
open data; its square, the share of growth it foretells, is at most a few per cent.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from pennate.core.evidence.body import GROWTH_CENTRE, GROWTH_SPREAD
from pennate.core.evidence.body_support import (
    DOSE_LEAN_DIFFERENCE,
    DOSE_SETS_DIFFERENCE,
    GIRTH_PER_LEAN,
    STRENGTH_GAIN_SPREAD,
    STRENGTH_GAIN_USUAL,
    STRENGTH_WEIGHT,
    TRAINED_FACTOR,
    USUAL_SETS,
)
from pennate.core.percent import signed

_SPREAD_WEEKS = 12  # number: the growth constants are stated for twelve weeks


@dataclass(frozen=True, slots=True)
class Support:
    """What the log says about the muscles under a tape, between two dates."""

    weeks: float
    strength_log_gain: float | None = None
    """Mean change of log strength of the exercises that train them."""
    sets_per_week: float | None = None
    """Fractional sets a week."""
    sessions: int | None = None
    """Sessions that trained them; None without a log."""


@dataclass(frozen=True, slots=True)
class Item:
    """One source of support: its weight and the shift it gives, in per cent of the girth."""

    source: str
    weight: float
    """Correlation with growth."""
    shift: float
    say: str


@dataclass(frozen=True, slots=True)
class Expected:
    """What supporting evidence says before the tape is read: a normal, % of the girth."""

    mean: float
    sd: float
    items: tuple[Item, ...]


def expected(support: Support) -> Expected:
    """The prior on the true change, from time, strength and dose."""
    spread = GROWTH_SPREAD * sqrt(support.weeks / _SPREAD_WEEKS)
    items = [_time(spread, support.weeks)]
    if support.strength_log_gain is not None:
        items.append(_strength(support.strength_log_gain, spread))
    if support.sets_per_week is not None:
        items.append(_dose(support.sets_per_week, support.weeks))
    explained = sum(item.weight**2 for item in items[1:])
    return Expected(
        sum(item.shift for item in items), spread * sqrt(max(0.0, 1 - explained)), tuple(items)
    )


def _time(spread: float, weeks: float) -> Item:
    centre = GROWTH_CENTRE * weeks / _SPREAD_WEEKS
    return Item(
        "time",
        0.0,
        max(-spread, min(spread, centre)),
        f"in {weeks:.0f} weeks a true change beyond ±{2 * spread:.1f} % of the girth is unusual",
    )


def _strength(log_gain: float, spread: float) -> Item:
    usual = (log_gain - STRENGTH_GAIN_USUAL) / STRENGTH_GAIN_SPREAD
    shift = STRENGTH_WEIGHT * spread * max(-3.0, min(3.0, usual))
    share = 100 * STRENGTH_WEIGHT**2
    return Item(
        "strength",
        STRENGTH_WEIGHT,
        shift,
        f"strength changed by {signed(100 * log_gain, 0)} %; in the open data that tells "
        f"{share:.1f} % of who grew",
    )


def _dose(sets_per_week: float, weeks: float) -> Item:
    per_set = DOSE_LEAN_DIFFERENCE / DOSE_SETS_DIFFERENCE
    lean = per_set * (sets_per_week - USUAL_SETS) * TRAINED_FACTOR * weeks / _SPREAD_WEEKS
    bound = DOSE_LEAN_DIFFERENCE * TRAINED_FACTOR
    shift = GIRTH_PER_LEAN * max(-bound, min(bound, lean))
    return Item(
        "dose",
        0.0,
        shift,
        f"{sets_per_week:.1f} hard sets a week against the usual {USUAL_SETS:.0f} "
        f"would shift the girth by {signed(shift, 2)} %",
    )
