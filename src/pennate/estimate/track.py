"""What stays the same about one exercise on one equipment, done one way, on one side."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from pennate.core.evidence import strength as s
from pennate.core.evidence import strength_levels as lv

if TYPE_CHECKING:
    from pennate.core.performed import Side
    from pennate.estimate.exposure import Exposure
    from pennate.estimate.priors import ExercisePrior

TrackKey = tuple[str, str, str, str, tuple[str, ...], "Side | None", bool]


@dataclass(frozen=True, slots=True)
class Track:
    """A strength with a level of its own: a sum of shared factors, family and nodes."""

    key: TrackKey
    prior: ExercisePrior
    nodes: tuple[tuple[str, float], ...]
    """Level nodes (name, prior SD); the first belongs to the equipment."""

    @property
    def exercise(self) -> str:
        """The exercise's id."""
        return self.key[0]

    @property
    def strange(self) -> bool:
        """Whether its numbers mean nothing beside themselves."""
        return _is_strange(self.prior, label=self.key[-1])


class Usual(NamedTuple):
    """What is usual for one track: running mean log load, and sets behind it."""

    log_load: float
    sets: int


NOTHING_USUAL = Usual(0.0, 0)


def track_key(exposure: Exposure) -> TrackKey:
    """What tells strengths of one exercise apart."""
    return (
        exposure.exercise,
        exposure.equipment,
        exposure.variant,
        exposure.style,
        exposure.aids,
        exposure.side,
        exposure.label,
    )


def track_of(key: TrackKey, prior: ExercisePrior) -> Track:
    """The level nodes an exercise done this way consists of."""
    exercise, equipment, variant, style, aids, side, label = key
    nodes = [(f"on {exercise} {equipment} {label}", _equipment_sd(prior, label=label))]
    if prior.family != exercise:
        nodes.append((f"as {exercise}", s.SIBLING_SD))
    if variant or style or aids:
        way = f"way {exercise} {equipment} {variant} {style} {' '.join(aids)}"
        nodes.append((way, s.VARIANT_SD))
    if side is not None:
        nodes.append((f"side {exercise} {side}", s.SIDE_SD))
    return Track(key, prior, tuple(nodes))


def _equipment_sd(prior: ExercisePrior, *, label: bool) -> float:
    if _is_strange(prior, label=label):
        return s.FREE_SD
    level = s.LEVEL_SD if prior.known else lv.OWN_LEVEL_SD
    return math.hypot(s.EQUIPMENT_SD, level)


def _is_strange(prior: ExercisePrior, *, label: bool) -> bool:
    return label or not prior.shares
