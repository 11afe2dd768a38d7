"""Cuts from the clock: what whole stops can be worth in a day's time, at given prices.

The relaxation fills a day with fractions of stops. At the prices it puts on stops, the best
day of whole stops is an exact knapsack; its worth bounds every week, and the row that says so
pulls the relaxation toward whole stops (Kelley's cutting planes on the day-by-day
decomposition).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import ceil, floor
from typing import TYPE_CHECKING

from pennate.core.evidence.dose import CHANGEOVER_S

if TYPE_CHECKING:
    from pennate.plan.model import Terms, WeekModel

VIOLATED = 0.0005  # number: √sets by which a cut must bite to be worth a row


class Clock:
    """The days of a model as knapsacks, once for a model; then rows for its relaxations."""

    def __init__(self, model: WeekModel) -> None:
        self.model = model
        options = model.problem.options
        self.days: list[list[tuple[int, str, int]]] = [[] for _ in model.problem.days]
        for (index, day, sets), column in model.stops.items():
            cost = floor(options[index].seconds(sets) + CHANGEOVER_S)
            self.days[day].append((column, options[index].exercises[0], cost))

    def cuts(
        self, values: Sequence[float], row_prices: Sequence[float]
    ) -> list[tuple[Terms, float]]:
        """Rows that the relaxation's days pass, one a day at most: terms ≤ 0."""
        net, found = self._net(row_prices), []
        for day, used in enumerate(self.model.used):
            if values[used] <= VIOLATED:
                continue
            worth = sum(net[column] * values[column] for column, _, _ in self.days[day])
            most = self._best(day, net)
            if worth > most * values[used] + VIOLATED:
                terms = [(used, -most), *((one[0], net[one[0]]) for one in self.days[day])]
                found.append(([(column, factor) for column, factor in terms if factor], 0.0))
        return found

    def _net(self, row_prices: Sequence[float]) -> list[float]:
        """What every column is worth once the rows outside its day have their price."""
        linear = self.model.linear
        net = list(linear.cost)
        for place, (_, _, terms) in enumerate(linear.rows):
            price = row_prices[place]
            if price and place not in self.model.inner:
                for column, factor in terms:
                    net[column] -= price * factor
        return net

    def _best(self, day: int, net: Sequence[float]) -> float:
        """Most worth of whole stops on a day, by `best_day`."""
        kin: dict[str, list[tuple[int, float]]] = {}
        for column, exercise, cost in self.days[day]:
            if net[column] > 0:
                kin.setdefault(exercise, []).append((cost, net[column]))
        return best_day(kin.values(), self.model.problem.seconds[day])


def best_day(kin: Iterable[Sequence[tuple[int, float]]], seconds: float) -> float:
    """Most worth of whole stops in so many seconds, changeovers counted; never below 0.

    Stops are seconds with a changeover, and worth; of each of the groups given one may stand.
    Other exclusions are left out, and seconds rounded down, so the answer bounds every real
    day from above.
    """
    import numpy as np

    room = max(0, ceil(seconds + CHANGEOVER_S))
    best = np.zeros(room + 1)
    for group in kin:
        after = best.copy()
        for cost, worth in group:
            if cost <= room:
                np.maximum(after[cost:], best[: room + 1 - cost] + worth, out=after[cost:])
        best = after
    return float(best[room])
