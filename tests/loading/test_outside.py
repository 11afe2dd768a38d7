"""Loads against competition rules, statics, trade descriptions and published figures."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from pennate.core.exercise import EquipmentKind
from pennate.core.gym import Bar, Gym, Ladder, Plate, Sled, Stack, carrier_of, sine
from pennate.core.quantities import LoadReading, Mass, Unit
from pennate.loading import (
    Target,
    Written,
    effective,
    ladder,
    read_load,
    reps_by_distance,
    solve,
    step_cost,
)
from pennate.loading.ladder import with_plates
from tests.loading.gyms import BAR, CABLE, CHIN_UP_BAR, GYM, SLED, kg, lb

RULES_KG = (25, 20, 15, 10, 5, "2.5", 2, "1.5", 1, "0.5")
"""Discs of the IWF technical rules, in kilograms."""


def test_the_standard_bar_with_two_discs() -> None:
    """20 kg bar with 25 and 20 a side is 110 kg, 115 with 2.5 kg collars (IWF, IPF rules)."""
    side = (Plate(kg(25), 1), Plate(kg(20), 1))
    collared = Bar(id="c", name="c", kind=EquipmentKind.BARBELL, mass=kg(20), collars=kg(5))
    assert with_plates(BAR, side).load == kg(110)
    assert with_plates(collared, side).load == kg(115)
    assert carrier_of(collared).mass_kg == 25  # IPF: bar and collars together 25 kg


@pytest.mark.parametrize("bar_kg", [20, 15])
def test_competition_sets_reach_every_kilogram(bar_kg: int) -> None:
    """With one pair of each disc of the rules, every whole kilogram up to the top is loadable."""
    bar = Bar(id="b", name="b", kind=EquipmentKind.BARBELL, mass=kg(bar_kg))
    plates = tuple(Plate(kg(mass), 1, competition=True) for mass in RULES_KG)
    made = {state.felt for state in ladder(Gym(id="g", name="g", plates=plates), bar)}
    top = bar_kg + 2 * sum(plate.mass.in_kg for plate in plates)
    assert set(range(bar_kg, int(top) + 1)) <= made


@pytest.mark.parametrize(
    ("pounds", "kilograms"),
    [("45", "20.41"), ("35", "15.88"), ("25", "11.34"), ("10", "4.54"), ("5", "2.27")],
)
def test_pound_plates_in_kilograms(pounds: str, kilograms: str) -> None:
    """Pound plates by the international pound of 1959, 0.45359237 kg exactly."""
    assert lb(pounds).in_kg == Fraction(pounds) * Fraction("0.45359237")
    assert round(float(lb(pounds).in_kg), 2) == float(kilograms)


def test_a_bar_of_pounds_is_exact() -> None:
    """A 45 lb bar with two 45s a side is 225 lb, not 224.999."""
    bar = Bar(id="b", name="b", kind=EquipmentKind.BARBELL, mass=lb(45))
    assert with_plates(bar, (Plate(lb(45), 4),) * 2).load == lb(225)
    assert with_plates(bar, (Plate(lb(45), 4),) * 2).felt == Fraction("102.05828325")


@pytest.mark.parametrize(
    ("angle", "expected"), [(30, 0.5), (45, math.sqrt(0.5)), (60, math.sqrt(0.75)), (90, 1.0)]
)
def test_a_sled_is_felt_by_the_sine_of_its_angle(angle: int, expected: float) -> None:
    """Force along the rails is mass times the sine (statics); 45 degrees give 0.71."""
    assert abs(float(sine(Fraction(angle))) - expected) < 1e-10
    sled = Sled(id="s", name="s", kind=EquipmentKind.SLED, mass=kg(40), angle_deg=Fraction(angle))
    state = with_plates(sled, (Plate(kg(20), 2),) * 2)
    assert state.load == kg(80)
    assert abs(state.felt_kg - 120 * expected) < 1e-6


def test_a_two_to_one_cable_halves_the_stack() -> None:
    """Stack at 40 is 20 at the hand, its step of 5 is 2.5 (common trade description)."""
    by_label = {state.load: state.felt for state in ladder(GYM, CABLE)}
    assert by_label[kg(40)] == 20
    assert by_label[kg(45)] - by_label[kg(40)] == Fraction("2.5")


def test_a_lever_bar_shows_half_its_own_mass() -> None:
    """A uniform bar on a joint needs half its weight at the free end (statics)."""
    lever = Bar(id="l", name="l", kind=EquipmentKind.BARBELL, mass=kg(20), one_end=True)
    assert with_plates(lever, ()).felt == 10
    assert with_plates(lever, (Plate(kg(20), 1),)).felt == 30


def test_a_chin_up_carries_most_of_the_body() -> None:
    """A woman of 60 kg with 5 kg on the belt lifts 62.67 kg (de Leva 1996, no forearms)."""
    share = 1 - 2 * (0.0138 + 0.0056)
    belted = next(state for state in ladder(GYM, CHIN_UP_BAR) if state.load == kg(5))
    assert round(effective(CHIN_UP_BAR, belted, share * 60).kg, 2) == 62.67


def test_the_smallest_step_of_a_light_bench_press() -> None:
    """2.5 kg more on 33.3 kg costs 3.4 reps at women's bench slope 0.021 (Wolfe 2024)."""
    rack = Ladder(
        id="r", name="r", kind=EquipmentKind.FIXED_BARBELLS, masses=(kg("33.3"), kg("35.8"))
    )
    rungs = ladder(Gym(id="g", name="g", items=(rack,)), rack)
    step = step_cost(rungs, 33.3, lambda felt: 1 - math.log(felt / 60) / 0.021)
    assert abs(step.reps_lost - 3.4) < 0.1
    assert abs(step.share - 0.075) < 0.001
    assert step.too_big


def test_ten_per_cent_costs_nearly_four_reps() -> None:
    """+10 % is −3.74 reps, and 8 to 10 kg dumbbells (+25 %) −8.75, at slope 0.0255."""
    rack = Ladder(
        id="d",
        name="d",
        kind=EquipmentKind.DUMBBELLS,
        masses=(kg(8), kg(10), kg(11)),
    )
    rungs = ladder(Gym(id="g", name="g", items=(rack,)), rack)
    reps = reps_by_distance(rack)
    assert abs(step_cost(rungs, 20.0, reps).reps_lost - 3.74) < 0.01
    assert abs(step_cost(rungs, 16.0, reps).reps_lost - 8.75) < 0.01


def test_a_pair_counts_twice() -> None:
    """Two dumbbells of 20 kg are 20 each and 40 in all; one is 20."""
    pair = read_load(GYM, GYM.items[4], Written(amount=Fraction(20), unit=Unit.KG, reading=EACH))
    assert pair.felt == 40
    assert pair.load == kg(20)
    assert solve(GYM, GYM.items[4], [Target(felt_kg=40.0)]).states[0] == pair


EACH = LoadReading.EACH


def test_the_leg_press_of_the_inventory() -> None:
    """A 45 degree sled of 40 kg with 100 kg of plates is felt as 99 kg (140 × 0.7071)."""
    state = read_load(
        GYM, SLED, Written(amount=Fraction(100), unit=Unit.KG, reading=LoadReading.PLATES)
    )
    assert abs(state.felt_kg - 140 * math.sin(math.pi / 4)) < 1e-6


def test_fixed_masses_stay_in_their_unit() -> None:
    """Dumbbells marked in pounds are said in pounds."""
    rack = Ladder(id="d", name="d", kind=EquipmentKind.DUMBBELLS, masses=(lb(15), lb(20)))
    states = ladder(Gym(id="g", name="g", items=(rack,)), rack)
    assert [str(state.load) for state in states] == ["15 lb", "20 lb"]
    assert states[0].felt == 30 * Fraction("0.45359237")


def test_add_ons_fill_the_steps_of_a_stack() -> None:
    """A 2.5 kg add-on halves steps of 5, so 7.5 lies between 5 and 10."""
    stack = Stack(
        id="s",
        name="s",
        kind=EquipmentKind.STACK,
        start=Mass.kg(5),
        step=Mass.kg(5),
        top=Mass.kg(15),
        add_ons=(Mass.kg("2.5"),),
    )
    loads = [str(state.load) for state in ladder(Gym(id="g", name="g", items=(stack,)), stack)]
    assert loads == ["5 kg", "7.5 kg", "10 kg", "12.5 kg", "15 kg", "17.5 kg"]


def test_a_guided_bar_of_pounds_is_said_in_pounds() -> None:
    """Empty or loaded with pounds, the load keeps the unit of bar and plates."""
    bar = Bar(id="g", name="g", kind=EquipmentKind.GUIDED_BAR, mass=lb(15))
    assert str(with_plates(bar, ()).load) == "15 lb"
    assert str(with_plates(bar, (Plate(lb(10), 2),)).load) == "35 lb"
