"""Loads written ten times too high or too low."""

from __future__ import annotations

import math

from pennate.core.performed import SetKind

_TENFOLD = math.log(10)
_NEAR = 0.6  # number: log load; a slip lands within this of a usual load after correction


def likely_load(felt: float, kind: SetKind, usual_log: float) -> float:
    """The load that was probably lifted: the written one, or a tenth or ten times of it.

    Ramps begin low and drops end low, so they are only held against a load ten times too
    high.
    """
    gap = math.log(felt) - usual_log
    if abs(gap - _TENFOLD) < _NEAR:
        return felt / 10
    if abs(gap + _TENFOLD) < _NEAR and kind not in {SetKind.WARM_UP, SetKind.DROP}:
        return felt * 10
    return felt
