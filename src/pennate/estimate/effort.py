"""How likely an outcome is for each number of reps she could have done.

Everything a set can show (failure, reserve reported with bias and noise, six or more in
reserve, a stop at the asked number without a word) becomes one array of weights over
t = 0 … MOST_REPS reps to failure.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np
from scipy.special import ndtr

from pennate.core.evidence import strength_sets as t
from pennate.core.performed import Effort, SetKind
from pennate.estimate.curve import MOST_REPS, REPS, Array

if TYPE_CHECKING:
    from pennate.estimate.exposure import Outcome
    from pennate.estimate.settings import Settings

_TARGET_BASE: Array = np.full(MOST_REPS + 1, t.OTHER_TARGET)
_TARGET_BASE[0] = 0.0
for _reps, _weight in t.USUAL_TARGETS.items():
    _TARGET_BASE[_reps] = _weight
_TARGET_BASE /= _TARGET_BASE.sum()
_FEEL: Array = np.array(t.FEEL_RESERVE)
_BANDS: Mapping[Effort, tuple[float, float]] = MappingProxyType(
    {
        Effort.NONE_LEFT: (-math.inf, 0.5),
        Effort.ONE: (0.5, 1 + 0.5),
        Effort.TWO: (1 + 0.5, 2 + 0.5),
        Effort.THREE: (2 + 0.5, 3 + 0.5),
        Effort.FOUR_FIVE: (3 + 0.5, 5 + 0.5),  # number: halfway to six
        Effort.SIX_UP: (5 + 0.5, math.inf),  # number: as above
    }
)
"""Reserve as felt, in reps, that each report stands for."""
TELLING = frozenset({Effort.NONE_LEFT, Effort.ONE, Effort.TWO, Effort.THREE, Effort.FOUR_FIVE})
"""Reports that say how honest her reports are; six up may be anything."""
_TARGET_WEIGHT = t.TARGET_WEIGHT


@dataclass(frozen=True, slots=True)
class Habits:
    """How she ends sets whose effort she does not note; decayed counts of past endings.

    `targets` counts the reps she stopped at, per exercise and kind of set.
    """

    failure: float
    target: float
    feel: float
    targets: Mapping[tuple[str, bool], Array]
    fails: Mapping[tuple[str, bool], tuple[float, float]] = field(default_factory=dict)
    """Sets reported as failed, and all reported, per exercise and kind of set."""

    @classmethod
    def start(cls, settings: Settings) -> Habits:
        """Population habits."""
        rest = 1.0 - settings.stop_failure - settings.stop_target
        weight = settings.stop_weight
        return cls(weight * settings.stop_failure, weight * settings.stop_target, weight * rest, {})

    def target_shares(self, key: tuple[str, bool]) -> Array:
        """Probability of each asked number of reps."""
        seen = self.targets.get(key)
        if seen is None:
            return _TARGET_BASE
        total = float(seen.sum())
        return (seen + _TARGET_WEIGHT * _TARGET_BASE) / (total + _TARGET_WEIGHT)

    def failure_odds(self, key: tuple[str, bool]) -> float:
        """Odds that no reserve means plain failure, beside what her reports are worth."""
        failed, total = self.fails.get(key, (0.0, 0.0))
        share = (failed + 1.0) / (total + 4.0)
        return share / (1.0 - share)

    def with_report(self, key: tuple[str, bool], effort: Effort) -> Habits:
        """One more reported set of this exercise."""
        failed, total = self.fails.get(key, (0.0, 0.0))
        keep = t.TARGET_MEMORY
        counts = (failed * keep + (effort is Effort.FAIL), total * keep + 1.0)
        return replace(self, fails={**self.fails, key: counts})

    def with_target(self, key: tuple[str, bool], reps: int, weight: float) -> Habits:
        """One more set of this exercise that ended at this number."""
        counts = self.targets.get(key)
        counts = np.zeros(MOST_REPS + 1) if counts is None else counts * t.TARGET_MEMORY
        counts[min(reps, MOST_REPS)] += weight
        return replace(self, targets={**self.targets, key: counts})

    def with_ending(self, failure: float, target: float, feel: float) -> Habits:
        """One more ending, shared between the explanations."""
        keep = t.STOP_MEMORY
        pull = 1.0 - keep
        base = t.STOP_WEIGHT * pull
        rest = 1.0 - t.STOP_FAILURE - t.STOP_TARGET
        return replace(
            self,
            failure=self.failure * keep + base * t.STOP_FAILURE + failure,
            target=self.target * keep + base * t.STOP_TARGET + target,
            feel=self.feel * keep + base * rest + feel,
        )


def exact(reps: int) -> Array:
    """Failure: exactly these reps."""
    weights = np.zeros(MOST_REPS + 1)
    weights[min(reps, MOST_REPS)] = 1.0
    return weights


def at_least(reps: int) -> Array:
    """These reps or more."""
    weights = np.zeros(MOST_REPS + 1)
    weights[min(reps, MOST_REPS) :] = 1.0
    return weights


def report_sd(reserve: float, total: float, settings: Settings) -> float:
    """Standard deviation of a report in reps, when about `total` reps are possible."""
    far = max(total - t.REPORT_FAR, 0.0) * min(reserve, 1.0)
    noise = settings.report_noise + settings.report_noise_rep * reserve
    return noise + settings.report_far_noise * far


def reported(
    outcome: Outcome, settings: Settings, *, honesty: float, offset: float, odds: float
) -> Array:
    """Weights from reps and reported reserve.

    `honesty` multiplies the report's noise, `offset` is her personal bias in reps, `odds`
    those of plain failure where no reserve is reported.
    """
    effort = outcome.effort
    if effort is None:
        raise ValueError("no effort was reported")
    reps = min(outcome.reps, MOST_REPS)
    if effort is Effort.FAIL:
        return exact(reps)
    left = REPS - reps
    near = np.minimum(left, 1.0)
    if effort is Effort.NONE_LEFT:
        offset = max(offset, 0.0) / 2
    far = np.maximum(REPS - t.REPORT_FAR, 0.0) * near
    bias = settings.report_bias + settings.report_bias_rep * left + offset
    felt = left - near * bias - far * settings.report_far_bias
    spread = settings.report_noise + settings.report_noise_rep * np.maximum(left, 0.0)
    spread = honesty * (spread + far * settings.report_far_noise)
    low, high = _BANDS[effort]
    weights: Array = ndtr((high - felt) / spread) - ndtr((low - felt) / spread)
    weights[:reps] = 0.0
    if effort is Effort.NONE_LEFT:
        weights[reps] += odds
        return weights
    return weights / float(weights.sum())


def unreported(reps: int, targets: Array, habits: Habits) -> tuple[Array, Array, Array]:
    """Weights of the three explanations of an ending without a word.

    Failure; stopped at a target (a lower bound, or failure short of it); stopped by feel.
    """
    total = habits.failure + habits.target + habits.feel
    done = min(reps, MOST_REPS)
    failed = exact(done) * (habits.failure / total)
    short = float(targets[done + 1 :].sum())
    stopped = at_least(done) * float(targets[done])
    stopped[done] += short
    stopped *= habits.target / total
    felt = np.zeros(MOST_REPS + 1)
    end = min(done + len(_FEEL), MOST_REPS + 1)
    felt[done:end] = _FEEL[: end - done]
    felt *= habits.feel / total
    return failed, stopped, felt


def softened(weights: Array, outcome: Outcome, kind: SetKind, outlier: float) -> Array:
    """Make room for slips, for values left as asked and for warm-ups."""
    top = float(weights.max())
    if top <= 0.0:
        return np.ones(MOST_REPS + 1)
    share = outlier
    if outcome.as_asked:
        share = max(share, 1.0 - t.AS_ASKED_WEIGHT)
    flat = share / (1.0 - share) * float(weights.sum()) / (MOST_REPS + 1)
    if kind is SetKind.WARM_UP or math.isinf(flat):
        flat = max(flat, outlier)
    return weights + flat
