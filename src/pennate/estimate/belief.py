"""The joint Gaussian belief: shared factors of the person and blocks of exercise families.

While a session is open, shared factors and the families done in it are one joint Gaussian.
A family at rest is kept as a regression on the shared factors (`Resting`), so that what is
learned elsewhere reaches it when it is next looked at, at no cost before that. Residual
correlation between two families given the shared factors is dropped when a session closes.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

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


class Resting(NamedTuple):
    """A family at rest: mean `at + by · shared`, covariance `rest` given the shared factors.

    `week`, `spread`, `shift` and `trained` say where the shared clocks stood when it was
    put away.
    """

    at: Array
    by: Array
    rest: Array
    nodes: tuple[str, ...]
    week: float
    spread: Array
    shift: float
    trained: float


def diagonal(square: Array) -> Array:
    """The diagonal of a matrix kept in one piece, to be changed in place."""
    return square.reshape(-1)[:: len(square) + 1]


@dataclass(slots=True)
class Belief:
    """Mean and covariance over shared factors and the families woken in this session."""

    mean: Array
    cov: Array
    offsets: dict[str, int]
    nodes: dict[str, tuple[str, ...]]
    loadings: dict[tuple[object, ...], Array] = field(default_factory=dict)
    """What was worked out about places of these elements; forgotten when they move."""

    def copy(self) -> Belief:
        """An independent copy; arrays are never changed in place, so they are shared."""
        return Belief(
            self.mean, self.cov, self.offsets.copy(), self.nodes.copy(), self.loadings.copy()
        )

    def wake(self, family: str, block: Resting) -> None:
        """Join a family to the open session."""
        cross = block.by.dot(self.cov[:LASTING])
        old = len(self.mean)
        size = old + len(block.at)
        cov = np.empty((size, size))
        cov[:old, :old] = self.cov
        cov[old:, :old] = cross
        cov[:old, old:] = cross.T
        cov[old:, old:] = block.rest + cross[:, :LASTING].dot(block.by.T)
        mean = np.empty(size)
        mean[:old] = self.mean
        mean[old:] = block.at + block.by.dot(self.mean[:LASTING])
        self.mean, self.cov = mean, cov
        self.offsets[family] = old
        self.nodes[family] = block.nodes
        self.loadings.clear()

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
        self.loadings.clear()

    def rest(self, week: float, spread: Array, shift: float, trained: float) -> dict[str, Resting]:
        """Put every woken family to rest and keep the shared factors alone."""
        cross = self.cov[:, :LASTING]
        by = cross.dot(np.linalg.inv(cross[:LASTING]))
        at = self.mean - by.dot(self.mean[:LASTING])
        resting = {}
        for family, start in self.offsets.items():
            own = slice(start, start + FAMILY + len(self.nodes[family]))
            regression = by[own]
            left = self.cov[own, own] - regression.dot(cross[own].T)
            left = 0.5 * (left + left.T)
            variances = diagonal(left)
            np.maximum(variances, 1e-12, out=variances)
            nodes = self.nodes[family]
            resting[family] = Resting(
                at[own], regression, left, nodes, week, spread, shift, trained
            )
        self.mean = self.mean[:SHARED]
        self.cov = self.cov[:SHARED, :SHARED]
        self.offsets = {}
        self.nodes = {}
        self.loadings.clear()
        return resting

    def move(self, direction: Array, variance: float, shift: float, after: float) -> None:
        """Condition on a scalar whose mean moved by `shift` and whose variance is now `after`.

        `direction` is the covariance of every element with the scalar.
        """
        self.mean = self.mean + direction * (shift / variance)
        factor = (after - variance) / (variance * variance)
        self.cov = self.cov + direction[:, None] * (direction * factor)

    def shift(self, rows: Array, bends: Array) -> None:
        """Condition on an outcome by its log likelihood's gradient and, below that, curvature.

        `rows` are the covariances of the scalars it speaks of with every element.
        """
        moved = bends.dot(rows)
        self.mean = self.mean + moved[0]
        cov = rows.T.dot(moved[1:])
        cov += self.cov
        self.cov = cov
