"""Whether an exercise on an item can reach the effort asked, by the strength model."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import UTC, datetime

from pennate.app.choose import exposure, needed, passing
from pennate.app.day import DayState
from pennate.app.outline import DayInputs, stop_of
from pennate.app.slots import Slot, slots_of
from pennate.app.stops import StopPlan, item_for
from pennate.core.cautions import limits_for
from pennate.core.evidence.plan import SWAP_REACH, SWAP_REPS_OVER
from pennate.core.evidence.strength_levels import FELT_LEAST
from pennate.core.exercise import Catalogue, EquipmentKind, Exercise
from pennate.core.gym import AnyItem, Gym
from pennate.core.history import History
from pennate.core.performed import SetKind
from pennate.core.prescribed import WEEKDAYS, PlannedDay, PrescribedExercise
from pennate.core.profile import Profile
from pennate.estimate import Person, StrengthModel
from pennate.plan.substitute import Substitute

ANY_TIME = datetime(2000, 1, 3, tzinfo=UTC)
"""A Monday; without a log nothing depends on the day."""
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
    known = inputs.catalogue
    if known[one.exercise].timed and not known[one.instead_of].timed:
        return "held, not counted"
    return verdict(one.asked, item, inputs)


def verdict(asked: PrescribedExercise, item: AnyItem, inputs: DayInputs) -> str:
    """Why no load of an item makes the first set as hard as asked; empty where one may, or
    where it is held for seconds.
    """
    exercise = inputs.catalogue[asked.exercise]
    plan = StopPlan(
        index=0,
        asked=replace(asked, equipment=item.id, superset=""),
        exercise=exercise,
        item=item,
    )
    slot = _first(slots_of(0, plan.asked, exercise, limits_for(inputs.profile.health)))
    if slot is None:
        return ""
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


def unfit_in(
    inputs: DayInputs, ask: Callable[[Exercise], PrescribedExercise], *, known_only: bool
) -> frozenset[str]:
    """Exercises done at body weight here whose usual sets she cannot make as hard as asked.

    `ask` gives the sets that would be asked of an exercise; `known_only` judges those alone
    that she has done, as befits somebody of unknown strength.
    """
    if inputs.gym is None:
        return frozenset()
    found = set()
    for exercise in inputs.catalogue.exercises.values():
        item = item_for(inputs.gym, exercise)
        if item is None or item.kind is not EquipmentKind.BODY_WEIGHT:
            continue
        seen = inputs.model.behind.get(exercise.id, 0) > 0
        if (seen or not known_only) and verdict(ask(exercise), item, inputs):
            found.add(exercise.id)
    return frozenset(found)


def unknown_lifter(
    catalogue: Catalogue, gym: Gym | None, person: Person, now: datetime = ANY_TIME
) -> DayInputs:
    """An empty day of somebody without a log: strength is that of people like her."""
    return DayInputs(
        planned=PlannedDay(day=WEEKDAYS[now.weekday()]),
        state=DayState(day=now.date(), weekday=WEEKDAYS[now.weekday()]),
        catalogue=catalogue,
        gym=gym,
        profile=Profile(),
        history=History(()),
        model=StrengthModel.start(catalogue, person),
        now=now,
    )
