"""Loads that the week writes, as this gym can make them, and what is said where it cannot."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from pennate.app.slots import block_at
from pennate.core.felt import felt_kg
from pennate.core.gym import AnyItem, Gym, Ladder, carrier_of
from pennate.core.load_words import READING_WORDS
from pennate.core.loaded import Loaded
from pennate.core.prescribed import LoadRule, PrescribedSets
from pennate.core.quantities import LoadReading
from pennate.errors import InputError
from pennate.loading import Written, ladder, read_load

PAIR = 2


@dataclass(frozen=True, slots=True)
class WrittenLoads:
    """The written loads of an exercise by block, felt without body mass in kilograms."""

    felt_kg: dict[int, float] = field(default_factory=dict)
    unmade: dict[int, str] = field(default_factory=dict)
    """Why a block has another load than its written one: this gym cannot make that."""


def written_loads(
    sets: Sequence[PrescribedSets], gym: Gym, item: AnyItem, *, known: bool
) -> WrittenLoads:
    """What the week writes, or the nearest this gym has; the lighter beside it while it is new."""
    found, count = WrittenLoads(), held_count(sets, item)
    for place, one in enumerate(sets):
        mass, block = one.load.mass, block_at(place)
        if mass is None:
            continue
        written = Written(amount=mass.amount, unit=mass.unit, reading=one.load.reading)
        try:
            found.felt_kg[block] = read_load(gym, item, written, count).felt_kg
        except InputError:  # it is not here; what stands in for it is said with the set
            felt = _felt(item, written)
            near = _near(ladder(gym, item, count), felt, known=known)
            found.felt_kg[block] = near.felt_kg
            instead = _instead(near, felt, known=known)
            found.unmade[block] = f"{_asked(one.load)} is written, but {instead}"
    return found


def held_count(sets: Sequence[PrescribedSets], item: AnyItem) -> int | None:
    """Two where the week writes what each of a pair weighs; None leaves it to what is usual."""
    each = any(one.load.mass and one.load.reading is LoadReading.EACH for one in sets)
    return PAIR if each and isinstance(item, Ladder) else None


def _felt(item: AnyItem, written: Written) -> Fraction:
    carrier = carrier_of(item)
    return felt_kg(None, written.amount, written.unit, written.reading, Fraction(0), carrier)


def _near(rungs: Sequence[Loaded], felt: Fraction, *, known: bool) -> Loaded:
    """The nearest rung; none heavier than what is written while the exercise is new here."""
    below = bisect_right(rungs, felt, key=lambda rung: rung.felt)
    around = rungs[max(0, below - 1) : below + 1]
    return min(around, key=lambda rung: abs(rung.felt - felt)) if known else around[0]


def _asked(rule: LoadRule) -> str:
    if rule.mass is None:
        return ""
    if rule.mass.amount < 0:
        return f"{-rule.mass} of help"
    return f"{rule.mass} {READING_WORDS[rule.reading]}".rstrip()


def _instead(near: Loaded, felt: Fraction, *, known: bool) -> str:
    """What stands in for the written load, in words."""
    if felt < 0 <= near.felt:
        return "nothing here gives any"
    if near.felt < felt and not known:
        more = "with more help" if felt < 0 else "lighter"
        return f"not here: the next {more}, while it is new"
    return "not here: the nearest there is"
