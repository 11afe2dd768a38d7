"""The joint Gaussian belief: shared factors of the person and blocks of exercise families.

Shared factors, the families done in the open session, and standings of those at rest are one
joint Gaussian. A standing is an exercise's own level, beside what is shared, at the reps where
it is known best: what exercises owe to one day, or to a change of the person, stays common to
them while they rest. Everything else of a family at rest is a regression on the shared factors
and its standings (`Resting`), so that what is learned elsewhere reaches it when it is next
looked at, at no cost before that. What is left of correlation between families is dropped.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import chain
from typing import NamedTuple

import numpy as np

from pennate.estimate.aside import Aside, shares, stacked
from pennate.estimate.curve import Array
from pennate.estimate.priors import GROUPS

GENERAL = 0
MUSCLES = 1
SLOPE = MUSCLES + len(GROUPS)
SHAPE = SLOPE + 1
SLOW = SHAPE + 1
SLOW_S = SLOW + 1
ACUTE = SLOW_S + 1
ACUTE_S = ACUTE + 1
LIGHTER = ACUTE_S + 1
BIAS = LIGHTER + 1
TREND = BIAS + 1
GAIN = TREND + 1
LASTING = GAIN + 1
"""Number of shared factors that last from day to day."""
SLEEP = LASTING
DAY = SLEEP + 1
SHARED = DAY + 1

LEVEL, OWN_TREND, OWN_GAIN, OWN_SLOPE, OWN_SHAPE, OWN_SLOW, OWN_ACUTE = range(7)  # number: places
OWN_DAY = OWN_ACUTE + 1
FAMILY = OWN_DAY + 1
"""Numbers before a family's level nodes (equipment, variant, side …)."""
_WAYS = slice(OWN_SLOPE, OWN_DAY)
"""A family's own curve, and how it tires her."""
_LEFT_LEAST = 1e-12


@dataclass(frozen=True, slots=True)
class Clock:
    """Where shared time stands: weeks, spread added so far, expected shift so far.

    `lost` is the loss of a layoff not yet regained, `trained` the weeks since the first
    session without the rest of layoffs: strength grows by those alone.
    """

    week: float
    spread: Array
    shift: float
    lost: float
    trained: float

    @classmethod
    def start(cls) -> Clock:
        """Before the first session."""
        return cls(0.0, np.zeros(LASTING), 0.0, 0.0, 0.0)


class Resting(NamedTuple):
    """A family at rest: mean `at + by · known`, covariance `rest` given what is known.

    Known are the shared factors, then its standings. `since` is when it came to rest.
    """

    at: Array
    by: Array
    rest: Array
    nodes: tuple[str, ...]
    since: Clock


def _surest(level: Array, left: Array) -> Array:
    """Loadings of a family's own levels, moved to the reps and the fatigue they are known at.

    That is, without what the covariance `left` makes them share with its curve and fatigue.
    """
    standings = level.copy()
    ways = left[_WAYS]
    standings[:, _WAYS] -= np.linalg.solve(ways[:, _WAYS], ways.dot(level.T)).T
    return standings


def _given_standings(standings: Array, block: Resting) -> Resting:
    """A family that is known given the shared factors, as it is given its standings too."""
    covered = block.rest.dot(standings.T)
    own = shares(standings.dot(covered), covered)
    rest = block.rest - own.dot(covered.T)
    rest = 0.5 * (rest + rest.T)
    variances = diagonal(rest)
    np.maximum(variances, _LEFT_LEAST, out=variances)
    by = block.by - own.dot(standings.dot(block.by))
    at = block.at - own.dot(standings.dot(block.at))
    return Resting(at, np.hstack((by, own)), rest, block.nodes, block.since)


def diagonal(square: Array) -> Array:
    """The diagonal of a matrix kept in one piece, to be changed in place."""
    return square.reshape(-1)[:: len(square) + 1]


@dataclass(slots=True)
class Belief:
    """Mean and covariance over shared factors and standings; in an open session over shared
    factors and the families woken in it, whose standings stay as they were.

    `offsets` say where each woken family begins, `standings` where those of a family are.
    """

    mean: Array
    cov: Array
    offsets: dict[str, int] = field(default_factory=dict)
    standings: dict[str, range] = field(default_factory=dict)
    nodes: dict[str, tuple[str, ...]] = field(default_factory=dict)
    loadings: dict[tuple[object, ...], Array] = field(default_factory=dict)
    """What was worked out about places of these elements; forgotten when they move."""
    aside: Aside | None = None
    """Standings of the other families while a session is open."""

    def copy(self) -> Belief:
        """An independent copy; arrays are never changed in place, so they are shared."""
        return Belief(
            self.mean,
            self.cov,
            self.offsets.copy(),
            self.standings.copy(),
            self.nodes.copy(),
            self.loadings.copy(),
            self.aside,
        )

    def wake(self, family: str, block: Resting) -> None:
        """Join a family to the open session."""
        if self.aside is None:
            self.aside = Aside.of(self.standings, self.mean, self.cov, SHARED)
            self.standings = {}
            self.mean, self.cov = self.mean[:SHARED], self.cov[:SHARED, :SHARED]
        if family in self.aside.where:
            aside, start = self.aside, len(self.mean)
            own = slice(aside.where[family].start, aside.where[family].stop)
            self._append(self._known(), aside.at[own], aside.by[own], aside.left[own, own])
            self.standings[family] = range(start, len(self.mean))
            self.aside = aside.given(family)
        known = [*range(LASTING), *self.standings.get(family, ())]
        self.offsets[family] = len(self.mean)
        self._append(known, block.at, block.by, block.rest)
        self.nodes[family] = block.nodes
        self.loadings.clear()

    def _known(self) -> list[int]:
        """What is known where standings are set aside: shared factors, standings of the woken."""
        return [*range(SHARED), *chain.from_iterable(self.standings.values())]

    def _append(self, known: list[int], at: Array, by: Array, left: Array) -> None:
        """New elements `at + by · known`, with covariance `left` given what is known."""
        cross = by.dot(self.cov[known])
        old = len(self.mean)
        cov = np.empty((old + len(at), old + len(at)))
        cov[:old, :old] = self.cov
        cov[old:, :old] = cross
        cov[:old, old:] = cross.T
        cov[old:, old:] = left + cross[:, known].dot(by.T)
        self.mean = np.concatenate((self.mean, at + by.dot(self.mean[known])))
        self.cov = cov

    def add_node(self, family: str, node: str, sd: float) -> None:
        """A new level node for a woken family, which must be the last one woken or moved last."""
        start = self.offsets[family]
        at = start + FAMILY + len(self.nodes[family])
        self.mean = np.insert(self.mean, at, 0.0)
        cov = np.insert(np.insert(self.cov, at, 0.0, axis=0), at, 0.0, axis=1)
        cov[at, at] = sd * sd
        self.cov = cov
        self.nodes[family] = (*self.nodes[family], node)
        for other, offset in self.offsets.items():
            if offset > start:
                self.offsets[other] = offset + 1
        for other, places in self.standings.items():
            if places.start > start:
                self.standings[other] = range(places.start + 1, places.stop + 1)
        self.loadings.clear()

    def rest(self, levels: dict[str, Array], now: Clock) -> dict[str, Resting]:
        """Put every woken family to rest; shared factors and standings remain.

        `levels` are loadings of each woken family's own levels on its elements, a row for each
        exercise.
        """
        if self.aside is None:
            return {}
        cross = self.cov[:, :LASTING]
        by = cross.dot(np.linalg.inv(cross[:LASTING]))
        at = self.mean - by.dot(self.mean[:LASTING])
        resting, rows = {}, []
        for family, level in levels.items():
            start = self.offsets[family]
            own = slice(start, start + level.shape[1])
            left = self.cov[own, own] - by[own].dot(cross[own].T)
            left = 0.5 * (left + left.T)
            standings = _surest(level, left)
            resting[family] = _given_standings(
                standings, Resting(at[own], by[own], left, self.nodes[family], now)
            )
            wide = np.zeros((len(standings), len(self.mean)))
            wide[:, own] = standings
            rows.append(wide)
        self._keep(self.aside.others(levels), dict(zip(levels, rows, strict=True)))
        return resting

    def _keep(self, aside: Aside, new: dict[str, Array]) -> None:
        """Keep shared factors and standings alone: those set `aside`, and new ones by loadings."""
        known, ends = self._known(), np.concatenate(list(new.values()))
        start = SHARED + len(aside.at)
        cross = np.concatenate(
            (self.cov[:SHARED], aside.by.dot(self.cov[known]), ends.dot(self.cov))
        )
        cov = np.empty((len(cross), len(cross)))
        cov[:, :SHARED] = cross[:, :SHARED]
        cov[:, SHARED:start] = cross[:, known].dot(aside.by.T)
        cov[:, start:] = cross.dot(ends.T)
        cov[SHARED:start, SHARED:start] += aside.left
        others = aside.at + aside.by.dot(self.mean[known])
        self.mean = np.concatenate((self.mean[:SHARED], others, ends.dot(self.mean)))
        self.cov = cov
        counts = {family: len(rows) for family, rows in (aside.where | new).items()}
        self.standings = stacked(counts, SHARED)
        self.aside = None
        self.offsets = {}
        self.nodes = {}
        self.loadings.clear()

    def move(self, direction: Array, variance: float, shift: float, after: float) -> None:
        """Condition on a scalar whose mean moved by `shift` and whose variance is now `after`.

        `direction` is the covariance of every element with the scalar.
        """
        self.mean = self.mean + direction * (shift / variance)
        factor = (after - variance) / (variance * variance)
        self.cov = self.cov + direction[:, None] * (direction * factor)

    def widen(self, index: int, variance: float) -> None:
        """Add variance to one element."""
        cov = self.cov.copy()
        cov[index, index] += variance
        self.cov = cov

    def shift(self, rows: Array, bends: Array) -> None:
        """Condition on an outcome by its log likelihood's gradient and, below that, curvature.

        `rows` are the covariances of the scalars it speaks of with every element.
        """
        moved = bends.dot(rows)
        self.mean = self.mean + moved[0]
        cov = rows.T.dot(moved[1:])
        cov += self.cov
        self.cov = cov
