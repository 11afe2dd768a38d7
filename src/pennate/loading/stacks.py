"""The cheapest sequence of plate stacks for a sequence of targets: exact, by interval DP.

A state is a stack of plates, inner to outer. Changing it means taking outer plates off and
putting plates on, so a plate stays on during one unbroken run of sets, and the runs of any
two plates on the sleeve are nested or apart. Hence, with the plates `c` staying on during
sets i … j, the cheapest plan S(i, j, c) either does set i with exactly `c` on, or puts one
more plate on for a run i … k and goes on from k + 1:

    S(i, j, c) = min( dev(i, c) + S(i+1, j, c),
                      min over k, p of put(k) + S(i, k, c + p) + S(k+1, j, c) )

`put(k)` is two moves (on and off), or one where the run lasts to the end: nothing asks for
the bar to be emptied. A plate that goes on outside a lighter one costs a little more. A
drop starts no run, so that it only strips, and must strip at least one plate. All `c` are
handled at once as arrays over plate multisets, deepest first.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from pennate.loading.sleeves import Sleeve

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]
Stack = tuple[int, ...]
"""Indices of plates, inner to outer."""


@dataclass(frozen=True, slots=True)
class Space:
    """All plate multisets of a sleeve up to a mass and a depth, shallow ones first."""

    counts: Ints
    mass: Floats
    """Kilograms on one place."""
    below: Ints
    """By plate, then row: the row with one more of it; past the last where there is none."""
    untidy: Floats
    """By plate, then row: one where this plate would go on outside a lighter one."""
    levels: tuple[slice, ...]
    """Rows by number of plates."""

    def row(self, counts: tuple[int, ...]) -> int:
        """The row of a multiset; raises ValueError where it is not in the space."""
        hits = np.flatnonzero((self.counts == np.array(counts)).all(axis=1))
        if not hits.size:
            raise ValueError("this stack is not in the space")
        return int(hits[0])

    @property
    def depth(self) -> Ints:
        """Plates in each row."""
        return np.asarray(self.counts.sum(axis=1))

    def only(self, useful: Bools) -> Space:
        """The useful rows and everything they are built on."""
        keep = np.append(useful, [False])
        keep[0] = True
        for level in reversed(self.levels):
            keep[level] |= keep[self.below[:, level]].any(axis=0)
        kept = np.flatnonzero(keep[:-1])
        moved = np.full(len(keep), len(kept), np.int64)
        moved[kept] = np.arange(len(kept))
        return _space(
            self.counts[kept], self.mass[kept], moved[self.below[:, kept]], self.untidy[:, kept]
        )


@lru_cache(maxsize=12)  # number: cache size; a space can take tens of megabytes
def space_of(sleeve: Sleeve, most_kg: float, most_plates: int) -> Space:
    """Enumerate the multisets of a sleeve whose plates may all be on together."""
    counts = _grow(sleeve, most_kg, most_plates)
    counts = counts[np.argsort(counts.sum(axis=1), kind="stable")]
    masses = _masses(sleeve)
    lighter = (masses[:, None] > masses[None, :]).astype(np.int64)
    untidy = ((lighter @ counts.T) > 0).astype(float)
    return _space(counts, counts @ masses, _children(counts, sleeve), untidy)


def _space(counts: Ints, mass: Floats, below: Ints, untidy: Floats) -> Space:
    depth = counts.sum(axis=1)
    edges = np.searchsorted(depth, np.arange(depth[-1] + 2))
    levels = tuple(slice(int(edges[i]), int(edges[i + 1])) for i in range(len(edges) - 1))
    return Space(counts, mass, below, untidy, levels)


def _masses(sleeve: Sleeve) -> Floats:
    return np.array([float(plate.mass.in_kg) for plate in sleeve.plates])


def _grow(sleeve: Sleeve, most_kg: float, most_plates: int) -> Ints:
    masses = _masses(sleeve)
    thick = np.array([plate.thickness_mm or 0 for plate in sleeve.plates])
    room = np.inf if sleeve.room_mm is None else sleeve.room_mm
    deepest = most_plates if sleeve.most is None else min(most_plates, sleeve.most)
    counts = np.zeros((1, len(sleeve.plates)), np.int64)
    size, mass, width = (np.zeros(1) for _ in range(3))
    for index in np.flatnonzero(sleeve.caps):
        many = np.arange(min(sleeve.caps[index], deepest) + 1)
        sizes = np.add.outer(size, many).ravel()
        heavier = np.add.outer(mass, many * masses[index]).ravel()
        wider = np.add.outer(width, many * thick[index]).ravel()
        fits = (sizes <= deepest) & (heavier <= most_kg + 1e-9) & (wider <= room)
        size, mass, width = sizes[fits], heavier[fits], wider[fits]
        counts = np.repeat(counts, len(many), axis=0)[fits]
        counts[:, index] = np.tile(many, len(fits) // len(many))[fits]
    return counts


def _children(counts: Ints, sleeve: Sleeve) -> Ints:
    radix = np.array([cap + 2 for cap in sleeve.caps], dtype=object)
    strides = np.array([int(np.prod(radix[:i])) for i in range(len(radix))], dtype=object)
    if len(radix) and int(np.prod(radix)) < np.iinfo(np.int64).max:
        strides = strides.astype(np.int64)
    codes = counts @ strides if len(radix) else np.zeros(len(counts), np.int64)
    order = np.argsort(codes)
    sorted_codes = codes[order]
    below = np.full(counts.shape[::-1], len(counts), np.int64)
    for index in range(counts.shape[1]):
        wanted = codes + strides[index]
        place = np.minimum(np.searchsorted(sorted_codes, wanted), len(codes) - 1)
        hit = sorted_codes[place] == wanted
        below[index, hit] = order[place[hit]]
    return below


@dataclass(slots=True)
class _Tables:
    """S and A by length of the run of sets, then first set, then row.

    S carries one column more, infinite, for plates that cannot be put on.
    """

    spans: list[Floats] = field(default_factory=list)
    runs: list[Floats] = field(default_factory=list)

    def span(self, first: int, last: int, row: int) -> float:
        """S(first, last, row)."""
        return float(self.spans[last - first][first, row])

    def run(self, first: int, last: int, row: int) -> float:
        """A(first, last, row): the same with one more plate, and what putting it on costs."""
        return float(self.runs[last - first][first, row])


@dataclass(frozen=True, slots=True)
class Problem:
    """Costs of every set at every multiset, which sets only strip, and what a move costs."""

    space: Space
    deviations: tuple[Floats, ...]
    drops: tuple[bool, ...]
    move: float
    clumsy: float = 0.0
    """What putting a plate on outside a lighter one costs more."""


def solve_stacks(problem: Problem, start: Stack = ()) -> tuple[float, tuple[Stack, ...]]:
    """Least total cost and the stack of each set, from the plates that are on now."""
    tables = _fill(problem)
    return _from_start(problem, tables, start)


def _fill(problem: Problem) -> _Tables:
    tables = _Tables()
    costs = np.array(problem.deviations)
    for length in range(1, len(costs) + 1):
        best = _without_runs(problem, tables, costs, length)
        tables.runs.append(_with_runs(problem, best))
        tables.spans.append(best)
    return tables


def _without_runs(problem: Problem, tables: _Tables, costs: Floats, length: int) -> Floats:
    """For every run of sets of this length: its first set with only what stays on, or a run
    of one more plate that ends before the last set.
    """
    many, rows = len(costs) - length + 1, costs.shape[1]
    best = np.full((many, rows + 1), np.inf)
    best[:, :rows] = costs[:many]
    if length > 1:
        best[:, :rows] += tables.spans[length - 2][1 : many + 1, :rows]
        strips = [first for first in range(many) if problem.drops[first + 1]]
        best[strips, 1:] = np.inf  # a drop strips at least one plate, unless nothing is on
    for short in range(1, length):
        rest = tables.spans[length - short - 1][short : short + many, :rows]
        np.minimum(best[:, :rows], tables.runs[short - 1][:many] + rest, out=best[:, :rows])
    return best


def _with_runs(problem: Problem, best: Floats) -> Floats:
    """Runs with one more plate over all sets; improves `best`, deepest multisets first."""
    space, many = problem.space, len(best)
    price = np.full((many, 1), 2 * problem.move)
    price[-1] = problem.move  # the last one lasts to the end
    price[[first for first in range(many) if problem.drops[first]]] = np.inf
    untidy = problem.clumsy * space.untidy
    run = np.full((many, best.shape[1] - 1), np.inf)
    for level in reversed(space.levels):
        inner = best[:, space.below[:, level]] + untidy[:, level]
        run[:, level] = np.minimum.reduce(inner, axis=1, initial=np.inf) + price
        np.minimum(best[:, level], run[:, level], out=best[:, level])
    return run


def _from_start(problem: Problem, tables: _Tables, start: Stack) -> tuple[float, tuple[Stack, ...]]:
    """Strip the plates that are on now bit by bit, doing sets on the way."""
    rows = [row_of(problem.space, start[:kept]) for kept in range(len(start) + 1)]
    last = len(problem.deviations) - 1
    best: dict[tuple[int, int], tuple[float, int]] = {}
    for kept in range(len(start) + 1):
        for first in reversed(range(last + 2)):
            best[first, kept] = _trunk(problem, tables, rows, best, first, kept, len(start))
    cost = best[0, len(start)][0]
    stacks: list[Stack] = []
    first, kept = 0, len(start)
    while first <= last:
        stop = best[first, kept][1]
        if stop >= first:
            _unfold(problem, tables, first, stop, rows[kept], start[:kept], stacks)
        first, kept = stop + 1, kept - 1
    return cost, tuple(stacks)


def _trunk(
    problem: Problem,
    tables: _Tables,
    rows: list[int],
    best: dict[tuple[int, int], tuple[float, int]],
    first: int,
    kept: int,
    whole: int,
) -> tuple[float, int]:
    """Cheapest from set `first` on with `kept` of the first plates on, and where to strip."""
    last = len(problem.deviations) - 1
    if first > last:
        return 0.0, last
    options: list[tuple[float, int]] = []
    stuck = problem.drops[first] and kept == whole and kept > 0 and first == 0
    if not stuck:
        options.append((tables.span(first, last, rows[kept]), last))
    if kept > 0:
        for stop in range(first - 1, last + 1):
            if stop >= first and (stuck or stop == last):
                continue
            done = tables.span(first, stop, rows[kept]) if stop >= first else 0.0
            options.append((done + problem.move + best[stop + 1, kept - 1][0], stop))
    return min(options)


def row_of(space: Space, stack: Stack) -> int:
    """The row of the plates of a stack."""
    counts = np.zeros(space.counts.shape[1], np.int64)
    for index in stack:
        counts[index] += 1
    return space.row(tuple(int(many) for many in counts))


def _unfold(
    problem: Problem,
    tables: _Tables,
    first: int,
    last: int,
    row: int,
    stack: Stack,
    stacks: list[Stack],
) -> None:
    """Follow the cheapest choices of S(first, last, row); appends one stack a set."""
    while first <= last:
        cut = _choice(problem, tables, (first, last), row)
        if cut is None:
            stacks.append(stack)
            first += 1
            continue
        below = problem.space.below[:, row]
        inner = tables.spans[cut - first][first, below]
        plate = int(np.argmin(inner + problem.clumsy * problem.space.untidy[:, row]))
        _unfold(problem, tables, first, cut, int(below[plate]), (*stack, plate), stacks)
        first = cut + 1


def _choice(problem: Problem, tables: _Tables, sets: tuple[int, int], row: int) -> int | None:
    """Where the run of one more plate ends in the cheapest plan; None where none begins."""
    first, last = sets
    whole = tables.span(first, last, row)
    for cut in range(first, last + 1):
        rest = tables.span(cut + 1, last, row) if cut < last else 0.0
        if tables.run(first, cut, row) + rest <= whole:
            return cut if not _alone(problem, tables, sets, row) <= whole else None
    return None


def _alone(problem: Problem, tables: _Tables, sets: tuple[int, int], row: int) -> float:
    """The first set with nothing more than what stays on."""
    first, last = sets
    done = float(problem.deviations[first][row])
    if first == last:
        return done
    if problem.drops[first + 1] and row > 0:
        return np.inf
    return done + tables.span(first + 1, last, row)
