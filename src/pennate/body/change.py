"""The change of a girth between its first and last date, corrected for fat, with its error.

Every date between the two helps: the change is the best linear prediction of a line with a
smooth departure (universal kriging). With two dates it is exactly their difference.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from math import pi

import numpy as np

from pennate.body.error_model import Array, ErrorGrid, departure, weeks_since_first
from pennate.body.series import Series
from pennate.core.evidence.body import (
    FAT_SHARE,
    FAT_SHARE_SPREAD,
    GIRTH_ON_MASS,
    MASS_ERROR_KG,
    SKINFOLD_ERROR,
)

_NEAR_DAYS = 10  # number: a weighing within ten days stands for a girth's date


class Correction(StrEnum):
    """How the change was freed of fat; the value is what people read."""

    SKINFOLD = "skinfold"
    WEIGHT = "weight trend"
    NONE = "none, fat thickness held"


CORRECTION_NOTE: Mapping[Correction, str] = {
    Correction.SKINFOLD: "girth less π × skinfold at each date",
    Correction.WEIGHT: "the part of the girth's change that her change of body mass explains, "
    "as fat, is taken off; rough",
    Correction.NONE: "neither skinfold nor body mass at both dates: the layer of fat is taken as "
    "unchanged, so fat gained reads as growth",
}


@dataclass(frozen=True, slots=True)
class Corrected:
    """A series freed of fat: girths in cm, and what that adds to the error."""

    series: Series
    correction: Correction
    girths: Array
    extra_variance: Array
    """Error variance by date beyond that of the girth, cm²."""
    shared_variance: float = 0.0
    """Error variance of the whole change beyond that of the dates, cm²."""


@dataclass(frozen=True, slots=True)
class Change:
    """The posterior of a change as a mixture of normals over what her error may be, cm."""

    weights: Array
    means: Array
    sds: Array

    @property
    def mean(self) -> float:
        """The estimated change."""
        return float(self.weights @ self.means)

    def half_width(self, share: float) -> float:
        """Half the width of the central interval that holds this share."""
        low, high = 0.0, 10 * float(self.sds.max()) + float(np.ptp(self.means))
        for _ in range(60):  # bisection to machine precision
            middle = (low + high) / 2
            if self._within(middle) < share:
                low = middle
            else:
                high = middle
        return high

    def _within(self, half: float) -> float:
        return self.below(self.mean + half) - self.below(self.mean - half)

    def below(self, value: float) -> float:
        """Probability of a change below a value."""
        return float(self.weights @ normal_cdf((value - self.means) / self.sds))

    def with_prior(self, mean: float, sd: float) -> Change:
        """This change seen through what is known about true changes."""
        shrink = sd**2 / (sd**2 + self.sds**2)
        return Change(self.weights, mean + shrink * (self.means - mean), np.sqrt(shrink) * self.sds)


def normal_cdf(values: Array) -> Array:
    """Standard normal distribution function."""
    from math import erf, sqrt

    return np.array([0.5 * (1 + erf(value / sqrt(2))) for value in values])


def correct(series: Series, masses: Mapping[date, float]) -> Corrected:
    """Free a series of fat by the best means at hand: skinfold, else body mass, else nothing."""
    first, last = series.points[0], series.points[-1]
    if first.skinfold_mm is not None and last.skinfold_mm is not None:
        return _by_skinfold(series)
    mass_at = _mass_lookup(masses)
    if mass_at(first.day) is not None and mass_at(last.day) is not None:
        return _by_mass(series, masses)
    girths = np.array([point.girth_cm for point in series.points])
    return Corrected(series, Correction.NONE, girths, np.zeros(len(girths)))


def _by_skinfold(series: Series) -> Corrected:
    kept = tuple(point for point in series.points if point.skinfold_mm is not None)
    folds_cm = np.array([point.skinfold_mm or 0.0 for point in kept]) / 10
    girths = np.array([point.girth_cm for point in kept]) - pi * folds_cm
    error = (pi * folds_cm * SKINFOLD_ERROR / 100) ** 2
    return Corrected(replace(series, points=kept), Correction.SKINFOLD, girths, error)


def _mass_lookup(masses: Mapping[date, float]) -> Callable[[date], float | None]:
    def at(day: date) -> float | None:
        near = [(abs((other - day).days), mass) for other, mass in masses.items()]
        return min(near)[1] if near and min(near)[0] <= _NEAR_DAYS else None

    return at


def _interpolated(day: date, masses: Mapping[date, float]) -> float:
    days = list(masses)
    place = bisect_left(days, day)
    if place == len(days):
        return masses[days[-1]]
    if days[place] == day or place == 0:
        return masses[days[place]]
    before, after = days[place - 1], days[place]
    share = (day - before).days / (after - before).days
    return masses[before] + share * (masses[after] - masses[before])


def _by_mass(series: Series, masses: Mapping[date, float]) -> Corrected:
    ordered = dict(sorted(masses.items()))
    kilograms = np.array([_interpolated(point.day, ordered) for point in series.points])
    girths = np.array([point.girth_cm for point in series.points])
    logs = np.log(kilograms / kilograms[0])
    per_log = GIRTH_ON_MASS[series.site] * girths[0]
    error = (per_log * FAT_SHARE * MASS_ERROR_KG / kilograms) ** 2
    return Corrected(
        series,
        Correction.WEIGHT,
        girths - per_log * FAT_SHARE * logs,
        error,
        float((per_log * FAT_SHARE_SPREAD * logs[-1]) ** 2),
    )


def change_of(corrected: Corrected, error: ErrorGrid) -> Change:
    """The change from first to last date, as a mixture over her error."""
    series = corrected.series
    weeks = weeks_since_first(series)
    counts = np.array([point.readings for point in series.points])
    cm = series.mean_cm / 100
    kept = error.weight > error.weight.max() * 1e-4  # number: negligible grid points are dropped
    reading, day, weight = error.reading[kept], error.day[kept], error.weight[kept]
    noise = cm**2 * (reading[:, None] ** 2 / counts + day[:, None] ** 2) + corrected.extra_variance
    means, variances = kriged_change(weeks, corrected.girths, noise, cm**2 * departure(weeks))
    sds = np.sqrt(variances + corrected.shared_variance)
    return Change(weight / weight.sum(), means, sds)


def kriged_change(weeks: Array, values: Array, noise: Array, smooth: Array) -> tuple[Array, Array]:
    """Mean and variance of value(last) − value(first), one a row of `noise` (grid × dates)."""
    count = len(weeks)
    total = smooth[None] + noise[:, :, None] * np.eye(count)
    design = np.stack([np.ones(count), weeks], axis=1)
    wanted = np.array([0.0, weeks[-1] - weeks[0]])
    solved = np.linalg.solve(
        total,
        np.broadcast_to(np.column_stack([design, values, smooth[:, -1]]), (len(noise), count, 4)),
    )
    information = np.einsum("ip,gic->gpc", design, solved)
    by_line = np.linalg.solve(information[:, :, :2], information[:, :, 2:3])[:, :, 0]
    lack = wanted - information[:, :, 3]
    means = np.einsum("gp,gp->g", lack, by_line) + solved[:, :, 2] @ smooth[:, -1]
    unexplained = smooth[-1, -1] - solved[:, :, 3] @ smooth[:, -1]
    by_lack = np.linalg.solve(information[:, :, :2], lack[:, :, None])[:, :, 0]
    return means, unexplained + np.einsum("gp,gp->g", lack, by_lack)


def kriging_weights(weeks: Array, noise: Array, smooth: Array) -> tuple[Array, float]:
    """The same prediction as weights on the values, with its variance, for one row of noise."""
    count = len(weeks)
    design = np.stack([np.ones(count), weeks], axis=1)
    wanted = np.array([0.0, weeks[-1] - weeks[0]])
    pulled = smooth[:, -1]
    solved = np.linalg.solve(smooth + np.diag(noise), np.column_stack([design, pulled]))
    information, lack = design.T @ solved[:, :2], wanted - design.T @ solved[:, 2]
    by_lack = np.linalg.solve(information, lack)
    weights = solved[:, 2] + solved[:, :2] @ by_lack
    variance = smooth[-1, -1] - pulled @ solved[:, 2] + lack @ by_lack
    return np.asarray(weights, dtype=float), float(variance)
