"""What the training log says about the muscles under a tape: sessions, sets, strength."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from functools import cached_property
from math import log
from operator import attrgetter
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
class _Way:
    """What an exercise trains when it is done in one of its ways."""

    weights: Mapping[Part, Fraction] | None
    """None for an exercise nobody described."""
    sites: frozenset[Site]
    """Places of the tape over a muscle it trains; one nobody described may train any."""


@dataclass(frozen=True)
class TrainingLog:
    """Her performed sets with the catalogue that says what they train.

    What is worked out of a set is kept, because the girths of a body look at the same sets.
    """

    sets: tuple[PerformedSet, ...]
    catalogue: Catalogue
    _ways: dict[tuple[str, str], _Way] = field(default_factory=dict, repr=False, compare=False)
    _indices: dict[int, float | None] = field(default_factory=dict, repr=False, compare=False)

    @cached_property
    def hard(self) -> tuple[PerformedSet, ...]:
        """Sets in order of days, warm-ups left out."""
        kept = (done for done in self.sets if done.kind is not SetKind.WARM_UP)
        return tuple(sorted(kept, key=attrgetter("day")))

    @cached_property
    def _days(self) -> list[date]:
        return [done.day for done in self.hard]

    def under(self, site: Site, start: date, end: date) -> tuple[int, ...]:
        """Places in `hard` of the sets on these days that train a muscle under the tape."""
        first, beyond = bisect_left(self._days, start), bisect_right(self._days, end)
        return tuple(n for n in range(first, beyond) if site in self.way(self.hard[n]).sites)

    def way(self, done: PerformedSet) -> _Way:
        """What a set trains."""
        key = done.exercise, done.variant
        if key not in self._ways:
            self._ways[key] = self._way(*key)
        return self._ways[key]

    def _way(self, exercise: str, variant: str) -> _Way:
        if exercise not in self.catalogue:
            return _Way(None, frozenset(Site))
        weights = self.catalogue[exercise].weights(variant)
        direct = {part for part, weight in weights.items() if weight >= _DIRECT}
        return _Way(weights, frozenset(site for site in Site if SITE_PARTS[site] & direct))

    def index(self, place: int) -> float | None:
        """Log of the one-rep load a set in `hard` speaks of, in felt kilograms; None without."""
        if place not in self._indices:
            self._indices[place] = _index(self.catalogue, self.hard[place])
        return self._indices[place]


def support_for(series: Series, training: TrainingLog | None) -> Support:
    """Supporting evidence for one series over the stretch its verdict looks back on."""
    used = recent(series)
    if training is None:
        return Support(used.weeks)
    places = training.under(series.site, used.points[0].day, used.points[-1].day)
    sets = [training.hard[place] for place in places]
    return Support(
        used.weeks,
        strength_log_gain=_strength_gain(training, places),
        sets_per_week=_sets_per_week(training, sets, series.site, used.weeks),
        sessions=len({(done.day, done.session) for done in sets}),
    )


def _sets_per_week(
    training: TrainingLog, sets: Iterable[PerformedSet], site: Site, weeks: float
) -> float | None:
    """Fractional sets a week of the part under the tape that gets most; alike sets as one."""
    alike = Counter(
        (done.exercise, done.variant, done.kind, _credit(done), 0.5 if done.side else 1.0)
        for done in sets
        if training.way(done).weights is not None
    )
    counted = (
        CountedSet(credit, kind, weights, sides=many * sides)
        for (exercise, variant, kind, credit, sides), many in alike.items()
        if (weights := training.catalogue[exercise].weights(variant))
    )
    doses = dose_by_part(counted)
    under = [doses[part].value for part in SITE_PARTS[site] if part in doses]
    return max(under) / weeks if under and weeks else None


def _credit(done: PerformedSet) -> float:
    """Credit by effort; an effort not noted counts in full here, as support is not exact."""
    return 1.0 if done.effort is None else effort_credit(RESERVE_OF[done.effort])


def _strength_gain(training: TrainingLog, places: Iterable[int]) -> float | None:
    """Mean log change, last third against first, of the best set a day of each exercise."""
    by_exercise: dict[tuple[str, str], list[int]] = defaultdict(list)
    for place in places:
        done = training.hard[place]
        by_exercise[done.exercise, done.equipment].append(place)
    gains = [
        gain
        for group in by_exercise.values()
        if (gain := _gain_of_one(training, group)) is not None
    ]
    return fmean(gains) if gains else None


def _gain_of_one(training: TrainingLog, places: list[int]) -> float | None:
    best: dict[date, float] = {}
    for place in places:
        index, day = training.index(place), training.hard[place].day
        if index is not None:
            best[day] = max(index, best.get(day, index))
    days = sorted(best)
    third = len(days) // 3
    if len(places) < LEAST_SETS or not third:
        return None
    return fmean(best[d] for d in days[-third:]) - fmean(best[d] for d in days[:third])


def _index(catalogue: Catalogue, done: PerformedSet) -> float | None:
    exercise = catalogue.exercises.get(done.exercise)
    mass = done.body_mass_kg or Fraction(0)
    felt = felt_kg(exercise, done.load, done.unit, done.reading, mass)
    if felt <= 0:
        return None
    reserve = 0.0 if done.effort is None else RESERVE_OF[done.effort]
    return log(float(felt)) + LOG_PER_REP * (done.reps + reserve - 1)
