"""The weight filter against open daily series, statsmodels and plain arithmetic."""

from __future__ import annotations

import csv
from collections import defaultdict
from datetime import date, timedelta
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.body import weight
from pennate.body.weight import (
    Mixture,
    filter_weighings,
    follow,
    gather_weighings,
    trend_points,
    weighing_ahead,
    weight_trend,
)
from pennate.body.weight_model import cycle_shape, next_day, settings_for
from pennate.errors import NoAnswerError
from tests.body.rows import FIRST, on

REFERENCE = Path(__file__).parent.parent / "reference" / "body" / "daily_weight.csv"


def line(days: int, slope: float, noise: float, seed: int = 1) -> list[tuple[date, float]]:
    """Daily weighings about a line, kg; slope a day."""
    rng = np.random.default_rng(seed)
    return [(on(d), round(65 + slope * d + float(rng.normal(0, noise)), 1)) for d in range(days)]


def open_series() -> dict[str, list[tuple[date, float]]]:
    """Eight people weighed daily (Krone 2020, CC BY 4.0)."""
    found: dict[str, list[tuple[date, float]]] = defaultdict(list)
    with REFERENCE.open(encoding="utf-8") as file:
        for cells in csv.DictReader(file):
            found[cells["subject"]].append((on(int(cells["day"])), float(cells["kg"])))
    return dict(found)


def test_a_steady_fall_is_found() -> None:
    """0.5 kg a week for twelve weeks: the slope's interval holds it and leaves out nought."""
    trend = weight_trend(line(84, -0.5 / 7, 0.35))
    assert trend.low95 < -0.5 < trend.high95 < 0
    assert trend.trend_low95 < 65 - 0.5 / 7 * 83 < trend.trend_high95


def test_no_direction_from_a_week() -> None:
    """A week of noise shows no direction."""
    trend = weight_trend(line(7, 0.0, 0.36))
    assert trend.low95 < 0 < trend.high95


def test_forecasts_widen() -> None:
    """Further ahead is less sure, and deciles are in order."""
    trend = weight_trend(line(40, -0.03, 0.35))
    widths = [ahead.p90 - ahead.p10 for ahead in trend.forecast]
    assert [ahead.weeks for ahead in trend.forecast] == [1, 2, 3, 4]
    assert widths == sorted(widths)
    assert all(a.p10 < a.p50 < a.p90 for a in trend.forecast)


def test_a_slip_is_asked_about_and_harmless() -> None:
    """56.0 typed for 65.0 moves nothing and becomes a question."""
    clean = line(40, 0.0, 0.3)
    slipped = [*clean[:20], (clean[20][0], 56.0), *clean[21:]]
    assert weight_trend(slipped).trend_kg == pytest.approx(weight_trend(clean).trend_kg, abs=0.1)
    assert "56" in weight_trend(slipped).questions[0]


def test_an_odd_day_moves_little() -> None:
    """A kilogram and a half of water on the last day moves the trend by less than a third."""
    clean = line(60, 0.0, 0.3)
    odd = [*clean[:-1], (clean[-1][0], clean[-1][1] + 1.5)]
    assert 0 < weight_trend(odd).trend_kg - weight_trend(clean).trend_kg < 0.5


def test_one_date_has_no_trend() -> None:
    """Below two dates the answer is that there is none, and how many it takes."""
    with pytest.raises(NoAnswerError) as refused:
        weight_trend([(FIRST, 65.0), (FIRST, 65.2)])
    assert refused.value.nearest["needed"] == 2


def test_week_rhythm_is_taken_out() -> None:
    """Weighed on Sundays heavy and Fridays light by 0.6 kg, the trend stays flat."""
    pairs = [(on(d), 65 + 0.3 * np.cos(2 * np.pi * (on(d).weekday() - 6) / 7)) for d in range(70)]
    trends = [point.trend for point in trend_points(pairs)][21:]
    assert max(trends) - min(trends) < 0.15


def test_logged_periods_take_the_rise_out() -> None:
    """0.45 kg at menstruation (Kanellakis 2023), logged: the forecast mean error falls."""
    starts = [on(d) for d in range(10, 200, 29)]
    rise = [0.45 * cycle_shape(on(d), starts) for d in range(150)]
    noise = np.random.default_rng(2).normal(0, 0.15, 150)
    pairs = [(on(d), 65 + rise[d] + float(noise[d])) for d in range(150)]
    spread = [
        np.std([p.trend for p in trend_points(pairs, periods)][30:]) for periods in (starts, [])
    ]
    assert spread[0] < 0.7 * spread[1]


def test_the_chart_ends_at_the_trend_told_beside_it() -> None:
    """One figure for a day: the last row of the table is the headline, interval included."""
    pairs = line(30, -0.02, 0.3)
    told, last = weight_trend(pairs), trend_points(pairs)[-1]
    assert (last.day, last.trend) == (told.day, told.trend_kg)
    assert (last.low95, last.high95) == (told.trend_low95, told.trend_high95)


def test_looking_back_agrees_with_looking_forward_at_the_end(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The backward pass begins where the filter ended, and few grid points say what all do."""
    pairs = line(60, -0.02, 0.3)
    seen = follow(pairs)
    smooth = weight._smoothed(seen.beliefs, seen.settings, seen.beliefs[-1].weights)
    assert smooth[-1][0] == pytest.approx(weight_trend(pairs).trend_kg)
    few = trend_points(pairs)
    monkeypatch.setattr(weight, "_HEAVY", len(seen.settings.noise))
    assert [p.trend for p in few] == pytest.approx([p.trend for p in trend_points(pairs)], abs=0.02)
    assert [mean for mean, _ in smooth[:-1]] == pytest.approx([p.trend for p in few[:-1]], abs=0.02)


def test_close_to_the_local_linear_trend() -> None:
    """On smooth daily weights the trend agrees with statsmodels' local linear trend."""
    from statsmodels.tsa.statespace.structural import UnobservedComponents

    pairs = line(90, -0.03, 0.3, seed=4)
    model = UnobservedComponents(np.array([kg for _, kg in pairs]), "local linear trend")
    fitted = model.smooth([0.09, 0.0004, 1e-6])
    assert weight_trend(pairs).trend_kg == pytest.approx(fitted.smoothed_state[0, -1], abs=0.2)


def test_gaps_are_waited_out() -> None:
    """Three weeks without weighing widen the trend's interval on the day of the next one."""
    daily = line(60, 0.0, 0.3)
    gap = [*daily[:38], daily[-1]]
    wide, narrow = weight_trend(gap), weight_trend(daily)
    assert wide.trend_high95 - wide.trend_low95 > narrow.trend_high95 - narrow.trend_low95


@settings(max_examples=8, deadline=None)
@given(st.permutations(list(range(12))))
def test_order_of_rows_does_not_matter(order: list[int]) -> None:
    """A file in any order says the same."""
    pairs = line(12, -0.05, 0.3)
    assert weight_trend([pairs[i] for i in order]) == weight_trend(pairs)


def test_quantiles_of_a_normal() -> None:
    """Deciles of a standard normal are ±1.2816 (standard tables)."""
    one = Mixture(np.ones(1), np.zeros(1), np.ones(1))
    assert one.quantile(0.9) == pytest.approx(1.2816, abs=1e-3)
    assert one.quantile(0.1) == pytest.approx(-1.2816, abs=1e-3)


def test_open_series_are_covered() -> None:
    """80 % intervals a week ahead on eight real people: 80 % lies in the by-subject interval."""
    shares = []
    for pairs in open_series().values():
        weighings = gather_weighings(pairs)
        settings = settings_for(weighings.masses[0])
        said = dict(pairs)
        hits = []
        for beliefs in filter_weighings(weighings, settings)[20:56:3]:
            later = beliefs.day + timedelta(days=7)
            if later in said:
                seen = weighing_ahead(next_day(beliefs, settings, 7), settings)
                hits.append(seen.quantile(0.1) <= said[later] <= seen.quantile(0.9))
        shares.append(float(np.mean(hits)))
    rng = np.random.default_rng(1)
    draws = [np.mean(rng.choice(shares, len(shares))) for _ in range(2000)]
    assert np.quantile(draws, 0.025) < 0.80 < np.quantile(draws, 0.975)
