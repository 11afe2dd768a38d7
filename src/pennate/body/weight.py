"""Body weight: the trend with its interval, its slope, and what the scale will say.

A forecast is of one morning's weighing, not of the trend, because that is what she will see.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from math import log
from statistics import fmean, median

import numpy as np

from pennate.body.change import normal_cdf
from pennate.body.error_model import Array
from pennate.body.weight_model import (
    LEVEL,
    SLOPE,
    SPOKEN_SHARES,
    SPOKEN_TAILS,
    Beliefs,
    Settings,
    cycle_shape,
    next_day,
    reading_of,
    settings_for,
    start,
    transition,
    weigh,
)
from pennate.core.evidence.body_weight import LEAST_WEIGHINGS, SLIP_LOG
from pennate.errors import NoAnswerError

WEEKS_AHEAD = (1, 2, 3, 4)
_DECILES = (0.1, 0.5, 0.9)  # number: what a forecast states, fixed by the contract
_LOW, _HIGH = 0.025, 0.975  # number: a 95 % interval
_KEEP_DAYS = 400  # number: older weighings say nothing about now
_LIGHT = 1e-3  # number: parts of a mixture lighter than this move no quantile
_HEAVY = 24  # number: grid points a chart looks back with; the others weigh too little to be seen
_NEIGHBOURS = 4  # number: weighings on each side that a slip is judged against


@dataclass(frozen=True, slots=True)
class WeightForecast:
    """One morning's weighing so many weeks after the last, kg."""

    weeks: int
    p10: float
    p50: float
    p90: float


@dataclass(frozen=True, slots=True)
class TrendPoint:
    """The trend on a day with all weighings in hand, kg; `weighed` is that day's mean."""

    day: date
    trend: float
    low95: float
    high95: float
    weighed: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightTrend:
    """The trend on the day of the last weighing; slopes in kg a week."""

    day: date
    trend_kg: float
    trend_low95: float
    trend_high95: float
    slope_kg_week: float
    low95: float
    high95: float
    forecast: tuple[WeightForecast, ...]
    questions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Weighings:
    """Weighings by day, oldest first, slips left out and asked about."""

    days: tuple[date, ...]
    masses: tuple[float, ...]
    questions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Mixture:
    """A mixture of normals with its quantiles."""

    weights: Array
    means: Array
    sds: Array

    @property
    def mean(self) -> float:
        """The mean of the mixture."""
        return float(self.weights @ self.means)

    def quantile(self, share: float) -> float:
        """The value below which this share lies."""
        heavy = self.weights > self.weights.max() * _LIGHT
        weights, means, sds = self.weights[heavy], self.means[heavy], self.sds[heavy]
        weights = weights / weights.sum()
        reach = 12 * float(sds.max())  # number: no mass lies further out
        low, high = float(means.min()) - reach, float(means.max()) + reach
        for _ in range(40):  # number: bisection far below a gram
            middle = (low + high) / 2
            if float(weights @ normal_cdf((middle - means) / sds)) < share:
                low = middle
            else:
                high = middle
        return high


def gather_weighings(pairs: Iterable[tuple[date, float]]) -> Weighings:
    """Days in order with their mean; a weighing far from its neighbours becomes a question."""
    ordered = sorted(pairs)
    kept: dict[date, list[float]] = defaultdict(list)
    asked = []
    for index, (day, mass) in enumerate(ordered):
        about = [m for _, m in ordered[max(0, index - _NEIGHBOURS) : index + _NEIGHBOURS + 1]]
        if len(about) > 2 and abs(log(mass / median(about))) > SLIP_LOG:
            asked.append(f"{day}: is {mass:g} kg right? About then you weighed {median(about):g}.")
        else:
            kept[day].append(mass)
    masses = tuple(fmean(group) for group in kept.values())
    return Weighings(tuple(kept), masses, tuple(asked))


def filter_weighings(
    weighings: Weighings, settings: Settings, periods: Sequence[date] = ()
) -> list[Beliefs]:
    """Beliefs after each weighing, in order."""
    beliefs = start(settings, weighings.days[0], weighings.masses[0])
    after = []
    for day, mass in zip(weighings.days, weighings.masses, strict=True):
        beliefs = next_day(beliefs, settings, (day - beliefs.day).days)
        beliefs = weigh(beliefs, settings, mass, cycle_shape(day, periods))
        after.append(beliefs)
    return after


def weight_trend(pairs: Iterable[tuple[date, float]], periods: Sequence[date] = ()) -> WeightTrend:
    """The trend, its slope and the coming weighings.

    `periods` are first days of logged periods; the rise about them is taken out of the
    trend as far as her own log shows one. Raises NoAnswerError below two dates.
    """
    return trend_of(follow(pairs, periods))


@dataclass(frozen=True, slots=True)
class Followed:
    """Weighings followed one by one: what the trend and its chart both rest on."""

    weighings: Weighings
    late: Weighings
    """Those that say something about now."""
    settings: Settings
    beliefs: tuple[Beliefs, ...]
    """After each of the late ones."""
    periods: tuple[date, ...]


def follow(pairs: Iterable[tuple[date, float]], periods: Sequence[date] = ()) -> Followed:
    """One pass of the filter. Raises NoAnswerError below two dates."""
    weighings = gather_weighings(pairs)
    _require(weighings)
    late = _latest(weighings)
    settings = settings_for(late.masses[0])
    beliefs = tuple(filter_weighings(late, settings, periods))
    return Followed(weighings, late, settings, beliefs, tuple(periods))


def trend_of(seen: Followed) -> WeightTrend:
    """The trend, its slope and the coming weighings, from one pass."""
    last = seen.beliefs[-1]
    level, slope = _state(last, LEVEL), _state(last, SLOPE, scale=7)
    return WeightTrend(
        day=last.day,
        trend_kg=level.mean,
        trend_low95=level.quantile(_LOW),
        trend_high95=level.quantile(_HIGH),
        slope_kg_week=slope.mean,
        low95=slope.quantile(_LOW),
        high95=slope.quantile(_HIGH),
        forecast=forecast(last, seen.settings),
        questions=seen.weighings.questions,
    )


def _require(weighings: Weighings) -> None:
    if len(weighings.days) < LEAST_WEIGHINGS:
        left_out = f" (left out as unlikely: {len(weighings.questions)})"
        raise NoAnswerError(
            "a trend needs weighings on two dates at least, better on most days of two weeks"
            + (left_out if weighings.questions else ""),
            {
                "dates": len(weighings.days),
                "needed": int(LEAST_WEIGHINGS),
                "questions": list(weighings.questions),
            },
        )


def _latest(weighings: Weighings) -> Weighings:
    """The stretch that says something about now; two dates at least."""
    first = weighings.days[-1].toordinal() - _KEEP_DAYS
    cut = bisect_left([day.toordinal() for day in weighings.days], first)
    cut = min(cut, len(weighings.days) - 2)
    return Weighings(weighings.days[cut:], weighings.masses[cut:], weighings.questions)


def _state(beliefs: Beliefs, state: int, scale: float = 1.0) -> Mixture:
    sds = np.sqrt(beliefs.covariances[:, state, state])
    return Mixture(beliefs.weights, scale * beliefs.means[:, state], scale * sds)


def forecast(beliefs: Beliefs, settings: Settings) -> tuple[WeightForecast, ...]:
    """Weighings one to four weeks after the last, each with its 80 % interval."""
    found = []
    for weeks in WEEKS_AHEAD:
        beliefs = next_day(beliefs, settings, 7)
        seen = weighing_ahead(beliefs, settings)
        found.append(WeightForecast(weeks, *(seen.quantile(share) for share in _DECILES)))
    return tuple(found)


def weighing_ahead(beliefs: Beliefs, settings: Settings) -> Mixture:
    """The distribution of a weighing on the day the beliefs stand at."""
    seen = reading_of(beliefs.day, 0.0)
    means = beliefs.means @ seen
    spread = np.einsum("i,gij,j->g", seen, beliefs.covariances, seen)
    variances = spread[:, None] + settings.noise[:, None] ** 2 * SPOKEN_TAILS
    weights = beliefs.weights[:, None] * SPOKEN_SHARES
    return Mixture(weights.ravel(), np.repeat(means, len(SPOKEN_TAILS)), np.sqrt(variances).ravel())


def trend_points(
    pairs: Iterable[tuple[date, float]], periods: Sequence[date] = ()
) -> tuple[TrendPoint, ...]:
    """The trend on every weighed day, looking back with all weighings (for charts)."""
    return points_of(follow(pairs, periods))


def points_of(seen: Followed) -> tuple[TrendPoint, ...]:
    """The chart of one pass; its last point is the trend as it is told beside it."""
    heavy = seen.beliefs[-1].heaviest(_HEAVY)
    settings = seen.settings.only(heavy)
    if len(seen.late.days) == len(seen.weighings.days):
        after = [beliefs.only(heavy) for beliefs in seen.beliefs]
    else:  # the chart goes further back than the trend looks
        after = filter_weighings(seen.weighings, settings, seen.periods)
    weights = seen.beliefs[-1].weights[heavy]
    smooth = _smoothed(after, settings, weights / weights.sum())
    points = [
        TrendPoint(day, mean, mean - 1.96 * sd, mean + 1.96 * sd, mass)  # number: 95 % of a normal
        for day, mass, (mean, sd) in zip(
            seen.weighings.days, seen.weighings.masses, smooth, strict=True
        )
    ]
    last = trend_of(seen)
    told = (last.trend_kg, last.trend_low95, last.trend_high95)
    return (*points[:-1], TrendPoint(last.day, *told, points[-1].weighed))


def _smoothed(
    after: Sequence[Beliefs], settings: Settings, weights: Array
) -> list[tuple[float, float]]:
    """Level and its SD on each weighed day by the backward pass, over the weighed grid."""
    means, covariances = after[-1].means, after[-1].covariances
    found = [_level(means, covariances, weights)]
    for before, later in zip(after[-2::-1], after[:0:-1], strict=True):
        days = (later.day - before.day).days
        ahead = next_day(before, settings, days)
        step = np.linalg.matrix_power(transition(), days)
        gain = before.covariances @ step.T @ np.linalg.pinv(ahead.covariances, hermitian=True)
        means = before.means + np.einsum("gij,gj->gi", gain, means - ahead.means)
        difference = covariances - ahead.covariances
        covariances = before.covariances + gain @ difference @ gain.transpose(0, 2, 1)
        found.append(_level(means, covariances, weights))
    return found[::-1]


def _level(means: Array, covariances: Array, weights: Array) -> tuple[float, float]:
    """Mean and SD of the level over the grid: within its points, and between them."""
    levels, variances = means[:, LEVEL], np.maximum(0.0, covariances[:, LEVEL, LEVEL])
    mean = float(weights @ levels)
    return mean, float(np.sqrt(weights @ (variances + (levels - mean) ** 2)))
