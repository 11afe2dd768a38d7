"""Small checks of the log: history in, questions out. A new check is a function and its name."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction
from itertools import pairwise
from statistics import median

from pennate.core.evidence import slips
from pennate.core.exercise import Catalogue
from pennate.core.felt import written_kg
from pennate.core.history import History
from pennate.core.performed import Effort, PerformedSet, SetKind
from pennate.core.quantities import KG_PER_LB, LoadReading, Unit, format_number
from pennate.core.question import Question
from pennate.core.still_to_come import slip_of


@dataclass(frozen=True, slots=True)
class Asked:
    """What the checks look at: the record, the exercises, and what day it is."""

    history: History
    catalogue: Catalogue
    today: date | None = None
    """Without it, dates are not judged."""


def questions_about(asked: Asked) -> tuple[Question, ...]:
    """Every question of every check, in the order of the log; of a number the first one."""
    found: dict[tuple[str, ...], Question] = {}
    for check in CHECKS:
        for question in check(asked):
            text = question.text if question.field == "set" else ""  # a place is no number
            found.setdefault((question.about, question.field, text), question)
    place = {done.identity: number for number, done in enumerate(asked.history)}
    return tuple(sorted(found.values(), key=lambda question: place.get(question.about, 0)))


def odd_loads(asked: Asked) -> Iterator[Question]:
    """Loads far from those of the sets around them, or a pound taken for a kilogram."""
    for line in _alike(asked.history).values():
        steady = [done for done in line if done.kind is not SetKind.WARM_UP]
        masses = [_kg(done) for done in steady]
        passed = 0
        for done in line:
            warm = done.kind is SetKind.WARM_UP
            around = _around(masses, passed, skip=not warm)
            passed += not warm
            if slip := _load_slip(done, around):
                yield _ask(done, "load", _load_text(done), slip)


def huge_loads(asked: Asked) -> Iterator[Question]:
    """Loads beyond what the equipment of the exercise usually carries."""
    for done in asked.history:
        exercise = asked.catalogue.exercises.get(done.exercise)
        if exercise is None or done.load is None or done.reading is LoadReading.LABEL:
            continue
        largest = max(slips.SLIP_LARGEST_KG[kind] for kind in exercise.equipment)
        twice = 2 if done.reading in {LoadReading.EACH, LoadReading.SIDE} else 1
        if abs(_kg(done)) * twice > largest:
            yield _ask(done, "load", _load_text(done), "that is more than such equipment carries")


def odd_reps(asked: Asked) -> Iterator[Question]:
    """Reps far beyond those around, or none without a miss."""
    for line in _counted(asked.history).values():
        reps = [float(done.reps) for done in line]
        for number, done in enumerate(line):
            around = _around(reps, number, skip=True)
            usual = median(around) if len(around) >= slips.SLIP_MIN_NEIGHBOURS else None
            if done.reps > slips.SLIP_REPS or (
                usual is not None
                and done.reps >= slips.SLIP_REPS_FLOOR
                and done.reps > slips.SLIP_REPS_RATIO * max(1.0, usual)
            ):
                near = f"the sets around it have {usual:.0f}; " if usual is not None else ""
                yield _ask(done, "reps", f"{done.reps} reps", f"{near}a digit too many?")


def missed_without_failing(asked: Asked) -> Iterator[Question]:
    """A set of no reps is a missed attempt, so its effort should say so."""
    for done in asked.history:
        missed = done.effort in {Effort.FAIL, Effort.NONE_LEFT}
        if done.reps == 0 and not missed and done.seconds is None:
            yield _ask(done, "reps", "0 reps", "if the first rep was missed, rir is fail")


def long_times(asked: Asked) -> Iterator[Question]:
    """Rests of an hour and holds of half an hour are usually a clock left running."""
    why = "are these seconds?"
    for done in asked.history:
        if done.rest_s is not None and done.rest_s > slips.SLIP_REST_S:
            yield _ask(done, "rest_s", f"{format_number(done.rest_s)} s of rest", why)
        if done.seconds is not None and done.seconds > slips.SLIP_HOLD_S:
            yield _ask(done, "seconds", f"{format_number(done.seconds)} s held", why)


def odd_body_mass(asked: Asked) -> Iterator[Question]:
    """Body mass out of bounds, or a jump that no week brings."""
    line = [done for done in asked.history if done.body_mass_kg is not None]
    masses = [float(done.body_mass_kg or 0) for done in line]
    for number, (done, mass) in enumerate(zip(line, masses, strict=True)):
        around = _around(masses, number, skip=True)
        usual = median(around) if len(around) >= slips.SLIP_MIN_NEIGHBOURS else mass
        jump = max(mass, usual) > slips.SLIP_MASS_RATIO * min(mass, usual)
        if jump or not slips.SLIP_MASS_LOW <= mass <= slips.SLIP_MASS_HIGH:
            yield _ask(done, "body_mass_kg", f"body mass of {mass:g} kg", "are these kilograms?")


def odd_dates(asked: Asked) -> Iterator[Question]:
    """Days still to come or very long ago, once a day."""
    if asked.today is None:
        return
    first = {done.day: done for done in reversed(asked.history.sets)}
    oldest = asked.today.year - slips.SLIP_YEARS
    for day, done in sorted(first.items()):
        if slip := slip_of(day, asked.today):
            text = f"{slip} ({_name(done)}, set {done.number})"
            yield Question(about=done.identity, field="date", value=f"sets on {day}", text=text)
        elif day.year < oldest:
            yield _ask(done, "date", f"sets on {day}", "that is very long ago; another year?")


def times_running_back(asked: Asked) -> Iterator[Question]:
    """A later set with an earlier time: the set numbers or the clock are wrong."""
    for session in asked.history.sessions():
        timed = [(done.when, done) for done in session.sets if isinstance(done.when, datetime)]
        for (earlier, before), (later, after) in pairwise(timed):
            if later.replace(tzinfo=None) < earlier.replace(tzinfo=None):
                what = f"set {after.number} comes before set {before.number} by the clock"
                yield _ask(after, "set", what, "are the sets numbered in the order they were done?")
                break


def places_taken_twice(asked: Asked) -> Iterator[Question]:
    """Two sets with the same number in one session."""
    for before, after in pairwise(asked.history):
        if before.order == after.order:
            what = f"set {after.number} of {after.session} on {after.day} is there twice"
            yield _ask(after, "set", what, "is one of them a copy?")


Check = Callable[[Asked], Iterator[Question]]

CHECKS: tuple[Check, ...] = (
    odd_dates,
    places_taken_twice,
    times_running_back,
    odd_loads,
    huge_loads,
    odd_reps,
    missed_without_failing,
    long_times,
    odd_body_mass,
)


def _ask(done: PerformedSet, field: str, value: str, why: str) -> Question:
    text = f"{value}? ({_name(done)}, {done.day}, set {done.number}) {why}"
    return Question(about=done.identity, field=field, value=value, text=text)


def _name(done: PerformedSet) -> str:
    return done.exercise.replace("_", " ")


def _alike(history: History) -> dict[tuple[object, ...], list[PerformedSet]]:
    """Loaded sets whose loads can be compared: one exercise on one equipment, read alike."""
    lines: dict[tuple[object, ...], list[PerformedSet]] = defaultdict(list)
    for done in history:
        if done.load is not None and done.load != 0:
            key = (done.exercise, done.equipment, done.variant, done.reading, done.load > 0)
            lines[key].append(done)
    return lines


def _counted(history: History) -> dict[tuple[str, str], list[PerformedSet]]:
    """Sets counted in reps, by exercise and equipment."""
    lines: dict[tuple[str, str], list[PerformedSet]] = defaultdict(list)
    for done in history:
        if done.seconds is None:
            lines[done.exercise, done.equipment].append(done)
    return lines


def _kg(done: PerformedSet) -> float:
    return float(written_kg(done.load or Fraction(0), done.unit))


def _load_text(done: PerformedSet) -> str:
    return f"{format_number(done.load or Fraction(0))} {done.unit or 'kg'}"


def _rounded(kg: float, unit: Unit | None) -> str:
    """A mass to half a unit, in the unit of the value it explains."""
    amount = kg / float(KG_PER_LB) if unit is Unit.LB else kg
    return f"{round(amount * 2) / 2:g} {unit or Unit.KG}"


def _around(values: list[float], place: int, *, skip: bool) -> list[float]:
    """The values on either side of a place; `skip` leaves out the one at it."""
    reach = int(slips.SLIP_NEIGHBOURS)
    return values[max(0, place - reach) : place] + values[place + skip : place + skip + reach]


def _load_slip(done: PerformedSet, around: list[float]) -> str:
    if len(around) < slips.SLIP_MIN_NEIGHBOURS:
        return ""
    usual = median(around)
    ratio = abs(_kg(done)) / abs(usual)
    near = f"the sets around it are near {_rounded(usual, done.unit)}"
    if ratio > slips.SLIP_HIGH:
        return f"{near}; a digit too many?"
    if done.kind in {SetKind.WARM_UP, SetKind.DROP}:
        return ""
    if ratio * slips.SLIP_LOW < 1:
        return f"{near}; a digit too few?"
    steady = max(map(abs, around)) <= slips.SLIP_STEADY * min(map(abs, around))
    if steady and done.kind in {SetKind.WORKING, SetKind.TOP} and _is_unit_ratio(ratio):
        return f"{near}; pounds and kilograms mixed up?"
    return ""


def _is_unit_ratio(ratio: float) -> bool:
    times = max(ratio, 1 / ratio) * float(KG_PER_LB)
    return abs(times - 1) < slips.SLIP_UNIT_TOLERANCE
