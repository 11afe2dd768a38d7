"""What the training log says about the muscles under a tape: sessions, sets, strength."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import log
from statistics import fmean

from pennate.body.series import Series, recent
from pennate.body.support import Support
from pennate.core.body import SITE_PARTS, Site
from pennate.core.dose import RESERVE_OF, CountedSet, dose_by_part, effort_credit
from pennate.core.evidence.body_support import LEAST_SETS, LOG_PER_REP
from pennate.core.exercise import Catalogue
from pennate.core.felt import felt_kg
from pennate.core.muscles import Part
from pennate.core.performed import PerformedSet, SetKind

_DIRECT = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class TrainingLog:
    """Her performed sets with the catalogue that says what they train."""

    sets: tuple[PerformedSet, ...]
    catalogue: Catalogue

    def between(self, start: date, end: date) -> tuple[PerformedSet, ...]:
        """Sets after the first reading and up to the last, warm-ups left out."""
        return tuple(
            done
            for done in self.sets
            if start <= done.day <= end and done.kind is not SetKind.WARM_UP
        )

    def weights(self, done: PerformedSet) -> Mapping[Part, Fraction] | None:
        """What a set trains; None for an exercise nobody described."""
        if done.exercise not in self.catalogue:
            return None
        return self.catalogue[done.exercise].weights(done.variant)


def support_for(series: Series, training: TrainingLog | None) -> Support:
    """Supporting evidence for one series over the stretch its verdict looks back on."""
    used = recent(series)
    if training is None:
        return Support(used.weeks)
    sets = training.between(used.points[0].day, used.points[-1].day)
    under = [done for done in sets if _trains(training, done, series.site)]
    return Support(
        used.weeks,
        strength_log_gain=_strength_gain(training, under),
        sets_per_week=_sets_per_week(training, under, series.site, used.weeks),
        sessions=len({(done.day, done.session) for done in under}),
    )


def _trains(training: TrainingLog, done: PerformedSet, site: Site) -> bool:
    """Whether a set trains a muscle under the tape; one nobody described may do."""
    weights = training.weights(done)
    if weights is None:
        return True
    return any(weights.get(part, 0) >= _DIRECT for part in SITE_PARTS[site])


def _sets_per_week(
    training: TrainingLog, sets: Iterable[PerformedSet], site: Site, weeks: float
) -> float | None:
    counted = [
        CountedSet(_credit(done), done.kind, weights, sides=0.5 if done.side else 1.0)
        for done in sets
        if (weights := training.weights(done)) is not None
    ]
    doses = dose_by_part(counted)
    under = [doses[part].value for part in SITE_PARTS[site] if part in doses]
    return max(under) / weeks if under and weeks else None


def _credit(done: PerformedSet) -> float:
    """Credit by effort; an effort not noted counts in full here, as support is not exact."""
    return 1.0 if done.effort is None else effort_credit(RESERVE_OF[done.effort])


def _strength_gain(training: TrainingLog, sets: Iterable[PerformedSet]) -> float | None:
    """Mean log change, last third against first, of the best set a day of each exercise."""
    by_exercise: dict[tuple[str, str], list[PerformedSet]] = defaultdict(list)
    for done in sets:
        by_exercise[done.exercise, done.equipment].append(done)
    gains = [
        gain
        for group in by_exercise.values()
        if (gain := _gain_of_one(training, group)) is not None
    ]
    return fmean(gains) if gains else None


def _gain_of_one(training: TrainingLog, sets: list[PerformedSet]) -> float | None:
    best: dict[date, float] = {}
    for done in sets:
        index = _index(training, done)
        if index is not None:
            best[done.day] = max(index, best.get(done.day, index))
    days = sorted(best)
    third = len(days) // 3
    if len(sets) < LEAST_SETS or not third:
        return None
    return fmean(best[d] for d in days[-third:]) - fmean(best[d] for d in days[:third])


def _index(training: TrainingLog, done: PerformedSet) -> float | None:
    exercise = training.catalogue.exercises.get(done.exercise)
    mass = done.body_mass_kg or Fraction(0)
    felt = felt_kg(exercise, done.load, done.unit, done.reading, mass)
    if felt <= 0:
        return None
    reserve = 0.0 if done.effort is None else RESERVE_OF[done.effort]
    return log(float(felt)) + LOG_PER_REP * (done.reps + reserve - 1)
