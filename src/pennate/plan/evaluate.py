"""Exact objective of a selection, and every hard rule it breaks."""

from __future__ import annotations

import math

from pennate.core.muscles import GROUP_SHARES, Group
from pennate.core.week_effect import session_worth
from pennate.plan.problem import (
    JOINTS,
    PARTS,
    TRACKED,
    Option,
    PlanProblem,
    Scheme,
    Selection,
    day_seconds,
    part_doses,
)

SLACK_S = 1e-6  # number: rounding of floating sums


def benefit(problem: PlanProblem, selection: Selection) -> float:
    """Weighted benefit in √sets, soft costs left out."""
    by_day = [part_doses(problem, day) for day in selection]
    return sum(
        worth * math.sqrt(problem.done[part] + sum(session_worth(day[part]) for day in by_day))
        for part, worth in enumerate(problem.worth)
        if worth
    )


def soft_costs(problem: PlanProblem, selection: Selection) -> float:
    """Stops, joint load, also of days in a row, and change against her week, likes taken off."""
    chosen = [(problem.options[index], sets) for day in selection for index, sets in day]
    stops = sum(option.stop_cost + option.set_cost * sets for option, sets in chosen)
    present = {name for option, _ in chosen for name in option.exercises}
    change = problem.change.kept_cost - sum(problem.change.of(name) for name in present)
    return stops + change + _joints_in_a_row(problem, selection)


def _joints_in_a_row(problem: PlanProblem, selection: Selection) -> float:
    """Cost of joint load above the mark on two days in a row."""
    rules = problem.rules
    if not rules.close_price:
        return 0.0
    by_day = [part_doses(problem, day) for day in selection]
    return rules.close_price * sum(
        max(0.0, by_day[a][joint] + by_day[b][joint] - rules.close_mark[joint])
        for joint in rules.marked
        for a, b in problem.close
    )


def objective(problem: PlanProblem, selection: Selection) -> float:
    """What the planner maximises."""
    return benefit(problem, selection) - soft_costs(problem, selection)


def group_dose(problem: PlanProblem, selection: Selection) -> dict[Group, float]:
    """Weekly dose of every group."""
    total = [0.0] * TRACKED
    for day in selection:
        for part, dose in enumerate(part_doses(problem, day)):
            total[part] += dose
    return {
        group: sum(float(share) * total[PARTS.index(part)] for part, share in shares.items())
        for group, shares in GROUP_SHARES.items()
    }


def shortfall(problem: PlanProblem, selection: Selection) -> dict[str, float]:
    """Wishes not met: sets missing by group, and required exercises missing."""
    doses = group_dose(problem, selection)
    missing: dict[str, float] = {
        group.value: least - doses[group]
        for group, least in problem.rules.least.items()
        if doses[group] < least - SLACK_S
    }
    present = {n for day in selection for i, _ in day for n in problem.options[i].exercises}
    missing.update(dict.fromkeys(sorted(problem.rules.required - present), 1.0))
    return missing


def broken_rules(problem: PlanProblem, selection: Selection) -> list[str]:
    """Every hard rule a selection breaks, in words; empty when it stands."""
    rules = problem.rules
    broken = [
        f"{name}: {amount:g} missing" for name, amount in shortfall(problem, selection).items()
    ]
    if sum(bool(day) for day in selection) > rules.sessions:
        broken.append("more sessions than asked")
    for number, day in enumerate(selection):
        broken += [f"{problem.days[number]}: {what}" for what in _broken_day(problem, number, day)]
    return broken + _broken_week(problem, selection)


def _broken_day(problem: PlanProblem, number: int, day: tuple[tuple[int, int], ...]) -> list[str]:
    rules = problem.rules
    options = [problem.options[index] for index, _ in day]
    names = [name for option in options for name in option.exercises]
    checks = (
        (day_seconds(problem, day) > problem.seconds[number] + SLACK_S, "too long"),
        (len(names) > rules.exercises_a_day, "too many exercises"),
        (len(names) != len(set(names)), "the same exercise twice"),
        (any(number not in option.days for option in options), "not on this day"),
        (any(not problem.options[i].least <= n <= problem.options[i].most for i, n in day), "sets"),
        (_of(options, Scheme.SUPERSET) > rules.supersets_a_day, "too many supersets"),
        (_of(options, Scheme.DROPS) > rules.drops_a_day, "too many drops"),
        (
            any(
                dose > cap + SLACK_S
                for dose, cap in zip(part_doses(problem, day), rules.session_cap, strict=True)
            ),
            "too much of one part",
        ),
    )
    return [what for wrong, what in checks if wrong]


def _of(options: list[Option], scheme: Scheme) -> int:
    return sum(option.scheme is scheme for option in options)


def _broken_week(problem: PlanProblem, selection: Selection) -> list[str]:
    rules = problem.rules
    by_day = [part_doses(problem, day) for day in selection]
    broken = []
    for part, name in enumerate((*PARTS, *JOINTS)):
        if sum(doses[part] for doses in by_day) > rules.week_cap[part] + SLACK_S:
            broken.append(f"{name}: too much in the week")
        for a, b in problem.close:
            if by_day[a][part] + by_day[b][part] > rules.close_cap[part] + SLACK_S:
                broken.append(f"{name}: too close on {problem.days[a]} and {problem.days[b]}")
    days: dict[str, int] = {}
    for day in selection:
        for index, _ in day:
            for name_ in problem.options[index].exercises:
                days[name_] = days.get(name_, 0) + 1
    broken += [f"{n}: too many days" for n, count in days.items() if count > rules.days_an_exercise]
    kin = [problem.options[index].family for day in selection for index, _ in day]
    broken += [f"{family}: twice" for family in set(kin) - {""} if kin.count(family) > 1]
    doses_ = group_dose(problem, selection)
    over = (g for g, most in rules.most.items() if doses_[g] > most + SLACK_S)
    return broken + [f"{group.value}: more than asked" for group in over]
