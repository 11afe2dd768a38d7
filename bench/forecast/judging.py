"""The judged run: every admitted population, every scenario, every forecaster."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace

import numpy as np

from bench.forecast.informed import INFORMED, informed
from bench.forecast.laws import JUDGING_CURVES, JUDGING_FATIGUE
from bench.forecast.ours import ours
from bench.forecast.peers import HABIT, every_peer, habit
from bench.forecast.people import make_lifter
from bench.forecast.scoring import Tally, score
from bench.forecast.training import EXERCISES, SCENARIOS, Diary, train
from pennate.core.forecast import RepsForecast
from pennate.files.catalogue import read_catalogue

FIRST_SEED = 40_000
REPORTS = "multiplicative"
LAWS = tuple((curve, fatigue) for curve in JUDGING_CURVES for fatigue in JUDGING_FATIGUE)
OURS = "pennate"
HONEST = tuple(name for name, kind in SCENARIOS.items() if not kind.dishonest)
"""Logs on which the informed forecaster's knowledge is whole."""


@dataclass(frozen=True)
class Job:
    """One lifter of one population, keeping one kind of log."""

    number: int
    curve: str
    fatigue: str
    scenario: str


@dataclass
class Judged:
    """Tallies of all forecasters on one log, and facts of the zoo."""

    job: Job
    tallies: dict[str, dict[str, Tally]]
    day_sd: float
    noise: float
    habit_gap: dict[str, tuple[float, float]]
    """Mean error against reps to failure, and against the reps done."""


def jobs(lifters: int) -> Iterator[Job]:
    """`lifters` people for each pair of laws, in every scenario; a third are novices."""
    for scenario in SCENARIOS:
        for index, (curve, fatigue) in enumerate(LAWS):
            for person in range(lifters):
                yield Job(FIRST_SEED + 100 * index + person, curve, fatigue, scenario)


def diary_of(job: Job) -> Diary:
    """The log of one job; the same job gives the same log."""
    lifter = make_lifter(
        job.number,
        job.curve,
        job.fatigue,
        read_catalogue(),
        EXERCISES,
        report_law=REPORTS,
        novice=job.number % 3 == 2,
    )
    return train(lifter, SCENARIOS[job.scenario])


def judge(job: Job) -> Judged:
    """Run every forecaster over one log."""
    diary = diary_of(job)
    own = ours(read_catalogue())(diary)
    forecasts: dict[str, list[RepsForecast | None]] = {OURS: own}
    for name, peer in every_peer().items():
        forecasts[name] = list(peer.over(diary))
    forecasts[HABIT] = list(habit().over(diary))
    if job.scenario in HONEST:
        forecasts[INFORMED] = informed(diary)
    tallies = {name: score(diary, made) for name, made in forecasts.items()}
    days = np.array([truth.day for truth in diary.truth])
    return Judged(
        job,
        tallies,
        float(days.std()),
        diary.lifter.noise_sd(10),
        {name: _two_errors(diary, forecasts[name]) for name in (OURS, HABIT)},
    )


def _two_errors(diary: Diary, made: list[RepsForecast | None]) -> tuple[float, float]:
    rows = [
        (abs(forecast.median - truth.reps), abs(forecast.median - done.reps))
        for forecast, truth, done in zip(made, diary.truth, diary.rows, strict=True)
        if forecast is not None and truth.place in {"first", "later"} and truth.exposure > 4
    ]
    mean = np.array(rows).mean(axis=0)
    return float(mean[0]), float(mean[1])


def judge_all(lifters: int, workers: int) -> list[Judged]:
    """Every job; the order of results is the order of jobs."""
    with ProcessPoolExecutor(workers) as pool:
        return list(pool.map(judge, jobs(lifters)))


def longer(job: Job, weeks: int) -> Diary:
    """A longer log of the same kind, for timing."""
    lifter = make_lifter(
        job.number, job.curve, job.fatigue, read_catalogue(), EXERCISES, report_law=REPORTS
    )
    return train(lifter, replace(SCENARIOS[job.scenario], weeks=weeks))
