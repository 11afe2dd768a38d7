"""The week by search and by HiGHS: the best found, and a bound that no week can pass.

The only file that imports the solver. Limits are counted (search steps, nodes, simplex
iterations), threads are fixed: the same problem and seed give the same week.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from random import Random
from typing import TYPE_CHECKING, Any

from pennate.plan.anneal import anneal
from pennate.plan.chunks import chunk_cuts
from pennate.plan.evaluate import broken_rules, objective, shortfall
from pennate.plan.knapsack import day_cuts
from pennate.plan.model import Linear, Terms, WeekModel, tangents_at, week_model
from pennate.plan.problem import PlanProblem, Selection
from pennate.plan.search import search

if TYPE_CHECKING:
    import highspy


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """How much to try, in counted measures."""

    first: int = 8_000  # number: steps of the first search, a tenth of a second
    steps: int = 1_200  # number: steps that weigh all neighbours, about half a second
    searches: int = 10  # number: each sets out anew; later ones find what the first missed
    weighed: int = 12_000_000  # number: about four seconds; long weeks have many neighbours
    """Changes weighed after which no new search begins."""
    nodes: int = 10  # number: branch-and-bound nodes; more proves little more
    good_enough: float = 0.0005  # number: gap at which the proof stops


QUICK = Effort(first=8_000, steps=300, searches=1, nodes=0)  # number: for questions beside
"""Less effort, for questions beside the plan; its bound is that of the linear relaxation."""


@dataclass(frozen=True, slots=True)
class Progress:
    """What is known so far."""

    stage: str
    objective: float
    bound: float


PROOF_ROUNDS = 6  # number: proofs with more tangents; small weeks need them
CUT_ROUNDS = 12  # number: rounds of tangents and cuts; later ones move the bound little
Watch = Callable[[Progress], bool]
"""Told of progress; true asks to stop."""


@dataclass(frozen=True, slots=True)
class Solved:
    """The best week found, its value, the bound, and whether somebody stopped the work."""

    selection: Selection
    objective: float
    bound: float
    stopped: bool
    missing: dict[str, float]
    """Wishes not met; empty when the week keeps every rule."""

    @property
    def gap(self) -> float:
        """(bound − objective) / max(bound − r, 1e-9); r, the empty week's objective, is 0."""
        return max(0.0, self.bound - self.objective) / max(self.bound, 1e-9)


def never(_progress: Progress) -> bool:
    """Nobody asks to stop."""
    return False


def solve(
    problem: PlanProblem,
    *,
    seed: int = 0,
    effort: Effort = Effort(),
    start: Selection | None = None,
    watch: Watch = never,
) -> Solved:
    """The best week and its bound. A stop keeps the best so far and is marked.

    Raises nothing for an infeasible problem: `missing` then says what could not be met.
    """
    watcher, rng = Watcher(watch), Random(seed)
    found, value = search(problem, rng, effort.first, start=start, stop=watcher.searching)
    if watcher.stopped:
        return _solved(problem, found, math.inf, stopped=True)
    model = week_model(problem)
    solver = Solver(model.linear)
    bound = solver.relax(model)
    watcher.bound, first = bound, found
    weighed = 0
    for number in range(effort.searches):
        near = value >= bound * (1 - effort.good_enough)
        if watcher.stopped or near or weighed > effort.weighed:
            break
        stop = watcher.searching
        again = anneal(problem, first, effort.steps, seed=seed + number, stop=stop)
        weighed += again.weighed
        if again.objective > value:
            found, value = again.selection, again.objective
    if watcher.stopped or not effort.nodes:
        return _solved(problem, found, bound, stopped=watcher.stopped)
    return _proved(problem, model, solver, found, (effort, watcher))


def _proved(
    problem: PlanProblem,
    model: WeekModel,
    solver: Solver,
    found: Selection,
    how: tuple[Effort, Watcher],
) -> Solved:
    effort, watcher = how
    solver.limit(effort)
    if not shortfall(problem, found):
        solver.start(model, found)
    for _ in range(PROOF_ROUNDS):
        values, bound = solver.prove(watcher)
        if values is not None:
            other = model.selection(values)
            if not broken_rules(problem, other) and _better(problem, other, found):
                found = other
        more = tangents_at(model, values) if values and solver.finished else []
        gap = bound - objective(problem, found)
        if watcher.stopped or not more or gap <= effort.good_enough * bound:
            break
        for terms, high in more:
            solver.add(terms, high)
        solver.start(model, found)
    return _solved(problem, found, min(bound, watcher.bound), stopped=watcher.stopped)


def _better(problem: PlanProblem, one: Selection, other: Selection) -> bool:
    if shortfall(problem, other):
        return True
    return objective(problem, one) > objective(problem, other)


def _solved(problem: PlanProblem, found: Selection, bound: float, *, stopped: bool) -> Solved:
    value = objective(problem, found)
    return Solved(found, value, max(bound, value), stopped, shortfall(problem, found))


class Watcher:
    """Asks the caller whether to go on and remembers the answer."""

    def __init__(self, watch: Watch) -> None:
        self.watch = watch
        self.stopped = False
        self.best = -math.inf
        self.bound = math.inf

    def searching(self, best: float) -> bool:
        """Told the best of a search; whether to stop."""
        self.best = max(self.best, best)
        return self.ask("searching")

    def ask(self, stage: str) -> bool:
        """Whether to stop."""
        self.stopped = self.stopped or self.watch(Progress(stage, self.best, self.bound))
        return self.stopped


class Solver:
    """HiGHS on one linear model."""

    def __init__(self, linear: Linear) -> None:
        import highspy
        import numpy as np

        self.highs: Any = _quiet()
        self.columns = len(linear.cost)
        self.whole = linear.whole
        self.finished = False
        for name, value in (("output_flag", False), ("threads", 1), ("mip_rel_gap", 0.0)):
            self.highs.setOptionValue(name, value)
        model = highspy.HighsLp()
        model.num_col_, model.num_row_ = self.columns, len(linear.rows)
        model.offset_ = linear.constant
        model.sense_ = highspy.ObjSense.kMaximize
        model.col_cost_, model.col_lower_ = np.array(linear.cost), np.array(linear.low)
        model.col_upper_ = np.array(linear.high)
        model.row_lower_ = np.array([low for low, _, _ in linear.rows])
        model.row_upper_ = np.array([high for _, high, _ in linear.rows])
        _fill(model, linear)
        self.highs.passModel(model)

    def limit(self, effort: Effort) -> None:
        """Set the counted limits."""
        self.highs.setOptionValue("mip_max_nodes", effort.nodes)
        self.highs.setOptionValue("mip_rel_gap", effort.good_enough)

    def limit_nodes(self, nodes: int) -> None:
        """Stop after so many branch-and-bound nodes."""
        self.highs.setOptionValue("mip_max_nodes", nodes)

    def relax(self, model: WeekModel) -> float:
        """Bound of the relaxation with tangents where it bends."""
        for _ in range(CUT_ROUNDS):
            self.highs.run()
            now = self.highs.getSolution()
            values = list(now.col_value)
            more = tangents_at(model, values) + day_cuts(model, values, list(now.row_dual))
            more += chunk_cuts(model, values)
            if not more or not now.dual_valid:
                break
            for terms, high in more:
                self.add(terms, high)
        self.highs.run()
        if self.highs.getModelStatus() != _status("kOptimal"):
            return math.inf
        return float(self.highs.getInfo().objective_function_value)

    def add(self, terms: Terms, high: float) -> None:
        """One more row, terms ≤ high."""
        import numpy as np

        columns = np.array([column for column, _ in terms], dtype=np.int32)
        self.highs.addRow(-math.inf, high, len(terms), columns, np.array([f for _, f in terms]))

    def start(self, model: WeekModel, found: Selection) -> None:
        """Hand over a known week."""
        import highspy

        values = [0.0] * self.columns
        for day, chosen in enumerate(found):
            values[model.used[day]] = float(bool(chosen))
            for option, sets in chosen:
                values[model.chosen[option, day]] = 1.0
                values[model.sets[option, day]] = float(sets)
        solution = highspy.HighsSolution()
        solution.col_value = values
        self.highs.setSolution(solution)

    def prove(self, watcher: Watcher) -> tuple[list[float] | None, float]:
        """Branch and bound; the values of a solution (None without one) and the bound."""
        import highspy

        for column, whole in enumerate(self.whole):
            if whole:
                self.highs.changeColIntegrality(column, highspy.HighsVarType.kInteger)

        def look(event: Any) -> None:
            if watcher.ask("proving"):
                event.interrupt()

        self.highs.cbMipInterrupt.subscribe(look)
        self.highs.run()
        solution = self.highs.getSolution()
        values = list(solution.col_value) if solution.value_valid else None
        self.finished = self.highs.getModelStatus() == _status("kOptimal")
        return values, float(self.highs.getInfo().mip_dual_bound)


def _quiet() -> Any:
    """HiGHS without its greeting, which would stand before a JSON document."""
    import highspy

    class Quiet(highspy.Highs):
        """Silent from before its first word."""

        def enableCallbacks(self) -> None:  # noqa: N802 - the solver's own name
            self.setOptionValue("output_flag", False)  # noqa: FBT003 - the solver's own form
            super().enableCallbacks()  # type: ignore[no-untyped-call] # shipped without types

    return Quiet()  # type: ignore[no-untyped-call] # shipped without types


def _status(name: str) -> Any:
    import highspy

    return getattr(highspy.HighsModelStatus, name)


def _fill(model: highspy.HighsLp, linear: Linear) -> None:
    import highspy
    import numpy as np

    starts, index, value = [0], [], []
    for _, _, terms in linear.rows:
        index += [column for column, _ in terms]
        value += [float(factor) for _, factor in terms]
        starts.append(len(index))
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.start_ = np.array(starts)
    model.a_matrix_.index_ = np.array(index)
    model.a_matrix_.value_ = np.array(value)
