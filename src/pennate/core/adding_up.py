"""Rounded figures that add up to their rounded sum, so that a page can be checked by hand."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor


def adding_up(values: Sequence[float], places: int = 1, total: float | None = None) -> list[float]:
    """The values rounded so that they add up to the rounded total, theirs if none is given.

    Each is rounded down or up; those with the largest rests go up (the largest remainder).
    """
    scale = 10**places
    wanted = round(round(sum(values) if total is None else total, places) * scale)
    down = [floor(value * scale) for value in values]
    by_rest = sorted(range(len(values)), key=lambda i: (down[i] - values[i] * scale, i))
    for index in by_rest[: max(0, wanted - sum(down))]:
        down[index] += 1
    return [value / scale for value in down]
