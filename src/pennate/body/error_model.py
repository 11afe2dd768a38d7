"""Her own measurement error, learned from repeats, starting from published error.

Reading error (tape, on one date) and day error (water, posture, landmark, between dates)
are kept apart, each as a per cent of the girth. Three levels: published prior, the person,
her site. Within-date scatter informs the first, scatter of dates about a smooth change the
second. Everything lives on a fixed grid of multipliers of the prior, so it is exact and
repeatable.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from pennate.body.series import Series, site_factor
from pennate.core.body import Site
from pennate.core.evidence.body import (
    DAY_ERROR,
    DEPARTURE,
    ERROR_APART,
    ERROR_LINK,
    LEARNING_SLOPE,
    PERSON_SPREAD,
    READING_ERROR,
    SITE_SPREAD,
)

Array = NDArray[np.float64]

_STEPS = np.arange(-6, 7) * 0.25  # number: grid of log multipliers, a quarter apart to ±1.5
_SLOPE_WEEKS = 12  # number: the slope constant is stated for twelve weeks
_MOST_DATES = 52  # number: the latest dates used for learning, which bounds the work


@dataclass(frozen=True, slots=True)
class ErrorGrid:
    """A posterior of (reading, day) error at one site, in per cent of the girth."""

    reading: Array
    """Reading SD at each grid point."""
    day: Array
    weight: Array
    """Probability of each grid point."""

    @property
    def typical(self) -> float:
        """Posterior mean of one reading's whole error, per cent of the girth."""
        return float(self.weight @ np.hypot(self.reading, self.day))


def prior_grid(site: Site) -> ErrorGrid:
    """What is assumed before she has measured anything."""
    reading, day = _grid(site)
    spread = np.hypot(PERSON_SPREAD, SITE_SPREAD)
    return ErrorGrid(reading, day, np.exp(_log_normal(spread)).ravel())


def learn(all_series: Sequence[Series]) -> dict[Site, ErrorGrid]:
    """The error posterior of every site measured; both sides of a site share it."""
    sites = list(dict.fromkeys(series.site for series in all_series))
    likelihood = {
        site: _normalised(_sum(_log_likelihood(s) for s in all_series if s.site is site))
        for site in sites
    }
    spread = {site: _blur(np.exp(likelihood[site])) for site in sites}
    person = _log_normal(PERSON_SPREAD)
    learned = {}
    for site in sites:
        others = _sum(np.log(spread[other]) for other in sites if other is not site)
        prior = _blur(np.exp(_normalised(person + others)))
        joint = np.exp(likelihood[site]) * prior
        reading, day = _grid(site)
        learned[site] = ErrorGrid(reading, day, (joint / joint.sum()).ravel())
    return learned


def _grid(site: Site) -> tuple[Array, Array]:
    factor = site_factor(site)
    reading, day = np.meshgrid(
        factor * READING_ERROR * np.exp(_STEPS), factor * DAY_ERROR * np.exp(_STEPS), indexing="ij"
    )
    return reading.ravel(), day.ravel()


def _log_normal(spread: float) -> Array:
    """Log density of both multipliers: most people err alike in both, a few in one alone."""
    alike, apart = _normal(spread, ERROR_LINK), _normal(spread, 0.0)
    return _normalised(np.log((1 - ERROR_APART) * np.exp(alike) + ERROR_APART * np.exp(apart)))


def _normal(spread: float, link: float) -> Array:
    one = _STEPS / spread
    square = one[:, None] ** 2 + one[None, :] ** 2 - 2 * link * np.outer(one, one)
    return _normalised(-0.5 * square / (1 - link**2))


def _sum(terms: Iterable[Array]) -> Array:
    return sum(terms, start=np.zeros((len(_STEPS), len(_STEPS))))


def _normalised(log_density: Array) -> Array:
    shifted = log_density - log_density.max()
    return np.asarray(shifted - np.log(np.exp(shifted).sum()), dtype=float)


def _blur(density: Array) -> Array:
    """Spread a density over the grid by how much a site may differ from the person."""
    kernel = _site_kernel(SITE_SPREAD, ERROR_LINK)
    return (kernel @ density.ravel()).reshape(density.shape)


@cache
def _site_kernel(spread: float, link: float) -> Array:
    """How (reading, day) of the person moves to that of a site; both err together."""
    reading, day = (steps.ravel() for steps in np.meshgrid(_STEPS, _STEPS, indexing="ij"))
    apart = np.stack([one[:, None] - one[None, :] for one in (reading, day)]) / spread
    square = (apart**2).sum(axis=0) - 2 * link * apart[0] * apart[1]
    kernel = np.exp(-0.5 * square / (1 - link**2))
    return np.asarray(kernel / kernel.sum(axis=0), dtype=float)


def _log_likelihood(series: Series) -> Array:
    """Log likelihood on the grid (n × n) of one series' readings and dates."""
    reading, day = _grid(series.site)
    total = _within(series, reading) + _between(series, reading, day)
    return total.reshape(len(_STEPS), len(_STEPS))


def _within(series: Series, reading: Array) -> Array:
    scale = 100 / series.mean_cm
    squares = scale**2 * sum(point.squares for point in series.points)
    freedom = sum(point.readings - 1 for point in series.points)
    return np.asarray(-freedom * np.log(reading) - squares / (2 * reading**2), dtype=float)


def _between(series: Series, reading: Array, day: Array) -> Array:
    points = series.points[-_MOST_DATES:]
    if len(points) < 2:
        return np.zeros_like(reading)
    weeks = weeks_since_first(series)[-_MOST_DATES:]
    girths = np.array([point.girth_cm for point in points]) * 100 / series.mean_cm
    counts = np.array([point.readings for point in points])
    smooth = (LEARNING_SLOPE / _SLOPE_WEEKS) ** 2 * np.outer(weeks, weeks) + departure(weeks)
    noise = reading[:, None] ** 2 / counts + day[:, None] ** 2
    return _restricted(girths, smooth[None] + noise[:, :, None] * np.eye(len(points)))


def _restricted(values: Array, covariance: Array) -> Array:
    """Gaussian log density with the level integrated out, one value a covariance."""
    inverse = np.linalg.inv(covariance)
    _, log_det = np.linalg.slogdet(covariance)
    ones = inverse.sum(axis=2)
    information = ones.sum(axis=1)
    centre = (ones @ values) / information
    quadratic = np.einsum("i,gij,j->g", values, inverse, values) - information * centre**2
    return np.asarray(-0.5 * (log_det + np.log(information) + quadratic), dtype=float)


def weeks_since_first(series: Series) -> Array:
    """Weeks of every date since the first, as an array."""
    first = series.points[0].day
    return np.array([(point.day - first).days for point in series.points]) / 7


def departure(weeks: Array) -> Array:
    """Covariance of a smooth departure from a line: an integrated random walk, %²."""
    low = np.minimum.outer(weeks, weeks)
    gap = np.abs(np.subtract.outer(weeks, weeks))
    return np.asarray(DEPARTURE**2 * (low**3 / 3 + gap * low**2 / 2), dtype=float)
