"""Laws of simulated lifters: load against reps, and fatigue between sets.

None is the model's own pair. Tuning may use TUNING_* only; JUDGING_* are kept for the
published table. `slope` is the log load of one rep around ten reps.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

MOST = 90.0


@dataclass(frozen=True)
class Curve:
    """Reps to failure (real) at a share of the one-repetition maximum."""

    law: str
    slope: float
    shape: float

    def reps(self, share: float) -> float:
        """Reps at `share` = load / capacity; below 1 rep for shares above one."""
        return min(float(_CURVES[self.law](share, self.slope, self.shape)), MOST)

    def share(self, reps: float) -> float:
        """Load share at which `reps` is the number to failure, by bisection."""
        low, high = 0.02, 1.6
        for _ in range(60):
            middle = (low + high) / 2
            if self.reps(middle) > reps:
                low = middle
            else:
                high = middle
        return (low + high) / 2


def _exponential(p: float, b: float, _: float) -> float:
    return 1 - math.log(p) / b


def _linear(p: float, b: float, _: float) -> float:
    return 1 + (1 - p) / (0.82 * b)


def _hyperbola(p: float, b: float, _: float) -> float:
    return 1 + (1 / p - 1) * 0.86 / b


def _asymptote(p: float, b: float, shape: float) -> float:
    floor = min(max(0.28 + 0.10 * shape, 0.05), 0.5)
    if p <= floor + 0.01:
        return MOST
    return 1 - math.log((p - floor) / (1 - floor)) / (b * (1 + 1.65 * floor))


def _critical(p: float, b: float, shape: float) -> float:
    floor = min(max(0.06 + 0.05 * shape, 0.0), 0.25)
    if p <= floor + 0.01:
        return MOST
    return 1 + ((1 - floor) / (p - floor) - 1) * (0.88 - 1.7 * floor) / b


def _kinked(p: float, b: float, shape: float) -> float:
    flat = b * min(max(0.85 + 0.15 * shape, 0.5), 1.3)
    early = 1 - math.log(p) / (1.08 * b)
    if early <= 9:
        return early
    return 9 + (early - 9) * 1.08 * b / flat


_CURVES = {
    "exponential": _exponential,
    "linear": _linear,
    "hyperbola": _hyperbola,
    "asymptote": _asymptote,
    "critical load": _critical,
    "kinked": _kinked,
}
TUNING_CURVES = ("exponential", "linear", "hyperbola")
JUDGING_CURVES = ("asymptote", "critical load", "kinked")


@dataclass
class Fatigue:
    """What one muscle region still owes; `amount` and `seconds` are the person's own."""

    law: str
    amount: float
    seconds: float
    fast: float = 0.0
    slow: float = 0.0
    clock: float = 0.0
    fresh_fast: float = field(default=0.0, repr=False)

    def rest_until(self, clock: float) -> None:
        """Recover up to a moment."""
        gone = max(clock - self.clock, 0.0)
        self.clock = max(clock, self.clock)
        if self.law == "two exponentials":
            self.fast *= math.exp(-gone / 45)
            self.slow *= math.exp(-gone / self.seconds)
        elif self.law == "power":
            self.fast *= math.exp(-gone / 30)
            self.slow = _power_rest(self.slow, gone, self.seconds)
        elif self.law == "share of reps":
            self.fast /= 1 + gone / (0.62 * self.seconds)
        elif self.law == "two pools":
            self.fast *= math.exp(-gone / (54 + 0.08 * self.seconds))
            self.slow *= math.exp(-gone / (1.3 * self.seconds))
        else:
            self.fast *= math.exp(-gone / (0.33 * self.seconds))
            self.slow *= math.exp(-gone / (2.0 * self.seconds))

    def reps(self, curve: Curve, share: float) -> float:
        """Reps possible now at this share of fresh capacity."""
        if self.law in {"two exponentials", "power"}:
            return curve.reps(share * math.exp(min(self.fast + self.slow, 1.5)))
        if self.law == "two pools":
            fresh = curve.reps(share * math.exp(self.slow))
            return fresh * (1 - 0.85 * min(self.fast, 1.0)) if fresh > 0 else fresh
        fresh = curve.reps(share)
        return fresh * (1 - min(self.fast + self.slow, 1.0)) if fresh > 0 else fresh

    def add(self, curve: Curve, share: float, done: int, possible: float, part: float) -> None:
        """Book a set; `part` is the overlap of the muscles that did it with this region."""
        if done <= 0:
            return
        ease = min(max((self.amount / 0.0135) ** 0.5, 0.6), 1.15)
        spent = min(done / max(possible, 1.0), 1.0)
        left = max(possible - done, 0.0)
        near = 1.0 / (1.0 + left) ** 0.75
        if self.law == "two exponentials":
            room = max(-math.log(max(share, 0.05)), 0.02)
            self.slow += part * 1.36 * self.amount * done * near
            self.fast = max(self.fast, part * 0.75 * ease * min(room, 0.35) * spent**2)
        elif self.law == "power":
            self.slow += part * self.amount * 3.7 * done**0.8 * near
            self.fast = max(self.fast, part * 0.12 * spent**3)
        elif self.law == "share of reps":
            whole = min(0.95 * ease, 0.98) * spent * near**0.6
            self.fast += part * (1 - self.fast) * whole
        elif self.law == "two pools":
            self.fast += part * (1 - self.fast) * 0.86 * ease * spent**1.5
            self.slow += part * self.amount * 1.10 * done * near
        else:
            fresh = max(curve.reps(share), 1.0)
            use = part * min(done / fresh, 1.0) * near**0.35
            tired = self.amount / 0.0135
            self.fast += 0.58 * use * (1 - self.fast)
            self.slow += 0.5 * use * min(tired, 2.0) * (1 - self.slow)


def _power_rest(owed: float, gone: float, seconds: float) -> float:
    """Recovery that slows down: the rate falls with what is left."""
    if owed <= 1e-6:
        return 0.0
    rate = 1.0 / (0.75 * seconds)
    return owed / (1 + rate * gone * (owed / 0.12) ** 0.4) ** 1.35


TUNING_FATIGUE = ("two exponentials", "power", "share of reps")
JUDGING_FATIGUE = ("two pools", "reservoir")
