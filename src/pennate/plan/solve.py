"""The week by search, and beside it a bound that no week can pass.

Limits are counted (search steps, changes weighed, splits, simplex pivots), so the same problem
and seed give the same week and the same bound, on one core or on two.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from random import Random

from pennate.plan.anneal import anneal
from pennate.plan.evaluate import objective, shortfall
from pennate.plan.problem import PlanProblem, Selection
from pennate.plan.proof import Proof
from pennate.plan.search import search


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """How much to try, in counted measures."""

    first: int = 8_000  # number: steps of the first search, a tenth of a second
    steps: int = 2_400  # number: steps that weigh all neighbours, about a second
    searches: int = 20  # number: each sets out anew; later ones find what the first missed
    weighed: int = 22_000_000  # number: about eight seconds; long weeks have many neighbours
    """Changes weighed after which no new search begins."""
    splits: int = 100_000  # number: more than pivots allow but where a proof can be finished
    """Times that the proof splits a kind of weeks in two."""
    pivots: int = 60_000  # number: about eight seconds
    """Simplex pivots of the proof after which no new split begins."""
    good_enough: float = 0.0005  # number: gap at which the proof stops


QUICK = Effort(first=8_000, steps=300, searches=1, splits=0)  # number: for questions beside
"""Less effort, for questions beside the plan; its bound is that of the linear relaxation."""


DEAR = (0.0025, 0.0005)  # number: shares of the bound by which a stop may be dear, in turn


@dataclass(frozen=True, slots=True)
class Progress:
    """What is known so far."""

    stage: str
    objective: float
    bound: float


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
    watcher = Watcher(watch)
    with Proof(problem, effort.splits, effort.pivots) as proof:
        watcher.proof, rng = proof, Random(seed)
        found, _ = search(problem, rng, effort.first, start=start, stop=watcher.searching)
        found = _searched(problem, found, proof, (seed, effort, watcher))
        found, bound = _proved(problem, found, proof, (effort, watcher))
    return _solved(problem, found, bound, stopped=watcher.stopped)


def _searched(
    problem: PlanProblem, first: Selection, proof: Proof, how: tuple[int, Effort, Watcher]
) -> Selection:
    """The best week of searches that set out from the first; none where the bound is near.

    They look at stops that the relaxation finds good or nearly so: at prices of the whole
    week, a stop far below costs more than the week could win elsewhere.
    """
    seed, effort, watcher = how
    root, found, weighed = proof.after(0, watcher.proving), first, 0
    for number in range(effort.searches):
        near = root is not None and _near(problem, found, root.bound, effort)
        if root is None or watcher.stopped or near or weighed > effort.weighed:
            break
        most = DEAR[number % len(DEAR)] * root.bound
        among = [stop for stop, dear in root.dear.items() if dear <= most] or None
        again = anneal(
            problem, first, effort.steps, seed=seed + number, among=among, stop=watcher.searching
        )
        weighed += again.weighed
        found = _better(problem, again.selection, found)
    return found


def _proved(
    problem: PlanProblem, found: Selection, proof: Proof, how: tuple[Effort, Watcher]
) -> tuple[Selection, float]:
    """The best week and the bound once the proof is good enough, or ends."""
    effort, watcher = how
    bound, splits = proof.bound if watcher.stopped else math.inf, 0
    while known := proof.after(splits, watcher.proving):
        bound, splits = known.bound, splits + 1
        for week in known.weeks:
            found = _better(problem, week, found)
        if _near(problem, found, bound, effort):
            break
    return found, bound


def _near(problem: PlanProblem, found: Selection, bound: float, effort: Effort) -> bool:
    """Whether a week is as good as the bound."""
    return objective(problem, found) >= bound * (1 - effort.good_enough) and not shortfall(
        problem, found
    )


def _better(problem: PlanProblem, one: Selection, other: Selection) -> Selection:
    """The week that misses no wish, or else is worth more; the other where they are equal."""
    missed = bool(shortfall(problem, one)), bool(shortfall(problem, other))
    if missed[0] != missed[1]:
        return other if missed[0] else one
    return one if objective(problem, one) > objective(problem, other) else other


def _solved(problem: PlanProblem, found: Selection, bound: float, *, stopped: bool) -> Solved:
    value = objective(problem, found)
    return Solved(found, value, max(bound, value), stopped, shortfall(problem, found))


class Watcher:
    """Asks the caller whether to go on and remembers the answer."""

    def __init__(self, watch: Watch) -> None:
        self.watch = watch
        self.stopped = False
        self.best = -math.inf
        self.proof: Proof | None = None

    def searching(self, best: float) -> bool:
        """Told the best of a search; whether to stop."""
        self.best = max(self.best, best)
        return self.ask("searching")

    def proving(self) -> bool:
        """Whether to stop while a bound is awaited."""
        return self.ask("proving")

    def ask(self, stage: str) -> bool:
        """Whether to stop."""
        bound = self.proof.bound if self.proof else math.inf
        self.stopped = self.stopped or self.watch(Progress(stage, self.best, bound))
        return self.stopped
