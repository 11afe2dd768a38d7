"""The cheapest sequence of pins, dumbbells or bands for a sequence of targets."""

from __future__ import annotations

import numpy as np

from pennate.core.loaded import Loaded
from pennate.core.quantities import Mass
from pennate.loading.effort import Floats


def solve_picks(
    rungs: tuple[Loaded, ...],
    deviations: tuple[Floats, ...],
    drops: tuple[bool, ...],
    change: float,
    start: Loaded | None = None,
) -> tuple[float, tuple[int, ...]]:
    """Least total cost and the rung of each set; a shortest path, hence exact.

    A drop takes a lighter rung, or stays on the lightest. The first set is free to choose
    unless `start` is what is in hand.
    """
    changes = changes_between(rungs) * change
    reach = deviations[0] if start is None else deviations[0] + _from(rungs, start) * change
    came: list[np.ndarray[tuple[int, ...], np.dtype[np.intp]]] = []
    for costs, drop in zip(deviations[1:], drops[1:], strict=True):
        steps = reach[:, None] + changes
        if drop:
            steps = np.where(_lighter(len(rungs)), steps, np.inf)
        came.append(steps.argmin(axis=0))
        reach = steps.min(axis=0) + costs
    path = [int(reach.argmin())]
    for back in reversed(came):
        path.append(int(back[path[-1]]))
    return float(reach.min()), tuple(reversed(path))


def changes_between(rungs: tuple[Loaded, ...]) -> Floats:
    """How many things are handled between each two rungs."""
    if any(rung.add_ons or rung.bands for rung in rungs):
        return np.array([[moves_between(a, b) for b in rungs] for a in rungs], float)
    places: dict[Mass | None, int] = {}
    pins = np.array([places.setdefault(rung.label, len(places)) for rung in rungs])
    return np.asarray(pins[:, None] != pins, float)


def moves_between(before: Loaded, after: Loaded) -> int:
    """Pin or dumbbells changed count one; each add-on or band on or off counts one."""
    pin = int(before.label != after.label)
    add_ons = _differences(before.add_ons, after.add_ons)
    return pin + add_ons + _differences(before.bands, after.bands)


def _differences(left: tuple[object, ...], right: tuple[object, ...]) -> int:
    return len([x for x in left if x not in right]) + len([x for x in right if x not in left])


def _from(rungs: tuple[Loaded, ...], start: Loaded) -> Floats:
    return np.array([moves_between(start, rung) for rung in rungs], float)


def _lighter(count: int) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
    """From (rows) to (columns): strictly lighter, or staying on the lightest."""
    allowed = np.tril(np.ones((count, count), bool), -1)
    allowed[0, 0] = True
    return allowed
