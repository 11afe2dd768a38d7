"""Readable but improbable numbers of a week: kept as written, and asked about (400 for 40?)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from statistics import median

from pennate.core.evidence import slips
from pennate.core.exercise import Catalogue
from pennate.core.performed import SetKind
from pennate.core.prescribed import PrescribedExercise, PrescribedSets, Week
from pennate.core.quantities import LoadReading, Mass
from pennate.core.question import Question
from pennate.errors import Where

TWO_HANDED = frozenset({LoadReading.EACH, LoadReading.SIDE})


@dataclass(frozen=True, slots=True)
class _Spot:
    """One group of sets in its place."""

    day: str
    asked: PrescribedExercise
    group: int
    sets: PrescribedSets

    def ask(self, field: str, value: str, slip: str) -> Question:
        about = f"{self.day}, {self.asked.exercise}, sets {self.group + 1}"
        where = Where(field=f"{about}, {field}")
        return Question(about=about, field=field, value=value, text=f"{value}: {slip}", where=where)


def week_questions(week: Week, catalogue: Catalogue) -> tuple[Question, ...]:
    """Every question about a week, in the order of its days."""
    known = catalogue.with_own(week.own_exercises)
    usual = _usual_loads(week)
    return tuple(
        question
        for spot in _spots(week)
        for question in (*_times(spot), *_load(spot, known, usual[_line(spot)]))
    )


def _spots(week: Week) -> Iterator[_Spot]:
    for day in week.days:
        for asked in day.exercises:
            for group, sets in enumerate(asked.sets):
                yield _Spot(day.day, asked, group, sets)


def _line(spot: _Spot) -> tuple[str, str, LoadReading]:
    """Sets whose written loads can be compared with each other."""
    return spot.asked.exercise, spot.asked.equipment, spot.sets.load.reading


def _usual_loads(week: Week) -> dict[tuple[str, str, LoadReading], list[Mass]]:
    loads: dict[tuple[str, str, LoadReading], list[Mass]] = defaultdict(list)
    for spot in _spots(week):
        if spot.sets.load.mass is not None and spot.sets.kind is not SetKind.WARM_UP:
            loads[_line(spot)].append(spot.sets.load.mass)
    return loads


def _times(spot: _Spot) -> Iterator[Question]:
    reps, seconds = spot.sets.reps, spot.sets.seconds
    if reps is not None and (reps.high or reps.low) > slips.SLIP_REPS:
        yield spot.ask("reps", f"{reps} reps", "a digit too many?")
    if seconds is not None and (seconds.high or seconds.low) > slips.SLIP_HOLD_S:
        yield spot.ask("seconds", f"{seconds} s held", "are these seconds?")


def _load(spot: _Spot, catalogue: Catalogue, alike: list[Mass]) -> Iterator[Question]:
    mass, exercise = spot.sets.load.mass, catalogue.exercises.get(spot.asked.exercise)
    if mass is None or exercise is None:
        return
    amount = abs(float(mass.in_kg))
    hands = 2 if spot.sets.load.reading in TWO_HANDED else 1
    largest = max(slips.SLIP_LARGEST_KG[kind] for kind in exercise.equipment)
    others = [abs(float(other.in_kg)) for other in alike if other is not mass]
    middle = median(others) if others else 0.0
    if spot.sets.load.reading is not LoadReading.LABEL and amount * hands > largest:
        yield spot.ask("load", str(mass), "that is more than such equipment carries")
    elif len(others) > 1 and middle and amount > slips.SLIP_HIGH * middle:
        yield spot.ask("load", str(mass), f"the other sets have about {middle:.3g} kg")
