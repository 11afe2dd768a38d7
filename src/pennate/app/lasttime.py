"""The loads of last time, which are held unless the forecast speaks against them."""

from __future__ import annotations

from collections.abc import Collection

from pennate.app.choose import by_forecast
from pennate.app.outline import DayInputs, Outline
from pennate.app.session_stop import Block
from pennate.app.stops import StopPlan
from pennate.core.evidence.session import LAST_TIME_DAYS, TRIAL_OUTGROWN
from pennate.core.felt import Carrier, felt_kg
from pennate.core.gym import carrier_of
from pennate.core.load_words import lacks_load
from pennate.core.performed import PerformedSet, SetKind


def last_loads(outline: Outline, inputs: DayInputs, stops: Collection[int]) -> dict[Block, float]:
    """Felt load (without body mass) of the matching set last time, by block of these stops.

    Only the last session within four weeks counts, on the same item and in the same
    variant and style. After longer away they are no loads to hold but the most to take:
    the heaviest set then stands in for one without its like.
    """
    found: dict[Block, float] = {}
    for index in stops:
        plan = outline.plans[index]
        away = outline.stops[index].held_down
        sets = last_session_sets(plan, inputs, recent=not away)
        told = [done for done in sets if not lacks_load(done, plan.exercise)]
        hard = [done for done in told if done.kind is not SetKind.WARM_UP]
        stop = outline.stops[index]
        for slot in outline.slots[index]:
            if not away and not by_forecast(stop, slot):
                continue  # what is written holds, not what it came to last time
            block = (index, slot.block)
            alike = [s for s in told if s.kind is slot.asked.kind and s.style == slot.asked.style]
            if block not in found and alike and slot.asked.kind is not SetKind.WARM_UP:
                found[block] = _held([added_kg(done, plan) for done in alike])
            elif block not in found and away and hard and slot.asked.kind is not SetKind.WARM_UP:
                found[block] = max(added_kg(done, plan) for done in hard)
    return found


def _held(loads: list[float]) -> float:
    """The first of the sets alike, or the heaviest where the first was only a trial."""
    first, most = loads[0], max(loads)
    return most if most > TRIAL_OUTGROWN * first else first


def last_session_sets(
    plan: StopPlan, inputs: DayInputs, *, recent: bool = True
) -> tuple[PerformedSet, ...]:
    """Her sets of this exercise on this item the last time before today; within four weeks."""
    item = plan.item.id if plan.item else ""
    past = [
        done
        for done in inputs.history.of_exercise(plan.exercise.id)
        if done.day < inputs.state.day
        and done.equipment == item
        and done.variant == plan.asked.variant
    ]
    if not past or (recent and (inputs.state.day - past[-1].day).days > LAST_TIME_DAYS):
        return ()
    last = (past[-1].day, past[-1].session)
    return tuple(done for done in past if (done.day, done.session) == last)


def added_kg(done: PerformedSet, plan: StopPlan) -> float:
    """Felt load of a done set without body mass, in kilograms."""
    from fractions import Fraction

    carrier = carrier_of(plan.item) if plan.item else Carrier()
    return float(felt_kg(None, done.load, done.unit, done.reading, Fraction(0), carrier))
