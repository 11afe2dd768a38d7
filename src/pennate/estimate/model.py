"""The strength model: one joint belief, one update, used to predict and to fit alike."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
from scipy.special import ndtri

from pennate.core.evidence import strength as s
from pennate.core.forecast import RepsForecast, StrengthEstimate
from pennate.estimate import belief as b
from pennate.estimate import clock as time
from pennate.estimate.curve import log_load_gap, log_load_gap_by_shape
from pennate.estimate.effort import at_least
from pennate.estimate.exposure import Exposure, Outcome, Person
from pennate.estimate.fatigue import LESS_LEAST
from pennate.estimate.hints import choose, hint, only_tried, tells
from pennate.estimate.learning import book, learn, possible
from pennate.estimate.look import level_of, look, own_levels, usual_slow_s
from pennate.estimate.session import OpenSession
from pennate.estimate.settings import DEFAULTS, Settings
from pennate.estimate.state import State, TracePoint
from pennate.estimate.track import NOTHING_USUAL, Track, track_key
from pennate.estimate.transfer import ENOUGH_SETS, hint_from_known
from pennate.estimate.view import View, as_forecast, probabilities

if TYPE_CHECKING:
    from datetime import date

    from pennate.core.exercise import Catalogue


_LOAD_STEPS = 40  # number: more than any search was seen to need
_LOAD_NEAR = 1e-5  # number: log load; a thousandth of the smallest step of any gym


class StrengthModel(State):
    """What is believed of one lifter's strength; changed only by `observe` and `remembered`.

    Forecasts for a session other than the open one are made on a copy. Same calls in the
    same order give the same bits.
    """

    @classmethod
    def start(
        cls, catalogue: Catalogue, person: Person = Person(), settings: Settings = DEFAULTS
    ) -> StrengthModel:
        """The model before any set: population values for this person."""
        return cls(catalogue, person, settings)

    def copy(self) -> StrengthModel:
        """An independent copy; arrays are shared because they never change in place."""
        other = StrengthModel.__new__(StrengthModel)
        other.__dict__.update(self.__dict__)
        other.belief = self.belief.copy()
        other.resting = dict(self.resting)
        other.habits = self.habits.copy()
        other.learned = self.learned.copy()
        other.open = None if self.open is None else self.open.copy()
        other.usual = dict(self.usual)
        other.ways = dict(self.ways)
        other.behind = dict(self.behind)
        other.exposures = dict(self.exposures)
        other.points = dict(self.points)
        other.day_effects = dict(self.day_effects)
        return other

    # Asking.

    def forecast(self, exposure: Exposure) -> RepsForecast:
        """Distribution of reps to failure at the exposure's load, before the set."""
        model = self if self._ready(exposure) else self.copy()
        view = model._arrive(exposure)
        return as_forecast(view.survival(), model.behind.get(exposure.exercise, 0))

    def mean_reps(self, exposure: Exposure, loads: Sequence[float]) -> list[float]:
        """Mean reps to failure at each of these felt loads, as `forecast` gives them one by one.

        For a set that is only thought of: a load that she chose says something itself.
        """
        asking = exposure.at(None)
        model = self if self._ready(asking) else self.copy()
        view = model._arrive(asking)
        if model.open is None or not model.open.did(exposure.exercise):
            return view.mean_reps(loads)
        return [look(model, asking.at(kg), view.track).mean() for kg in loads]

    def load_for(self, exposure: Exposure, reps: int, probability: float) -> float:
        """Felt kilograms at which at least `reps` reps to failure have this probability.

        Where earlier sets of the exercise still tire, what they take depends on the load, so
        it is sought by secants: what is to spare falls with the load, by `LESS_LEAST` at least.
        """
        model = self if self._ready(exposure) else self.copy()
        asked = exposure.at(None)
        view, odds = model._arrive(asked), float(ndtri(probability))
        log_load = view.margin(reps, odds)
        if model.open is None or not model.open.did(exposure.exercise):
            return math.exp(log_load)
        fall, step, before = -1.0, 0.0, 0.0
        for _ in range(_LOAD_STEPS):
            spare = look(model, asked.at(math.exp(log_load)), view.track).margin(reps, odds)
            if abs(spare) < _LOAD_NEAR:
                break
            if step:
                fall = min(max((spare - before) / step, -1.0), -LESS_LEAST)
            step, before = -spare / fall, spare
            log_load += step
        return math.exp(log_load)

    def estimate(self, exposure: Exposure, *, ahead: float = 0.0) -> StrengthEstimate:
        """Strength on a day, day effect and fatigue left out; the load does not matter.

        `ahead` weeks later, if she trains on as before: its trend and its drift go on.
        """
        model = self.copy()
        model.close()
        view = model._arrive(exposure.at(None), rested=True)
        track = model.track(exposure)
        slope, shape = model.curve(track)
        gap = log_load_gap(1, slope, shape)
        mix = np.array([1.0, -gap, -log_load_gap_by_shape(1, slope, shape)])
        start = model.belief.offsets[track.prior.family]
        mean, cov = model.belief.mean, model.belief.cov
        week = model.clock.trained
        parts, weekly, usual = time.growth(model.belief, start, (week, week + 1), model.person)
        among = cov[np.ix_(parts, parts)]
        trend_variance = weekly @ among @ weekly
        _, later, grown = time.growth(model.belief, start, (week, week + ahead), model.person)
        grown += float(later @ mean[parts])
        variance = float(mix @ (view.cov @ mix + 2.0 * view.rows[:, parts] @ later))
        variance += float(later @ among @ later)
        variance += time.drifted(model.settings, model.learned, ahead)
        return StrengthEstimate(
            one_rep_kg=math.exp(view.level - gap + grown),
            sd_log=math.sqrt(max(variance, 0.0)),
            trend_per_week=float(weekly @ mean[parts]) + usual,
            trend_sd=math.sqrt(max(float(trend_variance), 0.0)),
            sets_behind=model.behind.get(exposure.exercise, 0),
        )

    def sets_behind(self, exposure: Exposure) -> int:
        """Working sets of this exercise, done this way on this equipment, seen so far."""
        return self.usual.get(track_key(exposure), NOTHING_USUAL).sets

    def elsewhere(self, exposure: Exposure) -> Exposure | None:
        """The same set on the other equipment where the exercise is known best; None if it is not.

        Known are three working sets and more.
        """
        known = [
            (usual.sets, index, key)
            for index, (key, usual) in enumerate(self.usual.items())
            if key[0] == exposure.exercise and key[1] != exposure.equipment
        ]
        if not known or max(known)[0] < ENOUGH_SETS:
            return None
        _, equipment, variant, style, aids, side, label = max(known)[2]
        return replace(
            exposure,
            equipment=equipment,
            variant=variant,
            style=style,
            aids=aids,
            side=side,
            label=label,
        )

    def day_effect(self, exposure: Exposure) -> tuple[float, float]:
        """Mean and SD of the shared day effect in the exposure's session."""
        return self.day_effect_on(exposure.day, exposure.session)

    def day_effect_on(self, day: date, session: str) -> tuple[float, float]:
        """Mean and SD of a session's shared day effect on log strength; unknown days are wide."""
        if self.open is not None and (self.open.day, self.open.name) == (day, session):
            return self._day_now()
        wide = time.day_sd(self.settings, self.person) * self.learned.day.sd_factor
        return self.day_effects.get((day, session), (0.0, wide))

    def day_expected(self, exposure: Exposure) -> tuple[float, float]:
        """Mean and SD of the day effect before any set of the exposure's session."""
        other = self.copy()
        other._enter(exposure)
        return other._day_now()

    def settled(self) -> StrengthModel:
        """A copy whose open session is closed."""
        other = self.copy()
        other.close()
        return other

    def curve_of(self, exposure: Exposure) -> tuple[float, float]:
        """Log slope and shape of the personal curve of an exercise."""
        model = self if self._ready(exposure) else self.copy()
        model._arrive(exposure.at(None))
        return model.curve(model.track(exposure))

    # Changing.

    def remembered(self, exposure: Exposure, reps: int) -> None:
        """Take in one set she remembers: a weak hint at the exposure's load, where it has one."""
        if exposure.unloaded:
            return
        view = self._arrive(exposure)
        slope, shape = self.curve(self.track(exposure))
        aim = log_load_gap(max(reps, 1), slope, shape)
        hint(self, view, aim, s.REMEMBERED_SD)

    def step(self, exposure: Exposure, outcome: Outcome) -> RepsForecast:
        """Forecast a set, then learn from it: what replaying a log does."""
        if only_tried(self, exposure, outcome):  # what nobody knows before the set
            forecast = self.forecast(exposure)
            self.observe(exposure, outcome)
            return forecast
        view = self._arrive(exposure)
        survival = view.survival()
        behind = self.behind.get(exposure.exercise, 0)
        learn(self, exposure, outcome, view, survival)
        return as_forecast(survival, behind)

    def observe(self, exposure: Exposure, outcome: Outcome) -> None:
        """Learn from one performed set; one without its load only tires."""
        if exposure.unloaded:
            self.pass_by(exposure, outcome.reps)
            return
        view = self._arrive(exposure, tried=only_tried(self, exposure, outcome))
        learn(self, exposure, outcome, view, view.survival())

    def pass_by(self, exposure: Exposure, reps: int) -> None:
        """Let a set pass whose load was not noted: it tires, and leaves no dated strength behind.

        It tires as at the usual load; where none is known, not at all.
        """
        self._enter(exposure)
        usual = self.usual.get(track_key(exposure))
        if usual is None:
            return
        tired = self.copy()
        tired.assume(exposure.at(math.exp(usual.log_load)), reps)
        if self.open is not None and tired.open is not None:
            self.open = replace(tired.open, before=self.open.before, drifted=self.open.drifted)

    def meet(self, exposure: Exposure) -> None:
        """Open the session of a set and join its exercise to it; teaches nothing.

        What is asked of that exercise from then on needs no copy of the model.
        """
        self._enter(exposure)
        self.wake(self.track(exposure))

    def assume(self, exposure: Exposure, reps: int) -> None:
        """Book the fatigue of a set that is only thought of; teaches nothing about strength."""
        view = self._arrive(exposure)
        could = possible(probabilities(view.survival()), at_least(reps), reps)
        book(self, exposure, Outcome(reps), could, view)

    # How a set is met.

    def _within(self, exposure: Exposure) -> bool:
        """Whether the exposure belongs to the open session."""
        now = self.open
        return now is not None and now.name == exposure.session and now.day == exposure.day

    def _ready(self, exposure: Exposure) -> bool:
        if not self._within(exposure):
            return False
        key = track_key(exposure)
        track = self._tracks.get(key)
        return (
            track is not None
            and track.prior.family in self.belief.offsets
            and all(name in self.belief.nodes[track.prior.family] for name, _ in track.nodes)
            and not tells(self, exposure, track)
        )

    def _arrive(self, exposure: Exposure, *, rested: bool = False, tried: bool = False) -> View:
        """Bring the belief to this set and look at it; `tried` where its load was but a trial."""
        self._enter(exposure)
        track = self.track(exposure)
        self.wake(track)
        if tells(self, exposure, track):
            choose(self, exposure, track, tried=tried)
        return look(self, exposure, track, rested=rested)

    def _enter(self, exposure: Exposure) -> None:
        if self._within(exposure):
            return
        self.close()
        day = exposure.day
        if self.first_day is None:
            self.first_day = day
        week = max((day - self.first_day).days / 7, self.clock.week)
        self.clock = time.advance(
            self.belief,
            self.clock,
            week,
            settings=self.settings,
            person=self.person,
            learned=self.learned,
        )
        log_slow = float(self.belief.mean[b.SLOW_S])
        log_acute = float(self.belief.mean[b.ACUTE_S])
        slow_s = usual_slow_s(self) * math.exp(log_slow)
        acute_s = self.settings.acute_s * math.exp(log_acute)
        self.open = OpenSession(
            day,
            exposure.session,
            slow_s,
            acute_s,
            log_slow,
            log_acute,
            self.settings.overlap,
            self._shares,
        )

    def close(self) -> None:
        """Put the open session's families to rest and remember what the day showed."""
        if self.open is None:
            return
        if self.open.done:
            day, sd = self._day_now()
            self.day_effects[(self.open.day, self.open.name)] = (day, sd)
            usual = time.day_sd(self.settings, self.person) ** 2
            self.learned.day = self.learned.day.seen((day * day + sd * sd) / usual)
            self._record()
        self.note_ways(self.open.before)
        for exercise in self.open.done:
            self.exposures[exercise] = self.exposures.get(exercise, 0) + 1
        self.resting.update(self.belief.rest(own_levels(self), self.clock))
        self.open = None

    def _day_now(self) -> tuple[float, float]:
        mean, cov = self.belief.mean, self.belief.cov
        return float(mean[b.DAY]), math.sqrt(max(float(cov[b.DAY, b.DAY]), 0.0))

    def _record(self) -> None:
        if self.open is None:
            return
        for key, (expected, variance) in self.open.before.items():
            level, spread = level_of(self, self._tracks[key])
            point = TracePoint(self.open.day, level, spread, expected, variance, self.clock.trained)
            self.points[key] = (*self.points.get(key, ()), point)

    def wake(self, track: Track) -> None:
        """Join a track's family and nodes to the open session."""
        family = track.prior.family
        if family not in self.belief.offsets:
            block = self.resting.get(family)
            if block is None:
                block = time.first_block(self.settings, track.nodes, self.clock)
            else:
                seen = self.exposures.get(track.exercise, 0)
                self._note_drift(family, block)
                fresh = self.settings.learning_keep ** (seen - 1) if seen else 0.0
                block = time.woken(
                    block,
                    self.clock,
                    learning=fresh,
                    gain=time.slowing_gain(self.belief, self.person),
                    settings=self.settings,
                    learned=self.learned,
                )
            new = family not in self.resting
            self.belief.wake(family, block)
            if new:
                hint_from_known(self, track, self.wake)
        for name, sd in track.nodes:
            if name not in self.belief.nodes[family]:
                self.belief.add_node(family, name, sd)
        if self.open is not None and track.key not in self.open.before:
            self.open.before[track.key] = level_of(self, track)

    def _note_drift(self, family: str, block: b.Resting) -> None:
        """Remember how much of today's surprise may be drift, once the exercise is known."""
        if self.open is not None and self.exposures.get(family, 0) > s.DRIFT_FROM:
            variance = self.settings.drift**2 * self.learned.drift.variance_factor
            self.open.drifted[family] = variance * (self.clock.week - block.since.week)
