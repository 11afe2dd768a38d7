"""What the next step up costs in reps, and what to do when it is too big."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from pennate.core.evidence.loading import BIG_STEP_REPS, STEP_IN_RANGE
from pennate.core.loaded import Loaded
from pennate.core.quantities import Mass
from pennate.loading.effort import RepsAt, clipped


class Remedy(StrEnum):
    """What to do while the next load is too far away."""

    REPS_FIRST = "reps first"
    HARDER_REPS = "harder reps"
    WIDER_RANGE = "wider range"
    SMALL_PLATES = "small plates"
    OTHER_ITEM = "another machine"


@dataclass(frozen=True, slots=True)
class Advice:
    """A remedy and the sentence that says it with its number."""

    remedy: Remedy
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StepCost:
    """The next load up and what it costs; no next load at the top of the item."""

    next: Loaded | None
    reps_lost: float
    """Fewer reps to failure at the next load."""
    share: float
    """The step as a share of the present felt load; 0.025 is 2.5 %."""
    too_big: bool
    advice: tuple[Advice, ...] = ()
    """In the order to try them; empty where the step is small enough."""


def step_cost(
    rungs: Sequence[Loaded], at: float, reps_at: RepsAt, body_kg: float = 0.0
) -> StepCost:
    """Reps lost by the next step up from felt load `at`, with advice when it is too big.

    `rungs` is an item's ladder; `body_kg` the body mass moved, for the share only.
    """
    above = [rung for rung in rungs if rung.felt_kg > at + 1e-9]
    if not above:
        words = "this is the heaviest load here: add reps, make each rep harder, or change machine"
        top = Advice(Remedy.OTHER_ITEM, words)
        return StepCost(next=None, reps_lost=math.inf, share=math.inf, too_big=True, advice=(top,))
    following = above[0]
    lost = clipped(reps_at(at)) - clipped(reps_at(following.felt_kg))
    moved = at + body_kg
    below = [rung for rung in rungs if rung.felt_kg <= at + 1e-9]
    step = following.load - below[-1].load if below else None
    return StepCost(
        next=following,
        reps_lost=lost,
        share=(following.felt_kg - at) / moved if moved > 0 else math.inf,
        too_big=lost > STEP_IN_RANGE,
        advice=_advice(following, lost, step) if lost > STEP_IN_RANGE else (),
    )


def _advice(following: Loaded, lost: float, step: Mass | None) -> tuple[Advice, ...]:
    more = math.ceil(lost)
    told = [
        Advice(
            Remedy.REPS_FIRST,
            f"stay until you can do {more} reps more than the fewest you want at "
            f"{_said(following)}",
        )
    ]
    if lost > BIG_STEP_REPS:
        words = f"widen the rep range to span {more} reps, or add a set before you step up"
        told.append(Advice(Remedy.WIDER_RANGE, words))
    told.append(
        Advice(
            Remedy.HARDER_REPS,
            "make each rep harder meanwhile: slower down, a pause at the bottom, more range",
        )
    )
    if following.each_side and step is not None:
        told.append(Advice(Remedy.SMALL_PLATES, _small_plates(step, lost)))
    if lost > BIG_STEP_REPS:
        words = "or use another machine or exercise with finer steps for the same muscle"
        told.append(Advice(Remedy.OTHER_ITEM, words))
    return tuple(told)


def _said(loaded: Loaded) -> str:
    """A load, or how much help."""
    return f"{-loaded.load} of help" if loaded.load.amount < 0 else str(loaded.load)


def _small_plates(step: Mass, lost: float) -> str:
    """The pair that would make the step cost about two reps, in quarters of its unit."""
    each = float(step.amount) / 2 * STEP_IN_RANGE / lost
    pair = Mass(Fraction(max(1, math.floor(4 * each)), 4), step.unit)
    return f"a pair of {pair} plates would cut the step to about {STEP_IN_RANGE:g} reps"
