"""Substitutes with the load each would get: from her strength and the gym's iron."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from pennate.app.book import Book
from pennate.app.card import sets_drawn
from pennate.app.card_text import load_words
from pennate.app.day import DayState
from pennate.app.outline import DayInputs
from pennate.app.reach import best_of, unknown_lifter
from pennate.app.stand import stand
from pennate.app.stops import item_for
from pennate.app.swaps import on_items, on_other_kinds
from pennate.app.today import inputs_for, weekday_of
from pennate.core.card import CardSet
from pennate.core.exercise import Catalogue, EquipmentKind
from pennate.core.gym import AnyItem, Gym
from pennate.core.performed import SetKind
from pennate.core.prescribed import PlannedDay, Week
from pennate.estimate import Person
from pennate.plan.substitute import Substitute


@dataclass(frozen=True, slots=True)
class Ready:
    """A substitute as it would be begun: where, and its first working set with its load."""

    one: Substitute
    item: str
    """Name of the item; empty where the gym has none for it."""
    first: CardSet | None

    @property
    def words(self) -> str:
        """“60 kg × 8–12, likely 9 (7–12)”, “body weight × …”; empty where no load is known."""
        unloaded = self.one.kind is EquipmentKind.BODY_WEIGHT
        if self.first is None or (self.first.load is None and not unloaded):
            return ""
        load = load_words(self.first.load) if self.first.load else EquipmentKind.BODY_WEIGHT.value
        amount = f" × {self.first.reps}" if self.first.reps else ""
        likely = self.first.likely
        told = f", likely {likely.middle} ({likely.low}–{likely.high})" if likely else ""
        return f"{load}{amount}{told}"


def ready_swaps(
    book: Book, found: Sequence[Substitute], gym: Gym | None, *, most: int, itself: bool = True
) -> tuple[Ready, ...]:
    """The best on items of the gym, with the loads her log makes likely for today.

    `itself` offers the exercise on other equipment too. What cannot be made heavy or light
    enough for the reps asked comes last, with the reason.
    """
    given = gym or book.gym()
    alone = PlannedDay(day=weekday_of(book.today), exercises=())
    state = DayState(day=book.today, weekday=alone.day)
    inputs = replace(inputs_for(book, book.today, alone), gym=given, state=state)
    return _best(found, inputs, most, itself=itself)


def first_swaps(
    found: Sequence[Substitute],
    gym: Gym,
    catalogue: Catalogue,
    now: datetime,
    *,
    most: int,
    itself: bool = True,
) -> tuple[Ready, ...]:
    """The same for somebody without a log: loads are those of people like her, and low."""
    inputs = unknown_lifter(catalogue, gym, Person(), now)
    return _best(found, inputs, most, itself=itself)


def _best(
    found: Sequence[Substitute], inputs: DayInputs, most: int, *, itself: bool
) -> tuple[Ready, ...]:
    if inputs.gym is None:
        return ()
    here = on_items(found, inputs.gym, inputs.catalogue)
    if itself and found:
        here += _elsewhere(found[0].instead_of, found, inputs, inputs.gym)
    here.sort(key=lambda pair: pair[0].rank)
    chosen = best_of(here, inputs, most)
    return tuple(_ready(one, item, inputs) for one, item in chosen)


def _elsewhere(
    old: str, found: Sequence[Substitute], inputs: DayInputs, gym: Gym
) -> list[tuple[Substitute, AnyItem]]:
    """The exercise itself on other equipment, for the sets that its substitutes carry over."""
    exercise = inputs.catalogue[old]
    like = next((o for o in found if inputs.catalogue[o.exercise].timed is exercise.timed), None)
    own = item_for(gym, exercise)
    if like is None or own is None:
        return []
    asked = replace(like.asked, exercise=old, replaces="", reason=None)
    day = replace(inputs.planned, exercises=(asked,))
    return on_other_kinds(exercise, day, Week(name="", days=()), gym, own.id)


def _ready(one: Substitute, item: AnyItem, inputs: DayInputs) -> Ready:
    asked = replace(one.asked, superset="", equipment=item.id)
    inputs = replace(inputs, planned=replace(inputs.planned, exercises=(asked,)))
    sets = sets_drawn(stand(inputs), inputs, 0)
    working = (s for s in sets if s.kind is not SetKind.WARM_UP)
    return Ready(one, item.name, next(working, None))
