"""Scores of one-step-ahead forecasts: error against the oracle, CRPS, coverage, by split."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

from bench.forecast.training import Diary
from pennate.core.forecast import QUANTILES, RepsForecast

SEED = 20261124
"""Seed of the uniform draws that coverage is scored on; published."""
ORACLE_MOST = 20
SPLITS = (
    *("first", "later", "drop", "early", "first-ever"),
    *("after a layoff", "switched", "switched, not the first"),
)
Forecaster = Callable[[Diary], list[RepsForecast | None]]
Array = NDArray[np.float64]


@dataclass
class Tally:
    """Sums of one forecaster in one split for one lifter."""

    count: int = 0
    error: float = 0.0
    oracle: float = 0.0
    crps: float = 0.0
    inside: Array = field(default_factory=lambda: np.zeros(3))

    def add(self, forecast: RepsForecast, reps: int, oracle: float, jitter: float) -> None:
        """One scored row."""
        self.count += 1
        self.error += abs(forecast.median - reps)
        self.oracle += abs(oracle - reps)
        self.crps += crps(forecast, reps)
        at = reps + jitter
        q = forecast.quantiles
        for index, (low, high) in enumerate(((2, 4), (1, 5), (0, 6))):
            self.inside[index] += q[low] <= at <= q[high]


def crps(forecast: RepsForecast, reps: int) -> float:
    """Continuous ranked probability score of the whole-rep distribution."""
    below = np.cumsum(np.asarray(forecast.pmf))
    step = np.arange(len(below)) >= reps
    return float(((below - step) ** 2).sum())


def split_of(diary: Diary, index: int) -> list[str]:
    """The splits a row belongs to; see the contract for first, later and early."""
    truth = diary.truth[index]
    if truth.place == "warm-up" or truth.oracle > ORACLE_MOST:
        return []
    if truth.place == "first" and truth.exposure == 1:
        return ["first-ever"]
    if truth.place == "first" and truth.exposure <= 4:
        return ["early"]
    if truth.exposure <= 4:
        return []
    names = [truth.place]
    if truth.layoff and truth.place == "first":
        names.append("after a layoff")
    if truth.switched and truth.place == "first":
        names.append("switched")
        if truth.since > 1:
            names.append("switched, not the first")
    return names


def score(diary: Diary, forecasts: Iterable[RepsForecast | None]) -> dict[str, Tally]:
    """Tallies of one lifter by split."""
    rng = np.random.default_rng([SEED, diary.lifter.seed])
    tallies: dict[str, Tally] = {name: Tally() for name in SPLITS}
    for index, forecast in enumerate(forecasts):
        jitter = float(rng.uniform(-0.5, 0.5))
        if forecast is None:
            continue
        truth = diary.truth[index]
        for name in split_of(diary, index):
            tallies[name].add(forecast, truth.reps, truth.oracle, jitter)
    return tallies


@dataclass(frozen=True)
class Row:
    """One forecaster in one split over all lifters of a population."""

    split: str
    sets: int
    error: float
    ratio: float
    ratio_low: float
    ratio_high: float
    crps: float
    cover: tuple[float, float, float]
    cover_se: float


def summarise(tallies: list[dict[str, Tally]], split: str) -> Row | None:
    """Pool lifters; intervals by a bootstrap over lifters."""
    kept = [t[split] for t in tallies if t[split].count]
    if not kept:
        return None
    table = np.array([[t.count, t.error, t.oracle, t.crps, *t.inside] for t in kept])
    total = table.sum(axis=0)
    rng = np.random.default_rng(SEED)
    draws = table[rng.integers(0, len(kept), size=(400, len(kept)))].sum(axis=1)
    ratios = draws[:, 1] / draws[:, 2]
    eighty = draws[:, 5] / draws[:, 0]
    low, high = np.quantile(ratios, [0.025, 0.975])
    return Row(
        split=split,
        sets=int(total[0]),
        error=float(total[1] / total[0]),
        ratio=float(total[1] / total[2]),
        ratio_low=float(low),
        ratio_high=float(high),
        crps=float(total[3] / total[0]),
        cover=(
            float(total[4] / total[0]), float(total[5] / total[0]), float(total[6] / total[0])
        ),
        cover_se=float(eighty.std()),
    )  # fmt: skip


_EDGES = np.arange(0.5, 60.0)
_NORMAL_QUANTILES = ndtri(np.array(QUANTILES))


def point_forecast(median: float, sd: float) -> RepsForecast:
    """A peer's point with a normal spread, as a whole-rep distribution."""
    spread = max(sd, 0.3)
    below = np.concatenate((ndtr((_EDGES - median) / spread), [1.0]))
    pmf = np.diff(np.concatenate(([0.0], below)))
    quantiles = np.maximum(median + spread * _NORMAL_QUANTILES, -0.5)
    mean = float((pmf * np.arange(len(pmf))).sum())
    return RepsForecast(mean, tuple(quantiles.tolist()), tuple(pmf.tolist()), 0)


def win_rate(ours: list[dict[str, Tally]], theirs: list[dict[str, Tally]], split: str) -> float:
    """Share of lifters on whom our error is lower."""
    wins = [
        a[split].error < b[split].error for a, b in zip(ours, theirs, strict=True) if a[split].count
    ]
    return float(np.mean(wins)) if wins else float("nan")
