"""Minutes of a planned day with an interval, from its sets, rests, stations and supersets.

Time of a stop: reps × tempo, hold, set-up, rests, ramp sets before loaded work, plates put
on; between stops one changeover. After the ramp the first working set has its own rest, as the
session asks it. In a superset there is no rest inside a round; after a round the longest rest
of its partners.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from pennate.core.evidence.dose import (
    CHANGEOVER_S,
    DROP_REST_S,
    PLATE_MOVE_S,
    SECONDS_PER_REP,
    USUAL_REST_S,
    WARM_UP_REST_S,
)
from pennate.core.evidence.plan import (
    PACE_PRIOR_SESSIONS,
    PLATE_MOVES_A_STOP,
    RAMP_REPS_FIRST,
    RAMP_REPS_SECOND,
    SUPERSET_STEP_S,
    TIME_SD_LOG,
    USUAL_REPS,
    Z_90,
)
from pennate.core.exercise import Catalogue, EquipmentKind, Exercise, Sides
from pennate.core.muscles import GROUP_SHARES, Part
from pennate.core.performed import SetKind
from pennate.core.prescribed import PlannedDay, PrescribedExercise, PrescribedSets, Span
from pennate.core.session_time import TimedSet
from pennate.core.week_dose import main_part

PLATED = frozenset(
    {
        EquipmentKind.BARBELL,
        EquipmentKind.GUIDED_BAR,
        EquipmentKind.SLED,
        EquipmentKind.PLATE_LOADED,
    }
)
UNRAMPED = frozenset({EquipmentKind.BODY_WEIGHT, EquipmentKind.BANDS, EquipmentKind.ASSISTED})
MULTI_JOINT = frozenset(
    {
        "knee_dominant",
        "hip_dominant",
        "horizontal_push",
        "incline_push",
        "vertical_push",
        "vertical_push_down",
        "horizontal_pull",
        "vertical_pull",
    }
)
"""Movement patterns that move several joints under load."""
_TEMPO = re.compile(
    r"^\s*(\d+)\s*[-/]\s*(\d+)\s*[-/]\s*(\d+|x)\s*(?:[-/]\s*(\d+))?\s*$", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Pace:
    """How long her sessions take against the model: a factor and its uncertainty."""

    factor: float = 1.0
    sd_log: float = TIME_SD_LOG
    sessions: int = 0

    @classmethod
    def from_sessions(cls, asked_and_taken: Sequence[tuple[float, float]]) -> Pace:
        """Calibrate by sessions of known length: pairs of modelled and taken minutes.

        The mean log ratio is drawn toward the model by `PACE_PRIOR_SESSIONS` sessions.
        """
        ratios = [math.log(took / asked) for asked, took in asked_and_taken if took > 0 < asked]
        total = len(ratios) + PACE_PRIOR_SESSIONS
        mean = sum(ratios) / total
        spread = sum((ratio - mean) ** 2 for ratio in ratios)
        variance = (spread + PACE_PRIOR_SESSIONS * TIME_SD_LOG**2) / total
        return cls(math.exp(mean), math.sqrt(variance), len(ratios))


@dataclass(frozen=True, slots=True)
class Minutes:
    """Minutes with a 90 % interval."""

    value: float
    low: float
    high: float


def seconds_per_rep(exercise: Exercise, tempo: str) -> float:
    """Seconds of one rep: the written tempo (3-1-1 or 3-1-x-0), else the exercise's own."""
    found = _TEMPO.match(tempo)
    if not found:
        return float(exercise.seconds_per_rep)
    return float(sum(1 if beat in "xX" else int(beat) for beat in found.groups("0")))


def _middle(span: Span | None, otherwise: float) -> float:
    if span is None:
        return otherwise
    return float(span.low) if span.high is None else (span.low + span.high) / 2


def usual_rest_s(kind: SetKind) -> float:
    """The rest before a set of this kind when none is asked."""
    if kind is SetKind.DROP:
        return DROP_REST_S
    return WARM_UP_REST_S if kind is SetKind.WARM_UP else USUAL_REST_S


def rest_before_s(sets: PrescribedSets) -> float:
    """The rest before one of these sets, as asked or usual."""
    return usual_rest_s(sets.kind) if sets.rest_s is None else sets.rest_s


def timed_set(exercise: Exercise, sets: PrescribedSets, variant: str = "") -> TimedSet:
    """One of the asked sets as time."""
    hold = _middle(sets.seconds, 0.0)
    held = sets.reps is None and sets.seconds is not None
    reps = 0.0 if held else _middle(sets.reps, USUAL_REPS) + sets.partials / 2
    return TimedSet(
        reps=reps,
        hold_s=hold,
        rest_s=rest_before_s(sets),
        seconds_per_rep=seconds_per_rep(exercise, sets.tempo),
        sides=2 if exercise.sides_in(variant) is Sides.ONE else 1,
    )


def ramp_sets(exercise: Exercise) -> tuple[TimedSet, ...]:
    """Ramp sets before the working sets: two for multi-joint loaded work, one for the rest.

    Body weight, bands and holds need none.
    """
    if not needs_ramp(exercise):
        return ()
    reps = (RAMP_REPS_FIRST, RAMP_REPS_SECOND) if multi_joint(exercise) else (RAMP_REPS_SECOND,)
    base = TimedSet(
        rest_s=WARM_UP_REST_S,
        seconds_per_rep=float(exercise.seconds_per_rep),
        sides=2 if exercise.sides is Sides.ONE else 1,
    )
    return tuple(replace(base, reps=count) for count in reps)


def multi_joint(exercise: Exercise) -> bool:
    """Whether the pattern moves several joints."""
    return exercise.pattern in MULTI_JOINT


def group_key(part: Part) -> str:
    """The group a part belongs to, else the part itself."""
    return next((group.value for group, parts in GROUP_SHARES.items() if part in parts), part)


def warm_key(exercise: Exercise, variant: str = "") -> str:
    """The group (or lone part) that a session warms up by this exercise."""
    return group_key(main_part(exercise, variant))


def needs_ramp(exercise: Exercise) -> bool:
    """Whether working sets are heavy enough to ramp up to."""
    return not exercise.timed and exercise.equipment[0] not in UNRAMPED


def handling_s(exercise: Exercise) -> float:
    """Seconds of putting plates on at a stop, beyond what fits into rests."""
    return PLATE_MOVES_A_STOP * PLATE_MOVE_S if exercise.equipment[0] in PLATED else 0.0


def exercise_sets(exercise: Exercise, asked: PrescribedExercise) -> tuple[TimedSet, ...]:
    """All sets of an exercise as time, plates and (where none is written) ramp included."""
    sets = [
        timed_set(exercise, sets, asked.variant) for sets in asked.sets for _ in range(sets.count)
    ]
    written = any(one.kind is SetKind.WARM_UP for one in asked.sets)
    ramp = ramp_sets(exercise)
    if ramp and not written and sets:
        sets = [*ramp, *sets]
    if sets:
        sets[0] = replace(sets[0], handling_s=handling_s(exercise))
    return tuple(sets)


def stops_of(day: PlannedDay) -> Iterator[tuple[PrescribedExercise, ...]]:
    """The day's stops in order: single exercises, and supersets as one stop."""
    marked = enumerate(day.exercises)
    for _, members in groupby(marked, key=lambda pair: pair[1].superset or pair[0]):
        yield tuple(asked for _, asked in members)


def straight_seconds(sets: Sequence[TimedSet]) -> float:
    """Seconds of one exercise; the first set brings no rest, the changeover stands for it."""
    return sum(one.seconds for one in sets) - (sets[0].rest_s if sets else 0.0)


def round_rest_s(rests: Iterable[float]) -> float:
    """The rest before a round of a superset: the longest that one of its partners needs."""
    return max(rests, default=0.0)


def superset_seconds(members: Sequence[Sequence[TimedSet]]) -> float:
    """Seconds of a superset: rounds without rest inside, the longest rest between rounds.

    Partners with more sets do their first ones alone (a ramp, for example).
    """
    rounds = max(len(sets) for sets in members)
    total = 0.0
    for index in range(rounds):
        places = [(sets, index - rounds + len(sets)) for sets in members]
        present = [sets[place] for sets, place in places if place >= 0]
        work = sum(one.seconds - one.rest_s for one in present)
        rest = round_rest_s(sets[place].rest_s for sets, place in places if place > 0)
        total += rest + work + SUPERSET_STEP_S * (len(present) - 1)
    return total


@dataclass(frozen=True, slots=True)
class StopTime:
    """Seconds of one stop, changeover before it excluded."""

    exercises: tuple[str, ...]
    seconds: float
    changeover_s: float


def stop_times(day: PlannedDay, catalogue: Catalogue) -> tuple[StopTime, ...]:
    """Each stop of a day with its seconds and the changeover before it.

    Neighbours on one named item need no changeover: the rest between sets stands for it.
    """
    found: list[StopTime] = []
    before: tuple[PrescribedExercise, ...] = ()
    for members in stops_of(day):
        sets = [exercise_sets(catalogue[asked.exercise], asked) for asked in members]
        seconds = superset_seconds(sets) if len(sets) > 1 else straight_seconds(sets[0])
        between = _changeover(before, members)
        found.append(StopTime(tuple(a.exercise for a in members), seconds, between))
        before = members
    return tuple(found)


def _changeover(
    before: tuple[PrescribedExercise, ...], members: tuple[PrescribedExercise, ...]
) -> float:
    if not before:
        return 0.0
    last, first = before[-1].equipment, members[0].equipment
    return USUAL_REST_S if last and last == first else CHANGEOVER_S


def preparation_seconds(day: PlannedDay) -> float:
    """Seconds of the items before the first exercise."""
    return sum(item.seconds or (item.reps or 0) * SECONDS_PER_REP for item in day.preparation)


def day_seconds(day: PlannedDay, catalogue: Catalogue) -> float:
    """Seconds of a day by the time model, her pace not yet applied."""
    stops = stop_times(day, catalogue)
    return preparation_seconds(day) + sum(stop.seconds + stop.changeover_s for stop in stops)


def day_minutes(day: PlannedDay, catalogue: Catalogue, pace: Pace = Pace()) -> Minutes:
    """Minutes of a day at her pace, with a 90 % interval."""
    value = day_seconds(day, catalogue) / 60 * pace.factor
    spread = math.exp(Z_90 * pace.sd_log)
    return Minutes(value, value / spread, value * spread)


def trained_parts(exercise: Exercise, variant: str = "") -> frozenset[Part]:
    """Parts an exercise trains at least by half."""
    return frozenset(part for part, weight in exercise.weights(variant).items() if weight * 2 >= 1)
