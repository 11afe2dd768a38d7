"""From her brief, the catalogue and the current week to the planner's problem."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Set
from dataclasses import dataclass, field, replace

from pennate.core.brief import Brief, FreeDay
from pennate.core.evidence.audit import JOINT_HEAVY_DAY, JOINT_TWO_DAYS
from pennate.core.evidence.planner import (
    CHURN_COST,
    CLOSE_CAP,
    DAYS_AN_EXERCISE,
    DROP_EXERCISES_A_DAY,
    EXERCISES_A_DAY,
    JOINT_CLOSE_COST,
    LIKED_WORTH,
    PRIORITY_FIRST,
    PRIORITY_LEAST,
    PRIORITY_STEP,
    SESSION_CAP,
    SUPERSETS_A_DAY,
    WEEK_CAP,
)
from pennate.core.exercise import Catalogue, EquipmentKind, Exercise
from pennate.core.muscles import GROUP_SHARES, Group, Joint, Part
from pennate.core.prescribed import Week
from pennate.core.readiness import PainAction, pain_action
from pennate.core.week_dose import HOURS_A_DAY, hours_between
from pennate.core.week_time import Pace
from pennate.plan.focus import allowed_on
from pennate.plan.hers import Hers
from pennate.plan.problem import JOINTS, PARTS, Change, Option, PlanProblem, Rules
from pennate.plan.schemes import drop_option, hers_options, pair_options, straight_option


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What the planner is told beside the brief, as plain values."""

    kinds: Set[EquipmentKind] = frozenset(EquipmentKind)
    """Kinds of equipment at hand."""
    lost: Set[str] = frozenset()
    """Exercises that cannot be done although their kind is there."""
    pace: Pace = Pace()
    current: Week | None = None
    preparation_s: Mapping[str, float] = field(default_factory=dict)
    """Seconds of preparation by day, taken off her time."""
    churn: float = 1.0
    """Times the usual cost of change."""
    moving: float = 0.0
    """Cost of each stop that her week does not have on that day, √sets."""
    pinch: bool = False
    """Whether kinds that do in a pinch count: she trains where she has said what there is."""
    unfit: Set[str] = frozenset()
    """Exercises whose sets would not be hard for her, or too hard, at body weight."""


def joint_limits(brief: Brief) -> dict[Joint, int]:
    """The most an exercise may load each joint: her limits, and the pain rule.

    Pain that asks to reduce allows light load only; pain that asks to stop allows none.
    """
    limits = {joint: limit.highest for joint, limit in brief.joint_limits.items()}
    allowed = {PainAction.GO_ON: 3, PainAction.REDUCE: 1, PainAction.STOP: 0}
    for joint, score in brief.pain.items():
        limits[joint] = min(limits.get(joint, 3), allowed[pain_action(score)])
    return limits


def usable(brief: Brief, catalogue: Catalogue, setting: Setting) -> tuple[Exercise, ...]:
    """The exercises that equipment, joints, her bars and her strength leave.

    What is unfit for her stays where she does it, likes it or requires it, and where nothing
    else works one of its prime movers.
    """
    aside = {exercise.id for exercise in set_aside(brief, catalogue, setting)}
    return tuple(one for one in _possible(brief, catalogue, setting) if one.id not in aside)


def set_aside(brief: Brief, catalogue: Catalogue, setting: Setting) -> tuple[Exercise, ...]:
    """What is left out because its sets would be far from the effort asked."""
    wanted, current = brief.preferences, setting.current
    own = {asked.exercise for day in current.days for asked in day.exercises} if current else set()
    own |= {*wanted.liked, *wanted.required}
    there = _possible(brief, catalogue, setting)
    unfit = [one for one in there if one.id in setting.unfit - own]
    names = {one.id for one in unfit}
    served = {part for one in there if one.id not in names for part in _prime(one)}
    return tuple(one for one in unfit if _prime(one) <= served)


def _prime(exercise: Exercise) -> set[Part]:
    return {part for part, weight in exercise.weights().items() if weight == 1}


def _possible(brief: Brief, catalogue: Catalogue, setting: Setting) -> tuple[Exercise, ...]:
    limits = joint_limits(brief)
    return tuple(
        exercise
        for exercise in catalogue.exercises.values()
        if setting.kinds & {*exercise.equipment, *(exercise.also_on if setting.pinch else ())}
        and exercise.id not in brief.preferences.barred
        and exercise.id not in setting.lost
        and all(exercise.joints.get(joint, 0) <= limit for joint, limit in limits.items())
    )


def part_worth(brief: Brief) -> tuple[float, ...]:
    """Benefit weight of each part: share in its group × the group's priority."""
    rank = {wish: max(PRIORITY_LEAST, PRIORITY_FIRST - PRIORITY_STEP * place)
            for place, wish in enumerate(brief.priorities)}  # fmt: skip
    worth = dict.fromkeys(PARTS, 0.0)
    for group, shares in GROUP_SHARES.items():
        for part, share in shares.items():
            worth[part] = float(share) * rank.get(group, 1.0)
    for wish, times in rank.items():
        if isinstance(wish, Part):
            worth[wish] = worth[wish] * times if worth[wish] else times
    return (*(worth[part] for part in PARTS), *(0.0,) * len(JOINTS))


def build_problem(brief: Brief, catalogue: Catalogue, setting: Setting = Setting()) -> PlanProblem:
    """The planner's problem for a brief."""
    known = catalogue.with_own(brief.own_exercises) if brief.own_exercises else catalogue
    exercises = usable(brief, known, setting)
    worth = part_worth(brief)
    useful = tuple(
        e for e in exercises
        if e.id in brief.preferences.required
        or any(worth[PARTS.index(part)] for part in e.weights())
    )  # fmt: skip
    hers = Hers.of(setting.current, brief.gym, setting.moving)
    singles = {e.id: straight_option(e, brief, coming=setting.moving) for e in useful}
    new = [exercise for exercise in useful if exercise.id not in hers.asked]
    options = [singles[exercise.id] for exercise in new]
    options += [one for exercise in useful for one in hers_options(exercise, hers, brief)]
    strips = [exercise for exercise in new if exercise.id not in brief.unloaded]
    options += [o for e in strips if (o := drop_option(e, singles[e.id], setting.kinds))]
    if brief.supersets:
        options += pair_options(useful, singles, brief, hers)
    by_id = {exercise.id: exercise for exercise in useful}
    placed = tuple(_on_days(option, by_id, brief.days) for option in options)
    return PlanProblem(
        days=tuple(day.day for day in brief.days),
        seconds=tuple(_seconds(day, setting) for day in brief.days),
        close=close_pairs([day.day for day in brief.days]),
        options=tuple(option for option in placed if option.days),
        rules=_rules(brief, worth),
        worth=worth,
        change=_change(brief, set(by_id), setting),
    )


def _seconds(day: FreeDay, setting: Setting) -> float:
    return 60 * day.minutes / setting.pace.factor - setting.preparation_s.get(day.day, 0.0)


def close_mark(*, sore: bool) -> float:
    """Load of a joint on two days in a row that is still well: less for a sore one."""
    return (2 if sore else JOINT_TWO_DAYS) * JOINT_HEAVY_DAY - 1


def close_pairs(days: list[str]) -> tuple[tuple[int, int], ...]:
    """Index pairs of days that lie 24 hours apart, the week repeating."""
    return tuple(
        (a, b)
        for a, first in enumerate(days)
        for b, second in enumerate(days)
        if a != b and hours_between(first, second) == HOURS_A_DAY
    )


def _on_days(option: Option, by_id: Mapping[str, Exercise], days: Iterable[FreeDay]) -> Option:
    exercises = [by_id[name] for name in option.exercises]
    allowed = tuple(
        number for number, day in enumerate(days)
        if all(allowed_on(day.focus, exercise) for exercise in exercises)
        and (not option.days or number in option.days)
    )  # fmt: skip
    return replace(option, days=allowed)


def _rules(brief: Brief, worth: tuple[float, ...]) -> Rules:
    least = {group: float(span.low) for group, span in brief.targets.items() if span.low}
    most = {g: float(span.high) for g, span in brief.targets.items() if span.high is not None}
    most = {**{g: top for g, top in brief.ceilings.items() if g not in brief.targets}, **most}
    sore = set(brief.joint_limits) | set(brief.pain)
    free = (math.inf,) * len(JOINTS)
    joints = tuple(close_mark(sore=True) if joint in sore else math.inf for joint in JOINTS)
    cared = [bool(worth[place]) for place in range(len(PARTS))]
    return Rules(
        sessions=brief.training_days,
        exercises_a_day=brief.most_exercises or int(EXERCISES_A_DAY),
        days_an_exercise=int(DAYS_AN_EXERCISE),
        supersets_a_day=int(SUPERSETS_A_DAY) if brief.supersets else 0,
        drops_a_day=int(DROP_EXERCISES_A_DAY),
        session_cap=tuple(SESSION_CAP if one else math.inf for one in cared) + free,
        close_cap=tuple(CLOSE_CAP if one else math.inf for one in cared) + joints,
        week_cap=tuple(
            _week_cap(part, least, most) if one else math.inf
            for part, one in zip(PARTS, cared, strict=True)
        )
        + free,
        least=least,
        most=most,
        required=frozenset(brief.preferences.required),
        close_mark=(math.inf,) * len(PARTS) + (close_mark(sore=False),) * len(JOINTS),
        close_price=JOINT_CLOSE_COST,
    )


def _week_cap(part: Part, least: Mapping[Group, float], most: Mapping[Group, float]) -> float:
    """The usual cap, more where she asks for more; a part of several may carry half again."""
    group = next((group for group, shares in GROUP_SHARES.items() if part in shares), None)
    if group is None:
        return WEEK_CAP
    asked = max(least.get(group, 0.0), most.get(group, 0.0))
    return max(WEEK_CAP, asked + (asked / 2 if len(GROUP_SHARES[group]) > 1 else 0.0))


def _change(brief: Brief, known: Set[str], setting: Setting) -> Change:
    stay = {name: LIKED_WORTH for name in brief.preferences.liked if name in known}
    if setting.current is None:
        return Change(stay, {}, 0.0)
    cost = CHURN_COST * setting.churn
    current = {asked.exercise for day in setting.current.days for asked in day.exercises} & known
    for name in current:
        stay[name] = stay.get(name, 0.0) + cost
    come = dict.fromkeys(known - current, cost)
    return Change(stay, come, cost * len(current))
