"""Her gyms: which there are, what changes in one, and which one her week is trained in.

A gym is saved whole; the newest entry of an id holds. Another gym for the week changes no
exercise by itself: what its items cannot carry is shown with the best substitute, and only
what she ticks is replaced.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from pennate.app.asked_again import bring_back
from pennate.app.book import Book
from pennate.app.gyms import starter_gym, with_item, with_plates, without_item
from pennate.app.stops import item_for
from pennate.app.swaps import for_want_of_it, possible
from pennate.core.exercise import OWN_NUMBERS, Catalogue, EquipmentKind
from pennate.core.gym import AnyItem, BodyWeight, Gym
from pennate.core.prescribed import PlannedDay, PrescribedExercise, Week
from pennate.errors import InputError, Where

MOST_NAME = 80
FLOOR = BodyWeight(id="floor", name="Floor", kind=EquipmentKind.BODY_WEIGHT)
"""What is everywhere."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Misfit:
    """An exercise of the week that no item of a gym can carry, with what would replace it."""

    day: str
    place: int
    """Its place in the day, from 0."""
    name: str
    instead: PrescribedExercise | None
    """None where nothing here replaces it."""
    instead_name: str = ""
    on: str = ""
    """The item the substitute would be done on."""
    keeps: float = 0.0
    """Share of the muscle dose kept, 0 to 1."""

    @property
    def key(self) -> str:
        """How a form names it."""
        return f"{self.day}:{self.place}"


def gym_of(book: Book, gym_id: str = "") -> Gym:
    """The gym with this id, or the one in use; raises InputError where there is none."""
    found = next((gym for gym in book.gyms() if gym.id == gym_id), None) if gym_id else book.gym()
    if found is None:
        raise InputError("there is no such gym here", remedy="choose one on the Gym page")
    return found


def save(book: Book, gym: Gym) -> Gym:
    """Store a gym. The one her week uses stays in use, also where the week named none.

    What her week lacked for want of what that gym has now comes back.
    """
    if not gym.items and not gym.plates:
        raise InputError(f"nothing would be left in “{gym.name}”", remedy="add another thing first")
    with book.lock:
        week, used = book.week(), book.gym()
        if week is not None and used is not None and week.gym != used.id:
            book.save_week(replace(week, gym=used.id))
        book.save_gym(gym)
        if used is not None and used.id == gym.id:
            bring_back(book, used, gym)
    return gym


def take_starter(book: Book, starter: str) -> Gym:
    """One more gym from a starter, with an id of its own and a name told apart from hers."""
    gym = starter_gym(starter)
    return save(book, _own(book, gym.id, gym.name, gym))


def begin_bare(book: Book, name: str) -> Gym:
    """One more gym with a floor and nothing else; raises InputError for an empty name."""
    named = _checked_name(name)
    letters = "".join(char if char.isalnum() else "_" for char in named.casefold())
    base = "_".join(part for part in letters.split("_") if part)[:50] or "gym"
    return save(
        book, _own(book, base, named, Gym(id=base, name=named, items=(FLOOR,), fixtures=()))
    )


def _own(book: Book, gym_id: str, name: str, gym: Gym) -> Gym:
    taken = {one.id for one in book.gyms()}
    names = {one.name for one in book.gyms()}
    spare = range(2, len(taken) + 3)
    free_id = next((f"{gym_id}_{n}" for n in spare if f"{gym_id}_{n}" not in taken), gym_id)
    free_name = next((f"{name} {n}" for n in spare if f"{name} {n}" not in names), name)
    own = free_id if gym_id in taken else gym_id
    hers = {item.id for one in book.gyms() for item in one.items}
    return replace(
        gym,
        id=own,
        name=free_name if name in names else name,
        items=tuple(another(item, own) if item.id in hers else item for item in gym.items),
    )


def another(item: AnyItem, place: str) -> AnyItem:
    """A machine of another place under an id of its own: its numbers are not those of hers.

    What weighs the same anywhere stays as it is.
    """
    return replace(item, id=f"{place}_{item.id}") if item.kind in OWN_NUMBERS else item


def rename(book: Book, gym_id: str, name: str) -> Gym:
    """Another name; the id, which the week and the log know, stays."""
    return save(book, replace(gym_of(book, gym_id), name=_checked_name(name)))


def _checked_name(name: str) -> str:
    named = " ".join(name.split())
    if not 1 <= len(named) <= MOST_NAME:
        what = "a gym needs a name" if not named else f"a name of {len(named)} letters is too long"
        raise InputError(what, Where(field="name"), "like the gym in the city")
    return named


def save_item(book: Book, gym_id: str, kind: str, fields: Mapping[str, Any]) -> Gym:
    """Add an item, or correct the one whose id is given; raises InputError naming the field."""
    return save(book, with_item(gym_of(book, gym_id), kind, fields))


def take_away(book: Book, gym_id: str, item_id: str) -> Gym:
    """The gym without an item; raises InputError where it has none of this id."""
    return save(book, without_item(gym_of(book, gym_id), item_id))


def save_plates(book: Book, gym_id: str, rows: Sequence[Mapping[str, str]]) -> Gym:
    """Pairs of several kinds of plate at once; no pairs takes a kind away."""
    gym = gym_of(book, gym_id)
    for row in rows:
        gym = with_plates(gym, row)
    return save(book, gym)


# The week's gym


def misfits(week: Week, gym: Gym, catalogue: Catalogue) -> tuple[Misfit, ...]:
    """Exercises of the week that this gym cannot carry, with the best substitute of each."""
    return tuple(one for day in week.days for one in _misfits_of(day, week, gym, catalogue))


def _misfits_of(day: PlannedDay, week: Week, gym: Gym, catalogue: Catalogue) -> list[Misfit]:
    found: list[Misfit] = []
    fitted: list[PrescribedExercise] = []
    for place, asked in enumerate(day.exercises):
        if item_for(gym, catalogue[asked.exercise], asked.equipment) is not None:
            fitted.append(asked)
            continue
        so_far = replace(day, exercises=(*day.exercises, *fitted))
        one = _misfit(so_far, place, week, gym, catalogue)
        found.append(one)
        fitted.extend([one.instead] if one.instead else [])
    return found


def _misfit(day: PlannedDay, place: int, week: Week, gym: Gym, catalogue: Catalogue) -> Misfit:
    exercise = day.exercises[place].exercise
    name = catalogue[exercise].name
    ranked = possible(exercise, day, week, catalogue, gym, limits={})
    if not ranked:
        return Misfit(day=day.day, place=place, name=name, instead=None)
    best, item = ranked[0]
    return Misfit(
        day=day.day,
        place=place,
        name=name,
        instead=for_want_of_it(best),
        instead_name=best.name,
        on=item.name,
        keeps=best.keeps,
    )


def choose(book: Book, gym_id: str, ticked: Collection[str] = ()) -> None:
    """Train the week in this gym; of what it cannot carry only the ticked is replaced.

    `ticked` holds keys of misfits. Where nothing replaces a ticked one it is left out.
    """
    gym, week = gym_of(book, gym_id), book.week()
    if week is None:
        book.save_gym(gym)
        return
    known = {one.key: one for one in misfits(week, gym, book.catalogue) if one.key in ticked}
    days = tuple(_with_instead(day, known) for day in week.days)
    book.save_week(replace(week, days=days, gym=gym.id))


def _with_instead(day: PlannedDay, known: Mapping[str, Misfit]) -> PlannedDay:
    kept: list[PrescribedExercise] = []
    for place, asked in enumerate(day.exercises):
        found = known.get(f"{day.day}:{place}")
        if found is None:
            kept.append(asked)
        elif found.instead is not None:
            kept.append(found.instead)
    return replace(day, exercises=tuple(kept))
