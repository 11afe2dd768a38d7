"""Is it growing: the word, its numbers, and the reading that would settle it soonest.

The word rests on the tape alone: the 95 % interval of the corrected change leaves out
nought (growing, losing), or the 90 % interval lies within the band and enough time has
passed (holding). Probabilities stand beside it and decide nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from pennate.body.change import (
    CORRECTION_NOTE,
    Change,
    Corrected,
    Correction,
    change_of,
    correct,
)
from pennate.body.error_model import ErrorGrid
from pennate.body.next_reading import NextReading, next_reading
from pennate.body.series import Series, recent
from pennate.body.support import Item, Support, expected
from pennate.body.translate import MuscleChange, area_cm2, muscle_change
from pennate.core.body import TRUNK
from pennate.core.evidence.body import HOLDING_SESSIONS, HOLDING_WEEKS, SAME_BAND
from pennate.core.percent import signed, signed_span
from pennate.core.performed import Side

_WORD_SHARE = 0.95  # number: the interval that must leave out nought, fixed by the definition
_HOLD_SHARE = 0.90  # number: the interval that must lie within the band, fixed by the definition


class Verdict(StrEnum):
    """The word for a girth between two dates; the value is what people read."""

    GROWING = "growing"
    HOLDING = "holding"
    LOSING = "losing"
    OPEN = "cannot tell yet"


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteVerdict:
    """One site and side: the word, the change with its interval, and what comes next."""

    site: str
    side: Side | None
    state: str | None
    start: date
    end: date
    dates: int
    verdict: Verdict
    p_more: float
    p_same: float
    p_less: float
    change_cm: float
    low95: float
    high95: float
    detectable_cm: float
    correction: str
    correction_note: str
    lean_area: MuscleChange | None
    """Change of muscle area, where a skinfold says how thick the fat is; limbs only."""
    typical_error_cm: float
    next_reading: NextReading
    support: tuple[Item, ...]
    notes: tuple[str, ...]
    say: str
    """The verdict as a sentence."""


def long_enough(weeks: float, sessions: int | None) -> bool:
    """Whether ‘holding’ may be said: by sessions where a log is given, else by weeks."""
    if sessions is not None:
        return sessions >= HOLDING_SESSIONS
    return weeks >= HOLDING_WEEKS


def word(change: Change, girth_cm: float, *, enough: bool) -> Verdict:
    """The word for a change; `enough` says whether ‘holding’ may be said."""
    half = change.half_width(_WORD_SHARE)
    if change.mean - half > 0:
        return Verdict.GROWING
    if change.mean + half < 0:
        return Verdict.LOSING
    reach = abs(change.mean) + change.half_width(_HOLD_SHARE)
    if enough and reach <= SAME_BAND / 100 * girth_cm:
        return Verdict.HOLDING
    return Verdict.OPEN


def spoken_of(
    series: Series,
    error: ErrorGrid,
    masses: dict[date, float],
    support: Support | None = None,
) -> Verdict:
    """The word alone, where nothing beside it is asked for."""
    corrected = correct(recent(series), masses)
    backing = support or Support(corrected.series.weeks)
    enough = long_enough(backing.weeks, backing.sessions)
    return word(change_of(corrected, error), corrected.series.points[0].girth_cm, enough=enough)


def judge(
    series: Series,
    error: ErrorGrid,
    masses: dict[date, float],
    support: Support | None = None,
    today: date | None = None,
) -> SiteVerdict:
    """The verdict on one series of at least two dates; what to read next is asked from today."""
    corrected = correct(recent(series), masses)
    change = change_of(corrected, error)
    base = corrected.series.points[0].girth_cm
    backing = support or Support(corrected.series.weeks)
    prior = expected(backing)
    seen = change.with_prior(prior.mean / 100 * base, prior.sd / 100 * base)
    band = SAME_BAND / 100 * base
    less, more = seen.below(-band), 1 - seen.below(band)
    spoken = word(change, base, enough=long_enough(backing.weeks, backing.sessions))
    half = change.half_width(_WORD_SHARE)
    return SiteVerdict(
        site=series.site.value,
        side=series.side,
        state=series.state.value if series.state else None,
        start=corrected.series.points[0].day,
        end=corrected.series.points[-1].day,
        dates=len(corrected.series.points),
        verdict=spoken,
        p_more=more,
        p_same=1 - more - less,
        p_less=less,
        change_cm=change.mean,
        low95=change.mean - half,
        high95=change.mean + half,
        detectable_cm=half,
        correction=corrected.correction.value,
        correction_note=CORRECTION_NOTE[corrected.correction],
        lean_area=_lean_area(corrected, change),
        typical_error_cm=error.typical * series.mean_cm / 100,
        next_reading=next_reading(
            corrected,
            error,
            change,
            prior,
            settled=spoken is not Verdict.OPEN,
            counted=backing.sessions,
            today=today,
        ),
        support=prior.items,
        notes=series.notes,
        say=_sentence(series, corrected.series, change, half, spoken),
    )


def _lean_area(corrected: Corrected, change: Change) -> MuscleChange | None:
    first = corrected.series.points[0]
    if first.skinfold_mm is None or corrected.series.site in TRUNK:
        return None
    if corrected.correction is Correction.SKINFOLD:
        inner = float(corrected.girths[0])
        gain = area_cm2(inner + change.mean) - area_cm2(inner)
        return MuscleChange(gain, gain, area_cm2(inner))
    return muscle_change(first.girth_cm, first.girth_cm + change.mean, first.skinfold_mm)


def _sentence(series: Series, used: Series, change: Change, half: float, spoken: Verdict) -> str:
    since = f"since {used.points[0].day.day} {used.points[0].day:%B}"
    interval = f"{signed_span(change.mean - half, change.mean + half)} cm"
    name = series.name.capitalize()
    if spoken is Verdict.OPEN:
        return (
            f"{name}: cannot tell yet. The tape says {signed(change.mean)} cm {since}, "
            f"but anything from {interval} fits."
        )
    if spoken is Verdict.HOLDING:
        return f"{name}: holding. No change larger than 1 % {since} ({interval})."
    return f"{name}: {spoken.value}, {signed(change.mean)} cm {since} ({interval})."
