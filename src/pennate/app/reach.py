"""Whether an exercise on an item can reach the effort asked, by the strength model."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from pennate.app.choose import exposure, needed, passing
from pennate.app.outline import DayInputs, stop_of
from pennate.app.slots import Slot, slots_of
from pennate.app.stops import StopPlan
from pennate.core.cautions import limits_for
from pennate.core.evidence.plan import SWAP_REACH, SWAP_REPS_OVER
from pennate.core.evidence.strength_levels import FELT_LEAST
from pennate.core.gym import AnyItem
from pennate.core.performed import SetKind
from pennate.plan.substitute import Substitute

HELPER_KEEPS = 0.5
"""Share of the dose from which an exercise that works no prime mover directly is shown."""
Choice = tuple[Substitute, AnyItem]
Reach = Callable[[Substitute, AnyItem], str]
"""Why the item cannot make the effort asked; empty where it can."""


def reach_in(inputs: DayInputs) -> Reach:
    """Judges a substitute on an item of this day's gym, from this morning's strength."""
    return lambda one, item: _out_of_reach(one, item, inputs)


def best_of(ranked: Iterable[Choice], reach: Reach, most: int) -> list[Choice]:
    """The first so many that reach the effort asked; then those that do not, with the reason.

    What only helps the muscles asked for comes last, where it keeps half of their dose.
    """
    good: list[Choice] = []
    late: list[Choice] = []
    for one, item in ranked:
        if len(good) == most:
            break
        if not one.direct and one.keeps < HELPER_KEEPS:
            continue
        why = reach(one, item) if one.direct else "it only helps these muscles"
        if why:
            late.append((replace(one, caveat=why, because=f"{why}; {one.because}"), item))
        else:
            good.append((one, item))
    return [*good, *late][:most]


def _out_of_reach(one: Substitute, item: AnyItem, inputs: DayInputs) -> str:
    exercise = inputs.catalogue[one.exercise]
    plan = StopPlan(
        index=0,
        asked=replace(one.asked, equipment=item.id, superset=""),
        exercise=exercise,
        item=item,
    )
    slot = _first(slots_of(0, plan.asked, exercise, limits_for(inputs.profile.health)))
    if slot is None:
        return (
            "" if exercise.timed is inputs.catalogue[one.instead_of].timed else "held, not counted"
        )
    stop, top = stop_of(plan, inputs), passing(slot)
    if stop.base.label and stop.has_load:
        return ""  # what a label means is learned on it; a stack is made to be set by it
    ends = (stop.rungs[0], stop.rungs[-1]) if stop.rungs else (0.0, 0.0)
    floor = FELT_LEAST - stop.body_kg  # an assisted machine may lift more than she weighs
    lightest, heaviest = (
        inputs.model.forecast(exposure(stop, slot, max(kg, floor))) for kg in ends
    )
    over = 0.0 if top is None else heaviest.at_least(top + int(SWAP_REPS_OVER))
    under = 1.0 - lightest.at_least(needed(slot))
    if over + under <= 1.0 - SWAP_REACH:
        return ""
    return f"likely too {'light' if over > under else 'heavy'} for the reps asked"


def _first(slots: Iterable[Slot]) -> Slot | None:
    """The first working set with counted reps."""
    working = (slot for slot in slots if slot.asked.kind is not SetKind.WARM_UP)
    return next((slot for slot in working if slot.asked.reps is not None), None)
