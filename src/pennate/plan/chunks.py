"""Cuts from whole stops: what a stop can give a part of the body, all or nothing.

The relaxation takes a quarter of a stop and earns half of its square root. But a stop comes
whole, and with a root the stops of a week are worth together at most what each is worth
alone: √(b + t + Σa) ≤ √(b + t) + Σ(√(b + a) − √b), a being doses of whole stops (Nemhauser,
Wolsey and Fisher 1978 on functions of falling returns). So a row bounds a part's value by
stops priced alone, and by a tangent of the root for those that are small beside it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pennate.plan.problem import Option

if TYPE_CHECKING:
    from pennate.plan.model import Terms, WeekModel

BASES = (0.0, 0.05, 0.1, 0.25, 0.5, 1, 1.5, 2, 3)  # number: doses at which the tangent is tried
VIOLATED = 0.0001  # number: √sets by which a cut must bite to be worth a row


@dataclass(frozen=True, slots=True)
class _Gift:
    """What a stop gives a part, with its columns and their values now."""

    option: Option
    chosen: int
    sets: int
    taken: float
    done: float
    each: float
    once: float

    @property
    def ratio(self) -> float:
        """Sets of the stop where it is taken at all."""
        if self.taken > VIOLATED:
            return self.done / self.taken
        return (self.option.least + self.option.most) / 2

    def alone(self, behind: float) -> tuple[float, float]:
        """Worth of the stop by itself: of choosing it, and of a set; a chord of the root.

        Between two whole numbers of sets the chord is the worth, beyond them above it.
        """
        option = self.option
        sets = max(option.least, min(math.floor(self.ratio), option.most - 1))
        low, high = (
            math.sqrt(max(0.0, behind + self.once + self.each * n)) for n in (sets, sets + 1)
        )
        step = high - low
        return low - math.sqrt(behind) - step * sets, step

    def at(self, prices: tuple[float, float]) -> float:
        """Value of the columns now at prices of choosing and of a set."""
        return prices[0] * self.taken + prices[1] * self.done


def chunk_cuts(model: WeekModel, values: Sequence[float]) -> list[tuple[Terms, float]]:
    """Rows that the relaxation's values pass, at most one a part: terms ≤ bound."""
    found: list[tuple[Terms, float]] = []
    for (value, _, behind), part in zip(model.roots, model.root_parts, strict=True):
        gifts = list(_gifts(model, values, part))
        worth, terms, constant = min(
            (_row(gifts, behind, base) for base in BASES), key=lambda row: row[0]
        )
        if values[value] > worth + VIOLATED:
            found.append(([(value, 1.0), *((c, -f) for c, f in terms if f)], constant))
    return found


def _gifts(model: WeekModel, values: Sequence[float], part: int) -> Iterator[_Gift]:
    doses = [
        (sum(d for p, d in o.per_set if p == part), sum(d for p, d in o.fixed if p == part))
        for o in model.problem.options
    ]
    for key, chosen in model.chosen.items():
        each, once = doses[key[0]]
        if each or once:
            sets = model.sets[key]
            option = model.problem.options[key[0]]
            yield _Gift(option, chosen, sets, values[chosen], values[sets], each, once)


def _row(gifts: Sequence[_Gift], behind: float, base: float) -> tuple[float, Terms, float]:
    """Worth of a part by the row with its tangent at `base`, its terms and its constant."""
    point = base + behind
    slope = 0.5 / math.sqrt(point) if point else math.inf
    constant = math.sqrt(point) - slope * base if point else 0.0
    total, terms = constant, []
    for gift in gifts:
        prices = gift.alone(behind)
        if slope < math.inf:
            prices = min(prices, (slope * gift.once, slope * gift.each), key=gift.at)
        total += gift.at(prices)
        terms += [(gift.chosen, prices[0]), (gift.sets, prices[1])]
    return total, terms, constant
