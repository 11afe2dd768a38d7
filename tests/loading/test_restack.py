"""A load made from the plates that are on: nothing is stripped that could stay."""

from __future__ import annotations

from fractions import Fraction

import pytest

from pennate.core.gym import Gym, Plate
from pennate.core.quantities import Mass
from pennate.loading import ladder, restacked
from pennate.loading.ladder import with_plates
from tests.loading.exhaustive import change, every_stack
from tests.loading.gyms import BAR, DUMBBELLS

PLATES = tuple(Plate(Mass.kg(mass), pairs) for mass, pairs in (("10", 1), ("5", 2), ("2.5", 2)))
GYM = Gym(id="small", name="Small gym", items=(BAR, DUMBBELLS), plates=PLATES)
EVERY = list(every_stack({10.0: 1, 5.0: 2, 2.5: 2}))


def _stack(masses: tuple[float, ...]) -> tuple[Plate, ...]:
    return tuple(next(p for p in PLATES if float(p.mass.in_kg) == mass) for mass in masses)


def _masses(plates: tuple[Plate, ...]) -> tuple[float, ...]:
    return tuple(float(plate.mass.in_kg) for plate in plates)


@pytest.mark.parametrize("on", [(5.0, 2.5, 5.0, 2.5), (2.5, 10.0), (10.0, 5.0, 5.0), (2.5, 5.0)])
def test_no_way_takes_fewer_moves(on: tuple[float, ...]) -> None:
    """Against every stack of the same mass, tried one by one."""
    for rung in ladder(GYM, BAR):
        found = restacked(GYM, BAR, rung, _stack(on))
        assert found.felt == rung.felt
        alike = [stack for stack in EVERY if sum(stack) == sum(_masses(rung.plates))]
        least = min(change(on, stack)[0] for stack in alike)
        assert change(on, _masses(found.plates))[0] == least


def test_five_less_is_one_plate_off() -> None:
    """From 5, 2.5, 5, 2.5 a side to 5 kg less in all: the outer 2.5 comes off, nothing else."""
    on = with_plates(BAR, _stack((5.0, 2.5, 5.0, 2.5)))
    lighter = next(rung for rung in ladder(GYM, BAR) if rung.felt == on.felt - Fraction(5))
    assert _masses(restacked(GYM, BAR, lighter, on.plates).plates) == (5.0, 2.5, 5.0)


def test_what_takes_no_plates_stays() -> None:
    """A pair of dumbbells is what it is, whatever lay on a bar before."""
    rung = ladder(GYM, DUMBBELLS)[3]
    assert restacked(GYM, DUMBBELLS, rung, _stack((5.0,))) is rung
