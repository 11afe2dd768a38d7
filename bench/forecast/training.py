"""A simulated lifter trains: choices by habit, sets by her laws, and what she writes down."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from fractions import Fraction
from typing import NamedTuple

import numpy as np

from bench.forecast.laws import Fatigue
from bench.forecast.people import Lifter, Skill, overlap
from pennate.core.performed import Effort, PerformedSet, SetKind
from pennate.core.quantities import Unit

START = date(2024, 1, 8)
SPLIT = (
    ("back_squat_free", "bench_press", "lat_pulldown", "leg_extension", "lateral_raise", "curl"),
    ("conventional_deadlift", "shoulder_press", "seated_cable_row", "seated_leg_curl",
     "triceps_pushdown", "chest_fly"),
    ("leg_press", "incline_press", "chin_up", "hip_thrust", "rear_delt_fly", "hammer_curl"),
)  # fmt: skip
EXERCISES = tuple(dict.fromkeys(name for day in SPLIT for name in day))


LIVELY = (0.025 / 0.0166, 0.04 / 0.0166)
"""Brings the median day SD to what Grgic 2020 and Banyard 2017 suggest, trained and novice."""


@dataclass(frozen=True)
class Scenario:
    """How a log is kept, and what goes wrong in it."""

    name: str
    noted: float = 1.0
    by_number: float = 0.2
    """Share of exercises stopped at the asked number."""
    to_failure: float = 0.35
    typos: float = 0.0
    machine: bool = False
    style: bool = False
    dishonest: bool = False
    rest_noted: float = 1.0
    as_asked: float = 0.0
    days: tuple[float, float] = (1.0, 1.0)
    """Factor on the day SD of trained people and of novices."""
    noise: float = 1.0
    """Factor on a set's own noise."""
    weeks: int = 34


SCENARIOS = {
    s.name: s
    for s in (
        Scenario("effort noted"),
        Scenario("effort mostly not noted", noted=0.15),
        Scenario("habit-driven", noted=0.12, by_number=0.85, to_failure=0.08, as_asked=0.15),
        Scenario("typing errors", typos=0.006),
        Scenario("machine replaced", machine=True),
        Scenario("style switched", style=True),
        Scenario("dishonest reports", dishonest=True),
        Scenario("livelier days", days=LIVELY),
        Scenario("steadier sets", days=(1.1, 1.1), noise=0.5),
    )
}


class Ending(NamedTuple):
    """How she ends the working sets of an exercise: by failure, at a number, or by reserve."""

    policy: str
    asked: int
    reserve: int


@dataclass
class Truth:
    """What only the simulator knows of a set."""

    reps: int
    oracle: float
    """Reps to failure with everything known but the day and the noise."""
    exposure: int
    place: str
    """first, later, drop or warm-up."""
    layoff: bool
    since: int
    """Which visit to the exercise since its machine or style was switched; 0 before that."""
    day: float
    level: float
    """True log capacity, day left out."""
    moved: float
    """Of it, what another machine or another style changed."""
    felt: float
    """Load as lifted, whatever was written."""
    ending: Ending

    @property
    def switched(self) -> bool:
        """Whether the exercise is done on another machine or in another style by now."""
        return self.since > 0


@dataclass
class Diary:
    """One lifter's log with its truth, row by row."""

    lifter: Lifter
    scenario: Scenario
    rows: list[PerformedSet] = field(default_factory=list)
    truth: list[Truth] = field(default_factory=list)


@dataclass
class _Practice:
    """How she does one exercise at present."""

    asked: int
    reserve: int
    policy: str
    sets: int
    rest: float
    drops: int
    warm_up: bool
    load: float = 0.0
    exposures: int = 0
    wander: float = 0.0
    machine: float = 0.0
    style: str = ""
    style_level: float = 0.0
    since: int = 0
    last_over: float = 0.0


def among(lifter: Lifter, scenario: Scenario) -> Lifter:
    """The lifter as she is in a scenario's population."""
    base, by_rep = lifter.noise
    return replace(
        lifter,
        day_sd=lifter.day_sd * scenario.days[lifter.novice],
        noise=(base * scenario.noise, by_rep * scenario.noise),
    )


def train(lifter: Lifter, scenario: Scenario) -> Diary:
    """The whole log of one lifter."""
    rng = lifter.rng
    lifter = among(lifter, scenario)
    diary = Diary(lifter, scenario)
    practice = {name: _plan(rng, scenario) for name in lifter.skills}
    days = _calendar(rng, scenario.weeks)
    swap_day = int(len(days) * rng.uniform(0.45, 0.65))
    swapped = tuple(rng.permutation(sorted(lifter.skills))[:2].tolist())
    shared = 0.0
    day = 0.0
    lost = 0.0
    since_return = 99.0
    always = int(rng.integers(1, 3))
    for number, (when, gap) in enumerate(days):
        week = (when - START).days / 7
        if gap > 2.5:
            lost += float(rng.uniform(0.0, 0.02)) * (gap - 2)
            since_return = 0.0
        lost *= math.exp(-min(gap, 1.0) / 4)
        since_return += min(gap, 1.0)
        shared += float(rng.normal(0, 0.003)) * math.sqrt(min(gap, 4))
        day = _next_day(lifter, day)
        if number == swap_day:
            _switch(rng, scenario, practice, swapped)
        visit = _Visit(
            when=when,
            number=number,
            base=shared - lost,
            day=day,
            week=week,
            back=since_return < 2.0 and lost > 0,
            always=always,
            switched=swapped if number >= swap_day else (),
        )
        _session(diary, practice, visit)
    return diary


def _plan(rng: np.random.Generator, scenario: Scenario) -> _Practice:
    draw = float(rng.random())
    policy = "reserve"
    if draw < scenario.by_number:
        policy = "number"
    elif draw < scenario.by_number + scenario.to_failure:
        policy = "failure"
    return _Practice(
        asked=int(rng.choice([5, 6, 8, 8, 10, 10, 12, 15])),
        reserve=int(rng.choice([0, 1, 1, 2, 2, 3])),
        policy=policy,
        sets=int(rng.choice([2, 3, 3, 3, 4])),
        rest=float(rng.choice([75, 90, 120, 120, 150, 180, 240])),
        drops=int(rng.choice([0, 0, 0, 1, 2])),
        warm_up=bool(rng.random() < 0.25),
    )


def _calendar(rng: np.random.Generator, weeks: int) -> list[tuple[date, float]]:
    """Training days with the weeks since the one before."""
    per_week = int(rng.choice([3, 3, 4]))
    spacing = {3: (2, 2, 3), 4: (2, 1, 2, 2)}[per_week]
    layoff_at = float(rng.uniform(0.45, 0.8)) * weeks if rng.random() < 0.6 else None
    when, days, last = START, [], START
    step = 0
    while (when - START).days < weeks * 7:
        if rng.random() > 0.06:
            days.append((when, (when - last).days / 7))
            last = when
        when += timedelta(days=spacing[step % len(spacing)])
        step += 1
        if layoff_at is not None and (when - START).days / 7 > layoff_at:
            when += timedelta(days=int(rng.integers(22, 64)))
            layoff_at = None
    return days


def _next_day(lifter: Lifter, before: float) -> float:
    fresh = float(lifter.rng.standard_t(lifter.tail)) * math.sqrt((lifter.tail - 2) / lifter.tail)
    keep = lifter.day_memory
    day = keep * before + math.sqrt(1 - keep * keep) * lifter.day_sd * fresh
    if lifter.rng.random() < 0.01:
        day -= float(lifter.rng.uniform(0.03, 0.08))
    return max(min(day, 0.15), -0.20)


def _switch(
    rng: np.random.Generator,
    scenario: Scenario,
    practice: dict[str, _Practice],
    swapped: tuple[str, ...],
) -> None:
    for name in swapped:
        if scenario.machine:
            practice[name].machine = float(rng.choice([-1, 1]) * rng.uniform(0.08, 0.35))
        if scenario.style:
            practice[name].style = "slow"
            practice[name].style_level = float(rng.normal(-0.10, 0.05))
            practice[name].load = 0.0


@dataclass
class _Visit:
    """One visit to the gym: what all its sets share."""

    when: date
    number: int
    base: float
    day: float
    week: float
    back: bool
    always: int
    switched: tuple[str, ...]
    fatigue: dict[str, Fatigue] = field(default_factory=dict)
    clock: float = 0.0
    counter: int = 0


def _session(diary: Diary, practice: dict[str, _Practice], visit: _Visit) -> None:
    lifter, rng = diary.lifter, diary.lifter.rng
    visit.fatigue = {
        name: Fatigue(
            lifter.fatigue_law, lifter.fatigue_amount * skill.tiring, lifter.fatigue_seconds
        )
        for name, skill in lifter.skills.items()
    }
    names = list(SPLIT[visit.number % len(SPLIT)])
    if rng.random() < 0.15:
        names = [str(name) for name in rng.permutation(names)]
    for name in names:
        plan = practice[name]
        level = _level_now(lifter, plan, name, visit)
        own_day = visit.day + float(rng.normal(0, 0.008))
        _choose_load(plan, lifter.skills[name], level, rng)
        for place, share, rest in _queue(plan, rng):
            _one_set(diary, visit, plan, name, (place, share, rest), (level, own_day))
        _progress(plan)


def _level_now(lifter: Lifter, plan: _Practice, name: str, visit: _Visit) -> float:
    """True log capacity of an exercise on this visit, day left out."""
    rng, skill = lifter.rng, lifter.skills[name]
    if plan.exposures and plan.exposures % 14 == 0 and rng.random() < 0.7:
        plan.asked = int(rng.choice([5, 6, 8, 8, 10, 10, 12, 15]))
        plan.load = 0.0
    plan.exposures += 1
    plan.since += name in visit.switched
    plan.wander += float(rng.normal(0, 0.005))
    years = skill.growth * (math.log1p(visit.week) if lifter.novice else visit.week / 40)
    learning = (0.05 if lifter.novice else 0.015) * math.exp(-(plan.exposures - 1) / 1.5)
    extra = plan.wander + plan.machine + plan.style_level
    return skill.level + visit.base + years + extra - learning


def _queue(plan: _Practice, rng: np.random.Generator) -> list[tuple[str, float, float]]:
    """Sets of one exercise: place, share of the working load, usual rest."""
    queue = [("warm-up", 0.55, 60.0)] if plan.warm_up else []
    queue += [("first" if i == 0 else "later", 1.0, plan.rest) for i in range(plan.sets)]
    queue += [("drop", 0.79 ** (i + 1), float(rng.uniform(10, 20))) for i in range(plan.drops)]
    return queue


def _rest(visit: _Visit, place: str, usual: float, rng: np.random.Generator) -> float:
    visit.counter += 1
    rest = usual if place == "drop" else float(usual * math.exp(rng.normal(0, 0.15)))
    if visit.counter == 1:
        return 0.0
    return float(rng.uniform(120, 240)) if place in {"first", "warm-up"} else rest


def _one_set(
    diary: Diary,
    visit: _Visit,
    plan: _Practice,
    name: str,
    asked: tuple[str, float, float],
    now: tuple[float, float],
) -> None:
    (place, share, usual), (level, own_day) = asked, now
    lifter, skill = diary.lifter, diary.lifter.skills[name]
    rest = _rest(visit, place, usual, lifter.rng)
    visit.clock += rest
    written, felt = _load(lifter, name, plan.load * share)
    ratio = math.exp(math.log(felt) - level)
    for one in visit.fatigue.values():
        one.rest_until(visit.clock)
    middle = visit.fatigue[name].reps(skill.curve, ratio)
    real = visit.fatigue[name].reps(skill.curve, ratio * math.exp(-own_day))
    reps = max(0, round(real + float(lifter.rng.normal(0, lifter.noise_sd(real)))))
    done, effort = _stop(lifter, plan, reps, place, diary.scenario, visit.always)
    for other, one in visit.fatigue.items():
        part = overlap(skill.exercise, lifter.skills[other].exercise)
        if part:
            one.add(skill.curve, ratio, done, reps, part)
    visit.clock += 3.0 * done
    _write(diary, visit, name, plan, (done, effort, place, written, rest))
    diary.truth.append(
        Truth(
            reps=reps,
            oracle=max(middle, 0.0),
            exposure=plan.exposures,
            place=place,
            layoff=visit.back,
            since=plan.since,
            day=own_day,
            level=level,
            moved=plan.machine + plan.style_level,
            felt=felt,
            ending=Ending(plan.policy, plan.asked, plan.reserve),
        )
    )
    if place == "first":
        plan.last_over = done - plan.asked + (reps - done - plan.reserve) * 0.5


def _choose_load(plan: _Practice, skill: Skill, level: float, rng: np.random.Generator) -> None:
    if plan.load > 0:
        return
    error = float(rng.normal(0, 0.12 if plan.exposures == 1 else 0.05))
    goal = plan.asked + plan.reserve + 0.5
    plan.load = math.exp(level + math.log(skill.curve.share(goal)) + error)


def _progress(plan: _Practice) -> None:
    """Double progression by feel: up after two reps over, down after two missing."""
    step = _step(plan.load)
    if plan.last_over >= 2:
        plan.load += step
    elif plan.last_over <= -2.5:
        plan.load -= step * math.ceil(-plan.last_over / 3)
    plan.load = max(plan.load, 3.0)


def _step(kg: float) -> float:
    return 2.5 if kg > 25 else 1.0


def _load(lifter: Lifter, name: str, wish: float) -> tuple[Fraction, float]:
    """The written load nearest to a felt wish, and what it feels like."""
    share = lifter.skills[name].exercise.body_mass
    carried = 0.0
    if share is not None:
        carried = float((share.female + share.male) / 2) * round(lifter.mass, 1)
    step = _step(wish)
    written = Fraction(str(round((wish - carried) / step) * step))
    if carried == 0 and written <= 0:
        written = Fraction(1)
    return written, float(written) + carried


def _stop(
    lifter: Lifter, plan: _Practice, reps: int, place: str, scenario: Scenario, always: int
) -> tuple[int, Effort | None]:
    """Reps done and effort as she would report it."""
    if place == "warm-up":
        done = min(6, reps)
        return done, Effort.SIX_UP if lifter.rng.random() < 0.5 * scenario.noted else None
    if plan.policy == "failure" or place == "drop":
        done = reps
    elif plan.policy == "number":
        done = min(plan.asked, reps)
    else:
        wish = plan.reserve + _misjudged(lifter, plan.reserve, reps)
        done = max(min(round(reps - wish), reps), min(1, reps))
    left = reps - done
    noted = lifter.rng.random() < scenario.noted
    if not noted:
        return done, None
    if left == 0:
        tried = lifter.rng.random() < 0.6
        return done, Effort.FAIL if tried else Effort.NONE_LEFT
    felt = left - _misjudged(lifter, left, reps)
    if plan.policy == "reserve":
        felt = plan.reserve
    if scenario.dishonest:
        felt = float(always) if lifter.rng.random() < 0.6 else felt + (1.5 if always == 2 else -1.5)
    return done, _as_effort(felt)


def _misjudged(lifter: Lifter, reserve: float, reps: int) -> float:
    """How many more reps were there than she felt."""
    rng = lifter.rng
    far = max(0, reps - 12)
    if lifter.report_law == "multiplicative":
        factor = math.exp(float(rng.normal(0.10, 0.22 * lifter.report_noise)))
        return (
            reserve * (factor - 1)
            + lifter.report_bias * 0.6
            + 0.16 * far * (0.4 + 0.2 * min(reserve, 3))
            + float(rng.normal(0, 0.55 * lifter.report_noise))
        )
    # studied to five in reserve; drawn on further, sixteen of them would be told as none left
    bias = 0.05 + 0.12 * reserve + far * (0.12 + 0.06 * min(reserve, 5)) + lifter.report_bias
    spread = (0.5 + 0.2 * reserve + 0.12 * far) * lifter.report_noise
    return bias + float(rng.normal(0, spread))


def _as_effort(felt: float) -> Effort:
    whole = max(0, round(felt))
    if whole <= 3:
        return Effort(str(whole))
    return Effort.FOUR_FIVE if whole <= 5 else Effort.SIX_UP


def _write(
    diary: Diary,
    visit: _Visit,
    name: str,
    plan: _Practice,
    result: tuple[int, Effort | None, str, Fraction, float],
) -> None:
    """One row of the log, with the slips of its keeper."""
    done, effort, place, written, pause = result
    rest = None if visit.counter == 1 else pause
    rng, scenario = diary.lifter.rng, diary.scenario
    load = written
    if scenario.typos and rng.random() < scenario.typos:
        load = written * 10
    asked = scenario.as_asked and rng.random() < scenario.as_asked
    reps = plan.asked if asked and abs(plan.asked - done) <= 2 else done
    noted = rest is not None and rng.random() < scenario.rest_noted
    kinds = {"warm-up": SetKind.WARM_UP, "drop": SetKind.DROP}
    row = PerformedSet(
        id="",
        when=visit.when,
        session="a",
        number=visit.counter,
        exercise=name,
        reps=reps,
        kind=kinds.get(place, SetKind.WORKING),
        load=load,
        unit=Unit.KG,
        effort=effort,
        rest_s=Fraction(round(rest)) if noted and rest is not None else None,
        style=plan.style,
        as_asked=bool(asked),
        body_mass_kg=Fraction(str(round(diary.lifter.mass, 1))),
    )
    if asked:
        row = replace(row, effort=None)
    diary.rows.append(row)
