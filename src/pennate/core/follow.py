"""The loads of somebody who follows a routine: from one remembered set to what can be loaded.

The formulas of the passed-on page, and all of them: a tabled share of what was moved, rounded
down to a step, and reps to failure read from a table between its knots. The page's script says
the same in its own language and is tested against this. All amounts are whole thousandths of
the unit, shares whole thousandths, tabled reps whole tenths, so both compute alike to the last
digit. Tables are made by the strength model (`app.stranger`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

THOUSAND = 1000
FINEST = 100
"""Where any load can be had, it is told to a tenth."""


class Source(StrEnum):
    """Where the load of a group of sets comes from on the page."""

    TABLE = "table"
    OF = "of"
    """A share of the load of an earlier group."""
    LIGHTEST = "lightest"
    NONE = "none"
    """Told in words only: a band, a hold, body weight where it says so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Alike sets as the page needs them."""

    source: Source
    shares: tuple[int, ...] = ()
    """For a remembered set of 1, 2, 3 … reps to failure, in thousandths of what was moved."""
    of: int = 0
    """Index of the group a share is taken of."""
    share: int = THOUSAND
    tired: tuple[int, int] = (THOUSAND, THOUSAND)
    """By how much the load feels heavier in the first and the last of the sets, in thousandths."""
    reserve: int = 0
    warm_up: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One exercise on one kind of equipment, and how its loads are found."""

    key: str
    groups: tuple[Group, ...]
    curve: int
    """Index of its table of reps."""
    kind: str
    carried: int = 0
    """Thousandths of body weight that are moved too."""
    together: bool = False
    """Both dumbbells are counted together, as body weight is moved beside them."""
    helped: bool = False
    """The number is what helps: it counts below nought."""
    bodily: bool = False
    """Done with body weight alone where nothing is added."""
    helpable: bool = False
    """At body weight a band or a machine can take some of it off, where it is too much."""


@dataclass(frozen=True, slots=True)
class Curves:
    """Reps to failure by what is moved, as a share of what was moved in the remembered set."""

    knots: tuple[int, ...]
    """Shares in thousandths, rising."""
    tables: tuple[tuple[tuple[tuple[int, int], ...], ...], ...]
    """By curve, by remembered reps less one, by knot: the 80 % interval in tenths of a rep."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """What a follower typed, in thousandths of the unit; reps to failure are counted together."""

    load: int
    reps: int
    reserve: int = 0
    """Nought where it was not known: that reads the set as no stronger than it was."""
    lightest: int = 0
    step: int = 0
    body: int = 0


@dataclass(frozen=True, slots=True)
class Told:
    """A group's load (None: lighter than the lightest there), and reps likely at it."""

    load: int | None
    first: tuple[int, int] | None
    last: tuple[int, int] | None


def loads_for(option: Option, typed: Typed, curves: Curves) -> tuple[Told | None, ...]:
    """Each group's load and reps; None where the load is told in words only."""
    table = curves.tables[option.curve]
    known = min(typed.reps + typed.reserve, len(table)) - 1
    carried = typed.body * option.carried // THOUSAND
    signed = -typed.load if option.helped else typed.load
    moved = signed + carried
    loads: list[int | None] = []
    told: list[Told | None] = []
    for group in option.groups:
        load = _load(group, option, typed, known, loads, carried)
        loads.append(load)
        if group.source is Source.NONE:
            told.append(None)
            continue
        if load is None or group.warm_up:
            told.append(Told(load, None, None))
            continue
        first, last = (
            _reps(curves.knots, table[known], (load + carried) * tired // moved, group.reserve)
            for tired in group.tired
        )
        told.append(Told(load, first, last))
    return tuple(told)


def _load(
    group: Group,
    option: Option,
    typed: Typed,
    known: int,
    loads: Sequence[int | None],
    carried: int,
) -> int | None:
    double = 2 if option.together else 1
    lightest, step = typed.lightest * double, typed.step * double
    if group.source is Source.NONE:
        return None
    if group.source is Source.LIGHTEST:
        return lightest
    if group.source is Source.TABLE:
        base, share = (-typed.load if option.helped else typed.load), group.shares[known]
    else:
        earlier = loads[group.of]
        if earlier is None:
            return None
        base, share = earlier, group.share
    wanted = (base + carried) * share // THOUSAND - carried
    # Warm-up sets before a load without help are without it too.
    taken_off = option.helpable and not (group.warm_up and base >= 0)
    helped = option.helped or taken_off
    return rounded_down(wanted, lightest, step, bodily=option.bodily, helped=helped)


def rounded_down(
    wanted: int, lightest: int, step: int, *, bodily: bool = False, helped: bool = False
) -> int | None:
    """The heaviest load that can be had and is not above the wanted; None where there is none.

    Body weight alone stands where less than it is wanted and nothing helps; help rounds up, to
    more of it.
    """
    by = step or FINEST
    if helped:
        return wanted // by * by
    if bodily:
        return max(wanted, 0) // by * by
    return None if wanted < lightest else lightest + (wanted - lightest) // by * by


def _reps(
    knots: Sequence[int], rows: Sequence[tuple[int, int]], share: int, reserve: int
) -> tuple[int, int]:
    """The 80 % interval of reps when stopped at the reserve: low rounded down, high up."""
    low, high = (between(knots, [row[at] for row in rows], share) for at in (0, 1))
    return max(low // 10 - reserve, 0), max(-(-high // 10) - reserve, 0)


def between(knots: Sequence[int], values: Sequence[int], at: int) -> int:
    """A table read between its knots, straight; beyond its ends as at them. Rounded down."""
    if at <= knots[0]:
        return values[0]
    for (left, right), (here, there) in zip(pairwise(knots), pairwise(values), strict=True):
        if at <= right:
            return here + (there - here) * (at - left) // (right - left)
    return values[-1]
