"""The bound: what whole stops can give, and that every cut leaves every real week alone.

Nemhauser, Wolsey and Fisher 1978: for falling returns a set is worth at most its members alone.
"""

from __future__ import annotations

import math
import time
from dataclasses import replace
from random import Random

import pytest

from pennate.core.brief import Brief, FreeDay
from pennate.core.prescribed import WEEKDAYS
from pennate.files.catalogue import read_catalogue
from pennate.plan.build import build_problem
from pennate.plan.chunks import Chunks
from pennate.plan.evaluate import objective
from pennate.plan.highs import Solver
from pennate.plan.model import Terms, WeekModel, week_model
from pennate.plan.problem import TRACKED, PlanProblem, Selection, part_doses
from pennate.plan.proof import Proof
from pennate.plan.search import search
from pennate.plan.solve import Effort, Progress, solve
from pennate.plan.tree import Tree

CATALOGUE = read_catalogue()
SHORT = (25, 30)
LITTLE = Effort(first=5_000, steps=150, searches=2, splits=0)


def _problem(*minutes: int) -> PlanProblem:
    days = tuple(FreeDay(day, m) for day, m in zip(WEEKDAYS, minutes, strict=False))
    return build_problem(Brief(name="short", days=days), CATALOGUE)


def _cuts(model: WeekModel, rounds: int = 6) -> list[tuple[Terms, float]]:
    """The chunk cuts of some rounds of the relaxation."""
    solver, chunks = Solver(model.linear), Chunks(model)
    found: list[tuple[Terms, float]] = []
    for _ in range(rounds):
        solver.relax()
        more = chunks.cuts(solver.solution().values)
        for terms, high in more:
            solver.add(terms, high)
        found += more
    return found


def _columns(model: WeekModel, week: Selection) -> dict[int, float]:
    """A real week in the columns that chunk cuts speak of."""
    values: dict[int, float] = {}
    for day, chosen in enumerate(week):
        for option, sets in chosen:
            values[model.stops[option, day, sets]] = 1.0
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
    before = plain.relax()
    for terms, high in _cuts(model):
        plain.add(terms, high)
    after = plain.relax()
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


@pytest.mark.parametrize("sessions", [2, 3])
def test_splitting_brings_the_bound_down_and_cuts_off_no_week(sessions: int) -> None:
    """The bound only falls as weeks are split into kinds, and stays above every week found."""
    days = tuple(FreeDay(day, 35) for day in WEEKDAYS[:3])
    problem = build_problem(Brief(name="three", days=days, sessions=sessions), CATALOGUE)
    best = max(search(problem, Random(seed), 20_000)[1] for seed in range(4))
    tree, bounds = Tree(problem), []
    for _ in range(25):
        bounds.append(tree.bound)
        tree.split()
    assert bounds == sorted(bounds, reverse=True)
    assert bounds[-1] < bounds[0] - 0.01
    assert tree.bound >= best


def test_what_is_held_on_a_day_off_is_nothing() -> None:
    """With fewer sessions than days the first splits say which days she trains on."""
    days = tuple(FreeDay(day, 40) for day in WEEKDAYS[:4])
    tree = Tree(build_problem(Brief(name="four", days=days, sessions=2), CATALOGUE))
    for _ in range(3):
        tree.split()
    first = {key for kind in tree.kinds for key in kind.held}
    assert first <= {~column for column in tree.model.used}


@pytest.mark.parametrize("pause", [0.0, 0.02])
def test_the_same_bound_however_slow_the_search_is(pause: float) -> None:
    """The proof goes on beside the search, and still its bound depends on counts alone."""
    problem = _problem(35, 35)
    effort = replace(LITTLE, steps=40, splits=6)

    def slow(_progress: Progress) -> bool:
        time.sleep(pause)
        return False

    tree = Tree(problem)
    for _ in range(6):
        tree.split()
    assert solve(problem, effort=effort, watch=slow).bound == tree.bound


def test_a_stop_while_proving_keeps_the_bound_so_far() -> None:
    """Stopped once a bound is shown, the answer is marked and its bound is above its worth."""
    problem = _problem(60, 60, 60)
    solved = solve(problem, watch=lambda progress: progress.bound < math.inf)
    assert solved.stopped
    assert solved.objective <= solved.bound < math.inf


def test_a_failure_of_the_proof_is_told() -> None:
    """What goes wrong beside the search is raised where the bound is asked for."""
    broken = replace(_problem(40), worth=())
    with Proof(broken, 1, 1) as proof, pytest.raises(IndexError):
        proof.after(0, lambda: False)
