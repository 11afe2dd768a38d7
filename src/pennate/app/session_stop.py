"""One exercise in its place in a session, as the choice of its loads needs to know it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from pennate.app.back_again import Back
from pennate.core.evidence.session import LARGEST_RAISE, PAIN_LOAD_SHARE
from pennate.estimate import Exposure

SAME_LOAD_KG = 0.02
"""Loads closer than this are one load, written in two units."""

Block = tuple[int, int]
"""Stop and index of its prescribed sets."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """What the chooser needs to know of one exercise in its place."""

    index: int
    base: Exposure
    """The exercise, item, variant and aids; load, kind, side and rest are set per slot."""
    body_kg: float
    """Body mass the exercise moves; part of the felt load."""
    rungs: tuple[float, ...] = ()
    """Felt loads the item can make, without body mass, ascending."""
    spared: bool = False
    """A joint it loads hurts at 3 to 5 of 10."""
    back: Back | None = None
    """How she comes back to it after four weeks or more; None where she does it as usual."""
    fixed: Mapping[int, float] = field(default_factory=dict)
    """Felt load without body mass of blocks whose load is written, as this gym can make it."""
    unmade: Mapping[int, str] = field(default_factory=dict)
    """Why such a block has another load than the written one, where this gym cannot make that."""
    count: int | None = None
    """How many dumbbells or kettlebells she holds; None is what is usual."""

    @property
    def held_down(self) -> bool:
        """Whether nothing is raised: the first week back, and the first time of an exercise."""
        return self.back is not None and not self.back.second_week

    def eased(self, added_kg: float) -> float:
        """The load for a sore joint: a fifth less of the whole that is moved."""
        return (added_kg + self.body_kg) * PAIN_LOAD_SHARE - self.body_kg

    @property
    def has_load(self) -> bool:
        """Whether there is a load to choose."""
        return len(self.rungs) > 1

    @property
    def lightest_kg(self) -> float:
        """Felt load of the item with nothing added, without body mass."""
        return self.rungs[0] if self.rungs else 0.0

    def most_after(self, anchor: float) -> float:
        """The heaviest load to go to at once: a tenth more, or one step where steps are larger.

        The first week back after four weeks nothing is raised.
        """
        if self.held_down:
            return anchor
        tenth = (anchor + self.body_kg) * (1 + LARGEST_RAISE) - self.body_kg
        step = next((rung for rung in self.rungs if rung > anchor + SAME_LOAD_KG), anchor)
        return max(tenth, step)
