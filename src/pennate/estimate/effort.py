"""How likely an outcome is for each number of reps she could have done.

Everything a set can show (failure, reserve reported with bias and noise, six or more in
reserve, a stop at the asked number without a word) becomes one array of weights over
t = 0 … MOST_REPS reps to failure.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from scipy.special import ndtr

from pennate.core.dose import RESERVE_OF
from pennate.core.evidence import strength_sets as t
from pennate.core.performed import Effort, SetKind
from pennate.estimate.curve import MOST_REPS, ONES, REPS, Array
from pennate.estimate.update import PLACES

if TYPE_CHECKING:
    from pennate.estimate.exposure import Outcome
    from pennate.estimate.settings import Settings

_TARGET_BASE: Array = np.full(MOST_REPS + 1, t.OTHER_TARGET)
_TARGET_BASE[0] = 0.0
for _reps, _weight in t.USUAL_TARGETS.items():
    _TARGET_BASE[_reps] = _weight
_TARGET_BASE /= _TARGET_BASE.sum()
_FEEL: Array = np.array(t.FEEL_RESERVE)
_FEEL_BACK: Array = (1.0 - t.STOP_MEMORY) * t.FEEL_WEIGHT * _FEEL
MOST_FELT = len(_FEEL)
"""Reserves by feel are told apart from none to one less than this."""
_NEVER = 1e9  # number: far beyond any report, yet finite
"""Surely passed, in reps or SDs; finite, so that it may be multiplied by zero."""
_BANDS: Mapping[Effort, tuple[float, float]] = MappingProxyType(
    {
        Effort.NONE_LEFT: (-_NEVER, 0.5),
        Effort.ONE: (0.5, 1 + 0.5),
        Effort.TWO: (1 + 0.5, 2 + 0.5),
        Effort.THREE: (2 + 0.5, 3 + 0.5),
        Effort.FOUR_FIVE: (3 + 0.5, 5 + 0.5),  # number: halfway to six
        Effort.SIX_UP: (5 + 0.5, _NEVER),  # number: as above
    }
)
"""Reserve as felt, in reps, that each report stands for."""
_BOTH_ENDS: Array = np.repeat(np.eye(2, 3), 3, axis=0)
_BY_OFFSET: Array = np.tile((0.0, 0.0, 1.0), (len(_BOTH_ENDS), 1))
_SIDES: Array = np.array(
    (_BOTH_ENDS, _BY_OFFSET, np.tile(PLACES, 2)[:, None] * _BY_OFFSET)
).reshape(3, -1)
"""How a report's beginning at each of the offset's places, then its end, are made of the
three rows of its edges; by the inverse of her honesty, and that times offset and its SD."""
_FLAT_LEAST = 1e-9
_DROP_ENDINGS = (t.DROP_FAILURE, (1.0 - t.DROP_FAILURE) / 2, (1.0 - t.DROP_FAILURE) / 2)
_TARGET_WEIGHT = t.TARGET_WEIGHT
_NO_ENDINGS = (0.0, 0.0, 0.0)


Key = tuple[str, bool]
"""An exercise, and whether its drop sets are meant: habits differ between the two."""

Endings = tuple[float, float, float]
"""Counts or shares of sets that ended by failure, at a target number, and by feel."""


@dataclass(slots=True)
class Habits:
    """How she ends her sets; decayed counts of past endings, of her whole log and by exercise.

    `usual` are the population's endings; `targets` counts the reps of those at a target.
    """

    usual: Endings
    whole: Endings
    endings: dict[Key, Endings]
    targets: dict[Key, Array]
    felt: Array
    """Weights of the reserve she leaves when she stops by feel, of her whole log."""
    feels: dict[Key, Array]
    """The same by exercise, as reported."""

    @classmethod
    def start(cls, settings: Settings) -> Habits:
        """Population habits."""
        usual = _population(settings)
        return cls(usual, usual, {}, {}, _FEEL * t.FEEL_WEIGHT, {})

    def copy(self) -> Habits:
        """An independent copy; arrays never change in place, so they are shared."""
        return Habits(
            self.usual,
            self.whole,
            self.endings.copy(),
            self.targets.copy(),
            self.felt,
            self.feels.copy(),
        )

    def shares(self, key: Key) -> Endings:
        """Probability of each ending of a set of this exercise."""
        usual = _DROP_ENDINGS if key[1] else self.whole
        scale = t.ENDING_WEIGHT / sum(usual)
        mixed = _blend(self.endings.get(key, _NO_ENDINGS), 1.0, usual, scale)
        total = sum(mixed)
        return mixed[0] / total, mixed[1] / total, mixed[2] / total

    def failure_odds(self, key: Key) -> float:
        """Odds that "none left" means plain failure, beside a report like others."""
        failed = self.shares(key)[0]
        return t.NONE_LEFT_ODDS * failed / (1.0 - failed)

    def target_shares(self, key: Key) -> Array:
        """Probability of each asked number of reps."""
        seen = self.targets.get(key)
        if seen is None:
            return _TARGET_BASE
        total = self.endings[key][1]
        shares: Array = (seen + _TARGET_WEIGHT * _TARGET_BASE) / (total + _TARGET_WEIGHT)
        return shares

    def target_share(self, key: Key, reps: int) -> float:
        """Probability that this number of reps was asked."""
        seen = self.targets.get(key)
        usual = float(_TARGET_BASE[reps])
        if seen is None:
            return usual
        weight = _TARGET_WEIGHT
        return (seen.item(reps) + weight * usual) / (self.endings[key][1] + weight)

    def guesses(self, key: Key, reps: int) -> bool:
        """Whether her reserve is a guess here: so usual a number was probably asked.

        Of drops it is none; they end where she can no more.
        """
        return not key[1] and self.target_share(key, reps) > t.GUESS_FROM

    def usual_reps(self, key: Key) -> float | None:
        """Mean of the numbers she stops at; None before there are two."""
        seen = self.targets.get(key)
        if seen is None:
            return None
        total = self.endings[key][1]
        return None if total < 1.0 else float(seen.dot(REPS)) / total

    def reserve_by_feel(self, key: Key) -> Array:
        """Probability of each number of reps left where she stops by feel."""
        usual = self.felt / float(self.felt.sum())
        seen = self.feels.get(key)
        if seen is None:
            return usual
        mixed: Array = seen + t.FEEL_OWN_WEIGHT * usual
        return mixed / float(mixed.sum())

    def take_reserve(self, key: Key, left: Array) -> None:
        """One more set whose reserve was told: probabilities of 0, 1, 2 … reps left."""
        if len(left) < MOST_FELT:  # near the most reps that are told apart
            left = np.concatenate((left, np.zeros(MOST_FELT - len(left))))
        own = self.feels.get(key)
        self.feels[key] = left if own is None else own * t.TARGET_MEMORY + left
        felt = self.felt * t.STOP_MEMORY
        felt += _FEEL_BACK
        felt += left
        self.felt = felt

    def take(self, key: Key, ending: Endings, reps: int, weight: float = 1.0) -> None:
        """One more ending, shared between the explanations; `weight` in sets guessed at."""
        ending = (ending[0] * weight, ending[1] * weight, ending[2] * weight)
        if not key[1]:
            keep = t.STOP_MEMORY
            back = _blend(self.usual, 1.0 - keep, ending, 1.0)
            self.whole = _blend(self.whole, keep, back, 1.0)
        own = self.endings.get(key, _NO_ENDINGS)
        self.endings[key] = _blend(own, t.TARGET_MEMORY, ending, 1.0)
        counts = self.targets.get(key)
        counts = np.zeros(MOST_REPS + 1) if counts is None else counts * t.TARGET_MEMORY
        counts[min(reps, MOST_REPS)] += ending[1]
        self.targets[key] = counts


def _blend(one: Endings, weight: float, other: Endings, by: float) -> Endings:
    return (
        one[0] * weight + other[0] * by,
        one[1] * weight + other[1] * by,
        one[2] * weight + other[2] * by,
    )


def _population(settings: Settings) -> Endings:
    weight = settings.stop_weight
    rest = 1.0 - settings.stop_failure - settings.stop_target
    return weight * settings.stop_failure, weight * settings.stop_target, weight * rest


class Said(NamedTuple):
    """What an ending says: weights over reps to failure in rows, and the sum of each.

    `exact` is the one number of reps that is possible, if it is one; `stopped` how likely she
    stopped before failure, where she told of it; `guessed` whether what she told was a guess.
    """

    weights: Array
    whole: float
    exact: int | None = None
    stopped: float | None = None
    guessed: bool = False


def ending_of(failed: float, target_share: float) -> Endings:
    """How a set ended that failed with this probability; else a round number was probably asked."""
    asked = target_share / (target_share + t.FEEL_SHARE)
    return failed, (1.0 - failed) * asked, (1.0 - failed) * (1.0 - asked)


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


def report_sd(reserve: float, total: float, settings: Settings, *, guessed: bool) -> float:
    """Standard deviation of a report in reps, when about `total` reps are possible."""
    far = max(total - t.REPORT_FAR, 0.0) * min(reserve, 1.0)
    law = settings.guess_law if guessed else settings.report_law
    noise, noise_rep, far_noise = law[3:]
    return noise + noise_rep * reserve + far_noise * far


@lru_cache(maxsize=1000)
def _report(reps: int, effort: Effort, law: tuple[float, ...]) -> Array:
    """Where a report begins and ends for each t, and how both move with her offset.

    Three rows, in SDs of the plain report's noise.
    """
    bias, bias_rep, far_bias, noise, noise_rep, far_noise = law
    left = np.maximum(REPS - reps, 0.0)
    left[-1] = max(left[-1], float(RESERVE_OF[effort]))  # the last stands for any number above
    near = np.minimum(left, 1.0)
    far = np.maximum(REPS - t.REPORT_FAR, 0.0) * near
    felt = left - near * (bias + bias_rep * left) - far * far_bias
    spread = noise + noise_rep * left + far * far_noise
    low, high = _BANDS[effort]
    edges = np.array(((low - felt) / spread, (high - felt) / spread, near / spread))
    edges[:2, :reps] = _NEVER  # fewer than were done cannot be
    return edges


def reported(
    outcome: Outcome,
    settings: Settings,
    *,
    guessed: bool,
    honesty: float,
    offset: float,
    offset_sd: float,
) -> Array:
    """Weights from reps and reported reserve, a row for each of the offset's places.

    `guessed` after a stop at the number asked; `honesty` multiplies the report's noise,
    `offset` is her personal bias in reps. One row where the report does not tell of her offset.
    """
    effort = outcome.effort
    if effort is None:
        raise ValueError("no effort was reported")
    reps = min(outcome.reps, MOST_REPS)
    if effort is Effort.FAIL:
        return exact(reps)[None, :]
    edges = _report(reps, effort, settings.guess_law if guessed else settings.report_law)
    one = 1.0 / honesty
    if effort is Effort.SIX_UP:
        by = one * max(offset, 0.0) / 2
        passed = ndtr(np.array(((one, 0.0, by), (0.0, one, by))).dot(edges))
        bound: Array = passed[1:] - passed[:1]
        return bound
    turns = np.array((one, one * offset, one * offset_sd)).dot(_SIDES)
    passed = ndtr(turns.reshape(-1, 3).dot(edges))
    weights: Array = passed[3:] - passed[:3]
    weights /= weights.dot(ONES)[:, None]
    return weights


def unreported(
    reps: int, targets: Array, shares: Endings, reserve: Array
) -> tuple[Array, Array, Array]:
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
    end = min(done + len(reserve), MOST_REPS + 1)
    felt[done:end] = reserve[: end - done] * feel
    return failed, stopped, felt


def slip(said: Said, outcome: Outcome, kind: SetKind, outlier: float) -> float:
    """Added to every weight: room for slips, values left as asked and warm-ups."""
    share = max(outlier, 1.0 - t.AS_ASKED_WEIGHT) if outcome.as_asked else outlier
    flat = share / (1.0 - share) / (MOST_REPS + 1)
    least = outlier if kind is SetKind.WARM_UP else _FLAT_LEAST
    return max(flat * said.whole, least)
