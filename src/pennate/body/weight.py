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
    STATES,
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
    """The chart of one pass, by the likeliest point of its grid."""
    best = int(seen.beliefs[-1].log_weights.argmax())
    settings = seen.settings.only(best)
    if len(seen.late.days) == len(seen.weighings.days):
        after = [beliefs.only(best) for beliefs in seen.beliefs]
    else:  # the chart goes further back than the trend looks
        after = filter_weighings(seen.weighings, settings, seen.periods)
    smooth = _smoothed(after, settings)
    return tuple(
        TrendPoint(day, mean, mean - 1.96 * sd, mean + 1.96 * sd, mass)  # number: 95 % of a normal
        for day, mass, (mean, sd) in zip(
            seen.weighings.days, seen.weighings.masses, smooth, strict=True
        )
    )


def _smoothed(after: Sequence[Beliefs], settings: Settings) -> list[tuple[float, float]]:
    """Level and its SD on each weighed day, by the backward pass."""
    mean, covariance = after[-1].means[0], after[-1].covariances[0]
    found = [_level(mean, covariance)]
    for before, later in zip(after[-2::-1], after[:0:-1], strict=True):
        days = (later.day - before.day).days
        ahead = next_day(before, settings, days)
        step = np.linalg.matrix_power(transition(), days)
        gain = before.covariances[0] @ step.T @ np.linalg.pinv(ahead.covariances[0])
        mean = before.means[0] + gain @ (mean - ahead.means[0])
        difference = covariance - ahead.covariances[0]
        covariance = before.covariances[0] + gain @ difference @ gain.T
        found.append(_level(mean, covariance))
    return found[::-1]


def _level(mean: Array, covariance: Array) -> tuple[float, float]:
    if mean.shape != (STATES,):
        raise ValueError("one grid point at a time")
    return float(mean[LEVEL]), float(np.sqrt(max(0.0, covariance[LEVEL, LEVEL])))
