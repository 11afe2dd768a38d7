"""Her own error learned from repeats."""

from __future__ import annotations

import numpy as np
import pytest

from pennate.body.error_model import learn, prior_grid
from pennate.body.series import gather
from pennate.core.body import Measurement, Site
from tests.body.rows import row, taped


def day_error(rows: list[Measurement]) -> float:
    """Posterior mean of the day error of a thigh, per cent."""
    learnt = learn(gather(rows))[Site.THIGH]
    return float(learnt.weight @ learnt.day)


def test_prior_without_data() -> None:
    """One reading on one date teaches nothing: the error stays the published one."""
    learnt = learn(gather([row(0, 55.0)]))[Site.THIGH]
    assert learnt.typical == pytest.approx(prior_grid(Site.THIGH).typical, rel=0.05)


@pytest.mark.parametrize(("reading", "low", "high"), [(0.2, 0.2, 0.55), (1.0, 1.2, 2.0)])
def test_many_repeats_override_the_prior(reading: float, low: float, high: float) -> None:
    """Twenty dates of three readings pull the reading error to what her tape shows (% of 55)."""
    rng = np.random.default_rng(1)
    rows = taped(rng, range(0, 140, 7), [55.0] * 20, reading=reading, day=0.05)
    learnt = learn(gather(rows))[Site.THIGH]
    assert low < float(learnt.weight @ learnt.reading) < high


def test_scatter_of_dates_teaches_day_error() -> None:
    """A landmark that wanders by 2 % raises the day error although readings agree."""
    rng = np.random.default_rng(2)
    steady = taped(rng, range(0, 84, 7), [55.0] * 12, reading=0.2, day=0.05)
    wandering = taped(rng, range(0, 84, 7), [55.0] * 12, reading=0.2, day=1.1)
    assert day_error(steady) < 0.5
    assert day_error(wandering) > 1.2


def test_steady_growth_is_not_error() -> None:
    """Growth along a line leaves the error at what it is without growth."""
    rng = np.random.default_rng(3)
    days = list(range(0, 84, 7))
    growing = taped(rng, days, [55 + 0.02 * day for day in days])
    learnt = learn(gather(growing))[Site.THIGH]
    assert learnt.typical < 1.25


def test_another_site_learns_from_the_thigh() -> None:
    """Careful readings at one site lower what is expected at another, but less."""
    rng = np.random.default_rng(1)
    rows = taped(rng, range(0, 140, 7), [55.0] * 20, reading=0.15, day=0.05)
    calf = [row(0, 36.0, site=Site.CALF), row(56, 36.2, site=Site.CALF)]
    learnt = learn(gather([*rows, *calf]))
    assert learnt[Site.THIGH].typical < learnt[Site.CALF].typical
    assert learnt[Site.CALF].typical < prior_grid(Site.CALF).typical
