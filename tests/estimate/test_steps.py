"""What comes next: raise, hold, lower, wider range; plateaus."""

from __future__ import annotations

import math
import random
import re
from datetime import timedelta

import pytest

from pennate.core.evidence.strength import GROWTH_LOG
from pennate.core.history import History
from pennate.core.prescribed import Span
from pennate.estimate import (
    Person,
    Step,
    StrengthModel,
    exposure_of,
    fit,
    next_step,
    outcome_of,
    plateau,
    trace,
)
from pennate.files.catalogue import read_catalogue
from tests.estimate.logs import START, asked, one_set, reps_at, steady

CATALOGUE = read_catalogue()
MODEL = fit(steady(sessions=20), CATALOGUE)
LOADS = [20 + 2.5 * step for step in range(30)]


def _growing(weekly: float, weeks: int = 24) -> History:
    rng = random.Random(3)
    rows = []
    for session in range(weeks * 2):
        day = START + timedelta(days=round(3.5 * session))
        reps = reps_at("bench_press", 36, weekly * session / 2) + rng.choice((-1, 0, 1))
        rows.append(one_set(day, 1, "bench_press", 36, reps))
    return History.of(rows)


def test_a_light_load_is_raised() -> None:
    """A range that is sure at the next load up leads there, with its probability."""
    step = next_step(MODEL, asked(kg=32.5, days=62), Span(6, 10), LOADS)
    assert step.step is Step.RAISE
    assert step.felt_kg == 35.0
    assert step.probability >= 0.7


def test_a_heavy_load_is_lowered() -> None:
    """A range that is out of reach leads to the next load down."""
    step = next_step(MODEL, asked(kg=52.5, days=62), Span(8, 12), LOADS)
    assert step.step is Step.LOWER
    assert step.felt_kg == 50.0


def test_what_cannot_be_made_lighter_is_made_easier() -> None:
    """A range out of reach on the lightest load is not held: fewer reps or an easier exercise."""
    step = next_step(MODEL, asked(kg=52.5, days=62), Span(8, 12), [52.5, 55.0])
    assert step.step is Step.EASIER
    assert step.probability < 0.3
    assert "easier exercise" in step.reason


def test_a_fitting_load_is_held() -> None:
    """Where the range is likely here and unlikely one step up, the load stays."""
    step = next_step(MODEL, asked(kg=40.0, days=62), Span(10, 12), LOADS)
    assert step.step in {Step.HOLD, Step.LOWER}
    assert "chance" in step.reason


def test_a_coarse_step_asks_for_a_wider_range() -> None:
    """When the next load is 25 % up, more reps come first and the reason says how many."""
    step = next_step(MODEL, asked(kg=36.0, days=62), Span(8, 12), [36.0, 45.0])
    assert step.step is Step.WIDER_RANGE
    assert "reps" in step.reason


def test_a_present_load_is_needed() -> None:
    """Without a load there is nothing to raise or hold."""
    with pytest.raises(ValueError, match="present load"):
        next_step(MODEL, asked(kg=None), Span(8, 12), LOADS)


def test_steady_growth_is_no_plateau() -> None:
    """Half a per cent a week is not called a stall."""
    model = fit(_growing(0.005), CATALOGUE)
    halt = plateau(model, asked(kg=36.0, days=180))
    assert halt is not None
    assert halt.stalled < 0.2


def test_decline_is_seen() -> None:
    """Losing half a per cent a week is called a stall with high probability."""
    model = fit(_growing(-0.005), CATALOGUE)
    halt = plateau(model, asked(kg=36.0, days=180))
    assert halt is not None
    assert halt.stalled > 0.8


def test_what_a_pause_took_is_no_stall() -> None:
    """Steady growth, five weeks away, a tenth weaker: no stall is called from the days before,
    and after eight weeks of growth anew it is judged from the return on.
    """
    before = list(_growing(0.005, weeks=12))
    back = before[-1].day + timedelta(weeks=5)
    after = [
        one_set(back + timedelta(days=round(3.5 * n)), 1, "bench_press", 33, 10 + n // 5)
        for n in range(18)
    ]
    soon = fit(History.of([*before, *after[:4]]), CATALOGUE)
    assert plateau(soon, asked(kg=33.0, days=160)) is None
    later = plateau(fit(History.of([*before, *after]), CATALOGUE), asked(kg=33.0, days=200))
    assert later is not None
    assert later.weeks == pytest.approx((after[-1].day - back).days / 7, abs=0.6)
    assert later.stalled < 0.5


def test_what_is_usual_after_a_pause_counts_the_weeks_she_trained() -> None:
    """Half a year away makes nobody experienced: a beginner of twelve weeks is expected to gain
    what one in her fifteenth week gains (the pause counts for two, as in the model).
    """
    before = list(_growing(0.005, weeks=12))
    trained = (before[-1].day - START).days / 7 + 2
    back = before[-1].day + timedelta(weeks=26)
    after = [
        one_set(back + timedelta(days=round(3.5 * n)), 1, "bench_press", 33, 10 + n // 5)
        for n in range(18)
    ]
    model = fit(History.of([*before, *after]), CATALOGUE, Person(trained=False))
    halt = plateau(model, asked(kg=33.0, days=330))
    assert halt is not None
    trained += (after[-1].day - back).days / 7 - halt.weeks  # the window may begin after the return
    grown = GROWTH_LOG * math.log((1 + trained + halt.weeks) / (1 + trained))
    assert halt.expected == pytest.approx(grown)


def test_a_log_older_than_what_she_remembered_is_judged_too() -> None:
    """A set remembered today and then a log of last year: the stall is told, nothing fails."""
    model = StrengthModel.start(CATALOGUE)
    model.remembered(asked(kg=40.0, days=400), 8)
    for done in _growing(0.0):
        model.observe(exposure_of(done, CATALOGUE), outcome_of(done))
    halt = plateau(model, asked(kg=36.0, days=401))
    assert halt is not None
    assert 0 < halt.expected < 0.1


def test_a_short_log_has_no_plateau() -> None:
    """Before there are enough sessions nothing is said."""
    assert plateau(fit(steady(sessions=3), CATALOGUE), asked()) is None


def test_a_plateau_s_give_is_the_95_per_cent_interval_and_says_so() -> None:
    """What stands behind ± is 1.96 standard deviations (standard tables), named as such."""
    halt = plateau(fit(_growing(0.002), CATALOGUE), asked(kg=36.0, days=180))
    assert halt is not None
    found = re.search(r"\(± ([0-9.]+) %, 95 times in a hundred\)", halt.words)
    assert found
    assert float(found[1]) == pytest.approx(100 * 1.96 * halt.gain_sd, abs=0.051)


def test_trace_is_dated_and_smoother_than_it_is_wide() -> None:
    """Every session has a point, and hindsight is never less sure than the end."""
    points = trace(MODEL, asked(kg=40.0, days=62))
    assert len(points) == 20
    assert [p.day for p in points] == sorted(p.day for p in points)
    assert all(0 < p.sd_log < 0.3 for p in points)
