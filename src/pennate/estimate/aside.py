"""Standings of the exercises that are not done today: out of the way while a session is open.

What a set shows reaches them through what the open belief and they have in common, so it is
enough to bring them up to date when the session closes: the compressed filter of robot
mapping (Guivant and Nebot 2001), exact for a linear Gaussian belief.
"""

from __future__ import annotations

from collections.abc import Collection
from itertools import chain
from typing import NamedTuple

import numpy as np

from pennate.estimate.curve import Array

_LEAST = 1e-12
"""Variance that keeps a division from failing; a millionth of the load, squared."""


class Aside(NamedTuple):
    """Standings: mean `at + by · known`, covariance `left` given what is known.

    Known are elements of the open belief; `where` says which rows are a family's.
    """

    where: dict[str, range]
    at: Array
    by: Array
    left: Array

    @classmethod
    def of(cls, where: dict[str, range], mean: Array, cov: Array, known: int) -> Aside:
        """Standings that follow the first `known` elements of a joint belief."""
        cross = cov[known:, :known]
        by = cross.dot(np.linalg.inv(cov[:known, :known]))
        rows = {family: range(at.start - known, at.stop - known) for family, at in where.items()}
        at = mean[known:] - by.dot(mean[:known])
        return cls(rows, at, by, cov[known:, known:] - by.dot(cross.T))

    def given(self, family: str) -> Aside:
        """All of them when this family's standings are known too, after what is."""
        met = self.where[family]
        own = slice(met.start, met.stop)
        cross = self.left[:, own]
        by = shares(cross[own], cross)
        return Aside(
            self.where,
            self.at - by.dot(self.at[own]),
            np.hstack((self.by - by.dot(self.by[own]), by)),
            self.left - by.dot(cross.T),
        )

    def others(self, families: Collection[str]) -> Aside:
        """Those of all families but these."""
        rest = {name: rows for name, rows in self.where.items() if name not in families}
        rows = list(chain.from_iterable(rest.values()))
        where = stacked({name: len(own) for name, own in rest.items()})
        return Aside(where, self.at[rows], self.by[rows], self.left[np.ix_(rows, rows)])


def shares(among: Array, cross: Array) -> Array:
    """Regression on a few rows of covariance `among` themselves, and `cross` with the others."""
    if len(among) == 1:
        return cross / (among.item(0, 0) + _LEAST)
    parts: Array = cross.dot(np.linalg.inv(among + _LEAST * np.eye(len(among))))
    return parts


def stacked(counts: dict[str, int], start: int = 0) -> dict[str, range]:
    """Places of so many rows of each name, one after the other."""
    places = {}
    for name, count in counts.items():
        places[name] = range(start, start + count)
        start += count
    return places
