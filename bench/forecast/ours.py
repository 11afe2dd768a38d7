"""The product's own forecaster, called as `pennate forecast` calls it."""

from __future__ import annotations

from functools import partial

from bench.forecast.scoring import Forecaster
from bench.forecast.training import Diary
from pennate.core.exercise import Catalogue
from pennate.core.forecast import RepsForecast
from pennate.core.history import History
from pennate.estimate.replay import one_step_ahead
from pennate.estimate.settings import DEFAULTS, Settings


def ours(catalogue: Catalogue, settings: Settings = DEFAULTS) -> Forecaster:
    """A forecaster with these settings; it is told nothing of the person."""
    return partial(_forecasts, catalogue=catalogue, settings=settings)


def _forecasts(
    diary: Diary, *, catalogue: Catalogue, settings: Settings
) -> list[RepsForecast | None]:
    history = History.of(diary.rows)
    return [forecast for _, forecast in one_step_ahead(history, catalogue, settings=settings)]
