"""The unit she loads each thing in, where a gym has both: by her log there, else by her week."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from fractions import Fraction
from itertools import groupby

from pennate.app.book import Book
from pennate.app.stops import item_for
from pennate.core.exercise import Catalogue
from pennate.core.felt import felt_kg
from pennate.core.gym import AnyItem, Bar, BodyWeight, Gym, Ladder, Sled, carrier_of
from pennate.core.history import History
from pennate.core.loaded import Loaded
from pennate.core.performed import PerformedSet, SetKind
from pennate.core.prescribed import Week
from pennate.core.quantities import Unit
from pennate.loading import every_load

SESSIONS_BACK = 3
"""Her last sessions on a thing that tell its unit: one with the other plates changes nothing."""
_SAME = Fraction(1, 50)
"""Felt loads closer than this are one, rounded as it was written."""


def gym_in_use(book: Book, day: date | None = None) -> Gym | None:
    """Her gym, with the unit she uses on each thing that can be loaded in both.

    By the log as it was on the morning of a day, so that a session does not change as it is
    done; without one, by all of it.
    """
    gym = book.gym()
    if gym is None or not any(_both(gym, item) for item in gym.items):
        return gym
    history = book.history() if day is None else book.history().before(day)
    return with_own_units(gym, history, book.week(), book.catalogue)


def with_own_units(gym: Gym, history: History, week: Week | None, catalogue: Catalogue) -> Gym:
    """A gym that keeps to her units: those of her log, of the written loads, else its own."""
    both = {item.id: item for item in gym.items if _both(gym, item)}
    done: dict[str, list[PerformedSet]] = {one: [] for one in both}
    for one in history.sets:
        if one.equipment in both and one.kind is not SetKind.WARM_UP:
            done[one.equipment].append(one)
    written = _written(gym, week, catalogue)
    return replace(
        gym,
        own_units=tuple(
            (one, _of_log(gym, item, done[one]) or written.get(one) or _of_gym(gym, item))
            for one, item in both.items()
        ),
    )


def _both(gym: Gym, item: AnyItem) -> bool:
    """Whether a thing takes either unit; one that takes both at once has no unit to keep to."""
    if isinstance(item, Ladder):
        return len({mass.unit for mass in item.masses}) > 1
    plated = isinstance(item, Sled) or (isinstance(item, BodyWeight) and item.belt)
    plated = plated or (isinstance(item, Bar) and not item.units)
    return plated and len({plate.mass.unit for plate in gym.plates}) > 1


def _of_log(gym: Gym, item: AnyItem, done: Sequence[PerformedSet]) -> Unit | None:
    """The unit of most of her last sessions there, the latest where as many speak for each."""
    said, rungs = list[Unit](), every_load(gym, item)
    by_session = groupby(reversed(done), key=lambda one: (one.day, one.session))
    for _, sets in by_session:
        units = Counter(unit for one in sets if (unit := _unit_of(rungs, item, one)) is not None)
        if units:
            said.append(units.most_common(1)[0][0])
        if len(said) == SESSIONS_BACK:
            break
    return Counter(said).most_common(1)[0][0] if said else None


def _unit_of(rungs: Sequence[Loaded], item: AnyItem, done: PerformedSet) -> Unit | None:
    """The unit of what was on, else of the number: pounds on a bar of 20 kg are told in kg."""
    if not done.load or done.unit is None:
        return None
    felt = felt_kg(None, done.load, done.unit, done.reading, Fraction(0), carrier_of(item))
    place = bisect_left(rungs, felt - _SAME, key=lambda rung: rung.felt)
    made = {rung.unit for rung in rungs[place : place + 2] if abs(rung.felt - felt) <= _SAME}
    return made.pop() if len(made) == 1 else done.unit


def _written(gym: Gym, week: Week | None, catalogue: Catalogue) -> dict[str, Unit]:
    """The unit of the first written load of her week on each thing."""
    found: dict[str, Unit] = {}
    for item, unit in _written_units(gym, week, catalogue):
        found.setdefault(item, unit)
    return found


def _written_units(gym: Gym, week: Week | None, catalogue: Catalogue) -> Iterator[tuple[str, Unit]]:
    for day in week.days if week else ():
        for asked in day.exercises:
            masses = [sets.load.mass for sets in asked.sets if sets.load.mass is not None]
            if not masses or asked.exercise not in catalogue.exercises:
                continue
            item = item_for(gym, catalogue[asked.exercise], asked.equipment)
            if item is not None:
                yield item.id, masses[0].unit


def _of_gym(gym: Gym, item: AnyItem) -> Unit:
    """The unit of most of the plates, or of most of the masses to pick from."""
    many: Counter[Unit] = Counter()
    if isinstance(item, Ladder):
        many.update(mass.unit for mass in item.masses)
    else:
        for plate in gym.plates:
            many[plate.mass.unit] += plate.pairs
    return many.most_common(1)[0][0]
