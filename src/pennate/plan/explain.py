"""Why the week is as it is: what binds, what more time would buy, and which wishes clash."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from random import Random
from statistics import median

from pennate.core.brief import Brief, FreeDay
from pennate.core.evidence.planner import CLOSE_CAP, SESSION_CAP
from pennate.core.exercise import Catalogue
from pennate.core.muscles import PART_NAMES, Group
from pennate.core.plural import plural
from pennate.core.prescribed import WEEKDAYS
from pennate.core.week_effect import Effect, effect_of
from pennate.plan.assemble import translate
from pennate.plan.build import Setting, build_problem, joint_limits
from pennate.plan.evaluate import benefit, group_dose, shortfall
from pennate.plan.highs import Solver
from pennate.plan.model import week_model
from pennate.plan.problem import PARTS, TRACKED, PlanProblem, Selection, day_seconds, part_doses
from pennate.plan.search import search
from pennate.plan.solve import QUICK, Solved, solve

MORE_MINUTES = 10
NEAR_CAP = 0.5
"""Fractional sets below a cap at which it binds."""
NO_CAP = (99.0,) * TRACKED  # number: more dose than a week holds
NEAR_NOTHING = 1e-4  # number: of a set; below it nothing is missing
PLENTY_S = 6 * 60 * 60  # number: seconds of a day without a limit of time
ELASTIC_NODES = 500  # number: branch-and-bound nodes of the elastic model


def binding(
    problem: PlanProblem, selection: Selection, brief: Brief, setting: Setting
) -> tuple[str, ...]:
    """What keeps the week from being better, in words."""
    return (
        *_full_days(problem, selection, brief, setting),
        *_caps_met(problem, selection),
        *_wishes(problem, selection, brief.ceilings.keys() - brief.targets.keys()),
    )


def _full_days(
    problem: PlanProblem, selection: Selection, brief: Brief, setting: Setting
) -> Iterator[str]:
    least = min((option.set_s for option in problem.options), default=0.0)
    free = {day.day: day for day in brief.days}
    for day, seconds, chosen in zip(problem.days, problem.seconds, selection, strict=True):
        if not chosen:
            continue
        left = seconds - day_seconds(problem, chosen)
        if left < least:
            yield _full(free[day], left / 60 * setting.pace.factor, _wanted(setting, day))
        if (
            sum(len(problem.options[i].exercises) for i, _ in chosen)
            >= problem.rules.exercises_a_day
        ):
            yield f"{day}: {problem.rules.exercises_a_day} exercises are the most"
    used = sum(map(bool, selection))
    if used == problem.rules.sessions < len(problem.days):
        yield f"{used} sessions are the most you asked for"


def _full(day: FreeDay, left: float, wanted: int) -> str:
    """That nothing more fits into a day, at her pace, and why it has no more minutes."""
    spare = round(left)
    rest = f", {plural(spare, 'minute')} left" if spare else ""
    if not day.given and wanted > day.minutes:
        return (
            f"{day.day}: the {day.minutes} minutes that it takes now are full{rest}; "
            f"ask for the {wanted} you want to use them"
        )
    return f"{day.day}: its {day.minutes} minutes are full{rest}"


def _wanted(setting: Setting, day: str) -> int:
    """Minutes her current week wants on a day; 0 where it says none."""
    hers = setting.current.day(day) if setting.current else None
    return (hers.minutes or 0) if hers else 0


def _caps_met(problem: PlanProblem, selection: Selection) -> Iterator[str]:
    by_day = [part_doses(problem, day) for day in selection]
    for part, name in enumerate(PARTS):
        total = sum(doses[part] for doses in by_day)
        if problem.worth[part] and total > problem.rules.week_cap[part] - NEAR_CAP:
            yield f"{PART_NAMES[name]}: the most for a week ({problem.rules.week_cap[part]:g} sets)"
        for day, doses in zip(problem.days, by_day, strict=True):
            if problem.worth[part] and doses[part] > problem.rules.session_cap[part] - NEAR_CAP:
                yield f"{PART_NAMES[name]}: the most for one session on {day}"


def _wishes(
    problem: PlanProblem, selection: Selection, open_groups: Collection[Group]
) -> Iterator[str]:
    doses = group_dose(problem, selection)
    for group, most in problem.rules.most.items():
        if doses[group] > most - NEAR_CAP:
            told = "you left it open" if group in open_groups else "as you asked"
            yield f"{group.value}: at most {most:.3g} sets, {told}"
    for group, least in problem.rules.least.items():
        if doses[group] < least + NEAR_CAP:
            yield f"{group.value}: at least {least:g} sets, as you asked"


@dataclass(frozen=True, slots=True)
class More:
    """What more time would buy, solved again."""

    what: str
    objective: float
    """Gain of the objective, never below nothing."""
    effect: Effect
    """Summed expected difference over the groups, % of size, priorities weighted."""


def worth_of_more(
    brief: Brief, catalogue: Catalogue, setting: Setting, found: tuple[PlanProblem, Solved]
) -> tuple[More, ...]:
    """Ten more minutes a day, and one more day, each solved again from the week found."""
    problem, solved = found
    asked = [
        (
            f"{MORE_MINUTES} more minutes a day",
            replace(
                brief, days=tuple(replace(d, minutes=d.minutes + MORE_MINUTES) for d in brief.days)
            ),
        )
    ]
    if (longer := _one_more_day(brief)) is not None:
        asked.append(("one more day", longer))
    before = benefit(problem, solved.selection)
    trained = brief.years is None or brief.years >= 1
    bought = []
    for what, wider in asked:
        other = build_problem(wider, catalogue, setting)
        start = translate(solved.selection, problem, other)
        again = solve(other, effort=QUICK, start=start)
        gain = max(0.0, again.objective - solved.objective)
        more = max(0.0, benefit(other, again.selection) - before)
        bought.append(More(what, gain, effect_of(more, trained=trained)))
    return tuple(bought)


def _one_more_day(brief: Brief) -> Brief | None:
    if brief.sessions is not None and brief.sessions < len(brief.days):
        return replace(brief, sessions=brief.sessions + 1)
    free = [day for day in WEEKDAYS if day not in {one.day for one in brief.days}]
    if not free:
        return None
    minutes = int(median(day.minutes for day in brief.days))
    sessions = None if brief.sessions is None else brief.sessions + 1
    return replace(brief, days=(*brief.days, FreeDay(free[0], minutes)), sessions=sessions)


@dataclass(frozen=True, slots=True)
class Clash:
    """Wishes that cannot all be met: why, and the nearest week."""

    reason: str
    missing: dict[str, float]
    """Sets short by group, or required exercises that have no place."""
    selection: Selection
    proven: bool


def clash_of(problem: PlanProblem, brief: Brief, solved: Solved, *, seed: int = 0) -> Clash | None:
    """The clash behind a week that misses wishes; None if a week that meets them is found.

    An elastic model asks for the least that must be missed, then again with time to spare,
    which says whether time or equipment and joints stand in the way.
    """
    least, selection = _least_missing(problem)
    if least < NEAR_NOTHING:
        return None
    nearest, _ = search(problem, Random(seed), QUICK.first, start=selection)
    best = min(
        (solved.selection, nearest, selection), key=lambda s: sum(shortfall(problem, s).values())
    )
    missing = shortfall(problem, best)
    reason = _reason(problem, missing, _stands_in_the_way(problem, brief))
    return Clash(reason, missing, best, proven=True)


def _stands_in_the_way(problem: PlanProblem, brief: Brief) -> str:
    """What the wishes clash with: time, crowding, or what can be done at all."""
    minutes = sum(day.minutes for day in brief.days)
    roomy = replace(problem, seconds=(PLENTY_S,) * len(problem.days))
    if _least_missing(roomy)[0] < NEAR_NOTHING:
        return f"{brief.training_days} days and {minutes} minutes"
    rules = replace(problem.rules, session_cap=NO_CAP, close_cap=NO_CAP, week_cap=NO_CAP)
    if _least_missing(replace(roomy, rules=rules))[0] < NEAR_NOTHING:
        return (
            f"{brief.training_days} days, at most {SESSION_CAP:g} sets of a part in a session and "
            f"{CLOSE_CAP:g} in two days in a row,"
        )
    if joint_limits(brief):
        return "the exercises that your joints and equipment leave"
    return "the exercises that your equipment and focus leave"


def _least_missing(problem: PlanProblem) -> tuple[float, Selection]:
    model = week_model(problem, elastic=True)
    values, bound = Solver(model.linear).whole_numbers(ELASTIC_NODES)
    selection = model.selection(values) if values else tuple(() for _ in problem.days)
    return max(0.0, -bound), selection


def _reason(problem: PlanProblem, missing: dict[str, float], room: str) -> str:
    known = set(problem.exercises)
    absent = [name for name in problem.rules.required if name not in known]
    if absent:
        names = ", ".join(sorted(absent))
        return (
            f"you want {names} in the week, but your bars, equipment or joint limits leave it out"
        )
    asked = [f"{group.value} {least:g}" for group, least in problem.rules.least.items()]
    asked += [f"{name} in the week" for name in sorted(problem.rules.required)]
    short = ", ".join(f"{amount:.1f} sets of {name}" for name, amount in missing.items())
    return f"you ask for at least {', '.join(asked)} sets a week; with {room} {short} are missing"
