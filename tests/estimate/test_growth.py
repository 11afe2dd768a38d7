"""How strength grows in the first months: fast at first, and not alike in every exercise."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date, timedelta

import pytest

from pennate.core.performed import Effort
from pennate.estimate import Exposure, Outcome, StrengthModel
from pennate.estimate.settings import DEFAULTS, Settings
from pennate.files.catalogue import read_catalogue

CATALOGUE = read_catalogue()
START = date(2026, 1, 5)
GAINS = {"leg_press": 0.05, "lat_pulldown": 0.10, "chest_fly": 0.10, "curl": 0.17}
"""Log load per log week; about 0.10 on machines (Steele 2023), the spread is ours."""
REPS = 10


def _on(exercise: str, week: int) -> Exposure:
    """Her ten-rep load of that week: linear in log time."""
    kg = 30.0 * (1 + week) ** GAINS[exercise]
    return Exposure(
        when=START + timedelta(weeks=week), session="a", exercise=exercise, felt_kg=kg, rest_s=240.0
    )


def _after(weeks: int, settings: Settings = DEFAULTS) -> StrengthModel:
    model = StrengthModel.start(CATALOGUE, settings=settings)
    for week in range(weeks):
        for exercise in GAINS:
            model.observe(_on(exercise, week), Outcome(REPS, Effort.FAIL))
    return model


def _errors(settings: Settings) -> list[float]:
    """Reps that the median of each exercise misses by, each of the weeks 3 to 10."""
    return [
        abs(_after(week, settings).forecast(_on(exercise, week)).median - REPS)
        for week in range(3, 11)
        for exercise in ("leg_press", "curl")
    ]


def test_an_exercise_that_gains_more_than_the_rest_is_followed() -> None:
    """Where beginners' exercises gain at different speeds, each is forecast by its own."""
    own, shared = _errors(DEFAULTS), _errors(replace(DEFAULTS, own_gain_sd=1e-9))
    assert sum(own) < 0.75 * sum(shared)
    assert max(own) < 2.0


def test_trends_tell_the_faster_exercise_from_the_slower() -> None:
    """The trend of an estimate is the exercise's own, near what it truly gains in a week."""
    model = _after(10)
    for exercise in ("leg_press", "curl"):
        seen = model.estimate(_on(exercise, 9))
        true = GAINS[exercise] * math.log(11 / 10)
        assert abs(seen.trend_per_week - true) < 2 * seen.trend_sd
    fast, slow = (model.estimate(_on(name, 9)).trend_per_week for name in ("curl", "leg_press"))
    assert fast > slow + 0.004


def test_what_is_expected_ahead_goes_on_as_it_went() -> None:
    """Four weeks ahead her strength is what her gains, slowing down, lead to."""
    model = _after(10)
    asked = _on("curl", 9)
    now, then = (model.estimate(asked, ahead=weeks).one_rep_kg for weeks in (0.0, 4.0))
    assert math.log(then / now) == pytest.approx(GAINS["curl"] * math.log(14 / 10), abs=0.03)
