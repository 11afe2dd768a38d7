"""Loads written ten times too high or too low."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pennate.core.evidence.strength_levels import FELT_LEAST
from pennate.core.performed import SetKind

if TYPE_CHECKING:
    from pennate.estimate.exposure import Exposure

_TENFOLD = math.log(10)
_NEAR = 0.6  # number: log load; a slip lands within this of a usual load after correction
_SAME = 0.5  # number: of the corrected number; nearer than that it is the usual one
_MEANT_LEAST = 1.0  # number: kilograms; loads beside a body seldom come in less
_ABSURD = math.log(3)  # number: log load; no ramp is so much heavier than what it leads to
_LIGHTER = frozenset({SetKind.WARM_UP, SetKind.DROP})


def likely_load(exposure: Exposure, usual_log: float) -> float:
    """The load that was probably lifted: the written one, or a tenth or ten times of it.

    Ramps begin low and drops end low, so they are only held against a load far too high.
    Where a body or a bar is carried beside what is written, the written number alone
    can be ten times the usual one.
    """
    felt = exposure.felt_kg or FELT_LEAST
    if exposure.carried_kg:
        return _beside_carried(exposure, felt, math.exp(usual_log))
    gap = math.log(felt) - usual_log
    if exposure.kind in _LIGHTER:
        return felt / 10 if gap > _ABSURD else felt
    if abs(gap - _TENFOLD) < _NEAR:
        return felt / 10
    return felt * 10 if abs(gap + _TENFOLD) < _NEAR else felt


def _beside_carried(exposure: Exposure, felt: float, usual: float) -> float:
    meant = exposure.written_kg / 10
    tenth = max(exposure.carried_kg + meant, FELT_LEAST)
    if exposure.kind in _LIGHTER:
        return tenth if felt <= FELT_LEAST else felt
    far, near = abs(math.log(felt / usual)), abs(math.log(tenth / usual))
    if far > _ABSURD:
        return tenth if near < far else felt
    same = abs(tenth - usual) < _SAME * abs(meant)
    return tenth if same and abs(meant) >= _MEANT_LEAST else felt
