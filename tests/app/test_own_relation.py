"""Her own relation of sleep and strength, and the lighter week: lifters whose truth is known.

The logs are made set by set with a true strength; the strength model forecasts each session,
and only what it did not foresee reaches the relation. Two hundred or so sets a lifter.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from random import Random

import pytest

from pennate.app.body_recovery import forms_of, marked
from pennate.body.recovery import Effect, lighter_week, sleep_effect
from pennate.core.history import History
from pennate.core.performed import PerformedSet
from pennate.estimate import Person, fit
from pennate.files.catalogue import read_catalogue
from tests.estimate.logs import START, TEN_REPS_KG, one_set, reps_at

SESSIONS = 72
EVERY_DAYS = 3
SHORT_SHARE = 0.3
DAY_SD = 0.025
SET_SD = 0.02
GAIN_A_WEEK = 0.002
EXERCISES = ("bench_press", "back_squat_free")
LIFTERS = range(8)


def short_days(seed: int) -> frozenset[date]:
    """Days after a short night."""
    rng = Random(1000 + seed)
    days = (START + timedelta(days=EVERY_DAYS * n) for n in range(SESSIONS))
    return frozenset(day for day in days if rng.random() < SHORT_SHARE)


def log_of(seed: int, strength_on: Callable[[date], float]) -> History:
    """Two exercises, two sets to failure each, every third day; a day effect nobody knows."""
    rng = Random(seed)
    rows: list[PerformedSet] = []
    for number in range(SESSIONS):
        day = START + timedelta(days=EVERY_DAYS * number)
        today = strength_on(day) + GAIN_A_WEEK * EVERY_DAYS * number / 7 + rng.gauss(0, DAY_SD)
        place = 0
        for exercise in EXERCISES:
            for _ in range(2):
                place += 1
                kg = TEN_REPS_KG[exercise] * math.exp(rng.uniform(-0.06, 0.06))
                reps = reps_at(exercise, kg, today + rng.gauss(0, SET_SD))
                done = one_set(day, place, exercise, round(kg, 1), max(reps, 1), rest_s=240)
                rows.append(replace(done, id=""))
    return History.of(rows)


def relation(seed: int, true: float) -> Effect:
    """What the log of a lifter says of short nights that cost this much (log units)."""
    short = short_days(seed)
    history = log_of(seed, lambda day: true if day in short else 0.0)
    last = history.sets[-1].day
    seen = forms_of(fit(history, read_catalogue(), Person()), last + timedelta(days=1))
    return sleep_effect(marked(seen.surprises, short.__contains__))


@pytest.fixture(scope="module")
def without() -> list[Effect]:
    """Lifters whose nights do nothing."""
    return [relation(seed, 0.0) for seed in LIFTERS]


@pytest.fixture(scope="module")
def with_relation() -> list[Effect]:
    """Lifters whom a short night costs 5 %."""
    return [relation(seed, -0.05) for seed in LIFTERS]


def test_no_relation_is_spoken_of_where_there_is_none(without: list[Effect]) -> None:
    """Of eight lifters whose nights do nothing, at most one hears of an effect."""
    assert sum(effect.shown for effect in without) <= 1
    assert sum(effect.low95 <= 0 <= effect.high95 for effect in without) >= len(without) - 1


def test_a_true_relation_is_found(with_relation: list[Effect]) -> None:
    """Where a short night costs 5 %, most hear it, and its size is about right."""
    assert sum(effect.shown and effect.mean < 0 for effect in with_relation) >= 6
    mean = sum(effect.mean for effect in with_relation) / len(with_relation)
    assert -0.06 < mean < -0.03
    covered = sum(effect.low95 <= -0.05 <= effect.high95 for effect in with_relation)
    assert covered >= len(with_relation) - 2


def test_a_few_sessions_stay_at_the_prior() -> None:
    """Shrunk hard: ten sessions move the relation little from −1 %."""
    short = short_days(3)
    history = log_of(3, lambda day: -0.05 if day in short else 0.0)
    early = History.of(history.sets[:40])
    seen = forms_of(fit(early, read_catalogue(), Person()), early.sets[-1].day)
    effect = sleep_effect(marked(seen.surprises, short.__contains__))
    assert not effect.shown
    assert abs(effect.mean + 0.01) < 0.02


def drop_of(seed: int, fall: float) -> bool:
    """Whether a lighter week is suggested after two weeks that much weaker, with a complaint."""
    last = START + timedelta(days=EVERY_DAYS * (SESSIONS - 1))
    edge = last - timedelta(days=14)
    history = log_of(seed, lambda day: fall if day > edge else 0.0)
    today = last + timedelta(days=1)
    seen = forms_of(fit(history, read_catalogue(), Person()), today)
    return lighter_week(seen.strength, today, complaint=True) is not None


def test_a_lasting_fall_is_seen_though_the_model_follows_it() -> None:
    """Two weeks 9 % weaker with a complaint: a lighter week, for most; none without a fall."""
    assert sum(drop_of(seed, -0.09) for seed in LIFTERS) >= 6
    assert sum(drop_of(seed, 0.0) for seed in LIFTERS) == 0
