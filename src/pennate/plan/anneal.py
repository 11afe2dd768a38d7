"""The search that weighs every neighbour: annealing without rejection, seeded and counted.

Each step draws one of all the changes of a day (or between two days) by its value: the
largest of value / temperature + Gumbel noise (Bortz, Kalos and Lebowitz 1975; Gumbel-max).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection
from typing import NamedTuple

import numpy as np

from pennate.plan.evaluate import broken_rules, objective, shortfall
from pennate.plan.neighbours import WeekState, between_days, to_free_day, within_day
from pennate.plan.problem import PlanProblem, Selection
from pennate.plan.stops import Stops

HOT = 0.1  # number: √sets, two thirds of what a set is worth
COLD = 0.025  # number: √sets; thousands of neighbours make it warmer than it looks
TRADES = 0.35  # number: share of steps that trade between days
MOVES = 0.05  # number: share of steps that move a whole day, where one is free
A_STEP = 600  # number: changes that take as long to weigh as all else in a step
LOOK_EVERY = 10  # number: steps between looking whether to stop


class Annealed(NamedTuple):
    """The best week of a search, its objective, and its work in changes weighed."""

    selection: Selection
    objective: float
    weighed: int


def anneal(
    problem: PlanProblem,
    start: Selection,
    steps: int,
    *,
    seed: int = 0,
    among: Collection[tuple[int, int, int]] | None = None,
    stop: Callable[[float], bool] = lambda _best: False,
) -> Annealed:
    """The best week found in so many steps; `start` if none is better.

    The same problem, start, seed and steps give the same week. `start` keeps every rule but
    may miss wishes; then its value counts as minus infinity. `among`: stops that may come, as
    option, day and sets; None for all.
    """
    rng, stops = np.random.default_rng(seed), Stops(problem)
    if among is not None:
        stops.keep(among)
    state = WeekState(stops, stops.rows_of(start))
    best, best_value = start, -math.inf if shortfall(problem, start) else objective(problem, start)
    total = 0
    for step in range(steps):
        if step % LOOK_EVERY == 0 and stop(best_value):
            break
        changed, weighed = _step(state, rng, HOT * (COLD / HOT) ** (step / steps))
        total += weighed + A_STEP
        if not changed:
            continue
        found = stops.selection(state.rows)
        value = objective(problem, found)
        if value > best_value + 1e-9 and not broken_rules(problem, found):
            best, best_value = found, value
    return Annealed(best, best_value, total)


def _step(state: WeekState, rng: np.random.Generator, warmth: float) -> tuple[bool, int]:
    """Makes one change drawn by its value; whether the week changed, and how many were weighed."""
    days = len(state.rows)
    day, kind = int(rng.integers(days)), rng.random()
    other = (day + 1 + int(rng.integers(days - 1))) % days if days > 1 else day
    if kind < MOVES and state.used < days:
        moved = to_free_day(state, day, other)
        if moved:
            state.put(moved)
        return bool(moved), 1
    trade = days > 1 and kind < MOVES + TRADES
    weighed = between_days(state, day, other) if trade else within_day(state, day)
    if not len(weighed.value):
        return False, 0
    noise = rng.gumbel(size=len(weighed.value))
    drawn = weighed.change(int(np.argmax(weighed.value / warmth + noise)))
    if all(sorted(rows) == sorted(state.rows[one]) for one, rows in drawn):
        return False, len(weighed.value)
    state.put(drawn)
    return True, len(weighed.value)
