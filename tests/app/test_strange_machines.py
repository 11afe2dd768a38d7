"""The machines of another gym: the same number is another load there (common practice)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest

from pennate.app.book import Book
from pennate.app.gym_page import save, take_starter
from pennate.app.kit import kit_gym
from pennate.app.record import Recorded, record
from pennate.app.today import card_for
from pennate.core.card import Card, CardStop
from pennate.core.evidence.session import TRIED_ELSEWHERE
from pennate.core.exercise import OWN_NUMBERS, EquipmentKind
from pennate.core.gym import Gym, Stack
from pennate.core.performed import Effort, SetKind
from pennate.core.quantities import LoadReading, Unit
from tests.app.conftest import NOW


def _stops(book: Book) -> Iterator[tuple[str, CardStop]]:
    """The stops of her week that are done on a stack."""
    gym = book.gym()
    assert gym is not None
    stacks = {item.id for item in gym.items if isinstance(item, Stack)}
    week = book.week()
    assert week is not None
    for day in (one.day for one in week.days if not one.rest):
        card = card_for(book, book.today, weekday=day)
        for stop in card.stops if isinstance(card, Card) else ():
            if stop.item is not None and stop.item.id in stacks:
                yield day, stop


def _among_strangers(book: Book) -> None:
    """Every stack of her gym replaced by one of another maker, with the same numbers on it."""
    gym = book.gym()
    assert gym is not None
    others = (
        replace(item, id=f"other_{item.id}") if isinstance(item, Stack) else item
        for item in gym.items
    )
    save(book, replace(gym, items=tuple(others)))


def _working_kg(stop: CardStop) -> float:
    first = next(one for one in stop.sets if one.kind is not SetKind.WARM_UP)
    assert first.load is not None
    return first.load.felt_kg


@pytest.fixture
def known(demo_book: Book) -> dict[str, float]:
    """What she lifts on her own stacks, before the book is taken among strangers."""
    loads = {stop.exercise: _working_kg(stop) for _, stop in _stops(demo_book)}
    _among_strangers(demo_book)
    return loads


def test_a_strange_stack_is_tried_at_half_of_her_own(
    demo_book: Book, known: dict[str, float]
) -> None:
    """Common practice: a stack's number may stand for half or twice another's, not a tenth.

    The sets after the test are not far below it; with sixteen reps they may be a little.
    """
    tried = {}
    for _, stop in _stops(demo_book):
        test = stop.sets[0]
        assert (test.kind, "How many more" in test.asked.note) == (SetKind.WARM_UP, True)
        assert test.load is not None
        tried[stop.exercise] = test.load.felt_kg / known[stop.exercise]
        assert 0.5 < _working_kg(stop) / test.load.felt_kg <= 1
    assert len(tried) >= 3
    assert all(0.35 < share < 1 for share in tried.values()), tried
    assert sorted(tried.values())[len(tried) // 2] == pytest.approx(TRIED_ELSEWHERE, abs=0.15)


def test_what_proved_far_too_light_is_left_behind(
    demo_book: Book, known: dict[str, float], tmp_path: Path
) -> None:
    """A first set with six left at a fifth of her load, two at the whole: the next is near it."""
    day, stop = next((day, stop) for day, stop in _stops(demo_book) if known[stop.exercise] > 20)
    whole, on_pin = known[stop.exercise], LoadReading.LABEL
    for share, effort in ((0.2, Effort.SIX_UP), (1.0, Effort.TWO), (1.0, Effort.TWO)):
        card = card_for(demo_book, demo_book.today, weekday=day)
        assert isinstance(card, Card)
        here = next(s for s in card.stops if s.exercise == stop.exercise)
        one = next(s for s in here.sets if s.done is None and s.kind is not SetKind.WARM_UP)
        load = Fraction(round(share * whole))
        said = Recorded(reps=12, effort=effort, load=load, unit=Unit.KG, reading=on_pin)
        record(demo_book, demo_book.today, one.key, said, weekday=day)
    next_week = Book.open(tmp_path / "demo", lambda: NOW + timedelta(days=7), Random(1))
    later = {stop.exercise: _working_kg(stop) for _, stop in _stops(next_week)}
    next_week.close()
    assert later[stop.exercise] > 0.7 * whole


def _ids(book: Book, gym: Gym) -> tuple[set[str], set[str]]:
    """Ids of a gym's machines and of its other things that a gym of hers has too."""
    hers = {item.id for one in book.gyms() if one.id != gym.id for item in one.items}
    shared = [item for item in gym.items if item.id in hers]
    machines = {item.id for item in shared if item.kind in OWN_NUMBERS}
    return machines, {item.id for item in shared} - machines


def test_another_gym_has_machines_of_its_own(empty_book: Book) -> None:
    """Two gyms begun from one starter share no machine, only what weighs the same anywhere."""
    take_starter(empty_book, "commercial_kg")
    machines, others = _ids(empty_book, take_starter(empty_book, "commercial_kg"))
    assert machines == set()
    assert others


def test_a_kit_has_machines_of_its_own_for_the_whole_trip(demo_book: Book) -> None:
    """Iron is iron; a cable on the road is another one, the same until she is home again."""
    home, kinds = demo_book.gym(), frozenset({EquipmentKind.CABLE, EquipmentKind.DUMBBELLS})
    assert home is not None
    hers = {item.id for item in home.items}
    kit = kit_gym(kinds, frozenset(), home, date(2026, 3, 3))
    assert {item.kind for item in kit.items if item.id not in hers} >= {EquipmentKind.CABLE}
    assert {item.kind for item in kit.items if item.id in hers} == {
        EquipmentKind.DUMBBELLS,
        EquipmentKind.BODY_WEIGHT,
    }
    again = kit_gym(kinds, frozenset(), kit, date(2026, 3, 9))
    assert {item.id for item in again.items} == {item.id for item in kit.items}
    next_trip = kit_gym(kinds, frozenset(), home, date(2026, 5, 4))
    assert {item.id for item in next_trip.items} != {item.id for item in kit.items}
