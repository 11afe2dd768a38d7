"""The order of stops within a day: exact, by dynamic programming over sets of stops.

Order helps the strength of what comes first and has no shown effect on size, so it is
settled after the week and is not part of the printed bound.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from pennate.core.evidence.planner import (
    ORDER_GRIP,
    ORDER_NEXT,
    ORDER_PRIORITY,
    ORDER_SHARED,
)
from pennate.core.exercise import Exercise
from pennate.core.muscles import Group, Joint, Part
from pennate.core.week_time import multi_joint
from pennate.plan.focus import main_group

GRIP_NEEDED = 3


@dataclass(frozen=True, slots=True)
class Stop:
    """The exercises of a stop (two in a superset)."""

    exercises: tuple[Exercise, ...]


def best_order(stops: Sequence[Stop], priorities: Sequence[Group | Part]) -> list[int]:
    """The cheapest order of the stops, as indices; ties keep the given order."""
    count = len(stops)
    before = [[_before(a, b, priorities) for b in stops] for a in stops]
    beside = [[ORDER_NEXT * _shared(a, b) for b in stops] for a in stops]
    best: dict[tuple[int, int], tuple[float, int]] = {(1 << i, i): (0.0, -1) for i in range(count)}
    for done in range(1, 1 << count):
        for last in range(count):
            if (done, last) not in best:
                continue
            cost = best[done, last][0]
            for new in range(count):
                if done >> new & 1:
                    continue
                more = sum(before[old][new] for old in range(count) if done >> old & 1)
                key = (done | 1 << new, new)
                total = cost + more + beside[last][new]
                if total < best.get(key, (math.inf, 0))[0] - 1e-12:
                    best[key] = (total, last)
    return _trace(best, count)


def order_cost(
    order: Sequence[int], stops: Sequence[Stop], priorities: Sequence[Group | Part]
) -> float:
    """The cost of an order: what each stop takes from all that come after it."""
    cost = sum(
        _before(stops[a], stops[b], priorities)
        for place, a in enumerate(order)
        for b in order[place + 1 :]
    )
    return cost + sum(ORDER_NEXT * _shared(stops[a], stops[b]) for a, b in pairwise(order))


def _trace(best: dict[tuple[int, int], tuple[float, int]], count: int) -> list[int]:
    if not count:
        return []
    done = (1 << count) - 1
    last = min(range(count), key=lambda i: (best[done, i][0], i))
    order = [last]
    while (came := best[done, last][1]) >= 0:
        done, last = done & ~(1 << last), came
        order.append(last)
    return order[::-1]


def _before(a: Stop, b: Stop, priorities: Sequence[Group | Part]) -> float:
    """What doing `a` at any time before `b` costs `b`."""
    cost = ORDER_SHARED * _shared(a, b) * (2.0 if _heavy(b) and not _heavy(a) else 1.0)
    rank_a, rank_b = _rank(a, priorities), _rank(b, priorities)
    if rank_b < rank_a:
        cost += ORDER_PRIORITY
    elif rank_a == rank_b and _heavy(b) and not _heavy(a):
        cost += ORDER_PRIORITY / 2
    needs = any(one.joints.get(Joint.GRIP, 0) >= GRIP_NEEDED for one in b.exercises)
    if needs and any(one.grip_limited for one in a.exercises):
        cost += ORDER_GRIP
    return cost


def _heavy(stop: Stop) -> bool:
    return any(multi_joint(one) for one in stop.exercises)


def _rank(stop: Stop, priorities: Sequence[Group | Part]) -> int:
    groups = [main_group(one) for one in stop.exercises]
    return min(
        (place for place, wish in enumerate(priorities) if wish in groups), default=len(priorities)
    )


def _shared(a: Stop, b: Stop) -> float:
    """Muscle the two stops share: overlap of their involvement, in parts."""
    return sum(
        float(min(weight, two.weights().get(part, 0)))
        for one in a.exercises
        for two in b.exercises
        for part, weight in one.weights().items()
    )
