"""The open session: time, fatigue, what was already done, and the view of the coming set."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from pennate.core.evidence import strength_sets as t
from pennate.core.performed import SetKind
from pennate.estimate.fatigue import (
    FRESH,
    Cost,
    Deficit,
    Lift,
    Met,
    Tired,
    deficit,
    lighter_by,
    usual_rest,
)
from pennate.estimate.priors import overlap

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from pennate.core.muscles import Part
    from pennate.core.performed import Side
    from pennate.estimate.exposure import Exposure
    from pennate.estimate.priors import ExercisePrior
    from pennate.estimate.track import TrackKey

_OTHER_SIDE = 0.15  # number: what one limb's set costs the other, common practice


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
    overlaps: dict[tuple[str, str], float]
    """Shared muscle of pairs of exercises, kept from session to session."""
    seconds: float = 0.0
    tired: dict[str, Tired] = field(default_factory=dict)
    work: dict[str, tuple[str, Side | None, Mapping[Part, float]]] = field(default_factory=dict)
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
        return any(work[0] == exercise for work in self.work.values())

    def deficit(self, exposure: Exposure, prior: ExercisePrior, lift: Lift) -> Deficit:
        """Fatigue this set meets."""
        if not self.tired:
            return FRESH
        parts = [
            Met(share, self._lighter(exposure, name, lift.log_load), tired)
            for name, tired in self.tired.items()
            if (share := self._shared(exposure, prior, self.work[name]))
        ]
        clock = self.starts_at(exposure)
        return deficit(parts, clock, self.slow_s, self.acute_s, lift)

    def _lighter(self, exposure: Exposure, name: str, log_load: float | None) -> float:
        """Loads can be compared within one exercise only."""
        if log_load is None or self.work[name][0] != exposure.exercise:
            return 0.0
        return lighter_by(self.tired[name], log_load)

    def _shared(
        self,
        exposure: Exposure,
        prior: ExercisePrior,
        work: tuple[str, Side | None, Mapping[Part, float]],
    ) -> float:
        exercise, side, parts = work
        apart = side is not None and exposure.side is not None and side is not exposure.side
        limb = _OTHER_SIDE if apart else 1.0
        if exercise == exposure.exercise:
            return limb
        key = (exercise, exposure.exercise)
        known = self.overlaps.get(key)
        if known is None:
            known = self.overlaps[key] = overlap(parts, prior.work)
        return limb * self.share * known

    def add(
        self, exposure: Exposure, prior: ExercisePrior, reps: int, cost: Cost, lift: Lift
    ) -> None:
        """Book the fatigue a finished set leaves; what was left before is taken to its load."""
        start = self.starts_at(exposure)
        self.seconds = start + reps * t.REP_SECONDS
        name = f"{exposure.exercise} {exposure.side or ''}"
        old = self.tired.get(name)
        parts = () if old is None else (Met(1.0, lighter_by(old, cost.log_load), old),)
        now = deficit(parts, self.seconds, self.slow_s, self.acute_s, lift)
        worse = cost.acute > now.acute
        self.tired[name] = Tired(
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
        self.work[name] = (exposure.exercise, exposure.side, prior.work)
        if exposure.kind is not SetKind.WARM_UP:
            self.done[exposure.exercise] = self.done.get(exposure.exercise, 0) + 1
