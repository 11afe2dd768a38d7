"""The weight filter: level, slope, water, weekday and cycle, with heavy-tailed noise.

One state-space model run on a fixed grid of noise settings at once; the grid's posterior
weights make the forecast. The noise is a t distribution written as a mixture of normals,
so that each update stays in closed form and an odd reading moves little. All masses are
in kg, all steps one day.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import product
from math import exp

import numpy as np
from numpy.typing import NDArray

from pennate.body.error_model import Array
from pennate.core.evidence.body_weight import (
    CYCLE_SPREAD_KG,
    LEVEL_CENTRE,
    NOISE_CENTRE,
    RHYTHM_SPREAD,
    SLOPE_CENTRE,
    SLOPE_MEMORY_DAYS,
    WATER_CENTRE,
    WATER_MEMORY,
)

LEVEL, SLOPE, WATER, CYCLE, WEEKDAY = range(5)  # number: places in the state
STATES = WEEKDAY + 7
_DAYS_A_WEEK = 7

# A t distribution with about five degrees of freedom, and a rare slip at the end.
_TAILS = np.array([0.55, 1.2, 3.5, 12.0, 150.0])  # number: variance multipliers of the mixture
_TAIL_SHARES = np.array([0.415, 0.395, 0.15, 0.03, 0.01])  # number: their shares
SPOKEN_TAILS = _TAILS[:-1]
"""The tails a forecast speaks of: a slip of the pen is not forecast."""
SPOKEN_SHARES = _TAIL_SHARES[:-1] / _TAIL_SHARES[:-1].sum()
_NOISE_STEPS = np.arange(-4, 5) * 0.25  # number: log grid about the centre
_WATER_STEPS = (-2.0, -0.75, 0.25, 0.85)  # number: log grid about the centre
_LEVEL_STEPS = (-2.5, -1.0, 0.5)  # number: log grid about the centre
_SLOPE_STEPS = (-1.0, 0.0, 1.0)  # number: log grid about the centre
_PRIOR_SDS = np.array([0.5, 1.0, 1.0, 1.0])  # number: prior spread on the log grid
_FIRST_SPREAD = 0.1  # number: the first weighing says the level within a tenth of itself


Places = NDArray[np.intp]
"""Places of points in the grid."""


@dataclass(frozen=True, slots=True)
class Settings:
    """Grid of noise settings, one entry a grid point; SDs in kg."""

    noise: Array
    water: Array
    level: Array
    slope: Array
    log_prior: Array

    def only(self, at: Places) -> Settings:
        """The grid reduced to some of its points."""
        parts = (self.noise, self.water, self.level, self.slope, self.log_prior)
        return Settings(*(part[at] for part in parts))


@dataclass(frozen=True, slots=True)
class Beliefs:
    """State of every grid point after the last day filtered."""

    day: date
    means: Array
    """(grid, states)"""
    covariances: Array
    """(grid, states, states)"""
    log_weights: Array

    @property
    def weights(self) -> Array:
        """Posterior probability of each grid point."""
        raw = np.exp(self.log_weights - self.log_weights.max())
        return np.asarray(raw / raw.sum(), dtype=float)

    def heaviest(self, count: int) -> Places:
        """The points of the grid that weigh most, in their order."""
        return np.sort(np.argsort(-self.log_weights, kind="stable")[:count])

    def only(self, at: Places) -> Beliefs:
        """The beliefs of some points of the grid."""
        return Beliefs(self.day, self.means[at], self.covariances[at], self.log_weights[at])


def settings_for(mass_kg: float) -> Settings:
    """The grid for a person of about this mass, with its prior."""
    per_cent = mass_kg / 100
    grid = np.array(list(product(_NOISE_STEPS, _WATER_STEPS, _LEVEL_STEPS, _SLOPE_STEPS)))
    factors = np.exp(grid)
    return Settings(
        noise=per_cent * NOISE_CENTRE * factors[:, 0],
        water=per_cent * WATER_CENTRE * factors[:, 1],
        level=per_cent * LEVEL_CENTRE * factors[:, 2],
        slope=per_cent * SLOPE_CENTRE / _DAYS_A_WEEK * factors[:, 3],
        log_prior=-0.5 * ((grid / _PRIOR_SDS) ** 2).sum(axis=1),
    )


def start(settings: Settings, day: date, mass_kg: float) -> Beliefs:
    """What is believed before the first weighing."""
    count = len(settings.noise)
    means = np.zeros((count, STATES))
    means[:, LEVEL] = mass_kg
    covariances = np.zeros((count, STATES, STATES))
    covariances[:, LEVEL, LEVEL] = (_FIRST_SPREAD * mass_kg) ** 2
    covariances[:, SLOPE, SLOPE] = settings.slope**2
    covariances[:, WATER, WATER] = settings.water**2
    covariances[:, CYCLE, CYCLE] = CYCLE_SPREAD_KG**2
    centred = np.eye(_DAYS_A_WEEK) - 1 / _DAYS_A_WEEK
    covariances[:, WEEKDAY:, WEEKDAY:] = (RHYTHM_SPREAD / 100 * mass_kg) ** 2 * centred
    return Beliefs(day, means, covariances, settings.log_prior.copy())


def transition() -> Array:
    """How one day's state leads to the next."""
    step = np.eye(STATES)
    keep = exp(-1 / SLOPE_MEMORY_DAYS)
    step[LEVEL, SLOPE] = 1.0
    step[SLOPE, SLOPE] = keep
    step[WATER, WATER] = WATER_MEMORY
    return step


def day_noise(settings: Settings) -> Array:
    """Variance each day adds to every state, (grid, states)."""
    added = np.zeros((len(settings.noise), STATES))
    keep = exp(-1 / SLOPE_MEMORY_DAYS)
    added[:, LEVEL] = settings.level**2
    added[:, SLOPE] = settings.slope**2 * (1 - keep**2)
    added[:, WATER] = settings.water**2 * (1 - WATER_MEMORY**2)
    return added


def next_day(beliefs: Beliefs, settings: Settings, days: int = 1) -> Beliefs:
    """Beliefs some days later, nothing weighed in between."""
    added = day_noise(settings)
    means, covariances = beliefs.means.copy(), beliefs.covariances.copy()
    diagonal = np.arange(STATES)
    for _ in range(days):
        _step(means[:, None, :])
        _step(covariances)
        _step(covariances.transpose(0, 2, 1))
        covariances[:, diagonal, diagonal] += added
    later = date.fromordinal(beliefs.day.toordinal() + days)
    return Beliefs(later, means, covariances, beliefs.log_weights)


def _step(rows: Array) -> None:
    """One day's transition of the last axis, in place: (grid, any, states)."""
    rows[:, :, LEVEL] += rows[:, :, SLOPE]
    rows[:, :, SLOPE] *= exp(-1 / SLOPE_MEMORY_DAYS)
    rows[:, :, WATER] *= WATER_MEMORY


def reading_of(day: date, cycle: float) -> Array:
    """What a weighing on a day sees of the state."""
    seen = np.zeros(STATES)
    seen[LEVEL] = seen[WATER] = 1.0
    seen[CYCLE] = cycle
    seen[WEEKDAY + day.weekday()] = 1.0
    return seen


def weigh(beliefs: Beliefs, settings: Settings, mass_kg: float, cycle: float) -> Beliefs:
    """Beliefs after one weighing: the mixture of tails collapsed to its first two moments."""
    seen = reading_of(beliefs.day, cycle)
    spread = beliefs.covariances @ seen
    surprise = mass_kg - beliefs.means @ seen
    variances = (spread @ seen)[:, None] + settings.noise[:, None] ** 2 * _TAILS
    logs = np.log(_TAIL_SHARES) - 0.5 * (np.log(variances) + surprise[:, None] ** 2 / variances)
    top = logs.max(axis=1, keepdims=True)
    shares = np.exp(logs - top)
    total = shares.sum(axis=1)
    shares /= total[:, None]
    gain = (shares / variances).sum(axis=1)
    wobble = (shares / variances**2).sum(axis=1) - gain**2
    kept = gain - surprise**2 * wobble
    outer = spread[:, :, None] * spread[:, None, :]
    return Beliefs(
        beliefs.day,
        beliefs.means + spread * (surprise * gain)[:, None],
        beliefs.covariances - outer * kept[:, None, None],
        beliefs.log_weights + top[:, 0] + np.log(total),
    )


_RISE_DAYS, _FALL_DAYS = 5, 4  # number: rises from four days before to day two, gone by day six


def cycle_shape(day: date, periods: Sequence[date]) -> float:
    """The rise about a logged period, 0 to 1: up before it, highest on its second day."""
    nearest = min(((day - first).days - 1 for first in periods), key=abs, default=None)
    if nearest is None:
        return 0.0
    width = _RISE_DAYS if nearest < 0 else _FALL_DAYS
    return max(0.0, 1 - abs(nearest) / width)
