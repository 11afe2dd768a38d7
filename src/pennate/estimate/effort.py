"""How likely an outcome is for each number of reps she could have done.

Everything a set can show (failure, reserve reported with bias and noise, six or more in
reserve, a stop at the asked number without a word) becomes one array of weights over
t = 0 … MOST_REPS reps to failure.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from scipy.special import ndtr

from pennate.core.dose import RESERVE_OF
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


def bias_scale(effort: Effort) -> float:
    """How much of her personal offset a report carries; less where nothing was left."""
    return 0.5 if RESERVE_OF[effort] == 0 else 1.0


def report_sd(reserve: float, total: float, settings: Settings) -> float:
    """Standard deviation of a report in reps, when about `total` reps are possible."""
    far = max(total - t.REPORT_FAR, 0.0) * min(reserve, 1.0)
    noise = settings.report_noise + settings.report_noise_rep * reserve
    return noise + settings.report_far_noise * far


def reported(outcome: Outcome, settings: Settings, honesty: float, offset: float) -> Array:
    """Weights from reps and reported reserve.

    `honesty` multiplies the report's noise, `offset` is her personal bias in reps.
    """
    effort = outcome.effort
    if effort is None:
        raise ValueError("no effort was reported")
    reps = min(outcome.reps, MOST_REPS)
    if effort is Effort.FAIL:
        return exact(reps)
    reserve = RESERVE_OF[effort]
    left = REPS - reps
    far = np.maximum(REPS - t.REPORT_FAR, 0.0)
    bias = settings.report_bias + settings.report_bias_rep * reserve + offset * bias_scale(effort)
    mean = reserve + bias + far * settings.report_far_bias * min(reserve, 1.0)
    noise = settings.report_noise + settings.report_noise_rep * reserve
    spread = honesty * (noise + far * settings.report_far_noise * min(reserve, 1.0))
    if effort is Effort.SIX_UP:
        weights: Array = ndtr((left - mean + 0.5) / spread)
    else:
        weights = np.exp(-0.5 * ((left - mean) / spread) ** 2) / spread
    weights[:reps] = 0.0
    return weights


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
