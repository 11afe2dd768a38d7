"""Many loads asked about at once, and an exercise met beforehand, give what one by one gives."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from pennate.estimate import StrengthModel, fit
from pennate.files.catalogue import read_catalogue
from tests.estimate.logs import TEN_REPS_KG, asked, steady

CATALOGUE = read_catalogue()
MODEL = fit(steady(), CATALOGUE)
LOADS = [0.0, 5.0, 20.0, 37.5, 40.0, 52.5, 90.0]


@pytest.mark.parametrize("exercise", [*TEN_REPS_KG, "incline_press"])
@pytest.mark.parametrize("tired", [False, True])
def test_means_are_those_of_the_forecasts(
    exercise: str,
    tired: bool,  # noqa: FBT001 - drawn by position
) -> None:
    """Known or new, fresh or after a set: seven loads at once as seven forecasts, and no trace."""
    model = MODEL.copy()
    first = asked(exercise, 30.0)
    if tired:
        model.assume(first, 8)
    before = model.belief.mean.copy()
    alone = [model.forecast(replace(first, felt_kg=kg)).mean for kg in LOADS]
    assert model.mean_reps(first, LOADS) == pytest.approx(alone, abs=1e-9)
    assert np.array_equal(model.belief.mean, before)
    assert alone[-1] < alone[2]


def test_an_exercise_that_was_met_is_asked_about_alike() -> None:
    """Meeting an exercise beforehand changes no answer of that session."""
    met, fresh = MODEL.copy(), MODEL.copy()
    asking = asked("bench_press", 40.0)
    met.meet(asking)
    assert met.forecast(asking) == fresh.forecast(asking)
    assert met.load_for(asking, 8, 0.5) == fresh.load_for(asking, 8, 0.5)
    for model in (met, fresh):
        model.assume(asking, 8)
    assert met.forecast(asking) == fresh.forecast(asking)


def test_meeting_an_exercise_teaches_nothing() -> None:
    """However many are met, a session without a set leaves strength as it was."""
    model: StrengthModel = MODEL.copy()
    for exercise in TEN_REPS_KG:
        model.meet(asked(exercise, None))
    asking = asked("curl", 18.0)
    assert model.estimate(asking).one_rep_kg == pytest.approx(
        MODEL.estimate(asking).one_rep_kg, rel=1e-9
    )
