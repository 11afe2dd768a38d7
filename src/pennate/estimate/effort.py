"""How likely an outcome is for each number of reps she could have done.

Everything a set can show (failure, reserve reported with bias and noise, six or more in
reserve, a stop at the asked number without a word) becomes one array of weights over
t = 0 … MOST_REPS reps to failure.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np
from scipy.special import ndtr

from pennate.core.evidence import strength_sets as t
from pennate.core.performed import Effort, SetKind
from pennate.estimate.curve import MOST_REPS, REPS, Array
from pennate.estimate.update import BIAS_STEP

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
_SIDES: Array = np.array([[0.0], [-BIAS_STEP], [BIAS_STEP]])
_FLAT_LEAST = 1e-9
_DROP_ENDINGS = (t.DROP_FAILURE, (1.0 - t.DROP_FAILURE) / 2, (1.0 - t.DROP_FAILURE) / 2)
_TARGET_WEIGHT = t.TARGET_WEIGHT


Key = tuple[str, bool]
"""An exercise, and whether its drop sets are meant: habits differ between the two."""

Endings = tuple[float, float, float]
"""Counts or shares of sets that ended by failure, at a target number, and by feel."""


@dataclass(frozen=True, slots=True)
class Habits:
    """How she ends her sets; decayed counts of past endings, of her whole log and by exercise.

    `targets` counts the reps she stopped at.
    """

    whole: Endings
    endings: Mapping[Key, Endings]
    targets: Mapping[Key, Array]

    @classmethod
    def start(cls, settings: Settings) -> Habits:
        """Population habits."""
        return cls(_population(settings), {}, {})

    def shares(self, key: Key) -> Endings:
        """Probability of each ending of a set of this exercise."""
        own = self.endings.get(key, (0.0, 0.0, 0.0))
        usual = _DROP_ENDINGS if key[1] else self.whole
        scale = t.ENDING_WEIGHT / sum(usual)
        mixed = [mine + scale * common for mine, common in zip(own, usual, strict=True)]
        total = sum(mixed)
        return mixed[0] / total, mixed[1] / total, mixed[2] / total

    def failure_odds(self, key: Key) -> float:
        """Odds that no reserve means plain failure, beside what her reports are worth."""
        failed = self.shares(key)[0]
        return failed / (1.0 - failed)

    def target_shares(self, key: Key) -> Array:
        """Probability of each asked number of reps."""
        seen = self.targets.get(key)
        if seen is None:
            return _TARGET_BASE
        total = float(seen.sum())
        shares: Array = (seen + _TARGET_WEIGHT * _TARGET_BASE) / (total + _TARGET_WEIGHT)
        return shares

    def usual_reps(self, key: Key) -> float | None:
        """Mean of the numbers she stops at; None before there are two."""
        seen = self.targets.get(key)
        if seen is None or float(seen.sum()) < 1.0:
            return None
        return float(seen @ REPS) / float(seen.sum())

    def after(self, key: Key, ending: Endings, reps: int, settings: Settings) -> Habits:
        """One more ending, shared between the explanations."""
        keep = t.STOP_MEMORY
        usual = _population(settings)
        whole = (
            self.whole
            if key[1]
            else tuple(
                old * keep + (1.0 - keep) * start + new
                for old, start, new in zip(self.whole, usual, ending, strict=True)
            )
        )
        own = self.endings.get(key, (0.0, 0.0, 0.0))
        mine = tuple(old * t.TARGET_MEMORY + new for old, new in zip(own, ending, strict=True))
        counts = self.targets.get(key)
        counts = np.zeros(MOST_REPS + 1) if counts is None else counts * t.TARGET_MEMORY
        counts[min(reps, MOST_REPS)] += ending[1]
        return Habits(
            (whole[0], whole[1], whole[2]),
            {**self.endings, key: (mine[0], mine[1], mine[2])},
            {**self.targets, key: counts},
        )


def _population(settings: Settings) -> Endings:
    weight = settings.stop_weight
    rest = 1.0 - settings.stop_failure - settings.stop_target
    return weight * settings.stop_failure, weight * settings.stop_target, weight * rest


def ending_of(effort: Effort, target_share: float) -> Endings:
    """How a set with reported effort ended; a round number in reserve was probably asked."""
    if effort is Effort.FAIL:
        return 1.0, 0.0, 0.0
    asked = target_share / (target_share + t.FEEL_SHARE)
    if effort is Effort.NONE_LEFT:
        return 0.5, asked / 2, (1.0 - asked) / 2
    return 0.0, asked, 1.0 - asked


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
    """Weights from reps and reported reserve, for her offset and a little less and more of it.

    `honesty` multiplies the report's noise, `offset` is her personal bias in reps, `odds`
    those of plain failure where no reserve is reported. Three rows where the report tells
    of her offset, else one.
    """
    effort = outcome.effort
    if effort is None:
        raise ValueError("no effort was reported")
    reps = min(outcome.reps, MOST_REPS)
    if effort is Effort.FAIL:
        return exact(reps)[None, :]
    offsets = offset + _SIDES if effort in TELLING else np.array([[max(offset, 0.0) / 2]])
    left = REPS[reps:] - reps
    near = np.minimum(left, 1.0)
    far = np.maximum(REPS[reps:] - t.REPORT_FAR, 0.0) * near
    bias = settings.report_bias + settings.report_bias_rep * left + offsets
    felt = left - near * bias - far * settings.report_far_bias
    spread = settings.report_noise + settings.report_noise_rep * left
    spread = honesty * (spread + far * settings.report_far_noise)
    low, high = _BANDS[effort]
    weights = np.zeros((len(offsets), MOST_REPS + 1))
    weights[:, reps:] = ndtr((high - felt) / spread) - ndtr((low - felt) / spread)
    if effort in TELLING:
        weights /= weights.sum(axis=1, keepdims=True)
    elif effort is Effort.NONE_LEFT:
        weights[:, reps] += odds
    return weights


def unreported(reps: int, targets: Array, shares: Endings) -> tuple[Array, Array, Array]:
    """Weights of the three explanations of an ending without a word.

    Failure; stopped at a target (a lower bound, or failure short of it); stopped by feel.
    """
    failure, target, feel = shares
    done = min(reps, MOST_REPS)
    failed = exact(done) * failure
    short = float(targets[done + 1 :].sum())
    stopped = at_least(done) * (float(targets[done]) * target)
    stopped[done] += short * target
    felt = np.zeros(MOST_REPS + 1)
    end = min(done + len(_FEEL), MOST_REPS + 1)
    felt[done:end] = _FEEL[: end - done] * feel
    return failed, stopped, felt


def slips(weights: Array, outcome: Outcome, kind: SetKind, outlier: float) -> list[float]:
    """Added to every weight of each row: room for slips, values left as asked and warm-ups."""
    share = max(outlier, 1.0 - t.AS_ASKED_WEIGHT) if outcome.as_asked else outlier
    flat = share / (1.0 - share) / (MOST_REPS + 1)
    least = outlier if kind is SetKind.WARM_UP else _FLAT_LEAST
    return [max(flat * whole, least) for whole in weights.sum(axis=1).tolist()]
