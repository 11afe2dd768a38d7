"""A lower bound that tells which plate stacks could be part of the best plan at all.

Leave out how plates are stacked and keep only that a lighter load takes a plate off and a
heavier one puts a plate on. For set i at mass m, with d plates on:

    plans through it cost at least
        before i: deviations + one move for every fall of the load
      + d moves, for the plates that are on must have been put on
      + from i on: deviations + one move for every change of the load

Plates put on before i are the d; falls before i and changes after it come on top.
"""

from __future__ import annotations

import numpy as np

from pennate.loading.effort import Floats


def through(costs: tuple[Floats, ...], drops: tuple[bool, ...], move: float) -> Floats:
    """Least cost of any plan that has some set at this mass, without the d moves.

    Costs are over masses in ascending order, the empty place first.
    """
    ahead = _before(costs, drops, move)
    behind = _after(costs, drops, move)
    whole = [a + c + b for a, c, b in zip(ahead, costs, behind, strict=True)]
    return np.asarray(np.min(whole, axis=0))


def _before(costs: tuple[Floats, ...], drops: tuple[bool, ...], move: float) -> list[Floats]:
    reach = [np.zeros_like(costs[0])]
    for cost, drop in zip(costs[:-1], drops[1:], strict=True):
        done = reach[-1] + cost
        fall = _least_above(done) + move
        if drop:
            fall[0] = min(fall[0], done[0])
            reach.append(fall)
        else:
            reach.append(np.minimum(fall, np.minimum.accumulate(done)))
    return reach


def _after(costs: tuple[Floats, ...], drops: tuple[bool, ...], move: float) -> list[Floats]:
    reach = [np.zeros_like(costs[0])]
    for cost, drop in zip(reversed(costs[1:]), reversed(drops[1:]), strict=True):
        done = reach[-1] + cost
        if drop:
            fall = np.append(np.inf, np.minimum.accumulate(done)[:-1]) + move
            fall[0] = done[0]
            reach.append(fall)
        else:
            reach.append(np.minimum(done, done.min() + move))
    return reach[::-1]


def _least_above(values: Floats) -> Floats:
    """For each place the least value further on."""
    least = np.minimum.accumulate(values[::-1])[::-1]
    return np.append(least[1:], np.inf)
