"""What an ending says: reports, silence, slips, habits."""

from __future__ import annotations

import math
from datetime import timedelta
from itertools import cycle

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.core.history import History
from pennate.core.performed import Effort, SetKind
from pennate.estimate import Outcome, fit
from pennate.estimate.curve import MOST_REPS, REPS
from pennate.estimate.effort import Habits, ending_of, reported, unreported
from pennate.estimate.learned import Ratio, seen_part
from pennate.estimate.replay import one_step_ahead
from pennate.estimate.settings import DEFAULTS
from pennate.files.catalogue import read_catalogue
from tests.estimate.logs import START, asked, one_set

CATALOGUE = read_catalogue()
KEY = ("bench_press", False)


def _weights(effort: Effort, reps: int = 8, offset: float = 0.0) -> np.ndarray:
    outcome = Outcome(reps, effort)
    rows = reported(outcome, DEFAULTS, guessed=False, honesty=1.0, offset=offset, offset_sd=0.3)
    first: np.ndarray = rows[0]
    return first


def _middle(weights: np.ndarray) -> float:
    """Median of reps to failure by these weights."""
    return float(REPS[np.searchsorted(np.cumsum(weights), weights.sum() / 2)])


def _mean(weights: np.ndarray) -> float:
    """Mean of reps to failure by these weights, twelve beyond the eight done and no more."""
    near = weights[:21]
    return float(near @ REPS[:21]) / float(near.sum())


@given(st.sampled_from(list(Effort)), st.integers(0, 25))
@settings(deadline=None)
def test_no_report_allows_fewer_reps_than_were_done(effort: Effort, reps: int) -> None:
    """Whatever is reported, at least the reps done were possible."""
    assert np.all(_weights(effort, reps)[:reps] == 0.0)


def test_failure_is_exact_and_reserve_is_not() -> None:
    """A failed set names one number; a report spreads over several and rises with reserve."""
    assert np.count_nonzero(_weights(Effort.FAIL)) == 1
    middles = [_middle(_weights(e)) for e in (Effort.FAIL, Effort.ONE, Effort.TWO, Effort.THREE)]
    assert middles == sorted(middles)
    assert 9 <= middles[1] <= 10


def test_six_or_more_is_a_lower_bound() -> None:
    """Far from failure a report only says that much was left."""
    weights = _weights(Effort.SIX_UP)
    assert weights[8] < 0.1
    assert weights[25] > 5 * weights[8]
    assert weights[25] > 0.8


@given(st.sampled_from(list(Effort)), st.integers(MOST_REPS - 2, 400))
@settings(deadline=None)
def test_any_report_of_very_many_reps_is_taken_for_very_many(effort: Effort, reps: int) -> None:
    """The model counts to sixty; a report beyond that fits its last number, never nothing."""
    weights = _weights(effort, reps)
    assert np.all(np.isfinite(weights))
    assert weights.sum() > 1e-3
    assert _middle(weights) >= MOST_REPS - 2


def test_an_offset_moves_reports_with_reserve_only() -> None:
    """Her personal offset changes what two in reserve means, hardly what none means."""
    two, none = (
        _mean(_weights(effort, offset=1.0)) - _mean(_weights(effort))
        for effort in (Effort.TWO, Effort.NONE_LEFT)
    )
    assert two >= 1
    assert none < 0.75 * two


def test_silence_at_a_usual_number_is_a_lower_bound() -> None:
    """After many tens, a silent ten allows fifteen; a silent seven hardly does."""
    habits = Habits.start(DEFAULTS)
    for _ in range(20):
        habits.take(KEY, (0.0, 1.0, 0.0), 10)
    known = habits.target_shares(KEY), habits.shares(KEY), habits.reserve_by_feel(KEY)
    ten = np.sum(unreported(10, *known), axis=0)
    seven = np.sum(unreported(7, *known), axis=0)
    assert ten[15] / ten[10] > 0.3
    assert seven[15] / seven[7] < 0.1


def test_the_reserve_she_tells_is_met_where_she_tells_nothing() -> None:
    """Who says four left, where she says anything, leaves more where silent than who says one."""
    strong, near = Habits.start(DEFAULTS), Habits.start(DEFAULTS)
    for _ in range(10):
        strong.take_reserve(KEY, np.eye(9)[4])
        near.take_reserve(KEY, np.eye(9)[1])
    left = [float(who.reserve_by_feel(KEY) @ np.arange(9)) for who in (strong, near)]
    assert left[0] > 3.5
    assert left[1] < 1.5
    elsewhere = float(strong.reserve_by_feel(("curl", False)) @ np.arange(9))
    assert left[1] < elsewhere < left[0], "other exercises follow, less far"


def test_an_ending_told_counts_for_more_than_one_guessed() -> None:
    """A set with effort noted weighs more than twice as much as one whose ending is guessed at."""
    model = fit(History.of([one_set(START, 1, "curl", 20, 8, Effort.FAIL)]), CATALOGUE)
    told = model.habits.endings["curl", False]
    silent = fit(History.of([one_set(START, 1, "curl", 20, 8, None)]), CATALOGUE)
    assert sum(told) > 2 * sum(silent.habits.endings["curl", False])


def test_endings_share_one_set() -> None:
    """However a set ended, it counts once."""
    for failed in (0.0, 0.4, 1.0):
        assert sum(ending_of(failed, 0.3)) == pytest.approx(1.0)


def test_none_left_is_failure_for_who_fails() -> None:
    """After sets said to have failed, "none left" is probably one more; after others it is not."""
    failing, stopping = Habits.start(DEFAULTS), Habits.start(DEFAULTS)
    for _ in range(12):
        failing.take(KEY, (1.0, 0.0, 0.0), 8)
        stopping.take(KEY, (0.0, 0.5, 0.5), 8)
    assert failing.failure_odds(KEY) > 0.5
    assert stopping.failure_odds(KEY) < 0.05
    assert stopping.failure_odds((KEY[0], True)) > 1.0, "a drop is taken to failure"


def test_drops_with_none_left_are_met_as_they_are() -> None:
    """Drops that end at twelve with nothing left, week after week, are forecast at twelve."""
    rows = []
    for day in range(40):
        when = START + timedelta(days=3 * day)
        rows.append(one_set(when, 1, "bench_press", 60, 8, Effort.TWO))
        none = Effort.NONE_LEFT
        rows.append(one_set(when, 2, "bench_press", 45, 12, none, kind=SetKind.DROP, rest_s=15))
    steps = list(one_step_ahead(History.of(rows), CATALOGUE))
    met = [made.median for row, made in steps if made and row.kind is SetKind.DROP]
    assert met[5] < 14.0, "soon"
    assert float(np.mean(met[-10:])) == pytest.approx(12.0, abs=0.4)


def test_a_lifter_who_stops_at_ten_is_not_read_as_failing() -> None:
    """Silent tens at a light load never make the model believe that ten was all."""
    rows = [
        one_set(START + timedelta(days=3 * day), number, "bench_press", 30, 10, None)
        for day in range(25)
        for number in (1, 2, 3)
    ]
    rows[0] = one_set(START, 1, "bench_press", 30, 10, Effort.SIX_UP)
    model = fit(History.of(rows), CATALOGUE)
    assert model.forecast(asked(kg=30.0, days=76)).median > 11.0


def test_variances_stay_at_the_population_s_until_seen() -> None:
    """A personal variance starts at one, and surprises as expected leave it there."""
    ratio = Ratio.start(25)
    assert ratio.sd_factor == 1.0
    assert ratio.seen(1.0).variance_factor == pytest.approx(1.0)
    assert ratio.seen(4.0).variance_factor > 1.0
    expected = seen_part(ratio, 1.0, 2.0, math.sqrt(2.0))
    assert expected.variance_factor == pytest.approx(1.0)


@pytest.mark.parametrize(("true", "low", "high"), [(0.25, 0.2, 0.5), (1, 0.9, 1.1), (4, 2.5, 4.4)])
def test_a_personal_variance_is_found_beside_others(true: float, low: float, high: float) -> None:
    """Surprises drawn with a quarter, once or four times the usual variance of one source lead
    most of the way there, though as much again comes from elsewhere.
    """
    dice = np.random.default_rng(7)
    ratio = Ratio.start(30)
    for _ in range(4000):
        surprise = float(dice.normal(0.0, math.sqrt(true + 1.0)))
        believed = ratio.variance_factor
        ratio = seen_part(ratio, believed, believed + 1.0, surprise)
    assert low < ratio.variance_factor < high


def test_honest_failure_after_reports_reveals_a_cautious_reporter() -> None:
    """Two in reserve that were really five move the offset up once failure shows it.

    She stops by feel, at other reps with other loads.
    """
    by_feel = cycle(((36, 8), (38, 6), (34, 10)))
    rows = []
    for day in range(30):
        when = START + timedelta(days=3 * day)
        failing = day % 3 == 2
        kg, reps = (36, 13) if failing else next(by_feel)
        effort = Effort.FAIL if failing else Effort.TWO
        rows.append(one_set(when, 1, "bench_press", kg, reps, effort))
    from pennate.estimate import belief as b

    model = fit(History.of(rows), CATALOGUE)
    offset = float(model.settled().belief.mean[b.BIAS])
    assert offset > 0.5 * DEFAULTS.report_person_sd


def test_a_reserve_told_at_the_number_asked_is_a_guess() -> None:
    """Who stops by feel stops where she wished; who stops at a number is less sure of the rest."""
    two = Outcome(8, Effort.TWO)
    spreads = []
    for guessed in (False, True):
        rows = reported(two, DEFAULTS, guessed=guessed, honesty=1.0, offset=0.0, offset_sd=0.3)
        weights = rows[0][:20]
        weights = weights / weights.sum()
        mean = float(weights @ REPS[:20])
        spreads.append(float(weights @ (REPS[:20] - mean) ** 2))
    assert spreads[1] > 1.2 * spreads[0]


def test_a_number_she_always_stops_at_was_asked() -> None:
    """Eight reps each time with reserve told is a stop at a number; ever other reps are not."""
    for reps, guessed in (((8,) * 8, True), ((8, 11, 6, 9, 7, 12, 10, 5), False)):
        rows = [
            one_set(START + timedelta(weeks=week), 1, "bench_press", 40, done, Effort.TWO)
            for week, done in enumerate(reps)
        ]
        habits = fit(History.of(rows), CATALOGUE).habits
        assert habits.guesses(KEY, 8) is guessed
        assert not habits.guesses(KEY, 7)
