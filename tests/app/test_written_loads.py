"""A load written in the week where this gym lacks it: the nearest it has, and it says so."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from pennate.app.book import Book
from pennate.app.gyms import starter_gym
from pennate.app.record import Recorded, record
from pennate.app.written_loads import written_loads
from pennate.core.gym import sine
from pennate.core.prescribed import LoadFrom, LoadRule, PrescribedSets
from pennate.core.quantities import LoadReading, Mass
from tests.app.own_week import DAY, exercise, hard, kg, plan, stop_of

MIXED = starter_gym("commercial_kg_lb")
KILOS = starter_gym("commercial_kg")
EACH, SIDE, TOTAL = LoadReading.EACH, LoadReading.SIDE, LoadReading.TOTAL
PLATES, LABEL = LoadReading.PLATES, LoadReading.LABEL
SLOPE = float(sine(Fraction(45)))


def _sets(mass: Mass, reading: LoadReading) -> tuple[PrescribedSets, ...]:
    return (PrescribedSets(load=LoadRule(LoadFrom.FIXED, mass=mass, reading=reading)),)


@pytest.mark.parametrize(
    ("written", "known", "new"),
    [
        ("12", 12.5, 10.0),
        ("13", 12.5, 12.5),
        ("14", 15.0, 12.5),
        ("16", 15, 15),
        ("18", 17.5, 17.5),
    ],
)
def test_a_dumbbell_that_is_not_on_the_rack_is_never_halved(
    written: str, known: float, new: float
) -> None:
    """“14 kg each” is two of 15 where she knows it and of 12.5 while it is new, never two of 7."""
    item = MIXED.item("dumbbells")
    assert item
    sets = _sets(Mass.kg(written), EACH)
    near = written_loads(sets, MIXED, item, known=True)
    low = written_loads(sets, MIXED, item, known=False)
    assert near.felt_kg == {0: 2 * known}
    assert low.felt_kg == {0: 2 * new}
    assert near.unmade[0] == f"{written} kg each is written, but not here: the nearest there is"
    assert low.unmade[0].endswith("the next lighter, while it is new")


@pytest.mark.parametrize(
    ("item_id", "mass", "reading", "known", "new"),
    [
        ("rack_bar", Mass.kg("25.7"), SIDE, 20 + 2 * 26.25, 20 + 2 * 25),
        ("rack_bar", Mass.kg("71.4"), TOTAL, 72.5, 70),
        ("cable_tower", Mass.kg("21.5"), LABEL, 22.5 / 2, 20 / 2),
        ("leg_press", Mass.kg("101.5"), PLATES, (45 + 102.5) * SLOPE, (45 + 100) * SLOPE),
        ("assisted_chin", Mass.kg("-22"), TOTAL, -20, -25),
        ("kettlebells", Mass.kg("15"), EACH, 2 * 16, 2 * 12),
        ("dumbbells", Mass.kg("0.5"), EACH, 2, 2),
    ],
)
def test_every_way_to_write_a_load_finds_the_one_beside_it(
    item_id: str, mass: Mass, reading: LoadReading, known: float, new: float
) -> None:
    """Side, plates, pin, help, a pair of kettlebells: each is counted as it is written.

    While it is new none is heavier than written, and help is only more; the lightest there is
    stands in for less.
    """
    item = KILOS.item(item_id)
    assert item
    for familiar, felt in ((True, known), (False, new)):
        found = written_loads(_sets(mass, reading), KILOS, item, known=familiar)
        assert found.felt_kg[0] == pytest.approx(felt)
        assert found.unmade[0]


def test_a_load_that_is_there_stays_as_written(empty_book: Book, tmp_path: Path) -> None:
    """15 kg each is on this rack: asked as written, and so it says."""
    plan(empty_book, tmp_path, exercise("curl", '{ sets = 2, reps = "8-12", load = "15 kg each" }',
         'equipment = "dumbbells"'), gym="commercial_kg_lb")  # fmt: skip
    for one in hard(stop_of(empty_book, "curl")):
        assert (kg(one), one.why) == (30, "as written")


@pytest.mark.parametrize("name", ["curl", "shoulder_press", "walking_lunge"])
def test_the_card_asks_for_the_one_beside_it_and_says_why(
    empty_book: Book, tmp_path: Path, name: str
) -> None:
    """A first exposure to “14 kg each” asks for two of 12.5, and the reason is not “as written”."""
    sets = '{ sets = 2, reps = "8-12", load = "14 kg each" }'
    plan(empty_book, tmp_path, exercise(name, sets, 'equipment = "dumbbells"'),
         gym="commercial_kg_lb")  # fmt: skip
    for one in hard(stop_of(empty_book, name)):
        assert kg(one) == 25
        assert one.why == ("14 kg each is written, but not here: the next lighter, while it is new")


def test_a_pair_of_kettlebells_is_asked_as_a_pair(empty_book: Book, tmp_path: Path) -> None:
    """“16 kg each” are two bells of 16, on the card and as they are drawn once done."""
    sets = '{ sets = 2, reps = "8-12", load = "16 kg each" }'
    plan(empty_book, tmp_path, exercise("goblet_squat", sets, 'equipment = "kettlebells"'))
    one = hard(stop_of(empty_book, "goblet_squat"))[0]
    assert one.load
    assert (one.load.count, one.load.reading, kg(one)) == (2, EACH, 32)
    record(empty_book, empty_book.today, one.key, Recorded(), weekday=DAY)
    done = hard(stop_of(empty_book, "goblet_squat"))[0]
    assert done.done
    assert done.load
    assert (done.load.count, kg(done)) == (2, 32)
