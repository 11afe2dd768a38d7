"""The floor: a forecaster told everything of the lifter that a log can never tell exactly.

It knows her laws, curves, levels, growth, fatigue and how she misjudges her reserve, and is
told after each set how much fatigue it truly left. It must learn only what nobody can know
before: the day, the wandering of each strength, and what a layoff took. It learns them from
the same reports as any forecaster. What it errs by is what no reader of such logs can beat by
more than a little; the targets can be read against it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

import numpy as np
from scipy.special import ndtr

from bench.forecast.laws import Fatigue
from bench.forecast.people import Lifter, overlap
from bench.forecast.scoring import Array
from bench.forecast.training import START, Diary, Truth, _as_effort, _misjudged
from pennate.core.forecast import QUANTILES, RepsForecast
from pennate.core.performed import Effort, PerformedSet

INFORMED = "knows the lifter"
_MOST = 60
_REPS = np.arange(_MOST + 1)
_GRID = np.linspace(-4.0, 4.0, 33)
_DRAWS = 400
_SHARED, _LOST, _DAY, _OWN_DAY = range(4)
_FIXED = 4


@dataclass
class Informed:
    """What it believes of today, in log capacity, beside all that it knows."""

    lifter: Lifter
    names: tuple[str, ...]
    mean: Array
    cov: Array
    fatigue: dict[str, Fatigue] = field(default_factory=dict)
    clock: float = 0.0
    reports: dict[tuple[int, int], dict[Effort, float]] = field(default_factory=dict)

    @classmethod
    def of(cls, lifter: Lifter) -> Informed:
        """Before the first visit: the starting strengths are known."""
        size = _FIXED + len(lifter.skills)
        judge = replace(lifter, rng=np.random.default_rng([3, lifter.seed]))
        return cls(judge, tuple(lifter.skills), np.zeros(size), np.zeros((size, size)))

    def visit(self, gap: float) -> None:
        """A new day: `gap` weeks after the last."""
        mean, cov, lifter = self.mean, self.cov, self.lifter
        if gap > 2.5:
            mean[_LOST] += 0.01 * (gap - 2)
            cov[_LOST, _LOST] += (0.02 * (gap - 2)) ** 2 / 12
        self._keep(_LOST, math.exp(-min(gap, 1.0) / 4), 0.0)
        cov[_SHARED, _SHARED] += 0.003**2 * min(gap, 4)
        keep = lifter.day_memory
        self._keep(_DAY, keep, (1 - keep * keep) * lifter.day_sd**2)
        self.fatigue = {
            name: Fatigue(
                lifter.fatigue_law, lifter.fatigue_amount * skill.tiring, lifter.fatigue_seconds
            )
            for name, skill in lifter.skills.items()
        }
        self.clock = 0.0

    def exercise(self, name: str) -> None:
        """A first set of an exercise today: it wandered a little since last time."""
        at = _FIXED + self.names.index(name)
        self.cov[at, at] += 0.005**2
        self._keep(_OWN_DAY, 0.0, 0.008**2)

    def _keep(self, index: int, keep: float, added: float) -> None:
        self.mean[index] *= keep
        self.cov[index, :] *= keep
        self.cov[:, index] *= keep
        self.cov[index, index] += added

    def meet(self, done: PerformedSet, truth: Truth, week: float) -> RepsForecast:
        """Forecast a set, then learn from what was written of it."""
        lifter, name = self.lifter, done.exercise
        skill = lifter.skills[name]
        self.clock += float(done.rest_s or 0)
        for one in self.fatigue.values():
            one.rest_until(self.clock)
        ratio = _felt(lifter, done) * math.exp(-_known(lifter, name, truth, week))
        at = _FIXED + self.names.index(name)
        loads = np.zeros(len(self.mean))
        loads[[_SHARED, _DAY, _OWN_DAY, at]] = 1.0
        loads[_LOST] = -1.0
        centre, variance = float(loads @ self.mean), float(loads @ self.cov @ loads)
        shifts = centre + math.sqrt(variance) * _GRID
        tired = self.fatigue[name]
        real = np.array([tired.reps(skill.curve, ratio * math.exp(-x)) for x in shifts])
        could = _reps_of(lifter, real)
        prior = np.exp(-0.5 * _GRID**2)
        prior /= prior.sum()
        forecast = _forecast(prior @ could)
        likely = prior * (could @ self._says(done, truth.place))
        if likely.sum() > 1e-12:
            likely /= likely.sum()
            moved = float(likely @ shifts)
            left = float(likely @ (shifts - moved) ** 2)
            column = self.cov @ loads
            self.mean = self.mean + column * ((moved - centre) / variance)
            self.cov = self.cov + np.outer(column, column) * ((left - variance) / variance**2)
        true_ratio = _felt(lifter, done) * math.exp(-truth.level)
        for other, one in self.fatigue.items():
            part = overlap(skill.exercise, lifter.skills[other].exercise)
            if part:
                one.add(skill.curve, true_ratio, done.reps, truth.reps, part)
        self.clock += 3.0 * done.reps
        return forecast

    def _says(self, done: PerformedSet, place: str) -> Array:
        """Likelihood of what was written for each number of reps to failure."""
        out = np.zeros(_MOST + 1)
        if place == "drop":
            out[min(done.reps, _MOST)] = 1.0
            return out
        if done.effort is None:
            out[done.reps :] = 1.0
            return out
        for reps in range(done.reps, min(done.reps + 20, _MOST) + 1):
            out[reps] = self._report(reps - done.reps, reps).get(done.effort, 0.0)
        return out

    def _report(self, left: int, reps: int) -> dict[Effort, float]:
        """Probabilities of her reports with `left` of `reps` to go, from her own law."""
        if left == 0:
            return {Effort.FAIL: 0.6, Effort.NONE_LEFT: 0.4}
        found = self.reports.get((left, reps))
        if found is None:
            found = {}
            for _ in range(_DRAWS):
                effort = _as_effort(left - _misjudged(self.lifter, left, reps))
                found[effort] = found.get(effort, 0.0) + 1 / _DRAWS
            self.reports[left, reps] = found
        return found


def informed(diary: Diary) -> list[RepsForecast | None]:
    """Its forecast of every set of a log kept in full: effort noted, no slips, no switches."""
    mind = Informed.of(diary.lifter)
    out: list[RepsForecast | None] = []
    week, last = -1.0, ""
    for done, truth in zip(diary.rows, diary.truth, strict=True):
        now = done.when.toordinal() / 7 - START.toordinal() / 7
        if now > week:
            mind.visit(now - max(week, 0.0))
            week, last = now, ""
        if done.exercise != last:
            mind.exercise(done.exercise)
            last = done.exercise
        out.append(mind.meet(done, truth, week))
    return out


def _known(lifter: Lifter, name: str, truth: Truth, week: float) -> float:
    """Log capacity without what only the diary's dice know."""
    skill = lifter.skills[name]
    years = skill.growth * (math.log1p(week) if lifter.novice else week / 40)
    return (
        skill.level
        + years
        - (0.05 if lifter.novice else 0.015) * math.exp(-(truth.exposure - 1) / 1.5)
    )


def _felt(lifter: Lifter, done: PerformedSet) -> float:
    share = lifter.skills[done.exercise].exercise.body_mass
    carried = 0.0
    if share is not None:
        carried = float((share.female + share.male) / 2) * round(lifter.mass, 1)
    return float(done.load or 0) + carried


def _reps_of(lifter: Lifter, real: Array) -> Array:
    """Probability of each whole number of reps, a row for each real one."""
    sd = np.array([lifter.noise_sd(float(x)) for x in real])[:, None]
    below = ndtr((_REPS + 0.5 - real[:, None]) / sd)
    below[:, -1] = 1.0
    return np.diff(below, axis=1, prepend=0.0)


def _forecast(pmf: Array) -> RepsForecast:
    below = np.concatenate(([0.0], np.cumsum(pmf))) + 1e-12 * np.arange(_MOST + 2)
    quantiles = np.interp(QUANTILES, below, np.arange(-0.5, _MOST + 1))
    return RepsForecast(float(pmf @ _REPS), tuple(quantiles.tolist()), tuple(pmf.tolist()), 0)
