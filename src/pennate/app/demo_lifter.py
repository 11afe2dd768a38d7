"""A made-up lifter: a year of sessions simulated set by set, the same for the same seed.

She is not the strength model: her capacity follows a plain exponential curve with her own
slope per exercise, a heavy-tailed day, fatigue that partly leaves within a minute and partly
within minutes, and a progress that flattens. She picks loads by habit (more when the range
is full, less after two misses) and notes her effort when she thinks of it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date, datetime, time, timedelta
from fractions import Fraction
from random import Random

from pennate.app.outline import CARD_KEY
from pennate.app.slots import Slot, in_order, slots_of, superset_runs
from pennate.app.stops import item_for
from pennate.core.evidence.dose import CHANGEOVER_S, SET_UP_S
from pennate.core.exercise import Catalogue, EquipmentKind, Exercise
from pennate.core.felt import body_share
from pennate.core.gym import Gym
from pennate.core.loaded import Loaded
from pennate.core.performed import Effort, PerformedSet, SetKind, Side
from pennate.core.prescribed import WEEKDAYS, LoadFrom, PlannedDay, PrescribedExercise, Week
from pennate.core.quantities import LoadReading
from pennate.loading import ladder

BODY_KG = 64.0
START = time(17, 40)
USUAL = {
    EquipmentKind.BARBELL: 62.0,
    EquipmentKind.GUIDED_BAR: 64.0,
    EquipmentKind.DUMBBELLS: 46.0,
    EquipmentKind.SLED: 150.0,
    EquipmentKind.PLATE_LOADED: 90.0,
    EquipmentKind.STACK: 52.0,
    EquipmentKind.CABLE: 30.0,
    EquipmentKind.KETTLEBELLS: 30.0,
    EquipmentKind.FIXED_BARBELLS: 34.0,
}
"""Her one-rep loads at the start by equipment, before the exercise's own factor, kg."""
BY_PATTERN = {
    "elbow_flexion": 0.5,
    "elbow_extension": 0.5,
    "delt_isolation": 0.4,
    "chest_isolation": 0.5,
    "vertical_push": 0.62,
    "horizontal_push": 0.85,
    "incline_push": 0.78,
    "knee_dominant": 1.25,
    "hip_dominant": 1.5,
    "calf": 1.5,
    "hip_abduction": 0.8,
}


@dataclass(slots=True)
class _Body:
    """What is true of one of her exercises."""

    one_rep_kg: float
    slope: float
    gain: float
    rung: dict[int, int] = field(default_factory=dict)
    misses: dict[int, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Tired:
    """What a set left at a moment: a slow part, and an acute one that soon goes."""

    slow: float
    acute: float
    clock: float

    def at(self, clock: float) -> tuple[float, float]:
        gone = max(0.0, clock - self.clock)
        return self.slow * math.exp(-gone / 130.0), self.acute * math.exp(-gone / 35.0)


@dataclass(slots=True)
class DemoLifter:
    """Simulates her year on a week, a gym and a catalogue."""

    week: Week
    gym: Gym
    catalogue: Catalogue
    rng: Random
    bodies: dict[str, _Body] = field(default_factory=dict)

    def year(self, last_day: date, weeks: int = 52) -> Iterator[PerformedSet]:
        """Her sets up to and including `last_day`, oldest first."""
        monday = last_day - timedelta(days=last_day.weekday() + 7 * (weeks - 1))
        for number in range(weeks):
            for planned in self.week.days:
                day = monday + timedelta(days=7 * number + WEEKDAYS.index(planned.day))
                away = number in {weeks // 3, weeks // 3 + 1}
                if planned.rest or day > last_day or away or self.rng.random() < 0.07:
                    continue
                yield from self._session(planned, day, number)

    def _session(self, planned: PlannedDay, day: date, week: int) -> Iterator[PerformedSet]:
        today = self._heavy_tailed(0.022)
        tired: dict[str, _Tired] = {}
        clock = 0.0
        asked = planned.exercises
        slots = {
            place: slots_of(place, one, self.catalogue[one.exercise])
            for place, one in enumerate(asked)
        }
        before: dict[int, Loaded] = {}
        seen: set[int] = set()
        order = in_order(superset_runs(asked), slots)
        for number, (place, slot) in enumerate(order, start=1):
            clock += slot.rest_s + SET_UP_S + (0.0 if place in seen else CHANGEOVER_S)
            seen.add(place)
            one = asked[place]
            done = self._set(one, slot, (today, week, clock), tired, before, place)
            clock += 3.0 * done.reps
            yield _dated(done, day, planned.day, number, clock)

    def _set(
        self,
        asked: PrescribedExercise,
        slot: Slot,
        moment: tuple[float, int, float],
        tired: dict[str, _Tired],
        before: dict[int, Loaded],
        place: int,
    ) -> PerformedSet:
        exercise = self.catalogue[asked.exercise]
        item = item_for(self.gym, exercise, asked.equipment)
        rungs = ladder(self.gym, item) if item is not None else ()
        body = self._body(exercise)
        today, week, clock = moment
        share = float(body_share(exercise, female=True)) * BODY_KG
        state = self._pick(body, slot, rungs, share, before.get(place)) if rungs else None
        felt = max((state.felt_kg if state else 0.0) + share, 1.0)
        muscle = f"{exercise.id} {slot.side or ''}"  # a side tires for itself
        before_it = tired.get(muscle, _Tired(0.0, 0.0, clock))
        slow, acute = before_it.at(clock)
        fatigue = slow + acute
        strength = math.log(body.one_rep_kg) + body.gain * math.log1p(week) + today - fatigue
        strength -= 0.03 if slot.side is Side.LEFT else 0.0
        room = 1 + (strength - math.log(felt)) / body.slope + self.rng.gauss(0, 0.6)
        reps, effort = self._perform(slot, max(0, math.floor(room)))
        near = 1.0 if effort in {Effort.FAIL, Effort.NONE_LEFT} else 0.5
        spent = max(0.0, strength - math.log(felt)) * (reps / max(room, 1.0)) ** 2
        tired[muscle] = _Tired(slow + 0.011 * near * reps, 0.85 * spent, clock + 3.0 * reps)
        if slot.asked.kind is not SetKind.WARM_UP:
            self._learn(body, slot, reps, len(rungs))
        if state is not None:
            before[place] = state
        return self._row(asked, slot, state, reps, effort)

    def _body(self, exercise: Exercise) -> _Body:
        if exercise.id not in self.bodies:
            usual = USUAL.get(exercise.equipment[0], 1.25 * BODY_KG)
            usual *= BY_PATTERN.get(exercise.pattern, 1.0)
            if exercise.body_mass is not None:
                moved = BODY_KG * float(exercise.body_mass.female)
                added = 0.3 if exercise.pattern == "trunk_flexion" else 0.12
                usual = moved + USUAL.get(exercise.equipment[0], added * moved)
            self.bodies[exercise.id] = _Body(
                one_rep_kg=usual * math.exp(self.rng.gauss(0, 0.08)),
                slope=0.024 * math.exp(self.rng.gauss(0, 0.2)),
                gain=max(0.005, self.rng.gauss(0.045, 0.015)),
            )
        return self.bodies[exercise.id]

    def _pick(
        self,
        body: _Body,
        slot: Slot,
        rungs: tuple[Loaded, ...],
        share: float,
        before: Loaded | None,
    ) -> Loaded:
        rule = slot.asked.load
        if slot.asked.kind is SetKind.WARM_UP or rule.source is LoadFrom.EMPTY_BAR:
            part = float(rule.share) if rule.share else 0.4
            return _at_most(rungs, part * (body.one_rep_kg - share))
        relative = rule.source in {LoadFrom.OF_TOP, LoadFrom.OF_PREVIOUS}
        if before is not None and (relative or slot.asked.kind is SetKind.DROP):
            return _at_most(rungs, before.felt_kg * (float(rule.share) if rule.share else 0.78))
        if slot.block not in body.rung:
            reps = slot.asked.reps.low + 2 if slot.asked.reps else 10
            guess = body.one_rep_kg * math.exp(-body.slope * (reps + 1)) - share
            body.rung[slot.block] = rungs.index(_at_most(rungs, guess))
        return rungs[min(body.rung[slot.block], len(rungs) - 1)]

    def _perform(self, slot: Slot, room: int) -> tuple[int, Effort | None]:
        asked = slot.asked
        if asked.kind is SetKind.WARM_UP and asked.reps is not None:
            return min(asked.reps.low, room), None
        if asked.to_failure or asked.kind is SetKind.AMRAP or asked.reps is None:
            return room, Effort.FAIL if self.rng.random() < 0.6 else Effort.NONE_LEFT
        spare = asked.reserve.low if asked.reserve else 1
        top = asked.reps.high or room
        reps = max(min(top, room - spare), min(room, max(asked.reps.low - 1, 1)))
        return reps, self._said(room - reps) if reps else Effort.FAIL

    def _said(self, left: int) -> Effort | None:
        if self.rng.random() < 0.3:
            return None
        felt = max(0, round(left + self.rng.gauss(-0.1, 0.4 + 0.25 * left)))
        words = (Effort.NONE_LEFT, Effort.ONE, Effort.TWO, Effort.THREE)
        return words[felt] if felt < 4 else Effort.FOUR_FIVE if felt < 6 else Effort.SIX_UP

    @staticmethod
    def _learn(body: _Body, slot: Slot, reps: int, rungs: int) -> None:
        asked, block = slot.asked, slot.block
        if asked.reps is None or asked.reps.high is None or block not in body.rung:
            return
        if reps >= asked.reps.high:
            body.rung[block] = min(body.rung[block] + 1, rungs - 1)
            body.misses[block] = 0
        elif reps < asked.reps.low:
            body.misses[block] = body.misses.get(block, 0) + 1
            if body.misses[block] >= 2:
                body.rung[block] = max(body.rung[block] - 1, 0)
                body.misses[block] = 0

    def _row(
        self,
        asked: PrescribedExercise,
        slot: Slot,
        state: Loaded | None,
        reps: int,
        effort: Effort | None,
    ) -> PerformedSet:
        seconds = slot.asked.seconds
        loaded = state is not None and bool(state.load or state.felt)
        return PerformedSet(
            id="",
            when=date.min,
            session="",
            number=1,
            exercise=asked.exercise,
            reps=1 if seconds is not None and slot.asked.reps is None else reps,
            seconds=Fraction(seconds.low) if seconds is not None else None,
            kind=slot.asked.kind,
            load=state.load.amount if loaded and state else None,
            unit=state.load.unit if loaded and state else None,
            reading=state.reading if loaded and state else LoadReading.TOTAL,
            effort=effort,
            rest_s=Fraction(slot.rest_s),
            side=slot.side,
            group=asked.superset,
            round=slot.round,
            equipment=state.item_id if state else "",
            variant=asked.variant,
            style=slot.asked.style,
            aids=asked.aids,
            as_asked=effort is None,
            body_mass_kg=Fraction(int(BODY_KG)),
            extra={CARD_KEY: slot.key},
        )

    def _heavy_tailed(self, scale: float) -> float:
        """A day's effect: Student t with five degrees of freedom, kept within sense."""
        chi = sum(self.rng.gauss(0, 1) ** 2 for _ in range(5)) / 5
        return max(-0.12, min(0.12, scale * self.rng.gauss(0, 1) / math.sqrt(chi)))


def _at_most(rungs: tuple[Loaded, ...], felt_kg: float) -> Loaded:
    return next((rung for rung in reversed(rungs) if rung.felt_kg <= felt_kg), rungs[0])


def _dated(done: PerformedSet, day: date, weekday: str, number: int, clock: float) -> PerformedSet:
    when = datetime.combine(day, START) + timedelta(seconds=round(clock) + 600)
    return replace(done, when=when, session=weekday.lower(), number=number)
