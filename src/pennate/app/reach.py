"""Whether an exercise on an item can reach the effort asked, by the strength model."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import UTC, datetime

from pennate.app.choose import exposure, needed, passing
from pennate.app.day import DayState
from pennate.app.outline import DayInputs, stop_of
from pennate.app.slots import Slot, slots_of
from pennate.app.stops import StopPlan, item_for, items_for
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
from pennate.plan.substitute import LOADED, Substitute

ANY_TIME = datetime(2000, 1, 3, tzinfo=UTC)
"""A Monday; without a log nothing depends on the day."""
HELPER_KEEPS = 0.5
"""Share of the dose from which an exercise that works no prime mover directly is shown."""
Choice = tuple[Substitute, AnyItem]
ONLY_HELPS, HELD = "it only helps these muscles", "held, not counted"
SURE = 1.0


@dataclass(frozen=True, slots=True)
class Miss:
    """How likely the first set is not as hard as asked, and why; no words where it is near."""

    likely: float
    why: str = ""


def best_of(
    ranked: Iterable[Choice], inputs: DayInputs, most: int, *, taken: str = ""
) -> list[Choice]:
    """The first so many that reach the effort asked; then those that do not, with the reason.

    What body weight makes too hard or easy is looked for on an item with loads. What misses
    comes with the nearest first; what only helps the muscles asked for comes last, where it
    keeps half of their dose.
    """
    good: list[Choice] = []
    late: list[tuple[float, Choice]] = []
    for one, item in ranked:
        if len(good) == most:
            break
        if not one.direct and one.keeps < HELPER_KEEPS:
            continue
        choice, miss = _with_loads(one, item, inputs, taken)
        if miss.why:
            told = f"{miss.why}; {one.because}"
            late.append((miss.likely, (replace(one, caveat=miss.why, because=told), item)))
        elif choice not in good:
            good.append(choice)
    late.sort(key=lambda pair: pair[0])
    return [*good, *(choice for _, choice in late)][:most]


def _with_loads(
    one: Substitute, item: AnyItem, inputs: DayInputs, taken: str
) -> tuple[Choice, Miss]:
    """The substitute on its item, or on the first one with loads where only that is right."""
    exercise, known = inputs.catalogue[one.exercise], inputs.catalogue
    if not one.direct:
        return (one, item), Miss(2 * SURE, ONLY_HELPS)
    if exercise.timed and not known[one.instead_of].timed:
        return (one, item), Miss(SURE, HELD)
    miss = missed(one.asked, item, inputs)
    if miss.why and one.exercise != one.instead_of and inputs.gym is not None:
        for other in items_for(inputs.gym, exercise):
            if other.kind not in LOADED or other.id in {item.id, taken}:
                continue
            if not missed(one.asked, other, inputs).why:
                return (replace(one, kind=other.kind), other), Miss(0.0)
    return (one, item), miss


def missed(asked: PrescribedExercise, item: AnyItem, inputs: DayInputs) -> Miss:
    """Whether no load of an item makes the first set as hard as asked; never where it is held
    for seconds.
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
        return Miss(0.0)
    stop, top = stop_of(plan, inputs), passing(slot)
    if stop.base.label and stop.has_load:
        return Miss(0.0)  # what a label means is learned on it; a stack is made to be set by it
    ends = (stop.rungs[0], stop.rungs[-1]) if stop.rungs else (0.0, 0.0)
    floor = FELT_LEAST - stop.body_kg  # an assisted machine may lift more than she weighs
    lightest, heaviest = (
        inputs.model.forecast(exposure(stop, slot, max(kg, floor))) for kg in ends
    )
    over = 0.0 if top is None else heaviest.at_least(top + int(SWAP_REPS_OVER))
    under = 1.0 - lightest.at_least(needed(slot))
    if over + under <= 1.0 - SWAP_REACH:
        return Miss(over + under)
    return Miss(
        over + under, f"likely too {'light' if over > under else 'heavy'} for the reps asked"
    )


def _first(slots: Iterable[Slot]) -> Slot | None:
    """The first working set with counted reps."""
    working = (slot for slot in slots if slot.asked.kind is not SetKind.WARM_UP)
    return next((slot for slot in working if slot.asked.reps is not None), None)


def misfits_in(
    inputs: DayInputs, ask: Callable[[Exercise], PrescribedExercise], *, known_only: bool
) -> dict[str, float]:
    """Exercises done at body weight here whose usual sets she cannot make as hard as asked, and
    how likely each misses it.

    `ask` gives the sets that would be asked of an exercise; `known_only` judges those alone
    that she has done, as befits somebody of unknown strength.
    """
    if inputs.gym is None:
        return {}
    found = {}
    for exercise in inputs.catalogue.exercises.values():
        item = item_for(inputs.gym, exercise)
        if item is None or item.kind is not EquipmentKind.BODY_WEIGHT:
            continue
        if known_only and not inputs.model.behind.get(exercise.id, 0):
            continue
        miss = missed(ask(exercise), item, inputs)
        if miss.why:
            found[exercise.id] = miss.likely
    return found


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
