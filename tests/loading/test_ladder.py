"""Which loads can be made, and the five ways of writing one down."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.core.exercise import EquipmentKind
from pennate.core.felt import felt_kg
from pennate.core.gym import AnyItem, Bar, Gym, Plate, carrier_of
from pennate.core.quantities import LoadReading, Mass, Unit
from pennate.errors import InputError, Where
from pennate.loading import Target, Written, ladder, read_load, solve, write_load
from pennate.loading.ladder import with_plates
from pennate.loading.picks import changes_between, moves_between
from tests.loading.gyms import (
    ASSISTED,
    BANDS,
    BAR,
    CABLE,
    CHIN_UP_BAR,
    DUMBBELLS,
    GYM,
    KG_PLATES,
    LEG_CURL,
    MIXED_BAR,
    SLED,
    UNKNOWN_GUIDED,
    kg,
    lb,
)

counts = st.lists(st.integers(0, 2), min_size=1, max_size=5)
sizes = st.lists(
    st.sampled_from([kg(20), kg(10), kg("2.5"), lb(45), lb(10), lb("2.5")]),
    min_size=5,
    max_size=5,
    unique=True,
)


def every_sum(plates: tuple[Plate, ...]) -> dict[Fraction, int]:
    """Every mass a side can carry, with the fewest plates, by trying all counts."""
    found: dict[Fraction, int] = {}
    for many in product(*(range(plate.pairs + 1) for plate in plates)):
        total = sum(
            (n * plate.mass.in_kg for n, plate in zip(many, plates, strict=True)), Fraction(0)
        )
        units = {plate.mass.unit for n, plate in zip(many, plates, strict=True) if n}
        if len(units) < 2:
            found[total] = min(sum(many), found.get(total, 99))
    return found


@settings(max_examples=200, deadline=None, derandomize=True)
@given(pairs=counts, masses=sizes)
def test_the_ladder_is_complete_with_fewest_plates(pairs: list[int], masses: list[Mass]) -> None:
    """Every sum of one unit is there, none besides, each with the fewest plates."""
    plates = tuple(Plate(mass, many) for mass, many in zip(masses, pairs, strict=False))
    gym = Gym(id="g", name="g", plates=plates, items=(BAR,))
    states = ladder(gym, BAR)
    made = {(state.felt - 20) / 2: len(state.each_side) for state in states}
    assert made == every_sum(plates)
    assert [state.felt for state in states] == sorted({state.felt for state in states})


@pytest.mark.parametrize("item", GYM.items, ids=lambda item: item.id)
def test_what_is_felt_agrees_with_the_log(item: AnyItem) -> None:
    """Each state's felt load is what the log's rule makes of its number and reading."""
    for state in ladder(GYM, item)[:200]:
        assert state.felt == felt_kg(
            None,
            state.load.amount,
            state.load.unit,
            state.reading,
            Fraction(0),
            carrier_of(item),
        )


@pytest.mark.parametrize("reading", LoadReading)
@pytest.mark.parametrize("item", GYM.items, ids=lambda item: item.id)
def test_all_five_readings_find_their_state(item: AnyItem, reading: LoadReading) -> None:
    """Every state written in any of the five readings is found again, rounded to hundredths."""
    for state in ladder(GYM, item)[:60:3]:
        said = write_load(state.felt, reading, Unit.KG, carrier_of(item))
        rounded = round(said.amount, 2)
        found = read_load(GYM, item, Written(amount=rounded, unit=Unit.KG, reading=reading))
        assert abs(found.felt - state.felt) < Fraction(3, 100)


def test_plates_on_one_side() -> None:
    """25 on one side of a 20 kg bar is 70 in all; pounds on one side count as pounds."""
    side = Written(amount=Fraction(25), unit=Unit.KG, reading=LoadReading.SIDE)
    assert read_load(GYM, BAR, side).load == kg(70)
    pounds = Written(amount=Fraction(45), unit=Unit.LB, reading=LoadReading.SIDE)
    assert read_load(GYM, BAR, pounds).felt == 20 + 90 * Fraction("0.45359237")


def test_what_cannot_be_made_is_said_with_its_neighbours() -> None:
    """42 kg on this bar names 40 and 42.5, the place, and a remedy."""
    gym = replace(GYM, plates=KG_PLATES)
    written = Written(amount=Fraction(42), unit=Unit.KG, where=Where("log.csv", 7, "load"))
    with pytest.raises(InputError) as caught:
        read_load(gym, BAR, written)
    sentence = str(caught.value)
    assert "log.csv, line 7, load: 42 kg cannot be made" in sentence
    assert "40 and 42.5" in sentence


@pytest.mark.parametrize("item", [ASSISTED, BANDS], ids=lambda item: item.id)
def test_help_without_its_minus_is_explained(item: AnyItem) -> None:
    """A positive number on something that helps asks for the minus."""
    with pytest.raises(InputError, match="minus"):
        read_load(GYM, item, Written(amount=Fraction(30), unit=Unit.KG))
    helped = read_load(GYM, item, Written(amount=Fraction(-30), unit=Unit.KG))
    assert helped.felt == -30


def test_unknown_starts_are_said_in_plates() -> None:
    """Where the start of a guided bar is unknown, the load is the plates."""
    state = solve(GYM, UNKNOWN_GUIDED, [Target(felt_kg=50.0)]).states[0]
    assert (state.reading, state.load) == (LoadReading.PLATES, kg(50))


@settings(max_examples=100, deadline=None, derandomize=True)
@given(felt=st.floats(-20, 300))
def test_a_ceiling_is_never_passed(felt: float) -> None:
    """On first exposure the load is rounded down, on every kind of equipment."""
    for item in (BAR, DUMBBELLS, CHIN_UP_BAR, ASSISTED, BANDS):
        state = solve(GYM, item, [Target(felt_kg=felt, ceiling=True)]).states[0]
        assert state.felt_kg <= felt + 1e-9 or state == ladder(GYM, item)[0]


def test_units_stay_apart_unless_she_mixes_them() -> None:
    """A bar takes kilograms or pounds for the whole sequence; both only where she says so."""
    targets = [Target(felt_kg=kilograms) for kilograms in (62.1, 71.3, 84.7)]
    apart = solve(GYM, BAR, targets)
    together = solve(GYM, MIXED_BAR, targets)
    assert len({plate.mass.unit for state in apart.states for plate in state.plates}) == 1
    assert together.cost <= apart.cost
    for state in ladder(GYM, BAR):
        assert len({plate.mass.unit for plate in state.plates}) <= 1


def test_a_full_sleeve_takes_no_more() -> None:
    """Plates 40 mm thick on a sleeve of 100 mm: two a side and no third."""
    short = Bar(id="s", name="s", kind=EquipmentKind.BARBELL, mass=kg(10), sleeve_mm=100)
    plates = (Plate(kg(20), 4, thickness_mm=40), Plate(kg(5), 4, thickness_mm=15))
    gym = Gym(id="g", name="g", plates=plates, items=(short,))
    assert max(state.felt for state in ladder(gym, short)) == 10 + 2 * 45
    heaviest = solve(gym, short, [Target(felt_kg=500.0)]).states[0]
    assert sum(plate.thickness_mm or 0 for plate in heaviest.each_side) <= 100


def test_plates_in_use_elsewhere_are_missed() -> None:
    """What a superset partner holds cannot be put on here."""
    free = solve(GYM, BAR, [Target(felt_kg=110.0)]).states[0]
    held = (KG_PLATES[0], KG_PLATES[0], *(KG_PLATES[1],) * 4)
    state = solve(GYM, BAR, [Target(felt_kg=110.0)], held=held).states[0]
    assert {kg(25), kg(20)} & {plate.mass for plate in free.each_side}
    assert not {kg(25), kg(20)} & {plate.mass for plate in state.each_side}


def test_one_dumbbell_counts_once() -> None:
    """Held singly, the rack is a ladder of totals."""
    single = ladder(GYM, DUMBBELLS, 1)
    assert [state.felt for state in single[:3]] == [1, 2, 3]
    assert single[0].reading is LoadReading.TOTAL
    assert single[0].words == "one dumbbell of 1 kg"


def test_no_help_is_said_so() -> None:
    """The lightest place of an assisted machine is none at all."""
    assert ladder(GYM, ASSISTED)[-1].words == "no help"
    assert ladder(GYM, ASSISTED)[-1].felt == 0


def test_the_bars_own_unit_wins_a_tie() -> None:
    """Where pounds and kilograms do as well, a bar in pounds takes pounds."""
    bar = Bar(id="b", name="b", kind=EquipmentKind.BARBELL, mass=lb(45))
    equal = (Plate(kg("4.5359237"), 1), Plate(lb(10), 1))
    gym = Gym(id="g", name="g", plates=equal, items=(bar,))
    (state,) = solve(gym, bar, [Target(felt_kg=29.5)]).states
    assert [plate.mass.unit for plate in state.each_side] == [Unit.LB]


def test_a_table_without_numbers_is_refused() -> None:
    """A load-to-reps table that answers “not a number” is a fault, not a plan."""
    with pytest.raises(ValueError, match="no number"):
        solve(GYM, BAR, [Target(felt_kg=60.0)], reps_at=lambda _: float("nan"))


@settings(max_examples=200, deadline=None, derandomize=True)
@given(
    amount=st.fractions(min_value=-2000, max_value=2000, max_denominator=1000),
    unit=st.sampled_from(Unit),
    reading=st.sampled_from(LoadReading),
)
def test_any_written_load_is_found_or_explained(
    amount: Fraction, unit: Unit, reading: LoadReading
) -> None:
    """Whatever is written is found where it can be made, and refused in a sentence where not."""
    written = Written(amount=amount, unit=unit, reading=reading)
    for item in (BAR, DUMBBELLS, ASSISTED, CHIN_UP_BAR, BANDS):
        meant = felt_kg(None, amount, unit, reading, Fraction(0), carrier_of(item))
        off = min(abs(state.felt - meant) for state in ladder(GYM, item))
        if off > Fraction(2, 100):
            with pytest.raises(InputError, match="nearest"):
                read_load(GYM, item, written)
        elif off == 0:
            assert read_load(GYM, item, written).felt == meant


@pytest.mark.parametrize("item", [DUMBBELLS, CABLE, LEG_CURL, ASSISTED, BANDS])
def test_changes_of_all_pairs_are_those_of_each(item: AnyItem) -> None:
    """The table of what is handled between two loads says what each pair says."""
    rungs = ladder(GYM, item)
    each = [[moves_between(a, b) for b in rungs] for a in rungs]
    assert changes_between(rungs).tolist() == each


def test_plates_weigh_what_they_are_known_to_weigh() -> None:
    """A state made with the sum at hand is the one made by adding plate to plate."""
    for item in (BAR, MIXED_BAR, SLED):
        for step in ladder(GYM, item):
            assert with_plates(item, step.plates) == step
