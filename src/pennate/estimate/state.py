"""What the strength model holds, and the plain look-ups on it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from pennate.core.exercise import Catalogue
from pennate.estimate import belief as b
from pennate.estimate import clock as time
from pennate.estimate.curve import clamp_slope
from pennate.estimate.effort import Habits
from pennate.estimate.exposure import Exposure, Person
from pennate.estimate.learned import Learned
from pennate.estimate.priors import ExercisePrior, exercise_prior
from pennate.estimate.session import Limb, OpenSession
from pennate.estimate.settings import Settings
from pennate.estimate.track import Track, TrackKey, Usual, track_key, track_of


class TracePoint(NamedTuple):
    """Strength of one track when a session closed, and as expected before it opened."""

    day: date
    log_load: float
    variance: float
    expected: float
    expected_variance: float
    trained: float
    """Weeks of training up to then, as the clock counts them."""


class State:
    """The belief, the open session, and what was learned of her habits so far."""

    def __init__(self, catalogue: Catalogue, person: Person, settings: Settings) -> None:
        self.catalogue = catalogue
        self.person = person
        self.settings = settings
        self.belief = time.first_belief(settings, person)
        self.clock = b.Clock.start()
        self.resting: dict[str, b.Resting] = {}
        self.habits = Habits.start(settings)
        self.learned = Learned.start(settings.variance_weight)
        self.open: OpenSession | None = None
        self.first_day: date | None = None
        self.usual: dict[TrackKey, Usual] = {}
        self.ways: dict[str, dict[str, tuple[TrackKey, ...]]] = {}
        """By family and exercise, the tracks it was last done on."""
        self.doubted: frozenset[TrackKey] = frozenset()
        """Tracks whose last set was hardly to be expected."""
        self.behind: dict[str, int] = {}
        self.exposures: dict[str, int] = {}
        self.points: dict[TrackKey, tuple[TracePoint, ...]] = {}
        self.day_effects: dict[tuple[date, str], tuple[float, float]] = {}
        self._tracks: dict[TrackKey, Track] = {}
        self._shares: dict[tuple[Limb, Limb], float] = {}
        self._priors: dict[str, ExercisePrior] = {}

    def track(self, exposure: Exposure) -> Track:
        """What stays the same about this exercise done this way."""
        key = track_key(exposure)
        track = self._tracks.get(key)
        if track is None:
            track = self._tracks[key] = track_of(key, self._prior(exposure.exercise))
        return track

    def known_track(self, key: TrackKey) -> Track:
        """A track that was met before."""
        return self._tracks[key]

    def note_ways(self, keys: Iterable[TrackKey]) -> None:
        """Remember the tracks an exercise was done on today, for each of them."""
        today: dict[str, dict[str, tuple[TrackKey, ...]]] = {}
        for key in keys:
            track = self._tracks[key]
            done = today.setdefault(track.prior.family, {})
            done[track.exercise] = (*done.get(track.exercise, ()), key)
        for family, done in today.items():
            self.ways[family] = self.ways.get(family, {}) | done

    def _prior(self, exercise: str) -> ExercisePrior:
        prior = self._priors.get(exercise)
        if prior is None:
            prior = exercise_prior(exercise, self.catalogue, self.person)
            self._priors[exercise] = prior
        return prior

    def curve(self, track: Track) -> tuple[float, float]:
        """Log slope and shape of a track whose family is awake."""
        mean = self.belief.mean
        start = self.belief.offsets[track.prior.family]
        slope = track.prior.log_slope + mean.item(b.SLOPE) + mean.item(start + b.OWN_SLOPE)
        shape = self.settings.shape + mean.item(b.SHAPE) + mean.item(start + b.OWN_SHAPE)
        return clamp_slope(slope), shape
