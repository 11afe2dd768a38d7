"""The cost of a plan straight from its definition, and the best one by trying every stack."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import product

from pennate.core.evidence.loading import (
    DROP_WEIGHT,
    LOAD_PER_REP,
    MOVE_REPS,
    UNTIDY_REPS,
    WARM_UP_WEIGHT,
)
from pennate.core.performed import SetKind
from pennate.loading import Target

Stack = tuple[float, ...]
"""Plates of one side, inner to outer, in kilograms."""

WEIGHTS = {SetKind.WARM_UP: WARM_UP_WEIGHT, SetKind.DROP: DROP_WEIGHT}


def every_stack(plates: dict[float, int], below: Stack = ()) -> Iterator[Stack]:
    """All ordered stacks that these plates allow."""
    yield below
    for mass, pairs in plates.items():
        if below.count(mass) < pairs:
            yield from every_stack(plates, (*below, mass))


def change(before: Stack, after: Stack) -> tuple[int, int]:
    """Pairs moved, and how many of those put on go outside a lighter one."""
    same = 0
    while same < min(len(before), len(after)) and before[same] == after[same]:
        same += 1
    put_on = range(same, len(after))
    clumsy = sum(any(inner < after[place] for inner in after[:place]) for place in put_on)
    return len(before) - same + len(after) - same, clumsy


def allowed(before: Stack, after: Stack, kind: SetKind) -> bool:
    """A drop strips outer plates, at least one where one is on."""
    if kind is not SetKind.DROP:
        return True
    return after == before[: len(after)] and (len(after) < len(before) or not before)


def off_target(target: Target, felt: float, lightest: float) -> float:
    """Weighted reps between a load and its target, infinite above a ceiling."""
    if target.ceiling and felt > target.felt_kg + 1e-9 and felt > lightest + 1e-9:
        return math.inf
    reps = abs(math.log(max(felt, 1.0) / max(target.felt_kg, 1.0))) / LOAD_PER_REP
    return WEIGHTS.get(target.kind, 1.0) * reps


def least_cost(bar: float, stacks: list[Stack], targets: list[Target], start: Stack = ()) -> float:
    """The cheapest sequence of stacks, over all of them."""
    reach = {start: 0.0}
    for target in targets:
        further: dict[Stack, float] = {}
        for (before, cost), after in product(reach.items(), stacks):
            if not allowed(before, after, target.kind):
                continue
            moves, clumsy = change(before, after)
            total = cost + MOVE_REPS * moves + UNTIDY_REPS * clumsy
            total += off_target(target, bar + 2 * sum(after), bar)
            further[after] = min(total, further.get(after, math.inf))
        reach = further
    return min(reach.values())
