"""One exercise: how strong, how sure, what comes next and why."""

from __future__ import annotations

from fractions import Fraction

from pennate.core.exercise import Exercise
from pennate.core.muscles import GROUP_SHARES, Part


def group_of(exercise: Exercise) -> str:
    """The gym word for what an exercise trains most."""
    weights = exercise.weights()
    if not weights:
        return "other"
    best = max(Part, key=lambda part: weights.get(part, Fraction(0)))
    return next((group.value for group, parts in GROUP_SHARES.items() if best in parts), "other")
