"""What simple methods would have said before each set, from the same visible columns."""

from __future__ import annotations

import math
import warnings
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import date

import numpy as np

from bench.forecast.scoring import point_forecast
from bench.forecast.training import Diary
from pennate.core.dose import RESERVE_OF
from pennate.core.forecast import RepsForecast
from pennate.core.performed import PerformedSet

EPLEY = 30.0
BRZYCKI = 37.0
KEEP = 0.7
START_SD = 3.0
REFIT = 10
HABIT = "last time's reps (exploiter)"


def seen_reps(done: PerformedSet) -> float:
    """Reps to failure as the log shows them: reps and reported reserve."""
    return done.reps + (0.0 if done.effort is None else RESERVE_OF[done.effort])


def felt(done: PerformedSet) -> float:
    """Load as a peer would take it: written load, and body mass for the one bar exercise."""
    load = float(done.load or 0)
    if done.exercise == "chin_up" and done.body_mass_kg is not None:
        load += 0.958 * float(done.body_mass_kg)
    return max(load, 1.0)


def epley(load: float, reps: float) -> float:
    """One-repetition maximum by Epley 1985 (definition from memory)."""
    return load if reps <= 1 else load * (1 + reps / EPLEY)


def epley_reps(best: float, load: float) -> float:
    """Reps at a load by the same equation."""
    return min(max(EPLEY * (best / load - 1), 0.0), 60.0)


def brzycki(load: float, reps: float) -> float:
    """One-repetition maximum by Brzycki 1993 (definition from memory), clamped below 37."""
    return load * 36 / (BRZYCKI - min(max(reps, 1.0), 30.0))


def brzycki_reps(best: float, load: float) -> float:
    """Reps at a load by the same equation."""
    return min(max(BRZYCKI - 36 * load / best, 0.0), 60.0)


@dataclass
class Spread:
    """A peer's running error, for its interval."""

    total: float = START_SD**2 * 5
    count: float = 5.0

    def add(self, error: float) -> None:
        """One more error."""
        self.total += min(error * error, 100.0)
        self.count += 1

    @property
    def sd(self) -> float:
        """Root mean square error so far."""
        return math.sqrt(self.total / self.count)


@dataclass
class Peer:
    """A point method run over a diary; `guess` and `learn` close over its own state."""

    guess: Callable[[PerformedSet, int], float | None]
    learn: Callable[[PerformedSet, int], None]
    spread: Spread = field(default_factory=Spread)
    usual: float = 10.0
    seen: int = 1

    def over(self, diary: Diary) -> Iterator[RepsForecast]:
        """Forecasts in order, each before its outcome."""
        place: dict[tuple[date, str], int] = defaultdict(int)
        for done in diary.rows:
            key = (done.when, done.exercise)
            place[key] += 1
            guess = self.guess(done, place[key])
            guess = self.usual / self.seen if guess is None else guess
            yield point_forecast(guess, self.spread.sd)
            self.spread.add(guess - seen_reps(done))
            self.usual += seen_reps(done)
            self.seen += 1
            self.learn(done, place[key])


def constant_peer() -> Peer:
    """The mean of everything so far."""
    return Peer(lambda _done, _place: None, lambda _done, _place: None)


def last_time() -> Peer:
    """The set of the same place in the exercise's last session."""
    past: dict[tuple[str, int], float] = {}
    any_place: dict[str, float] = {}

    def guess(done: PerformedSet, place: int) -> float | None:
        return past.get((done.exercise, place), any_place.get(done.exercise))

    def learn(done: PerformedSet, place: int) -> None:
        past[done.exercise, place] = any_place[done.exercise] = seen_reps(done)

    return Peer(guess, learn)


def habit() -> Peer:
    """The reps *done* in the same place last time: follows her habit, knows no strength."""
    past: dict[tuple[str, int], float] = {}

    def guess(done: PerformedSet, place: int) -> float | None:
        return past.get((done.exercise, place))

    def learn(done: PerformedSet, place: int) -> None:
        past[done.exercise, place] = float(done.reps)

    return Peer(guess, learn)


def weighted(
    to_max: Callable[[float, float], float], to_reps: Callable[[float, float], float]
) -> Peer:
    """An exponentially weighted one-repetition maximum per exercise."""
    best: dict[str, float] = {}

    def guess(done: PerformedSet, _place: int) -> float | None:
        known = best.get(done.exercise)
        return None if known is None else to_reps(known, felt(done))

    def learn(done: PerformedSet, _place: int) -> None:
        now = to_max(felt(done), max(seen_reps(done), 1.0))
        old = best.get(done.exercise, now)
        best[done.exercise] = KEEP * old + (1 - KEEP) * now

    return Peer(guess, learn)


def local_level() -> Peer:
    """A statsmodels local-level model per exercise on the log maximum of first sets."""
    series: dict[str, list[float]] = defaultdict(list)
    ratio: dict[str, float] = {}
    level: dict[str, float] = {}

    def guess(done: PerformedSet, _place: int) -> float | None:
        known = level.get(done.exercise)
        return None if known is None else epley_reps(math.exp(known), felt(done))

    def learn(done: PerformedSet, place: int) -> None:
        value = math.log(epley(felt(done), max(seen_reps(done), 1.0)))
        if place > 1:
            return
        values = series[done.exercise]
        values.append(value)
        if len(values) % REFIT == 0:
            ratio[done.exercise] = _signal_to_noise(values)
        gain = _steady_gain(ratio.get(done.exercise, 0.1))
        old = level.get(done.exercise, value)
        level[done.exercise] = old + gain * (value - old)

    return Peer(guess, learn)


def _signal_to_noise(values: list[float]) -> float:
    from statsmodels.tsa.statespace.structural import UnobservedComponents

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        fitted = UnobservedComponents(np.asarray(values), level="llevel").fit(disp=False)
    noise, drift = (max(float(value), 1e-9) for value in fitted.params)
    return min(max(drift / noise, 1e-3), 10.0)


def _steady_gain(ratio: float) -> float:
    """Kalman gain of a local level in its steady state."""
    prior = (ratio + math.sqrt(ratio * ratio + 4 * ratio)) / 2
    return prior / (1 + prior)


def every_peer() -> dict[str, Peer]:
    """Fresh peers by name."""
    return {
        "last session's set": last_time(),
        "weighted Epley": weighted(epley, epley_reps),
        "weighted Brzycki": weighted(brzycki, brzycki_reps),
        "local level": local_level(),
        "constant": constant_peer(),
    }
