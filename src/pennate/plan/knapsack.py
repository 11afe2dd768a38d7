"""Cuts from the clock: what whole stops can be worth in a day's time, at given prices.

The relaxation fills a day with fractions of stops. At the prices it puts on sets and stops,
the best day of whole stops is an exact knapsack; its worth bounds every week, and the row
that says so pulls the relaxation toward whole stops (Kelley's cutting planes on the
day-by-day decomposition).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import TYPE_CHECKING

from pennate.core.evidence.dose import CHANGEOVER_S
from pennate.plan.problem import Option

if TYPE_CHECKING:
    from pennate.plan.model import Terms, WeekModel

VIOLATED = 0.0005  # number: √sets by which a cut must bite to be worth a row


@dataclass(frozen=True, slots=True)
class Priced:
    """An option at the relaxation's prices: worth of choosing it and of each set."""

    option: Option
    stop: float
    each: float


def best_day(priced: Sequence[Priced], seconds: float) -> float:
    """Most worth of whole stops in so many seconds, changeovers counted; never below 0.

    Options with the same first exercise exclude each other; other exclusions are left out,
    and seconds rounded down, so the answer bounds every real day from above.
    """
    import numpy as np

    room = max(0, ceil(seconds + CHANGEOVER_S))
    best = np.zeros(room + 1)
    classes: dict[str, list[Priced]] = {}
    for one in priced:
        classes.setdefault(one.option.exercises[0], []).append(one)
    for kin in classes.values():
        after = best.copy()
        for one in kin:
            for sets in range(one.option.least, one.option.most + 1):
                worth = one.stop + one.each * sets
                cost = floor(one.option.seconds(sets) + CHANGEOVER_S)
                if worth > 0 and cost <= room:
                    np.maximum(after[cost:], best[: room + 1 - cost] + worth, out=after[cost:])
        best = after
    return float(best[room])


def day_cuts(
    model: WeekModel, values: Sequence[float], row_prices: Sequence[float]
) -> list[tuple[Terms, float]]:
    """Rows that the relaxation's days pass, one a day at most: terms ≤ 0."""
    problem, linear = model.problem, model.linear
    net = dict(enumerate(linear.cost))
    for place, (_, _, terms) in enumerate(linear.rows):
        price = row_prices[place]
        if price and place not in model.inner:
            for column, factor in terms:
                net[column] -= price * factor
    found: list[tuple[Terms, float]] = []
    for day, seconds in enumerate(problem.seconds):
        keys = [key for key in model.chosen if key[1] == day]
        priced = [
            Priced(problem.options[key[0]], net[model.chosen[key]], net[model.sets[key]])
            for key in keys
        ]
        most = best_day(priced, seconds)
        terms = [(model.used[day], -most)]
        for key in keys:
            terms += [(model.chosen[key], net[model.chosen[key]])]
            terms += [(model.sets[key], net[model.sets[key]])]
        terms = [(column, factor) for column, factor in terms if factor]
        if sum(factor * values[column] for column, factor in terms) > VIOLATED:
            found.append((terms, 0.0))
    return found
