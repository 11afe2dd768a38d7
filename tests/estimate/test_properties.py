"""What must hold whatever the numbers: replay, order, rest, load, slips, labels."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.core.exercise import Catalogue
from pennate.core.history import History
from pennate.core.performed import Effort, SetKind
from pennate.core.quantities import LoadReading
from pennate.estimate import ExposureReader, StrengthModel, fit, one_step_ahead, outcome_of
from pennate.files.catalogue import read_catalogue
from tests.estimate.logs import START, TEN_REPS_KG, asked, one_set, steady

CATALOGUE: Catalogue = read_catalogue()
MODEL = fit(steady(), CATALOGUE)


def _same(one: StrengthModel, other: StrengthModel) -> bool:
    a, b = one.settled(), other.settled()
    return (
        np.array_equal(a.belief.mean, b.belief.mean)
        and np.array_equal(a.belief.cov, b.belief.cov)
        and all(np.array_equal(a.resting[k].at, b.resting[k].at) for k in a.resting)
    )


def test_replay_equals_stepwise() -> None:
    """Fitting a log and forecasting it set by set end in the same bits."""
    history = steady(effort=Effort.TWO)
    model = StrengthModel.start(CATALOGUE)
    reader = ExposureReader(CATALOGUE)
    for done in history:
        exposure = reader.exposure(done)
        model.forecast(exposure)
        model.observe(exposure, outcome_of(done))
    assert _same(model, fit(history, CATALOGUE))


def test_the_same_log_gives_the_same_bits() -> None:
    """Nothing in the model depends on chance, clock or order of a dictionary."""
    first = [f.quantiles for _, f in one_step_ahead(steady(), CATALOGUE) if f]
    again = [f.quantiles for _, f in one_step_ahead(steady(), CATALOGUE) if f]
    assert first == again


def test_asking_changes_nothing() -> None:
    """Forecasts, loads and estimates leave the model as it was."""
    model = MODEL.copy()
    model.forecast(asked(kg=44.0))
    model.load_for(asked("curl", None), 8, 0.7)
    model.estimate(asked("leg_press"))
    assert _same(model, MODEL)


@given(st.integers(10, 600), st.integers(1, 600))
@settings(max_examples=40, deadline=None)
def test_more_rest_never_lowers_the_forecast(rest: int, more: int) -> None:
    """After a set to failure, a longer rest gives as many reps or more."""
    model = MODEL.copy()
    model.observe(
        replace(asked(), session="b"), outcome_of(one_set(START, 1, "bench_press", 40, 10))
    )
    short = model.forecast(asked(rest_s=float(rest)))
    longer = model.forecast(asked(rest_s=float(rest + more)))
    assert longer.median >= short.median - 1e-9
    assert longer.mean >= short.mean - 1e-9


@given(st.floats(15, 90), st.floats(0.1, 40), st.sampled_from(sorted(TEN_REPS_KG)))
@settings(max_examples=60, deadline=None)
def test_a_higher_load_never_raises_the_forecast(kg: float, more: float, exercise: str) -> None:
    """For known and for new exercises, reps fall as the load rises."""
    light = MODEL.forecast(asked(exercise, kg))
    heavy = MODEL.forecast(asked(exercise, kg + more))
    assert heavy.median <= light.median + 1e-9
    assert heavy.mean <= light.mean + 1e-9


def _swapped(first: str, second: str) -> History:
    rows = list(steady((first, second), sessions=14))
    last = [done for done in rows if done.day == rows[-1].day]
    kept = [done for done in rows if done.day != rows[-1].day]
    turned = sorted(last, key=lambda d: (d.exercise != second, d.number))
    return History.of([*kept, *(replace(d, number=i + 1) for i, d in enumerate(turned))])


@pytest.mark.parametrize(
    "pair", [("bench_press", "seated_leg_curl"), ("curl", "standing_calf_raise")]
)
def test_order_of_unrelated_exercises_hardly_matters(pair: tuple[str, str]) -> None:
    """Swapping exercises without shared parts moves each strength by a tenth of an SD at most."""
    straight = fit(steady(pair, sessions=14), CATALOGUE)
    turned = fit(_swapped(*pair), CATALOGUE)
    for exercise in pair:
        a, b = straight.estimate(asked(exercise)), turned.estimate(asked(exercise))
        assert abs(math.log(a.one_rep_kg / b.one_rep_kg)) <= 0.1 * a.sd_log


@given(st.sampled_from([0.3, 0.5, 2.0, 3.0, 8.0]))
@settings(max_examples=5, deadline=None)
def test_a_machine_s_label_says_nothing_of_other_exercises(scale: float) -> None:
    """Scaling a label machine's loads from its first set moves no other strength."""
    rows = list(steady(("bench_press",)))
    days = sorted({done.day for done in rows})

    def with_label(factor: float) -> StrengthModel:
        label = [
            one_set(day, 9, "lat_pulldown", round(30 * factor, 2), 10, reading=LoadReading.LABEL)
            for day in days
        ]
        return fit(History.of([*rows, *label]), CATALOGUE)

    plain, scaled = with_label(1.0), with_label(scale)
    for exercise in ("bench_press", "curl", "seated_cable_row"):
        a, b = plain.estimate(asked(exercise)), scaled.estimate(asked(exercise))
        assert abs(math.log(a.one_rep_kg / b.one_rep_kg)) <= 0.1 * a.sd_log


@pytest.mark.parametrize("slip", [10.0, 0.1])
def test_a_tenfold_slip_moves_the_estimate_less_than_a_step(slip: float) -> None:
    """A load written ten times too high or low changes strength by less than 2.5 kg."""
    rows = list(steady())
    target = next(i for i, d in enumerate(rows) if d.day > START + timedelta(days=24))
    load = Fraction(rows[target].load or 0) * Fraction(str(slip))
    wrong = replace(rows[target], load=load)
    slipped = fit(History.of([*rows[:target], wrong, *rows[target + 1 :]]), CATALOGUE)
    right = MODEL.estimate(asked()).one_rep_kg
    assert abs(slipped.estimate(asked()).one_rep_kg - right) < 2.5


def test_too_little_data_returns_the_prior() -> None:
    """Without any set the estimate is the usual level, wide, and says that nothing is behind."""
    nothing = StrengthModel.start(CATALOGUE).estimate(asked("leg_press", None))
    assert nothing.sets_behind == 0
    assert nothing.sd_log > 0.25


def test_strength_does_not_grow_while_she_is_away() -> None:
    """Twelve weeks of quick progress, then ten without training: she is expected to have lost
    some, and whatever trend there was is not carried through the weeks away.
    """
    rows = [
        one_set(START + timedelta(days=4 * day), 1, "bench_press", 30 * 1.015**day, 10)
        for day in range(21)
    ]
    model = fit(History.of(rows), CATALOGUE)
    soon, late = model.estimate(asked(days=84)), model.estimate(asked(days=84 + 70))
    assert soon.trend_per_week > 0.01
    assert late.one_rep_kg < soon.one_rep_kg
    assert late.sd_log > soon.sd_log


def test_a_switch_of_style_is_no_loss() -> None:
    """Ten per cent less load with slow reps leaves the strength of plain reps where it was."""
    rows = list(steady(("bench_press",)))
    days = [rows[-1].day + timedelta(days=3 * i) for i in range(1, 6)]
    slow = [one_set(day, 1, "bench_press", 36, 10, style="slow") for day in days]
    before = fit(History.of(rows), CATALOGUE).estimate(asked())
    after = fit(History.of([*rows, *slow]), CATALOGUE).estimate(asked(days=60))
    assert abs(math.log(after.one_rep_kg / before.one_rep_kg)) < 0.05


def test_a_remembered_set_is_a_weak_hint() -> None:
    """One remembered set moves the start toward it and leaves it wide."""
    model = StrengthModel.start(CATALOGUE)
    start = model.estimate(asked(kg=None))
    model.remembered(asked(kg=60.0, days=0), 8)
    told = model.estimate(asked(kg=None))
    assert told.one_rep_kg > start.one_rep_kg
    assert 0.05 < told.sd_log < start.sd_log


def test_a_load_found_for_reps_has_the_chance_asked() -> None:
    """Forecasting at the load found gives back the probability it was found for."""
    load = MODEL.load_for(asked(kg=None), 8, 0.7)
    assert MODEL.forecast(asked(kg=load)).at_least(8) == pytest.approx(0.7, abs=0.06)


def test_warm_ups_do_not_look_like_weakness() -> None:
    """Ramp sets stopped early change strength by less than one per cent."""
    rows = list(steady(("bench_press",)))
    ramps = [
        replace(one_set(done.day, 90 + i, "bench_press", 20, 6, None), kind=SetKind.WARM_UP)
        for i, done in enumerate(rows[::2])
    ]
    with_ramps = fit(History.of([*rows, *ramps]), CATALOGUE).estimate(asked())
    plain = fit(History.of(rows), CATALOGUE).estimate(asked())
    assert abs(math.log(with_ramps.one_rep_kg / plain.one_rep_kg)) < 0.01


def test_strength_ahead_is_what_the_clock_will_say() -> None:
    """A week ahead from the last session is the same as asking a week later; further on the
    range only widens, and the middle follows the trend.
    """
    weeks = 24
    rows = [
        one_set(START + timedelta(weeks=week), 1 + index, "bench_press", 40, 10 + week // 6 - index)
        for week in range(weeks)
        for index in range(3)
    ]
    model = fit(History.of(rows), CATALOGUE)
    last = asked(days=7 * (weeks - 1), kg=None)
    later = model.estimate(replace(last, when=last.when + timedelta(days=7)))
    ahead = [model.estimate(last, ahead=float(week)) for week in range(9)]
    assert ahead[0] == model.estimate(last)
    assert ahead[1].one_rep_kg == pytest.approx(later.one_rep_kg, rel=5e-4)
    assert ahead[1].sd_log == pytest.approx(later.sd_log, rel=0.02)
    assert all(one.sd_log < two.sd_log for one, two in pairwise(ahead))
    grown = math.log(ahead[8].one_rep_kg / ahead[0].one_rep_kg)
    assert grown == pytest.approx(8 * ahead[0].trend_per_week, rel=0.2)
