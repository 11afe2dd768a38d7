"""How likely what stands in a log is, for each number of reps she could have done.

For the forecaster that knows the lifter: it knows how she ends the sets of each exercise
(`training._stop`) and how she misjudges her reserve, so an ending without a word tells it
more than it tells anybody else.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from bench.forecast.people import Lifter
from bench.forecast.scoring import Array
from bench.forecast.training import Ending, Truth, _as_effort, _misjudged
from pennate.core.performed import Effort, PerformedSet

MOST = 60
_DRAWS = 400
_WARM_UP = 6
"""Reps of a warm-up set."""
_ASKED_NEAR = 2
"""A value left as asked stands for one that is at most so far from it."""


@dataclass
class Written:
    """Likelihoods by the lifter's own law of stopping and of reporting."""

    lifter: Lifter
    left: dict[tuple[int, int], Array] = field(default_factory=dict)
    reports: dict[tuple[int, int], dict[Effort, float]] = field(default_factory=dict)

    def chances(self, done: PerformedSet, truth: Truth) -> Array:
        """Likelihood of a row for 0 … MOST reps to failure."""
        out = np.zeros(MOST + 1)
        for reps in range(min(done.reps, MOST) - _ASKED_NEAR * done.as_asked, MOST + 1):
            if reps >= 0:
                out[reps] = self._chance(done, truth, reps)
        return out

    def _chance(self, done: PerformedSet, truth: Truth, reps: int) -> float:
        ending = truth.ending
        if truth.place == "warm-up":
            return float(min(_WARM_UP, reps) == done.reps)
        stopped = self._stops(ending, truth.place, reps)
        if done.as_asked and done.reps == ending.asked:
            near = range(max(done.reps - _ASKED_NEAR, 0), done.reps + _ASKED_NEAR + 1)
            return sum(stopped(one) for one in near)
        chance = stopped(min(done.reps, reps)) if done.reps <= MOST else float(reps == MOST)
        if done.effort is None or chance == 0.0:
            return chance
        return chance * self._report(ending, reps - min(done.reps, reps), reps, done.effort)

    def _stops(self, ending: Ending, place: str, reps: int) -> Callable[[int], float]:
        """Probability of each number of reps done, of so many possible."""
        if place == "drop" or ending.policy == "failure":
            return lambda done: float(done == reps)
        if ending.policy == "number":
            return lambda done: float(done == min(ending.asked, reps))
        left = self._left(ending.reserve, reps)
        return lambda done: float(left[reps - done]) if 0 <= done <= reps else 0.0

    def _left(self, reserve: int, reps: int) -> Array:
        """Probability of 0, 1, 2 … reps left where she means to leave a reserve."""
        found = self.left.get((reserve, reps))
        if found is None:
            wish = [reserve + _misjudged(self.lifter, reserve, reps) for _ in range(_DRAWS)]
            done = np.clip(np.round(reps - np.array(wish)), min(1, reps), reps)
            counts = np.bincount((reps - done).astype(int), minlength=reps + 1)
            found = self.left[reserve, reps] = counts / _DRAWS
        return found

    def _report(self, ending: Ending, left: int, reps: int, effort: Effort) -> float:
        """Probability of her report with `left` of `reps` to go."""
        if left == 0:
            return {Effort.FAIL: 0.6, Effort.NONE_LEFT: 0.4}.get(effort, 0.0)
        if ending.policy == "reserve":
            return float(_as_effort(ending.reserve) is effort)
        found = self.reports.get((left, reps))
        if found is None:
            found = {}
            for _ in range(_DRAWS):
                told = _as_effort(left - _misjudged(self.lifter, left, reps))
                found[told] = found.get(told, 0.0) + 1 / _DRAWS
            self.reports[left, reps] = found
        return found.get(effort, 0.0)
