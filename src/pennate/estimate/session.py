"""The open session: time, fatigue, what was already done, and the view of the coming set."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from pennate.core.evidence import strength_sets as t
from pennate.core.performed import SetKind
from pennate.estimate.fatigue import (
    FRESH,
    SAME_LOAD,
    Cost,
    Deficit,
    Lift,
    Tired,
    deficit,
    lighter_by,
    usual_rest,
)
from pennate.estimate.priors import overlap

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from datetime import date

    from pennate.core.muscles import Part
    from pennate.core.performed import Side
    from pennate.estimate.exposure import Exposure
    from pennate.estimate.priors import ExercisePrior
    from pennate.estimate.track import TrackKey

_OTHER_SIDE = 0.15  # number: what one limb's set costs the other, common practice

Limb = tuple[str, "Side | None"]
"""An exercise, and the side it was done with where it was one."""


@dataclass(slots=True)
class OpenSession:
    """One visit to the gym while it lasts.

    `slow_s` and `acute_s` are the time scales fatigue is carried with, `log_slow` and
    `log_acute` the deviations they stand for; what is learned within the session enters by
    the derivative.
    """

    day: date
    name: str
    slow_s: float
    acute_s: float
    log_slow: float
    log_acute: float
    share: float
    """Of what other exercises leave, where all their muscle is shared."""
    shares: dict[tuple[Limb, Limb], float]
    """How much of what the first left the second meets, kept from session to session."""
    seconds: float = 0.0
    tired: dict[Limb, Tired] = field(default_factory=dict)
    work: dict[Limb, Mapping[Part, float]] = field(default_factory=dict)
    done: dict[str, int] = field(default_factory=dict)
    """Working sets of each exercise so far."""
    drifted: dict[str, float] = field(default_factory=dict)
    """Variance that drift added to each family since it was last done."""
    met: frozenset[str] = frozenset()
    """Exercises whose chosen load was already taken as a hint today."""
    before: dict[TrackKey, tuple[float, float]] = field(default_factory=dict)

    def copy(self) -> OpenSession:
        """An independent copy."""
        return replace(
            self,
            tired=dict(self.tired),
            work=dict(self.work),
            done=dict(self.done),
            drifted=dict(self.drifted),
            before=dict(self.before),
        )

    def starts_at(self, exposure: Exposure) -> float:
        """Seconds of the session at which a set begins."""
        if not self.tired:
            return 0.0
        rest = exposure.rest_s
        return self.seconds + (usual_rest(exposure.kind) if rest is None else rest)

    def did(self, exercise: str) -> bool:
        """Whether sets of this exercise were done, ramps too."""
        return any(limb[0] == exercise for limb in self.tired)

    def deficit(self, exposure: Exposure, prior: ExercisePrior, lift: Lift) -> Deficit:
        """Fatigue this set meets; loads can be compared within one exercise only."""
        if not self.tired:
            return FRESH
        limb, log_load = (exposure.exercise, exposure.side), lift.log_load
        parts = []
        for other, tired in self.tired.items():
            share = self.shares.get((other, limb))
            if share is None:
                share = self.shares[other, limb] = self._shared(other, limb, prior)
            if share:
                lighter = 0.0
                if log_load is not None and other[0] == limb[0]:
                    lighter = lighter_by(tired, log_load)
                parts.append((share, lighter, tired))
        return deficit(parts, self.starts_at(exposure), self.slow_s, self.acute_s, lift)

    def _shared(self, other: Limb, limb: Limb, prior: ExercisePrior) -> float:
        apart = other[1] is not None and limb[1] is not None and other[1] is not limb[1]
        whole = _OTHER_SIDE if apart else 1.0
        if other[0] == limb[0]:
            return whole
        return whole * self.share * overlap(self.work[other], prior.work)

    def add(
        self,
        exposure: Exposure,
        prior: ExercisePrior,
        reps: int,
        cost: Cost,
        lift: Callable[[], Lift],
    ) -> None:
        """Book the fatigue a finished set leaves; what was left before is taken to its load.

        `lift`, that load as fatigue meets it, is worked out only where another load was lifted.
        """
        start = self.starts_at(exposure)
        self.seconds = start + reps * t.REP_SECONDS
        limb = (exposure.exercise, exposure.side)
        old = self.tired.get(limb)
        now = FRESH
        if old is not None:
            lighter = lighter_by(old, cost.log_load)
            there = lift() if lighter else SAME_LOAD
            now = deficit([(1.0, lighter, old)], self.seconds, self.slow_s, self.acute_s, there)
        worse = cost.acute > now.acute
        self.tired[limb] = Tired(
            now.slow + cost.slow,
            now.slow_by_log_s,
            cost.acute if worse else now.acute,
            0.0 if worse else now.acute_by_log_s,
            self.seconds,
            now.slow_variance + cost.slow_variance,
            cost.acute_variance if worse else now.acute_variance,
            cost.log_load,
            cost.room,
        )
        self.work[limb] = prior.work
        if exposure.kind is not SetKind.WARM_UP:
            self.done[exposure.exercise] = self.done.get(exposure.exercise, 0) + 1
