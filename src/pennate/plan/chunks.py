"""Cuts from whole stops: what a stop can give a part of the body, all or nothing.

The relaxation takes a quarter of a stop and earns half of its square root. But a stop comes
whole, and with a root the stops of a week are worth together at most what each is worth
alone: √(b + t + Σa) ≤ √(b + t) + Σ(√(b + a) − √b), a being doses of whole stops (Nemhauser,
Wolsey and Fisher 1978 on functions of falling returns). So a row bounds a part's value by
stops priced alone, and by a tangent of the root for those that are small beside it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from pennate.plan.model import Terms, WeekModel

BASES = (0.05, 0.1, 0.25, 0.5, 1, 1.5, 2, 3)  # number: doses at which the tangent is tried
VIOLATED = 0.0001  # number: √sets by which a cut must bite to be worth a row


class Chunks:
    """What every stop can give each part, once for a model; then rows for its relaxations."""

    def __init__(self, model: WeekModel) -> None:
        options = model.problem.options
        self.gifts = []
        for (value, _, behind), part in zip(model.roots, model.root_parts, strict=True):
            doses = {
                column: options[index].doses(sets).get(part, 0.0)
                for (index, _, sets), column in model.stops.items()
            }
            columns = np.array([column for column, dose in doses.items() if dose], dtype=np.intp)
            gift = np.array([dose for dose in doses.values() if dose])
            self.gifts.append((value, columns, _prices(gift, behind), _bases(behind)))

    def cuts(self, values: Sequence[float]) -> list[tuple[Terms, float]]:
        """Rows that the relaxation's values pass, at most one a part: terms ≤ bound."""
        now, found = np.array(values), []
        for value, columns, prices, constants in self.gifts:
            worth = constants + prices @ now[columns]
            best = int(np.argmin(worth))
            if values[value] > worth[best] + VIOLATED:
                terms = zip(columns.tolist(), (-prices[best]).tolist(), strict=True)
                found.append(([(value, 1.0), *terms], float(constants[best])))
        return found


def _bases(behind: float) -> np.ndarray:
    """Value of a part before any stop, by base: the tangent at the base at nothing more."""
    tangents = [math.sqrt(base + behind) - base / (2 * math.sqrt(base + behind)) for base in BASES]
    return np.array([math.sqrt(behind), *tangents])


def _prices(gift: np.ndarray, behind: float) -> np.ndarray:
    """Price of each stop by base: what it is worth alone, or by the tangent if that is less."""
    alone = np.sqrt(behind + gift) - math.sqrt(behind)
    return np.array(
        [alone, *(np.minimum(alone, gift / (2 * math.sqrt(base + behind))) for base in BASES)]
    )
