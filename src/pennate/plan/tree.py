"""Proof by branching: the bound comes down as weeks are split into kinds of weeks.

What is split on are counts of stops: on which days she trains at all, how many stops a day
or the week has, how many hold an exercise or train a part. A relaxation bounds each kind, with
tangents and cuts of its own; the largest bounds every week. Which count to split on is tried
for a few and remembered (reliability branching: Achterberg, Koch and Martin 2005). Nothing
here knows the best week, so the bounds do not depend on when a search finds it.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

from pennate.plan.chunks import Chunks
from pennate.plan.evaluate import broken_rules
from pennate.plan.highs import Solver
from pennate.plan.knapsack import Clock
from pennate.plan.model import WeekModel, tangents_at, week_model
from pennate.plan.problem import PlanProblem, Selection

CUT_ROUNDS = 12  # number: rounds of tangents and cuts at first; later ones move the bound little
CUTS_A_KIND = 1  # number: rounds for each kind of weeks after that
TRIED = 4  # number: counts tried before a split; the rest are judged by what splits did before
WHOLE = 1e-6  # number: rounding of counts
EVEN = 0.05  # number: how far from whole a count must be to be worth a split
LITTLE = 1e-6  # number: least fall of a bound, so that a product of two tells
FALLS_MOST = 0.02  # number: share of a bound; where nothing fits it falls by this much
DIRECT = 0.99  # number: credit from which a stop counts as one for a part
HALF = 0.5  # number: credit from which a stop counts as one for a part on a day

_Part = tuple[int, float]
"""A count, as a row or the complement of a column, and its value."""
Held = dict[int, tuple[float, float]]
"""Rows and the values they are held between."""


@dataclass(order=True, slots=True)
class _Kind:
    """A kind of weeks: what is held, its bound, where its relaxation was left."""

    order: float
    number: int
    held: Held = field(compare=False)
    basis: Any = field(compare=False)


@dataclass(slots=True)
class _Falls:
    """How far bounds fell where a count was split: sums for fewer and for more."""

    times: int = 0
    fewer: float = 0.0
    more: float = 0.0

    def guess(self, part: float) -> float:
        """Product of the falls to expect, `part` being what the count has above whole."""
        fewer, more = self.fewer * part / self.times, self.more * (1 - part) / self.times
        return max(LITTLE, fewer) * max(LITTLE, more)


class Tree:
    """Kinds of weeks, split one by one, the one with the largest bound first."""

    def __init__(self, problem: PlanProblem, halt: Callable[[], bool] = lambda: False) -> None:
        self.model = week_model(problem)
        _count_more(self.model)
        self.counts = self.model.counts
        self.solver = Solver(self.model.linear, halt)
        self.clock, self.chunks = Clock(self.model), Chunks(self.model)
        self.held: Held = {}
        self.falls: dict[int, _Falls] = {}
        self.kinds: list[_Kind] = []
        self.made = self.splits = 0
        self.found: list[Selection] = []
        """Weeks that relaxations hit upon."""
        self.settled = -math.inf
        """Bound of the kinds that are one week."""
        self._push(math.inf, {}, CUT_ROUNDS)
        self.dear = self._dear() if self.kinds else {}
        """How much less a week with a stop is worth at least; by option, day and sets."""

    @property
    def bound(self) -> float:
        """No week is worth more; infinite where no week keeps every rule."""
        if not self.made:
            return math.inf
        return max(self.settled, -self.kinds[0].order if self.kinds else -math.inf)

    @property
    def pivots(self) -> int:
        """Simplex pivots so far, what the work is counted in."""
        return self.solver.pivots

    @property
    def done(self) -> bool:
        """Whether nothing is left to split."""
        return not self.kinds or -self.kinds[0].order <= self.settled

    def split(self) -> None:
        """Split the kind with the largest bound in two."""
        self.splits += 1
        kind = heapq.heappop(self.kinds)
        self._turn_to(kind.held, kind.basis)
        now = self.solver.relax()
        if not math.isfinite(now):  # empty, or not solved: then its bound stands for good
            self.settled = max(self.settled, min(-kind.order, now))
            return
        top = min(-kind.order, now)
        point, at = self.solver.solution(), self.solver.where()
        parts = list(self._uneven(point.values, point.rows))
        if not parts:
            self._settle(kind, top, point.values)
            return
        key, count = self._best(kind.held, at, top, parts)
        for held in _halves(kind.held, key, count):
            self._turn_to(held, at)
            self._push(top, held, CUTS_A_KIND)

    def _dear(self) -> dict[tuple[int, int, int], float]:
        net = self.solver.solution().net
        return {stop: max(0.0, -net[column]) for stop, column in self.model.stops.items()}

    def _push(self, top: float, held: Held, rounds: int) -> None:
        bound = min(top, self._tighten(rounds))
        if bound > -math.inf:
            self.made += 1
            kind = _Kind(-bound, self.made, held, self.solver.where())
            heapq.heappush(self.kinds, kind)

    def _tighten(self, rounds: int) -> float:
        """Bound of what is held now, with cuts and tangents where its relaxation bends."""
        bound = self.solver.relax()
        for _ in range(rounds):
            if not math.isfinite(bound):
                break
            now = self.solver.solution()
            values = now.values
            more = tangents_at(self.model, values) + self.clock.cuts(values, now.prices)
            more += self.chunks.cuts(values)
            if not more:
                break
            for terms, high in more:
                self.solver.add(terms, high)
            bound = self.solver.relax()
        return bound

    def _settle(self, kind: _Kind, top: float, values: Sequence[float]) -> None:
        """A kind that is one week: its bound comes down to what that is worth."""
        week = self.model.selection(values)
        if not broken_rules(self.model.problem, week):
            self.found.append(week)
        more = tangents_at(self.model, values, exact=True)
        for terms, high in more:
            self.solver.add(terms, high)
        if more:
            self._push(top, kind.held, 0)
        else:
            self.settled = max(self.settled, top)

    def _turn_to(self, held: Held, basis: Any) -> None:
        for key in self.held.keys() - held.keys():
            self._hold(key, -math.inf, math.inf)
        for key, (low, high) in held.items():
            if self.held.get(key) != (low, high):
                self._hold(key, low, high)
        self.held = held
        self.solver.go_on(basis)

    def _hold(self, key: int, low: float, high: float) -> None:
        """Keep a row between two values, or for keys below 0 a column."""
        linear = self.model.linear
        if key < 0:
            own = linear.low[~key], linear.high[~key]
            self.solver.hold_column(~key, max(low, own[0]), min(high, own[1]))
        else:
            own = linear.rows[key][:2]
            self.solver.hold_row(key, max(low, own[0]), min(high, own[1]))

    def _uneven(self, values: Sequence[float], rows: Sequence[float]) -> Iterator[_Part]:
        """Counts that are not whole: days used before all others, single stops after them."""
        used = [(~column, values[column]) for column in self.model.used]
        if some := [one for one in used if _from_whole(one[1]) > WHOLE]:
            return iter(some)
        counts = ((row, rows[row]) for row in self.counts)
        if some := [one for one in counts if _from_whole(one[1]) > EVEN]:
            return iter(some)
        stops = ((~column, values[column]) for column in self.model.stops.values())
        return iter(one for one in stops if _from_whole(one[1]) > WHOLE)

    def _best(self, held: Held, at: Any, top: float, parts: list[_Part]) -> _Part:
        """The count whose split lets the bound fall most; some that are unknown are tried."""
        usual = _mean(self.falls.values())
        ranked = sorted(parts, key=lambda part: -self.falls.get(part[0], usual).guess(part[1] % 1))
        tried, best = 0, (-math.inf, ranked[0])
        for key, count in ranked:
            falls = self.falls.get(key)
            if falls is None:
                if tried == TRIED:
                    continue
                tried += 1
                falls = self._try(held, at, top, (key, count))
            best = max(best, (falls.guess(count % 1), (key, count)), key=lambda one: one[0])
        return best[1]

    def _try(self, held: Held, at: Any, top: float, part: _Part) -> _Falls:
        key, count = part
        fell = []
        for half in _halves(held, key, count):
            self._turn_to(half, at)
            fell.append(min(top * FALLS_MOST, max(0.0, top - self.solver.relax())))
        share = count % 1
        falls = _Falls(1, fell[0] / share, fell[1] / (1 - share))
        self.falls[key] = falls
        return falls


def _halves(held: Held, key: int, count: float) -> tuple[Held, Held]:
    """What is held, with a count at most, or at least, the whole numbers about its value."""
    low, high = held.get(key, (-math.inf, math.inf))
    below = math.floor(count)
    return {**held, key: (low, below)}, {**held, key: (below + 1, high)}


def _from_whole(count: float) -> float:
    return abs(count - round(count))


def _mean(falls: Iterable[_Falls]) -> _Falls:
    known = list(falls)
    if not known:
        return _Falls(1, 1.0, 1.0)
    return _Falls(len(known), sum(one.fewer for one in known), sum(one.more for one in known))


def _count_more(model: WeekModel) -> None:
    """Rows that bind nothing, for counts worth splitting on: of stops, in all and by part."""
    problem, linear = model.problem, model.linear
    parts = [part for part, worth in enumerate(problem.worth) if worth]
    counted = [list(model.stops.values())]
    counted += [model.giving(part, DIRECT) for part in parts]
    counted += [model.giving(part, HALF, day) for part in parts for day in range(len(problem.days))]
    for columns in sorted({tuple(columns) for columns in counted if len(columns) > 1}):
        model.counts.append(len(linear.rows))
        linear.row(-math.inf, [(column, 1.0) for column in columns], math.inf)
