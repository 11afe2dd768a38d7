"""Another exercise in the place of one: what keeps most of it, with its load for today."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date

from pennate.app.book import Book
from pennate.app.card import sets_drawn
from pennate.app.day import Swap
from pennate.app.outline import DayInputs
from pennate.app.reach import best_of
from pennate.app.stand import stand_swapped
from pennate.app.standing import Standing
from pennate.app.stops import item_asked, item_for, items_for
from pennate.app.today import inputs_for, planned_for, standing_for, the_week
from pennate.core.card import CardSet, SetState
from pennate.core.exercise import Catalogue, EquipmentKind, Exercise
from pennate.core.gym import AnyItem, Gym
from pennate.core.muscles import Joint
from pennate.core.performed import SetKind
from pennate.core.prescribed import PlannedDay, PrescribedExercise, Reason, Week
from pennate.core.readiness import PainAction, Readiness
from pennate.plan.substitute import Substitute, on_kind, other_kinds, substitutes, within_limits


@dataclass(frozen=True, slots=True)
class Offer:
    """A substitute as she can take it now."""

    exercise: str
    name: str
    item: str
    item_name: str
    keeps: float
    """Share of the muscle dose kept, 0 to 1."""
    because: str
    first: CardSet | None
    """Its first working set with the load for today."""
    caveat: str = ""
    """Why it is no full substitute, if so."""


def joint_limits(readiness: Readiness | None) -> dict[Joint, int]:
    """The most a substitute may load each sore joint: 1 from pain 3, nothing above 5 or sharp."""
    limits: dict[Joint, int] = {}
    for joint in readiness.pain if readiness else ():
        action = readiness.action(joint) if readiness else PainAction.GO_ON
        if action is not PainAction.GO_ON:
            limits[Joint(joint)] = 0 if action is PainAction.STOP else 1
    return limits


def joints_now(inputs: DayInputs) -> dict[Joint, int]:
    """The same with what hurt at a set today: what she swaps to must not hurt it again."""
    limits = joint_limits(inputs.state.readiness)
    for one in inputs.pain:
        if one.day == inputs.state.day and (one.alarming or one.score >= 3):
            stop = one.alarming or one.score > 5
            joint = Joint(one.joint)
            limits[joint] = min(limits.get(joint, 1), 0 if stop else 1)
    return limits


def offers(
    book: Book, day: date, weekday: str, stop: int, *, most: int = 2, taken: str = ""
) -> tuple[Offer, ...]:
    """The best substitutes for a stop; `taken` is an item that is not free."""
    planned = planned_for(book, day, weekday)
    if planned is None or not 0 <= stop < len(planned.exercises):
        return ()
    inputs = inputs_for(book, day, planned)
    if inputs.gym is None:
        return ()
    ranked = best_today(inputs, the_week(book), stop, taken=taken, most=most)
    standing = standing_for(book, inputs)
    return tuple(_offer(one, item, stop, inputs, standing) for one, item in ranked)


def best_today(
    inputs: DayInputs, week: Week, stop: int, *, taken: str, most: int
) -> list[tuple[Substitute, AnyItem]]:
    """The best for a stop today: other equipment first, then others that reach the effort."""
    if inputs.gym is None:
        return []
    asked = inputs.planned.exercises[stop]
    own = item_asked(inputs.gym, inputs.catalogue[asked.exercise], asked)
    ranked = possible(
        asked.exercise,
        inputs.planned,
        week,
        inputs.catalogue,
        inputs.gym,
        limits=joints_now(inputs),
        taken=taken or (own.id if own else ""),
        itself=True,
    )
    return best_of(ranked, inputs, most, taken=taken or (own.id if own else ""))


def possible(
    exercise: str,
    day: PlannedDay,
    week: Week,
    catalogue: Catalogue,
    gym: Gym,
    *,
    limits: Mapping[Joint, int],
    taken: str = "",
    itself: bool = False,
) -> list[tuple[Substitute, AnyItem]]:
    """Ranked substitutes that an item of this gym, other than the taken one, can carry.

    `itself` offers the exercise on other kinds of equipment too, where its joints are well.
    """
    kinds = {item.kind for item in gym.items}
    ranked = substitutes(exercise, day, week, catalogue, kinds, limits)
    found = on_items(ranked, gym, catalogue, taken=taken)
    if itself and within_limits(catalogue[exercise], limits):
        found += on_other_kinds(catalogue[exercise], day, week, gym, taken)
    return sorted(found, key=lambda pair: pair[0].rank)


def on_items(
    ranked: Iterable[Substitute], gym: Gym, catalogue: Catalogue, *, taken: str = ""
) -> list[tuple[Substitute, AnyItem]]:
    """Each substitute with the item of the gym it is best done on; those without one left out."""
    pairs = ((one, _free_item(gym, catalogue[one.exercise], taken, one.kind)) for one in ranked)
    return [(on_kind(one, item.kind, catalogue), item) for one, item in pairs if item is not None]


def on_other_kinds(
    exercise: Exercise, day: PlannedDay, week: Week, gym: Gym, taken: str
) -> list[tuple[Substitute, AnyItem]]:
    """The exercise itself on the best item of each kind that the taken one is not of."""
    held = gym.item(taken)
    first: dict[EquipmentKind, AnyItem] = {}
    for item in items_for(gym, exercise):
        if held is not None and item.kind is not held.kind:
            first.setdefault(item.kind, item)
    return [(one, first[one.kind]) for one in other_kinds(exercise, day, week, list(first))]


def _free_item(gym: Gym, exercise: Exercise, taken: str, kind: EquipmentKind) -> AnyItem | None:
    """An item that is not taken, of this kind before others; room on the floor is never taken."""
    free = [
        item
        for item in items_for(gym, exercise)
        if item.id != taken or (item.kind is EquipmentKind.BODY_WEIGHT and not item.serves)
    ]
    return next((item for item in free if item.kind is kind), None) or next(iter(free), None)


def _offer(
    one: Substitute, item: AnyItem, stop: int, inputs: DayInputs, standing: Standing
) -> Offer:
    swaps = {**inputs.state.swaps, stop: Swap(one.exercise, item.id, "")}
    swapped = replace(inputs, state=replace(inputs.state, swaps=swaps))
    sets = sets_drawn(stand_swapped(standing, swapped, stop), swapped, stop)
    working = (s for s in sets if s.kind is not SetKind.WARM_UP and s.state is SetState.OPEN)
    return Offer(
        exercise=one.exercise,
        name=one.name,
        item=item.id,
        item_name=item.name,
        keeps=one.keeps,
        because=one.because,
        first=next(working, None),
        caveat=one.caveat,
    )


def for_want_of_it(found: Substitute) -> PrescribedExercise:
    """The substitute as the week has it where the gym cannot carry the other."""
    return replace(found.asked, reason=Reason.TAKEN)


def fitted_to(week: Week, gym: Gym, catalogue: Catalogue) -> tuple[Week, tuple[str, ...]]:
    """The week with every exercise this gym cannot carry replaced, and what was replaced."""
    lines: list[str] = []
    days = tuple(_fitted_day(day, week, gym, catalogue, lines) for day in week.days)
    return replace(week, days=days, gym=gym.id), tuple(lines)


def _fitted_day(
    day: PlannedDay, week: Week, gym: Gym, catalogue: Catalogue, lines: list[str]
) -> PlannedDay:
    fitted: list[PrescribedExercise] = []
    for asked in day.exercises:
        if item_for(gym, catalogue[asked.exercise], asked.equipment) is not None:
            fitted.append(asked)
            continue
        so_far = replace(day, exercises=(*day.exercises, *fitted))
        ranked = possible(asked.exercise, so_far, week, catalogue, gym, limits={})
        name = catalogue[asked.exercise].name
        if ranked:
            fitted.append(for_want_of_it(ranked[0][0]))
            lines.append(f"{day.day}: {ranked[0][0].name} instead of {name}")
        else:
            lines.append(f"{day.day}: {name} left out, nothing here replaces it")
    return replace(day, exercises=tuple(fitted))
