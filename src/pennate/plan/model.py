"""The planner's problem as a mixed-integer linear programme, in plain lists.

The concave benefit is held from above by tangents: of the session curve at each day's dose
of a part, of the square root at the week's worth. So its bound is one for the concave
objective itself; the week found is valued exactly by `evaluate`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from pennate.core.evidence.dose import CHANGEOVER_S
from pennate.core.muscles import GROUP_SHARES
from pennate.core.week_effect import session_slope, session_worth
from pennate.plan.problem import PARTS, TRACKED, Option, PlanProblem, Scheme, Selection

INFINITE = math.inf
ROOT_STEP = 2.0  # number: ratio of neighbouring first tangent points; more where it matters
ROOT_FIRST = 0.25
SESSION_POINTS = (0, 9)  # number: first tangent points of the session curve

NEAR = 1.0001  # number: how far above the curve a tangent is worth adding
EXACT = 1e-6  # number: as above, where a single week is left
SMALL = 0.001  # number: as above, for doses near nothing

Terms = list[tuple[int, float]]


@dataclass(slots=True)
class Linear:
    """Columns (cost, bounds, whole or not) and rows, to be maximised."""

    cost: list[float] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    rows: list[tuple[float, float, Terms]] = field(default_factory=list)
    constant: float = 0.0

    def column(self, high: float, cost: float = 0.0, *, whole: bool = False) -> int:
        """A new column from 0 to `high`; returns its index."""
        self.cost.append(cost)
        self.low.append(0.0)
        self.high.append(high)
        self.whole.append(whole)
        return len(self.cost) - 1

    def row(self, low: float, terms: Terms, high: float) -> None:
        """A new row low ≤ terms ≤ high."""
        self.rows.append((low, high, terms))

    def at_most(self, terms: Terms, high: float) -> None:
        """A new row terms ≤ high."""
        self.row(-INFINITE, terms, high)


@dataclass(slots=True)
class WeekModel:
    """The linear model with the columns that carry the answer."""

    problem: PlanProblem
    linear: Linear
    stops: dict[tuple[int, int, int], int]
    """Column: does this option stand on this day with so many sets? By (option, day, sets)."""
    used: list[int]
    """Column: is the day used?"""
    missing: list[int]
    """Columns of wishes not met, only in an elastic model."""
    roots: list[tuple[int, list[int], float]]
    """Column of a part's value, columns of its sessions' worth, and the worth behind her."""
    root_parts: list[int]
    """The part of each of those."""
    bends: list[tuple[int, int]]
    """Column of a session's worth and of its dose."""
    counts: list[int]
    """Rows that count stops, whole in every week; what is worth splitting on."""
    inner: set[int]
    """Rows that say what a day of stops is: its time, and sets tied to choices."""

    def holding(self, exercise: str, day: int | None = None) -> list[int]:
        """Columns of the stops that hold an exercise, in the week or on a day."""
        options = self.problem.options
        return [
            column
            for (index, number, _), column in self.stops.items()
            if exercise in options[index].exercises and day in {None, number}
        ]

    def giving(self, part: int, least: float, day: int | None = None) -> list[int]:
        """Columns of the stops whose sets give a part at least so much each."""
        enough = {
            index
            for index, option in enumerate(self.problem.options)
            if any(one == part and each >= least for one, each in option.per_set)
        }
        return [
            column
            for (index, number, _), column in self.stops.items()
            if index in enough and day in {None, number}
        ]

    def selection(self, values: Sequence[float]) -> Selection:
        """The week that a solution of the model means."""
        days: list[list[tuple[int, int]]] = [[] for _ in self.problem.days]
        for (option, day, sets), column in self.stops.items():
            if round(values[column]):
                days[day].append((option, sets))
        return tuple(tuple(sorted(day)) for day in days)


def week_model(problem: PlanProblem, *, elastic: bool = False) -> WeekModel:
    """The model of a problem. Elastic: wishes may be missed, and only missing them costs."""
    linear = Linear(constant=0.0 if elastic else -problem.change.kept_cost)
    model = WeekModel(problem, linear, {}, [], [], [], [], [], [], set())
    _choices(model, elastic=elastic)
    _time(model)
    _once_a_day(model)
    model.inner |= set(range(len(linear.rows)))
    _counts(model)
    model.counts += range(len(problem.days), len(linear.rows))
    doses = _doses(model)
    _caps(model, doses)
    _wishes(model, doses, elastic=elastic)
    if not elastic:
        _joints_in_a_row(model, doses)
        _benefit(model, doses)
    return model


def _choices(model: WeekModel, *, elastic: bool) -> None:
    linear = model.linear
    for number in range(len(model.problem.days)):
        model.used.append(linear.column(1, whole=True))
        for index, option in enumerate(model.problem.options):
            if number not in option.days:
                continue
            for sets in range(option.least, option.most + 1):
                cost = 0.0 if elastic else -option.stop_cost - option.set_cost * sets
                model.stops[index, number, sets] = linear.column(1, cost, whole=True)


def _on(model: WeekModel, day: int) -> Iterator[tuple[Option, int, int]]:
    """Option, sets and column of every stop that a day could hold."""
    for (index, number, sets), column in model.stops.items():
        if number == day:
            yield model.problem.options[index], sets, column


def _time(model: WeekModel) -> None:
    for day, seconds in enumerate(model.problem.seconds):
        terms: Terms = [(model.used[day], -CHANGEOVER_S)]
        terms += [(c, option.seconds(n) + CHANGEOVER_S) for option, n, c in _on(model, day)]
        model.linear.at_most(terms, max(seconds, 0.0))


def _once_a_day(model: WeekModel) -> None:
    """An exercise stands once on a day that is used, and on no other."""
    for day in range(len(model.problem.days)):
        with_exercise: dict[str, Terms] = {}
        for option, _, column in _on(model, day):
            for name in option.exercises:
                with_exercise.setdefault(name, []).append((column, 1))
        for terms in with_exercise.values():
            model.linear.at_most([*terms, (model.used[day], -1)], 0)


def _counts(model: WeekModel) -> None:
    rules, options, linear = model.problem.rules, model.problem.options, model.linear
    linear.at_most([(used, 1) for used in model.used], rules.sessions)
    for day in range(len(model.problem.days)):
        here = list(_on(model, day))
        sizes: Terms = [(column, float(len(option.exercises))) for option, _, column in here]
        linear.at_most(sizes, rules.exercises_a_day)
        for scheme, most in (
            (Scheme.SUPERSET, rules.supersets_a_day),
            (Scheme.DROPS, rules.drops_a_day),
        ):
            terms: Terms = [(column, 1) for option, _, column in here if option.scheme is scheme]
            if terms:
                linear.at_most(terms, most)
    for name in model.problem.exercises:
        linear.at_most([(c, 1) for c in model.holding(name)], rules.days_an_exercise)
    for family in sorted({option.family for option in options} - {""}):
        kin: Terms = [(c, 1) for (i, _, _), c in model.stops.items() if options[i].family == family]
        linear.at_most(kin, 1)


def _doses(model: WeekModel) -> dict[tuple[int, int], int]:
    """A column for the dose of each part on each day, tied to the sets."""
    problem, linear = model.problem, model.linear
    found: dict[tuple[int, int], int] = {}
    for day in range(len(problem.days)):
        terms: dict[int, Terms] = {}
        for option, sets, column in _on(model, day):
            for part, dose in option.doses(sets).items():
                terms.setdefault(part, []).append((column, dose))
        for part, sums in terms.items():
            if not _matters(problem, part):
                continue
            column = linear.column(problem.rules.session_cap[part])
            linear.row(0, [*sums, (column, -1)], 0)
            found[part, day] = column
    return found


def _matters(problem: PlanProblem, part: int) -> bool:
    """Whether a part or joint is worth anything, capped or marked; else it needs no column."""
    rules = problem.rules
    limits = (rules.session_cap, rules.close_cap, rules.week_cap, rules.close_mark)
    return bool(problem.worth[part]) or min(limit[part] for limit in limits) < INFINITE


def _caps(model: WeekModel, doses: dict[tuple[int, int], int]) -> None:
    problem = model.problem
    for part in range(TRACKED):
        columns: Terms = [(column, 1) for (one, _), column in doses.items() if one == part]
        if columns:
            model.linear.at_most(columns, problem.rules.week_cap[part])
        for a, b in problem.close:
            both: Terms = [(doses[part, day], 1) for day in (a, b) if (part, day) in doses]
            if len(both) > 1:
                model.linear.at_most(both, problem.rules.close_cap[part])


def _joints_in_a_row(model: WeekModel, doses: dict[tuple[int, int], int]) -> None:
    """What a joint bears on two days in a row above its mark costs."""
    rules = model.problem.rules
    for joint in rules.marked:
        for a, b in model.problem.close:
            both: Terms = [(doses[joint, day], 1) for day in (a, b) if (joint, day) in doses]
            if both and rules.close_price:
                above = model.linear.column(INFINITE, -rules.close_price)
                model.linear.at_most([*both, (above, -1)], rules.close_mark[joint])


def _wishes(model: WeekModel, doses: dict[tuple[int, int], int], *, elastic: bool) -> None:
    problem, linear = model.problem, model.linear
    rules = problem.rules
    for group, shares in GROUP_SHARES.items():
        if group not in rules.least and group not in rules.most:
            continue
        terms: Terms = [
            (column, float(shares[PARTS[part]]))
            for (part, _), column in doses.items()
            if part < len(PARTS) and PARTS[part] in shares
        ]
        linear.at_most(terms, rules.most.get(group, INFINITE))
        least = rules.least.get(group, 0.0)
        linear.row(least, terms + _may_miss(model, least, elastic=elastic), INFINITE)
    for name in sorted(rules.required):
        present: Terms = [(column, 1) for column in model.holding(name)]
        linear.row(1, present + _may_miss(model, 1.0, elastic=elastic), INFINITE)


def _may_miss(model: WeekModel, most: float, *, elastic: bool) -> Terms:
    if not elastic:
        return []
    model.missing.append(model.linear.column(most, -1.0))
    return [(model.missing[-1], 1)]


def _benefit(model: WeekModel, doses: dict[tuple[int, int], int]) -> None:
    problem, linear = model.problem, model.linear
    for part, price in enumerate(problem.worth):
        days = [column for (one, _), column in doses.items() if one == part]
        behind = problem.done[part]
        if price and not days:
            linear.constant += price * math.sqrt(behind)
        if not price or not days:
            continue
        worths = [linear.column(INFINITE) for _ in days]
        model.bends += zip(worths, days, strict=True)
        model.roots.append((linear.column(INFINITE, price), worths, behind))
        model.root_parts.append(part)
        point = ROOT_FIRST
        while point < (problem.rules.week_cap[part] + behind) * ROOT_STEP:
            linear.at_most(*root_tangent(*model.roots[-1], point))
            point *= ROOT_STEP
    for worth, dose in model.bends:
        for place in SESSION_POINTS:
            linear.at_most(*bend_tangent(worth, dose, float(place)))
    for name in problem.exercises:
        _presence(model, name)


def root_tangent(
    value: int, worths: Sequence[int], behind: float, point: float
) -> tuple[Terms, float]:
    """The tangent of the square root at a week's worth, as a row: terms and upper bound."""
    slope = 0.5 / math.sqrt(point)
    high = math.sqrt(point) / 2 + slope * behind
    return [(value, 1.0), *((worth, -slope) for worth in worths)], high


def bend_tangent(worth: int, dose: int, point: float) -> tuple[Terms, float]:
    """The tangent of the session curve at a dose, as a row: terms and upper bound."""
    slope = session_slope(point)
    return [(worth, 1.0), (dose, -slope)], session_worth(point) - slope * point


def tangents_at(
    model: WeekModel, values: Sequence[float], *, exact: bool = False
) -> list[tuple[Terms, float]]:
    """Tangents that the values of a solution pass by more than a ten-thousandth, or at all."""
    near, small = (1.0, EXACT) if exact else (NEAR, SMALL)
    least = small if exact else ROOT_FIRST
    found = []
    for value, worths, behind in model.roots:
        week = behind + sum(values[worth] for worth in worths)
        if week > least and values[value] > math.sqrt(week) * near + (small if exact else 0):
            found.append(root_tangent(value, worths, behind, week))
    for worth, dose in model.bends:
        if values[worth] > session_worth(values[dose]) * near + small:
            found.append(bend_tangent(worth, dose, values[dose]))
    return found


def _presence(model: WeekModel, name: str) -> None:
    """A column saying whether an exercise is in the week, where that is worth or costs."""
    net = model.problem.change.of(name)
    if not net:
        return
    linear = model.linear
    present = linear.column(1, net)
    if net > 0:
        linear.at_most([(present, 1), *((column, -1.0) for column in model.holding(name))], 0)
        return
    for day in range(len(model.problem.days)):
        here: Terms = [(column, 1) for column in model.holding(name, day)]
        linear.at_most([*here, (present, -1)], 0)
    most = model.problem.rules.days_an_exercise
    linear.at_most([*((c, 1.0) for c in model.holding(name)), (present, -float(most))], 0)
