"""How the belief changes with the days between sessions, before anything is seen."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from pennate.core.evidence import strength as s
from pennate.estimate import belief as b
from pennate.estimate.belief import Clock
from pennate.estimate.curve import Array

if TYPE_CHECKING:
    from pennate.estimate.exposure import Person
    from pennate.estimate.learned import Learned
    from pennate.estimate.settings import Settings


def first_belief(settings: Settings, person: Person) -> b.Belief:
    """The shared factors before anything is known."""
    sd = np.zeros(b.SHARED)
    sd[b.GENERAL] = s.GENERAL_SD
    sd[b.MUSCLES : b.SLOPE] = s.MUSCLE_SD
    sd[b.SLOPE] = settings.slope_person_sd
    sd[b.SHAPE] = settings.shape_person_sd
    sd[b.SLOW] = settings.slow_sd
    sd[b.SLOW_S] = settings.slow_s_sd
    sd[b.ACUTE] = settings.acute_sd
    sd[b.ACUTE_S] = settings.acute_s_sd
    sd[b.LIGHTER] = settings.lighter_sd
    sd[b.BIAS] = settings.report_person_sd
    sd[b.TREND] = settings.trend_sd
    sd[b.GAIN] = settings.gain_sd
    sd[b.SLEEP] = math.hypot(s.SLEEP_SHRINK, s.SLEEP_SD)
    sd[b.DAY] = day_sd(settings, person)
    mean = np.zeros(b.SHARED)
    mean[b.SLEEP] = s.SLEEP_EFFECT
    return b.Belief(mean, np.diag(sd * sd))


def day_sd(settings: Settings, person: Person) -> float:
    """Day SD of the population she belongs to."""
    return settings.day_sd_novice if person.trained is False else settings.day_sd


def log_weeks(start: float, end: float) -> float:
    """Log time between two weeks since the first session; early gains are linear in it."""
    return math.log((1 + end) / (1 + start))


def expected_growth(start: float, end: float, person: Person) -> float:
    """Expected log gain between two weeks since the first session."""
    if person.trained is False:
        return s.GROWTH_LOG * log_weeks(start, end)
    return s.TREND * (end - start)


def slowing_gain(belief: b.Belief, person: Person) -> float:
    """Log gain per log week that she is believed to make in general; never a loss."""
    usual = s.GROWTH_LOG if person.trained is False else 0.0
    return max(usual + belief.mean.item(b.GAIN), 0.0)


class Growth(NamedTuple):
    """What an exercise gains in some weeks of training: elements of the belief by weight, and
    beside them what is usual.
    """

    parts: Array
    weights: Array
    usual: float


def growth(belief: b.Belief, family: int, weeks: tuple[float, float], person: Person) -> Growth:
    """Growth between two weeks of training of the family whose elements begin at `family`."""
    gone, slowed = weeks[1] - weeks[0], log_weeks(*weeks)
    parts = np.array([b.TREND, b.GAIN, family + b.OWN_TREND, family + b.OWN_GAIN])
    weights = np.array([gone, slowed, gone, slowing_gain(belief, person) * slowed])
    return Growth(parts, weights, expected_growth(*weeks, person))


def drifted(settings: Settings, learned: Learned, weeks: float) -> float:
    """Variance that drift adds to one exercise's level in so many weeks of training."""
    shared = 2.0 * settings.shared_drift**2  # in general, and of its muscles
    return (settings.drift**2 + shared) * weeks * learned.drift.variance_factor


def advance(
    belief: b.Belief,
    clock: Clock,
    week: float,
    *,
    settings: Settings,
    person: Person,
    learned: Learned,
) -> Clock:
    """Let weeks pass over the shared factors; returns the clock's new position."""
    gone = week - clock.week
    mean = belief.mean.copy()
    cov = belief.cov.copy()
    added = np.zeros(b.LASTING)
    drift = settings.shared_drift**2 * gone * learned.drift.variance_factor
    added[b.GENERAL] = drift
    added[b.MUSCLES : b.SLOPE] = drift
    idle = min(max(gone - s.LAYOFF_FREE_WEEKS, 0.0), s.LAYOFF_MOST)
    loss = settings.layoff_loss * idle
    added[b.GENERAL] += (settings.layoff_sd * idle) ** 2
    back = clock.lost * (1.0 - math.exp(-settings.regain * min(gone, 1.0)))
    weeks = min(gone, s.LAYOFF_FREE_WEEKS)
    trained = clock.trained + weeks
    shift = expected_growth(clock.trained, trained, person) + back - loss
    slowed = log_weeks(clock.trained, trained)
    mean[b.GENERAL] += weeks * mean[b.TREND] + slowed * mean[b.GAIN] + shift
    cov[b.GENERAL, :] += weeks * cov[b.TREND, :] + slowed * cov[b.GAIN, :]
    cov[:, b.GENERAL] += weeks * cov[:, b.TREND] + slowed * cov[:, b.GAIN]
    variances = b.diagonal(cov)[: b.LASTING]
    variances += added
    keep = math.exp(-7.0 * gone / settings.day_memory)
    variance = day_sd(settings, person) ** 2 * learned.day.variance_factor
    mean[b.DAY] *= keep
    cov[b.DAY, :] *= keep
    cov[:, b.DAY] *= keep
    cov[b.DAY, b.DAY] += (1.0 - keep * keep) * variance
    belief.mean, belief.cov = mean, cov
    lost = clock.lost + loss - back
    return Clock(week, clock.spread + added, clock.shift + shift, lost, trained)


def first_block(
    settings: Settings, nodes: tuple[tuple[str, float], ...], clock: Clock
) -> b.Resting:
    """A family nobody has seen, at the present time."""
    sd = [
        s.FAMILY_SD,
        settings.own_trend_sd,
        settings.own_gain_sd,
        settings.slope_exercise_sd,
        settings.shape_exercise_sd,
        settings.slow_own_sd,
        settings.acute_own_sd,
        settings.own_day_sd,
        *(node_sd for _, node_sd in nodes),
    ]
    rest = np.diag(np.square(sd))
    names = tuple(name for name, _ in nodes)
    return b.Resting(
        np.zeros(len(sd)),
        np.zeros((len(sd), b.LASTING)),
        rest,
        names,
        clock,
    )


def _drift_of_ways(settings: Settings) -> tuple[float, float, float, float]:
    """Variance that a week adds to what is an exercise's own beside level, growth and day."""
    by = settings.ways_drift
    return (
        (by * settings.slope_exercise_sd) ** 2,
        (by * settings.shape_exercise_sd) ** 2,
        (by * settings.slow_own_sd) ** 2,
        (by * settings.acute_own_sd) ** 2,
    )


@lru_cache(maxsize=100)
def _unmoved(size: int) -> Array:
    return np.eye(size)


def woken(
    block: b.Resting,
    clock: Clock,
    *,
    learning: float,
    gain: float,
    settings: Settings,
    learned: Learned,
) -> b.Resting:
    """A resting family brought to the present.

    `learning` is 1 after its first exposure; `gain` is hers of log strength per log week, of
    which the family makes a share more or less.
    """
    since, by = block.since, block.by
    gone = clock.week - since.week
    shared = by[:, : b.LASTING]
    rest = block.rest + (shared * (clock.spread - since.spread)).dot(shared.T)
    keep = math.exp(-gone / settings.trend_memory)
    move = _unmoved(len(rest)).copy()
    move[b.LEVEL, b.OWN_TREND] = min(gone, s.LAYOFF_FREE_WEEKS)
    slowed = log_weeks(since.trained, clock.trained)
    move[b.LEVEL, b.OWN_GAIN] = gain * slowed
    move[b.OWN_TREND, b.OWN_TREND] = keep
    move[b.OWN_DAY, b.OWN_DAY] = 0.0
    general = by[:, b.GENERAL]
    at = move.dot(block.at - general * (clock.shift - since.shift))
    at[b.LEVEL] += settings.learning * learning
    rest = move.dot(rest).dot(move.T)
    idle = min(max(gone - s.LAYOFF_FREE_WEEKS, 0.0), s.LAYOFF_MOST)
    own = settings.drift**2 * gone * learned.drift.variance_factor
    own += (settings.learning_sd * learning) ** 2 + (settings.layoff_sd * idle) ** 2 / 2
    trend = (1.0 - keep * keep) * settings.own_trend_sd**2
    day = settings.own_day_sd**2 * learned.day.variance_factor
    ways = [gone * variance for variance in _drift_of_ways(settings)]
    variances = b.diagonal(rest)[: b.FAMILY]
    variances += (own, trend, 0.0, *ways, day)
    by = move.dot(by)
    trends = by[:, b.TREND : b.LASTING]
    trends -= by[:, b.GENERAL, None] * (clock.trained - since.trained, slowed)
    return b.Resting(at, by, rest, block.nodes, clock)
