"""How a session stands: what was planned in the morning, and what holds after today's sets."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from pennate.app.choose import Chosen, needed, passing
from pennate.app.loads import Laid
from pennate.app.outline import Outline
from pennate.app.session_stop import Block
from pennate.app.slots import Slot
from pennate.core.evidence.session import TOO_LIGHT
from pennate.core.loaded import Loaded
from pennate.core.performed import PerformedSet
from pennate.core.week_time import Pace
from pennate.estimate import StrengthModel


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A set of loads for the open sets: chosen per block, laid out per set."""

    chosen: Mapping[Block, Chosen]
    laid: Mapping[str, Laid]
    anchors: Mapping[Block, float]
    """Loads that were held on to; felt kilograms without body mass."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """The session as it stands: planned loads, and the loads that hold now."""

    outline: Outline
    done: Mapping[str, PerformedSet]
    on: Mapping[str, Loaded]
    """States of done sets, where this gym can make them."""
    planned: Drawn
    now: Drawn
    model: StrengthModel
    """After today's sets."""
    pace: Pace
    """What turns the seconds of its sets into her minutes; see `app.session_pace`."""
    day: tuple[float, float] = (0.0, 0.0)
    """How far the day runs from what the morning expected, in log strength, and its SD."""


def odds_of(outline: Outline, planned: Drawn) -> dict[Block, float]:
    """Probability of the low end in the worst set of each block, as it was laid out."""
    return _worst(outline, planned, needed)


def light_of(outline: Outline, planned: Drawn) -> frozenset[Block]:
    """Blocks whose load is too light already as planned: raised as far as goes at once."""
    likely = _worst(outline, planned, passing)
    return frozenset(block for block, odds in likely.items() if odds >= TOO_LIGHT)


def _worst(
    outline: Outline, planned: Drawn, reps_of: Callable[[Slot], int | None]
) -> dict[Block, float]:
    """Probability of so many reps to failure in the worst set of each block, as laid out."""
    worst: dict[Block, float] = {}
    for index, slot in outline.order:
        forecast, reps = planned.laid[slot.key].forecast, reps_of(slot)
        if forecast is not None:
            block = (index, slot.block)
            odds = 0.0 if reps is None else forecast.at_least(reps)
            worst[block] = min(worst.get(block, 1.0), odds)
    return worst
