"""The floor: a forecaster told everything of the lifter that a log can never tell exactly.

It knows her laws, curves, levels, growth, how sets tire her, how she ends her sets and how she
misjudges her reserve; slips of the pen and a changed machine do not deceive it.
It must learn only what nobody can know before: the day, the wandering of each strength, what a
layoff took, and how near to failure each set truly was, on which the fatigue of the next one
rests. It learns them from the same reports as any forecaster. What it errs by is what no reader
of such logs can beat by more than a little; the targets can be read against it.

Method: a Rao-Blackwellised particle filter (Doucet and others 2000). Each story of the session
draws how many reps were possible in each set and tires by that; given the draws, strengths and
day are one Gaussian.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from scipy.special import ndtr

from bench.forecast.laws import Fatigue
from bench.forecast.people import Lifter, overlap
from bench.forecast.scoring import Array
from bench.forecast.training import START, Diary, Truth
from bench.forecast.written import MOST, Written
from pennate.core.forecast import QUANTILES, RepsForecast
from pennate.core.performed import PerformedSet

INFORMED = "knows the lifter"
STORIES = 24
_REPS = np.arange(MOST + 1)
_GRID = np.linspace(-4.0, 4.0, 25)
_PRIOR = np.exp(-0.5 * _GRID**2) / np.exp(-0.5 * _GRID**2).sum()
_SHARED, _LOST, _DAY, _OWN_DAY = range(4)
_FIXED = 4


@dataclass
class _Story:
    """One course the session may have taken: strengths and day given it, and what it left."""

    mean: Array
    cov: Array
    fatigue: dict[str, Fatigue]

    def copy(self) -> _Story:
        return _Story(self.mean, self.cov, {n: replace(one) for n, one in self.fatigue.items()})

    def keep(self, index: int, share: float, added: float) -> None:
        """Shrink one element and add variance to it."""
        mean, cov = self.mean.copy(), self.cov.copy()
        mean[index] *= share
        cov[index, :] *= share
        cov[:, index] *= share
        cov[index, index] += added
        self.mean, self.cov = mean, cov

    def condition(self, loads: Array, moved: float, left: float) -> None:
        """Give the scalar of these loadings a new mean and variance."""
        column = self.cov @ loads
        centre, variance = float(loads @ self.mean), float(loads @ column)
        self.mean = self.mean + column * ((moved - centre) / variance)
        self.cov = self.cov + np.outer(column, column) * ((left - variance) / variance**2)


@dataclass
class Informed:
    """What it believes of today, in log capacity, beside all that it knows."""

    lifter: Lifter
    names: tuple[str, ...]
    stories: list[_Story]
    weights: Array
    rng: np.random.Generator
    written: Written
    clock: float = 0.0

    @classmethod
    def of(cls, lifter: Lifter) -> Informed:
        """Before the first visit: the starting strengths are known."""
        size = _FIXED + len(lifter.skills)
        judge = replace(lifter, rng=np.random.default_rng([3, lifter.seed]))
        story = _Story(np.zeros(size), np.zeros((size, size)), {})
        draws = np.random.default_rng([5, lifter.seed])
        return cls(judge, tuple(lifter.skills), [story], np.ones(1), draws, Written(judge))

    def visit(self, gap: float) -> None:
        """A new day, `gap` weeks after the last: stories meet in one Gaussian and part again."""
        means = np.array([story.mean for story in self.stories])
        mean = self.weights @ means
        away = means - mean
        cov = sum(w * s.cov for w, s in zip(self.weights, self.stories, strict=True))
        lifter = self.lifter
        fresh = {
            name: Fatigue(
                lifter.fatigue_law, lifter.fatigue_amount * skill.tiring, lifter.fatigue_seconds
            )
            for name, skill in lifter.skills.items()
        }
        one = _Story(mean, cov + (away.T * self.weights) @ away, fresh)
        if gap > 2.5:
            one.mean[_LOST] += 0.01 * (gap - 2)
            one.keep(_LOST, 1.0, (0.02 * (gap - 2)) ** 2 / 12)
        one.keep(_LOST, math.exp(-min(gap, 1.0) / 4), 0.0)
        one.keep(_SHARED, 1.0, 0.003**2 * min(gap, 4))
        memory = lifter.day_memory
        one.keep(_DAY, memory, (1 - memory * memory) * lifter.day_sd**2)
        self.stories = [one.copy() for _ in range(STORIES)]
        self.weights = np.full(STORIES, 1 / STORIES)
        self.clock = 0.0

    def exercise(self, name: str) -> None:
        """A first set of an exercise today: it wandered a little since last time."""
        for story in self.stories:
            story.keep(_FIXED + self.names.index(name), 1.0, 0.005**2)
            story.keep(_OWN_DAY, 0.0, 0.008**2)

    def meet(self, done: PerformedSet, truth: Truth, week: float) -> RepsForecast:
        """Forecast a set, then learn from what was written of it."""
        name = done.exercise
        self.clock += float(done.rest_s or 0)
        ratio = truth.felt * math.exp(-_known(self.lifter, name, truth, week))
        loads = np.zeros(_FIXED + len(self.names))
        loads[[_SHARED, _DAY, _OWN_DAY, _FIXED + self.names.index(name)]] = 1.0
        loads[_LOST] = -1.0
        shifts, could = self._look(name, ratio, loads)
        forecast = _forecast(self.weights @ (_PRIOR @ could))
        chances = (_PRIOR @ could) * self.written.chances(done, truth)
        told = chances.sum(axis=1)
        self.weights = self.weights * np.maximum(told, 1e-12)
        self.weights /= self.weights.sum()
        for story, place in zip(*self._drawn(), strict=True):
            possible = done.reps
            if told[place] > 1e-12:
                possible = int(self.rng.choice(MOST + 1, p=chances[place] / told[place]))
                likely = _PRIOR * could[place, :, possible]
                likely /= likely.sum()
                moved = float(likely @ shifts[place])
                story.condition(loads, moved, float(likely @ (shifts[place] - moved) ** 2))
            self._tire(story, done, possible, ratio, loads)
        self.clock += 3.0 * done.reps
        return forecast

    def _look(self, name: str, ratio: float, loads: Array) -> tuple[Array, Array]:
        """By story: shifts of log capacity, and for each the chance of each number of reps."""
        curve = self.lifter.skills[name].curve
        shifts, real = [], []
        for story in self.stories:
            for one in story.fatigue.values():
                one.rest_until(self.clock)
            sd = math.sqrt(float(loads @ story.cov @ loads))
            shifts.append(float(loads @ story.mean) + sd * _GRID)
            tired = story.fatigue[name]
            real.append([tired.reps(curve, ratio * math.exp(-x)) for x in shifts[-1]])
        return np.array(shifts), _reps_of(self.lifter, np.array(real))

    def _drawn(self) -> tuple[list[_Story], list[int]]:
        """The stories, drawn anew where few of them carry the weight, and where each was before."""
        places = list(range(len(self.stories)))
        if 1 / float((self.weights**2).sum()) < len(places) / 2:
            at = (np.arange(STORIES) + self.rng.random()) / STORIES
            places = np.searchsorted(np.cumsum(self.weights), at).clip(max=STORIES - 1).tolist()
            self.stories = [self.stories[place].copy() for place in places]
            self.weights = np.full(STORIES, 1 / STORIES)
        return self.stories, places

    def _tire(
        self, story: _Story, done: PerformedSet, possible: int, ratio: float, loads: Array
    ) -> None:
        """Book a set as this story has it; the day does not change what a set leaves."""
        skills = self.lifter.skills
        skill = skills[done.exercise]
        lasting = loads.copy()
        lasting[[_DAY, _OWN_DAY]] = 0.0
        share = ratio * math.exp(-float(lasting @ story.mean))
        for other, one in story.fatigue.items():
            part = overlap(skill.exercise, skills[other].exercise)
            if part:
                one.add(skill.curve, share, done.reps, possible, part)


def informed(diary: Diary) -> list[RepsForecast | None]:
    """Its forecast of every set of a log whose reports are honest."""
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
        + truth.moved
        + years
        - (0.05 if lifter.novice else 0.015) * math.exp(-(truth.exposure - 1) / 1.5)
    )


def _reps_of(lifter: Lifter, real: Array) -> Array:
    """Probability of each whole number of reps, along a new last axis, for each real one."""
    base, by_rep = lifter.noise
    sd = base + by_rep * np.maximum(real, 0.0)
    below = ndtr((_REPS + 0.5 - real[..., None]) / sd[..., None])
    below[..., -1] = 1.0
    return np.diff(below, axis=-1, prepend=0.0)


def _forecast(pmf: Array) -> RepsForecast:
    below = np.concatenate(([0.0], np.cumsum(pmf))) + 1e-12 * np.arange(MOST + 2)
    quantiles = np.interp(QUANTILES, below, np.arange(-0.5, MOST + 1))
    return RepsForecast(float(pmf @ _REPS), tuple(quantiles.tolist()), tuple(pmf.tolist()), 0)
