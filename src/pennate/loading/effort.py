"""How far a load is from the one that was asked for, in reps."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pennate.core.evidence.loading import (
    BODY_REFERENCE_KG,
    DROP_WEIGHT,
    LOAD_PER_REP,
    WARM_UP_WEIGHT,
)
from pennate.core.exercise import EquipmentKind
from pennate.core.gym import AnyItem
from pennate.core.performed import SetKind
from pennate.core.quantities import Unit

RepsAt = Callable[[float], float]
"""Felt load in kilograms (without body mass) to reps to failure, fewer the heavier."""
Floats = NDArray[np.float64]

_MOST_REPS = 200.0  # number: a table's end; keeps endless reps at no load finite
_WEIGHTS = {SetKind.WARM_UP: WARM_UP_WEIGHT, SetKind.DROP: DROP_WEIGHT}
_ON_BODY = {EquipmentKind.BODY_WEIGHT, EquipmentKind.ASSISTED}


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """A set's asked felt load in kilograms, without body mass; negative for assistance."""

    felt_kg: float
    kind: SetKind = SetKind.WORKING
    ceiling: bool = False
    """Never heavier than asked: on first exposure, and where a caution says so."""
    unit: Unit | None = None
    """The unit in which this very load was asked; None leaves it to the one she uses here."""


def reps_by_distance(item: AnyItem, body_kg: float = 0.0) -> RepsAt:
    """A stand-in without a forecast: equal ratios of load are equal numbers of reps.

    `body_kg` is the body mass the exercise moves; where it is the load itself and unknown,
    a round figure stands in.
    """
    base = body_kg or body_reference(item)

    def reps(felt: float) -> float:
        return -math.log(max(felt + base, 1.0)) / LOAD_PER_REP

    return reps


def body_reference(item: AnyItem) -> float:
    """A round body mass in kilograms where the body is the load; else nothing."""
    return BODY_REFERENCE_KG if item.kind in _ON_BODY else 0.0


def reps_of(felt: Floats, reps_at: RepsAt) -> Floats:
    """Reps at each felt load, asking once for each different load."""
    distinct, back = np.unique(felt, return_inverse=True)
    return np.array([clipped(reps_at(float(one))) for one in distinct])[back]


def clipped(reps: float) -> float:
    """Reps kept inside the table, so that no load is infinitely far off.

    Raises ValueError for what is not a number.
    """
    if math.isnan(reps):
        raise ValueError("the load-to-reps table gave no number")
    return min(max(reps, -_MOST_REPS), _MOST_REPS)


def costs_from(target: Target, felt: Floats, reps: Floats, asked: float) -> Floats:
    """Weighted reps between each felt load, with its reps, and the target's reps.

    Forbidden loads cost infinity; the lightest is never forbidden: something must be on.
    """
    costs = np.asarray(_WEIGHTS.get(target.kind, 1.0) * np.abs(reps - asked))
    if target.ceiling:
        above = felt > target.felt_kg + 1e-9
        costs = np.where(above & (felt > felt.min()), np.inf, costs)
    return costs
