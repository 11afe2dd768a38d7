"""The bound: what whole stops can give, and that every cut leaves every real week alone.

Nemhauser, Wolsey and Fisher 1978: for falling returns a set is worth at most its members alone.
"""

from __future__ import annotations

import math
from dataclasses import replace
from random import Random

import pytest

from pennate.core.brief import Brief, FreeDay
from pennate.core.prescribed import WEEKDAYS
from pennate.files.catalogue import read_catalogue
from pennate.plan.build import build_problem
from pennate.plan.chunks import chunk_cuts
from pennate.plan.evaluate import objective
from pennate.plan.model import Terms, WeekModel, week_model
from pennate.plan.problem import TRACKED, PlanProblem, Selection, part_doses
from pennate.plan.search import search
from pennate.plan.solve import Effort, Solver, solve

CATALOGUE = read_catalogue()
SHORT = (25, 30)
LITTLE = Effort(first=5_000, steps=150, searches=2, nodes=0)


def _problem(*minutes: int) -> PlanProblem:
    days = tuple(FreeDay(day, m) for day, m in zip(WEEKDAYS, minutes, strict=False))
    return build_problem(Brief(name="short", days=days), CATALOGUE)


def _cuts(model: WeekModel, rounds: int = 6) -> list[tuple[Terms, float]]:
    """The chunk cuts of some rounds of the relaxation."""
    solver = Solver(model.linear)
    found: list[tuple[Terms, float]] = []
    for _ in range(rounds):
        solver.highs.run()
        more = chunk_cuts(model, list(solver.highs.getSolution().col_value))
        for terms, high in more:
            solver.add(terms, high)
        found += more
    return found


def _columns(model: WeekModel, week: Selection) -> dict[int, float]:
    """A real week in the columns that chunk cuts speak of."""
    values: dict[int, float] = {}
    for day, chosen in enumerate(week):
        for option, sets in chosen:
            values[model.chosen[option, day]] = 1.0
            values[model.sets[option, day]] = float(sets)
    total = [sum(one) for one in zip(*(part_doses(model.problem, d) for d in week), strict=True)]
    assert len(total) == TRACKED
    for (value, _, behind), part in zip(model.roots, model.root_parts, strict=True):
        values[value] = math.sqrt(behind + total[part])
    return values


@pytest.mark.parametrize("minutes", [SHORT, (40, 40, 40), (60,)])
def test_no_cut_touches_a_real_week(minutes: tuple[int, ...]) -> None:
    """Weeks of many random searches, good and bad, keep every cut that was made.

    Their worth here leaves the bend within a session out, which makes them worth more.
    """
    problem = _problem(*minutes)
    model = week_model(problem)
    cuts = _cuts(model)
    assert cuts
    for seed in range(30):
        week, _ = search(problem, Random(seed), 60 * (seed + 1))
        values = _columns(model, week)
        for terms, high in cuts:
            assert sum(f * values.get(column, 0.0) for column, f in terms) <= high + 1e-9


def test_the_bound_of_a_short_week_comes_down() -> None:
    """With few stops the relaxation earns most from fractions: whole stops take a part of it."""
    problem = _problem(*SHORT)
    model = week_model(problem)
    found = solve(problem, effort=LITTLE)
    plain = Solver(model.linear)
    plain.highs.run()
    before = float(plain.highs.getInfo().objective_function_value)
    for terms, high in _cuts(model):
        plain.add(terms, high)
    plain.highs.run()
    after = float(plain.highs.getInfo().objective_function_value)
    assert found.objective <= after < before
    assert found.bound <= after


def test_worth_already_behind_her_is_kept() -> None:
    """With sets done earlier in the week a stop is worth less, and no real week is cut off."""
    problem = _problem(40, 40)
    done = tuple(2.0 if worth else 0.0 for worth in problem.worth)
    behind = replace(problem, done=done)
    model = week_model(behind)
    cuts, bound = _cuts(model), solve(behind, effort=LITTLE).bound
    for seed in range(15):
        week, value = search(behind, Random(seed), 3_000)
        values = _columns(model, week)
        for terms, high in cuts:
            assert sum(f * values.get(column, 0.0) for column, f in terms) <= high + 1e-9
        assert value == pytest.approx(objective(behind, week))
        assert value <= bound
