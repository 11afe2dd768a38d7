"""Which reading would settle a verdict soonest, how likely, and when ‘holding’ can be said.

A date is judged by what the tape would likely say then: her readings so far and what is known
of true changes foretell the coming readings, and the rule of the verdict is put to them.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import inf, sqrt

import numpy as np

from pennate.body.change import Change, Corrected, Correction, kriging_weights, normal_cdf
from pennate.body.error_model import Array, ErrorGrid, departure, weeks_since_first
from pennate.body.support import Expected
from pennate.core.evidence.body import (
    HOLDING_SESSIONS,
    HOLDING_WEEKS,
    SAME_BAND,
)
from pennate.core.percent import chance as chance_words

Day = date
_LOOKED_AT = (1, 2, 3, 4, 6, 8, 10, 12, 16, 20, 26)  # number: weeks ahead that are tried
_USUAL, _MANY = 3, 5  # number: readings a date that a plan may ask for
FURTHEST = 26  # number: weeks looked ahead, half a year
_ROUTINE = 4  # number: weeks to the next reading when nothing is open
LIKELY = 0.6  # number: settled three times in five (bench/body)
_WORTH = 2  # number: weeks a plan must save to be asked in place of a lighter one
_TWO_SIDED_95 = 1.96  # number: standard normal quantile
_TWO_SIDED_90 = 1.645  # number: standard normal quantile
_WORD_SHARE = 0.95  # number: the interval that must leave out nought, fixed by the definition
_FLAT = 1.0  # number: SD of the unknown girth, in its own size; wide enough to say nothing
_SMALL_SHARE = 0.1  # number: of her possible errors, for what can be said at the soonest
_SLOWER = 0.3  # number: who is still open has changed little, and goes on so (bench/body)
_TINY = 1e-12  # number: cm², so that no variance is nought by rounding


@dataclass(frozen=True, slots=True)
class Plan:
    """So many readings a date, so many dates a week."""

    readings: int
    per_week: int

    @property
    def words(self) -> str:
        """As she would do it."""
        count = "five" if self.readings == _MANY else "three"
        return f"{count} readings {'once' if self.per_week == 1 else 'twice'} a week"


PLANS = (Plan(_USUAL, 1), Plan(_MANY, 1), Plan(_MANY, 2))
"""From the lightest to the heaviest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NextReading:
    """A date and what to read until then; `detectable_cm` is the change it could show."""

    date: Day
    readings: int
    per_week: int
    detectable_cm: float
    chance: float
    """Probability that the verdict is settled on that date."""
    settles: bool
    """Whether that is likely."""
    holding_from: Day | None
    """The first date on which ‘holding’ can be said; None if not within half a year, or settled."""
    say: str


@dataclass(frozen=True, slots=True)
class _Seen:
    """One girth as it stands: freed of fat, with her error and what is known of true changes."""

    corrected: Corrected
    error: ErrorGrid
    prior: Expected
    counted: int | None
    wider: float
    """How much wider her interval is than with an error known for sure."""
    today: date
    """Readings to come are counted from here; the day of the last one where she reads today."""

    @property
    def base(self) -> float:
        """Girth on the first date, cm."""
        return self.corrected.series.points[0].girth_cm

    @property
    def last(self) -> date:
        """The last date read."""
        return self.corrected.series.points[-1].day

    @property
    def waited(self) -> float:
        """Weeks since the last date read, in which no reading can be taken any more."""
        return (self.today - self.last).days / 7


def next_reading(
    corrected: Corrected,
    error: ErrorGrid,
    change: Change,
    prior: Expected,
    *,
    settled: bool,
    counted: int | None = None,
    today: date | None = None,
) -> NextReading:
    """The plan and the date by which the verdict is likely settled.

    `change` is the tape's, `prior` what is known of the true change without it; `counted` the
    sessions logged in that time: ‘holding’ then waits for sessions, not weeks. Without `today`
    she reads on from the last date.
    """
    last = corrected.series.points[-1].day
    now = max(last, today or last)
    seen = _Seen(corrected, error, prior, counted, _wider(corrected, error, change), now)
    if settled:
        return _routine(seen)
    found = [(plan, ahead) for plan in PLANS if (ahead := _likely(seen, plan)) is not None]
    if not found:
        return _unsettled(seen)
    plan, ahead = found[0]
    for heavier, sooner in found[1:]:
        if ahead - sooner >= _WORTH:
            plan, ahead = heavier, sooner
    return _settling(seen, plan, ahead)


def _wider(corrected: Corrected, error: ErrorGrid, change: Change) -> float:
    weeks = weeks_since_first(corrected.series)
    noise = _noise(corrected, error, PLANS[0], 0)
    smooth = (corrected.series.mean_cm / 100) ** 2 * departure(weeks)
    _, variance = kriging_weights(weeks, noise, smooth)
    sure = _TWO_SIDED_95 * sqrt(variance + corrected.shared_variance)
    return max(1.0, change.half_width(_WORD_SHARE) / sure)


def _routine(seen: _Seen) -> NextReading:
    plan, day = PLANS[0], seen.last + timedelta(weeks=_ROUTINE)
    usual = f"Next reading in {_ROUTINE} weeks, as usual."
    late = f"Last read on {_day(seen.last)} {seen.last.year}; every {_ROUTINE} weeks is usual."
    return NextReading(
        date=day,
        readings=plan.readings,
        per_week=plan.per_week,
        detectable_cm=_TWO_SIDED_95 * _ahead(seen, plan, _ROUTINE).error,
        chance=1.0,
        settles=True,
        holding_from=None,
        say=late if day <= seen.today else usual,
    )


def _settling(seen: _Seen, plan: Plan, ahead: int) -> NextReading:
    when, outlook = seen.today + timedelta(weeks=ahead), _ahead(seen, plan, ahead)
    chance, holding = _chance(seen, outlook, ahead), _holding(seen)
    asked = f"{plan.words} until then" if ahead > 1 else plan.words.removesuffix(" once a week")
    return NextReading(
        date=when,
        readings=plan.readings,
        per_week=plan.per_week,
        detectable_cm=_TWO_SIDED_95 * outlook.error,
        chance=chance,
        settles=True,
        holding_from=holding,
        say=f"Likely settled on {_day(when)} ({chance_words(chance)}): {asked}. "
        f"{_holding_words(holding, plan)}",
    )


def _unsettled(seen: _Seen) -> NextReading:
    """Nothing she can reasonably do makes it likely: what comes nearest, and how near."""
    plan = PLANS[-1]
    outlook = _ahead(seen, plan, FURTHEST)
    chance, holding = _chance(seen, outlook, FURTHEST), _holding(seen)
    return NextReading(
        date=seen.today + timedelta(weeks=1),
        readings=plan.readings,
        per_week=plan.per_week,
        detectable_cm=_TWO_SIDED_95 * outlook.error,
        chance=chance,
        settles=False,
        holding_from=holding,
        say=f"Even {plan.words} for {FURTHEST} weeks settle it with a chance of "
        f"{chance_words(chance)} only: {_help(seen.corrected)} {_holding_words(holding, plan)}",
    )


def _help(corrected: Corrected) -> str:
    if corrected.correction is Correction.NONE:
        return "weigh yourself, or pinch a skinfold, on every date."
    return "keep the same place and time of day."


def _day(when: date) -> str:
    return f"{when.day} {when:%B}"


def _holding_words(holding: date | None, asked: Plan) -> str:
    if holding is None:
        return f"‘Holding’ cannot be said within {FURTHEST} weeks: the tape errs too much."
    by = "" if asked == PLANS[-1] else f", by {PLANS[-1].words}"
    return f"‘Holding’ on {_day(holding)} at the soonest{by}."


@dataclass(frozen=True, slots=True)
class _Outlook:
    """What the tape will say on a date: its error, and the distribution of its estimate, cm."""

    error: float
    """Half of its 95 % interval, by 1.96."""
    mean: float
    sd: float


def _likely(seen: _Seen, plan: Plan) -> int | None:
    """Weeks to the first date on which it is likely settled."""
    return next((a for a in _LOOKED_AT if _chance(seen, _ahead(seen, plan, a), a) >= LIKELY), None)


def _holding(seen: _Seen) -> date | None:
    """The first date on which no change at all would be called holding, by the best plan.

    Her error may turn out smaller than it looks now: the soonest is by the small end of it.
    """
    careful = replace(seen, error=_small_end(seen.error), wider=1.0)
    band = SAME_BAND / 100 * seen.base
    for ahead in range(1, FURTHEST + 1):
        error = _weighed(careful, PLANS[-1], ahead)[2] if _allowed(seen, ahead) else inf
        if _TWO_SIDED_90 * error <= band:
            return seen.today + timedelta(weeks=ahead)
    return None


def _small_end(error: ErrorGrid) -> ErrorGrid:
    """The tenth of what her error may be that is smallest."""
    order = np.argsort(error.reading**2 + error.day**2)
    heaped = np.cumsum(error.weight[order])
    kept = order[: int(np.searchsorted(heaped, _SMALL_SHARE * heaped[-1])) + 1]
    weight = error.weight[kept]
    return ErrorGrid(error.reading[kept], error.day[kept], weight / weight.sum())


def _allowed(seen: _Seen, ahead: int) -> bool:
    weeks, counted = seen.corrected.series.weeks, seen.counted
    if counted is None:
        return weeks + seen.waited + ahead >= HOLDING_WEEKS
    pace = counted / max(weeks, 1.0)
    return counted + pace * ahead >= HOLDING_SESSIONS


def _chance(seen: _Seen, outlook: _Outlook, ahead: int) -> float:
    """Probability that the rule of the verdict finds a word on that date."""
    far = _TWO_SIDED_95 * outlook.error
    near = SAME_BAND / 100 * seen.base - _TWO_SIDED_90 * outlook.error
    edges = [-far, far]
    if near > 0 and _allowed(seen, ahead):
        edges += [-near, near]
    below = normal_cdf((np.array(edges) - outlook.mean) / outlook.sd)
    called = float(below[0] + 1 - below[1])
    return min(1.0, called + float(below[3] - below[2])) if len(below) > 2 else called


def _weighed(seen: _Seen, plan: Plan, ahead: int) -> tuple[Array, Array, float]:
    """Weeks of all dates of a plan, how the estimate weighs them, and its error, cm."""
    series = seen.corrected.series
    now = weeks_since_first(series)
    dates = np.arange(1, plan.per_week * ahead + 1) / plan.per_week
    coming = now[-1] + seen.waited + dates
    weeks = np.concatenate([now, coming])
    noise = _noise(seen.corrected, seen.error, plan, len(coming))
    smooth = (series.mean_cm / 100) ** 2 * departure(weeks)
    weights, variance = kriging_weights(weeks, noise, smooth)
    return weeks, weights, seen.wider * sqrt(variance + seen.corrected.shared_variance)


def _ahead(seen: _Seen, plan: Plan, ahead: int) -> _Outlook:
    """The outlook after so many weeks of a plan.

    True changes wander by the prior's spread, from now on more slowly; the estimate is that of
    the verdict, which is linear in the readings, so what it will be is a normal given those read.
    """
    weeks, weights, error = _weighed(seen, plan, ahead)
    girths, span = seen.corrected.girths, max(seen.corrected.series.weeks, 1.0)
    known = len(girths)
    noise = _noise(seen.corrected, seen.error, plan, len(weeks) - known)
    pace = seen.prior.mean / 100 * seen.base / span
    wander = (seen.prior.sd / 100 * seen.base) ** 2 / span
    flat = (_FLAT * seen.base) ** 2
    grown = np.minimum(weeks, weeks[known - 1]) + _SLOWER * np.maximum(0, weeks - weeks[known - 1])
    spread = flat + wander * np.minimum.outer(grown, grown) + np.diag(noise)
    usual = girths[0] + pace * weeks
    gain = np.linalg.solve(spread[:known, :known], spread[:known, known:]).T
    foretold = usual[known:] + gain @ (girths - usual[:known])
    left = spread[known:, known:] - gain @ spread[:known, known:]
    mean = float(weights[:known] @ girths + weights[known:] @ foretold)
    variance = float(weights[known:] @ left @ weights[known:])
    return _Outlook(error, mean, sqrt(max(_TINY, variance)))


def _noise(corrected: Corrected, error: ErrorGrid, plan: Plan, coming: int) -> Array:
    """Error variance of every date, read and to come, cm²."""
    series = corrected.series
    counts = np.array([p.readings for p in series.points] + [plan.readings] * coming)
    reading2 = error.weight @ error.reading**2
    day2 = error.weight @ error.day**2
    extra = np.full(coming, float(np.mean(corrected.extra_variance)))
    noise = (series.mean_cm / 100) ** 2 * (reading2 / counts + day2)
    return np.asarray(noise + np.concatenate([corrected.extra_variance, extra]), dtype=float)
