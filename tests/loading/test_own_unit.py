"""A gym with plates in two units: what she steps through and is given stays in hers."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.core.evidence.loading import OWN_UNIT_NEAR
from pennate.core.exercise import EquipmentKind
from pennate.core.gym import Bar, Gym, Ladder, Plate, Sled
from pennate.core.performed import SetKind
from pennate.core.quantities import LoadReading, Mass, Unit
from pennate.loading import Target, Written, every_load, ladder, read_load, solve, steps_beside
from tests.loading.exhaustive import every_stack, least_cost
from tests.loading.gyms import BAR, CHIN_UP_BAR, GYM, MIXED_BAR

kg, lb = Mass.kg, Mass.lb
SQUAT = Sled(id="squat", name="Squat sled", kind=EquipmentKind.SLED, mass=lb("75"))
RACK = Ladder(
    id="rack",
    name="Rack",
    kind=EquipmentKind.DUMBBELLS,
    masses=(*(lb(mass) for mass in (5, 10, 20, 30)), *(kg(mass) for mass in (2, 4, 7, 9, 14, 20))),
)
BOTH = replace(GYM, items=(*GYM.items, SQUAT, RACK))


def _hers(gym: Gym, item_id: str, unit: Unit) -> Gym:
    return replace(gym, own_units=((item_id, unit),))


def _felt(mass: Mass) -> float:
    return float((lb("75") + mass).in_kg)


@pytest.mark.parametrize("unit", list(Unit))
def test_steps_stay_in_her_unit(unit: Unit) -> None:
    """On a sled with plates of both units no step leads to the other one where hers has any near.

    In both units at once every second step would change all plates for half a pound.
    """
    steps = ladder(_hers(BOTH, SQUAT.id, unit), SQUAT)
    hers = [step.felt_kg for step in steps if step.unit in (unit, None)]
    assert len({step.unit for step in ladder(BOTH, SQUAT)} - {None}) == 2
    assert {step.unit for step in steps[:20]} == {unit, None}
    for step in steps:
        if step.unit not in (unit, None):
            assert min(abs(one - step.felt_kg) for one in hers) > OWN_UNIT_NEAR * step.felt_kg


def test_the_other_unit_stands_in_where_hers_has_none() -> None:
    """Pounds of 5, 10, 20 and 30 leave room for 7 and 20 kg, not for 9 and 14."""
    steps = ladder(_hers(BOTH, RACK.id, Unit.LB), RACK)
    assert " ".join(str(step.label) for step in steps) == (
        "2 kg 5 lb 4 kg 10 lb 7 kg 20 lb 30 lb 20 kg"
    )


def test_on_a_belt_the_body_counts_as_load() -> None:
    """A pound plate beside a kilogram one moves little of all that is moved: it stands back."""
    steps = ladder(_hers(BOTH, CHIN_UP_BAR.id, Unit.KG), CHIN_UP_BAR)
    assert {step.unit for step in steps} <= {Unit.KG, None}


def test_a_bar_that_takes_both_at_once_keeps_every_load() -> None:
    """Where she mixes plates on purpose, nothing is taken from her."""
    assert ladder(BOTH, MIXED_BAR) == every_load(BOTH, MIXED_BAR)


def test_what_she_asks_for_is_read_in_either_unit() -> None:
    """She may still type 110 kg, and steps from there through kilograms."""
    gym = _hers(BOTH, SQUAT.id, Unit.LB)
    asked = Written(amount=kg("110").amount, unit=Unit.KG, reading=LoadReading.PLATES)
    found = read_load(gym, SQUAT, asked)
    assert found.load == kg("110")
    steps = steps_beside(gym, SQUAT, found)
    place = steps.index(found)
    assert [str(step.load) for step in steps[place - 1 : place + 2]] == [
        "107.5 kg",
        "110 kg",
        "112.5 kg",
    ]


@pytest.mark.parametrize("pounds", ["90", "130", "200", "245", "290"])
def test_a_load_held_in_pounds_stays_in_pounds(pounds: str) -> None:
    """Loads near hers in kilograms with fewer plates to move are no reason to leave her unit."""
    gym = _hers(BOTH, SQUAT.id, Unit.LB)
    plan = solve(gym, SQUAT, [Target(felt_kg=_felt(lb(pounds)), kind=SetKind.TOP)] * 3)
    assert {state.unit for state in plan.states} == {Unit.LB}
    assert plan.proven


def test_a_load_asked_in_kilograms_is_given_in_kilograms() -> None:
    """Her week writes 110 kg on the sled: that load, although she uses pounds there."""
    gym = _hers(BOTH, SQUAT.id, Unit.LB)
    asked = Target(felt_kg=_felt(kg("110")), kind=SetKind.TOP, unit=Unit.KG)
    assert solve(gym, SQUAT, [asked]).states[0].load == kg("110")
    unasked = replace(asked, unit=None)
    assert solve(gym, SQUAT, [unasked]).states[0].unit is Unit.LB


def test_kilograms_on_the_bar_now_are_kept_for_the_rest() -> None:
    """She loaded kilograms by hand: nobody asks her to strip it all for pounds."""
    gym = _hers(BOTH, SQUAT.id, Unit.LB)
    on = read_load(
        gym, SQUAT, Written(amount=kg("110").amount, unit=Unit.KG, reading=LoadReading.PLATES)
    )
    plan = solve(gym, SQUAT, [Target(felt_kg=_felt(lb("245")))] * 2, start=on)
    assert {state.unit for state in plan.states} == {Unit.KG}


def test_a_dumbbell_stays_in_her_unit() -> None:
    """Two of 20 lb, though two of 9 kg lie as near to what was asked."""
    gym = _hers(BOTH, RACK.id, Unit.LB)
    plan = solve(gym, RACK, [Target(felt_kg=2 * 9.0)])
    assert plan.states[0].label == lb(20)
    asked = Target(felt_kg=2 * 9.0, unit=Unit.KG)
    assert solve(gym, RACK, [asked]).states[0].label == kg(9)


targets = st.lists(
    st.builds(
        Target,
        felt_kg=st.integers(22, 90).map(float),
        kind=st.sampled_from((SetKind.WARM_UP, SetKind.TOP, SetKind.BACK_OFF, SetKind.DROP)),
        ceiling=st.booleans(),
    ),
    min_size=1,
    max_size=4,
)
few = st.dictionaries(st.sampled_from(("2.5", "5", "10", "25")), st.integers(1, 2), max_size=3)


@settings(max_examples=300, deadline=None, derandomize=True)
@given(kilos=few, pounds=few, asked=targets)
def test_no_sequence_in_her_unit_is_cheaper(
    kilos: dict[str, int], pounds: dict[str, int], asked: list[Target]
) -> None:
    """Of all stacks in her unit where it comes near to every target, else of either unit.

    What comes near is told here from every stack anew, what it costs from its definition.
    """
    bar = Bar(id="bar", name="Bar", kind=EquipmentKind.BARBELL, mass=BAR.mass)
    gym = Gym(
        id="g",
        name="g",
        plates=(
            *(Plate(kg(mass), many) for mass, many in kilos.items()),
            *(Plate(lb(mass), many) for mass, many in pounds.items()),
        ),
        items=(bar,),
        own_units=((bar.id, Unit.LB),),
    )
    in_kg = list(every_stack({float(kg(mass).in_kg): many for mass, many in kilos.items()}))
    in_lb = list(every_stack({float(lb(mass).in_kg): many for mass, many in pounds.items()}))
    costs = {
        unit: least_cost(20.0, stacks, asked)
        for unit, stacks in ((Unit.KG, in_kg), (Unit.LB, in_lb))
        if len(stacks) > 1 or not (kilos or pounds)
    }
    made = sorted({20 + 2 * sum(stack) for stack in in_lb})
    hers = Unit.LB in costs and all(
        _comes_near(made, one) for one in asked if one.kind is not SetKind.WARM_UP
    )
    best = costs[Unit.LB] if hers else min(costs.values(), default=least_cost(20.0, [()], asked))
    plan = solve(gym, bar, asked)
    assert plan.proven
    assert abs(plan.cost - best) < 1e-9


def _comes_near(made: list[float], target: Target) -> bool:
    usable = [one for one in made if not target.ceiling or one <= target.felt_kg + 1e-9] or made[:1]
    off = min(abs(one - target.felt_kg) for one in usable)
    return off <= OWN_UNIT_NEAR * target.felt_kg + 1e-9


def test_steps_ascend() -> None:
    """What is left of the loads of both units still ascends, each once."""
    steps = ladder(_hers(BOTH, SQUAT.id, Unit.KG), SQUAT)
    assert all(left.felt < right.felt for left, right in pairwise(steps))
