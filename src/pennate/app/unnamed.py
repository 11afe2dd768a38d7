"""Sets written down without equipment: what they are taken to have been done on.

A set that names nothing counts for what her week gives the exercise, else for the best of her
gym that can carry the loads she wrote; where that leaves several, it stays apart and that is
said. The week and gym of the day she first did the exercise on something by name decide, so that
another gym or another bar later moves nothing that was lifted before.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from pennate.app.stops import fit_of, item_for, items_for
from pennate.core.exercise import Catalogue, EquipmentKind, Exercise
from pennate.core.felt import felt_kg
from pennate.core.gym import AnyItem, Gym, carrier_of, usual_reading
from pennate.core.history import History
from pennate.core.load_words import lacks_load
from pennate.core.performed import PerformedSet, SetKind
from pennate.core.plural import plural
from pennate.core.prescribed import Week
from pennate.core.quantities import LoadReading, Unit
from pennate.loading import ladder

MOSTLY = 0.9  # number: of the sets; a slip, or a set done elsewhere, may stand among them
HALF = Fraction(1, 2)
"""Felt kilograms by which a load may pass an item's ends: two units, and rounding."""
TOGETHER = {
    EquipmentKind.DUMBBELLS: "both dumbbells",
    EquipmentKind.SLED: "sled and plates",
}
"""What a bare load takes together, of things whose load lifters say in two ways."""
MOST_NAMED = 4
"""Things told by name before the rest is counted."""

Setting = tuple[Week | None, Gym | None]
"""The week that was followed and the gym it was trained in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unnamed:
    """The sets of one exercise that name no equipment."""

    exercise: str
    sets: int
    item: AnyItem | None
    """What they count for; None where they stay apart."""
    others: tuple[AnyItem, ...]
    """What could have been meant as well."""
    gym: str
    """Name of the gym that was looked through; empty where there is none yet."""
    together: str
    """How a bare load on the item is read, where lifters say it in two ways; else empty."""
    asked: bool
    """Whether her week has the exercise, so that she can choose there."""
    open: bool = True
    """Whether her week still decides: she has not done the exercise by name yet."""

    @property
    def words(self) -> str:
        """What was decided, in one sentence without its full stop; empty before there is a gym."""
        if not self.gym:
            return ""
        one = self.sets == 1
        count = f"{plural(self.sets, 'set')} without equipment"
        names = _either([f"“{other.name}”" for other in self.others])
        if self.item is not None:
            taken = f"{count} {'counts' if one else 'count'} for “{self.item.name}”"
            if self.together:
                taken += (
                    f", {'its load' if one else 'their loads'} read as {self.together} together"
                )
            asks = names and self.open and self.asked
            return f"{taken}; if it was {names}, choose that in your week" if asks else taken
        apart = f"{count} {'stands' if one else 'stand'} apart"
        if not names:
            return f"{apart}: nothing in “{self.gym}” carries {'its load' if one else 'such loads'}"
        way = "choose which in your week" if self.asked else "put it into your week on one of them"
        return f"{apart}, as they could be of {names}: {way}, and they count there"


def unnamed_sets(
    history: History, catalogue: Catalogue, setting: Callable[[date | None], Setting]
) -> dict[str, Unnamed]:
    """What the sets without equipment count for, by exercise.

    `setting` gives week and gym as they were on a day, or with None as they are now.
    """
    bare: dict[str, list[PerformedSet]] = defaultdict(list)
    named: dict[str, date] = {}
    for done in history:
        if done.equipment:
            named.setdefault(done.exercise, done.day)
        elif done.exercise in catalogue.exercises:
            bare[done.exercise].append(done)
    found = {}
    for exercise, sets in bare.items():
        then = named.get(exercise)
        first = _found(catalogue[exercise], sets, *setting(then))
        if then is not None and first.item is None:
            first = _found(catalogue[exercise], sets, *setting(None))
        found[exercise] = replace(first, open=then is None or first.item is None)
    return found


def apart_lines(
    found: Mapping[str, Unnamed], catalogue: Catalogue, exercises: Iterable[str]
) -> tuple[str, ...]:
    """A sentence for each of these exercises whose old sets wait for a choice in her week."""
    return tuple(
        f"{catalogue[one].name}: {found[one].words}"
        for one in dict.fromkeys(exercises)
        if one in found and found[one].asked and found[one].item is None
    )


def settled(history: History, found: Mapping[str, Unnamed]) -> History:
    """The record with every such set on the item it counts for."""
    items = {exercise: one.item for exercise, one in found.items() if one.item is not None}
    if not items:
        return history
    return History(
        tuple(
            on_item(done, items[done.exercise])
            if not done.equipment and done.exercise in items
            else done
            for done in history
        )
    )


def on_item(done: PerformedSet, item: AnyItem) -> PerformedSet:
    """The set as done there."""
    return replace(done, equipment=item.id, reading=_reading(done.reading, item))


def _reading(written: LoadReading, item: AnyItem) -> LoadReading:
    """A bare number on a pin or a band is what its mark says."""
    label = usual_reading(item) is LoadReading.LABEL and written is LoadReading.TOTAL
    return LoadReading.LABEL if label else written


def _found(
    exercise: Exercise, sets: list[PerformedSet], week: Week | None, gym: Gym | None
) -> Unnamed:
    working = [one for one in sets if one.kind is not SetKind.WARM_UP] or sets
    loaded = [one for one in working if not lacks_load(one, exercise)]
    if gym is None:
        return Unnamed(
            exercise=exercise.id,
            sets=len(working),
            item=None,
            others=(),
            gym="",
            together="",
            asked=False,
        )
    able = [one for one in items_for(gym, exercise) if carries(gym, one, loaded)]
    places = [
        one.equipment
        for day in (week.days if week else ())
        for one in day.exercises
        if one.exercise == exercise.id
    ]
    written = bool(places) and all(gym.item(one) for one in places)
    asked = _items(gym, exercise, places or [""])
    there = [one for one in asked if carries(gym, one, loaded)] or able
    item = there[0] if len(there) == 1 else None
    others = [] if item and written else _others(exercise, item, able if item else there)
    return Unnamed(
        exercise=exercise.id,
        sets=len(working),
        item=item,
        others=tuple(others),
        gym=gym.name,
        together=TOGETHER.get(item.kind, "") if item and _bare(working) else "",
        asked=bool(places),
    )


def _bare(sets: Iterable[PerformedSet]) -> bool:
    """Whether loads stand without a word on what they count."""
    return any(done.load and done.reading is LoadReading.TOTAL for done in sets)


def _others(exercise: Exercise, item: AnyItem | None, able: list[AnyItem]) -> list[AnyItem]:
    """What else could have been meant: not the same kind of thing, less made for it."""
    if item is None:
        return able
    fit = fit_of(exercise, item)
    return [
        one
        for one in able
        if one != item and (one.kind is not item.kind or fit_of(exercise, one) >= fit)
    ]


def _items(gym: Gym, exercise: Exercise, places: list[str]) -> list[AnyItem]:
    """The items that her week asks for, each once; where it names none, the gym's own for it."""
    found = [item_for(gym, exercise, one) for one in places]
    return list({one.id: one for one in found if one is not None}.values())


def carries(gym: Gym, item: AnyItem, sets: Iterable[PerformedSet]) -> bool:
    """Whether nearly all of these loads lie between the ends of what an item can be made."""
    rungs = ladder(gym, item)
    if not rungs:
        return False
    low, high = rungs[0].felt - HALF, rungs[-1].felt + HALF
    written = Counter((done.load, done.unit, done.reading) for done in sets)
    within = sum(
        many
        for (load, unit, reading), many in written.items()
        if low <= _felt(load, unit, reading, item) <= high
    )
    return within >= MOSTLY * written.total()


def _felt(
    load: Fraction | None, unit: Unit | None, reading: LoadReading, item: AnyItem
) -> Fraction:
    """Felt load without body mass, read as it is said of the item."""
    read = _reading(reading, item)
    return felt_kg(None, load, unit, read, Fraction(0), carrier_of(item))


def _either(names: list[str]) -> str:
    """“A, B or C”; many are counted."""
    told = names if len(names) <= MOST_NAMED else [*names[: MOST_NAMED - 1], "another"]
    return told[0] if len(told) == 1 else f"{', '.join(told[:-1])} or {told[-1]}" if told else ""
