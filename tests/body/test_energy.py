"""Energy balance, protein and guards against the published equations."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.body.energy import (
    Logged,
    Person,
    deficit_guidance,
    dynamics,
    energy_availability,
    intake_for_availability,
    maintenance_before,
    maintenance_from,
    protein_grams,
    resting_kcal,
    surplus_guidance,
    weight_after,
)
from pennate.core.evidence.body_energy import FAT_DENSITY, FORBES, LEAN_DENSITY

WOMAN = Person(mass_kg=65, height_cm=165, age=30, female=True, fat_kg=17)
MAN = Person(mass_kg=80, height_cm=180, age=30, female=False, fat_kg=20, activity=1.6)
GIRL = Person(mass_kg=60, height_cm=165, age=16, female=True, fat_kg=14)


def test_resting_energy() -> None:
    """Mifflin–St Jeor 1990: woman 65 kg, 165 cm, 30 y: 1,370.25; man 80/180/30: 1,780 kcal."""
    assert resting_kcal(WOMAN) == pytest.approx(1370.25)
    assert resting_kcal(MAN) == pytest.approx(1780.0)


def test_energy_densities() -> None:
    """Hall 2008: 39.5 MJ/kg of fat and 7.6 MJ/kg of lean mass, at 4.184 kJ a kcal."""
    assert pytest.approx(39_500 / 4.184, abs=0.5) == FAT_DENSITY
    assert pytest.approx(7_600 / 4.184, abs=0.5) == LEAN_DENSITY


def test_lean_share_of_change() -> None:
    """10.4 over 17 kg of fat is 0.612 (Sanghvi 2015)."""
    assert FORBES / WOMAN.fat_kg == pytest.approx(0.612, abs=0.001)


@pytest.mark.parametrize(
    ("person", "per_kg", "per_kg_day", "days"),
    [(WOMAN, 8875, 23.22, 382), (MAN, 9248, 25.5, 363)],
)
def test_linear_constants(person: Person, per_kg: float, per_kg_day: float, days: float) -> None:
    """Constants of the linearised model worked from its published parameters, within 1 %."""
    model = dynamics(person)
    assert model.per_kg == pytest.approx(per_kg, rel=0.01)
    assert model.per_kg_day == pytest.approx(per_kg_day, rel=0.01)
    assert model.days == pytest.approx(days, rel=0.01)


def test_a_year_of_a_hundred_less() -> None:
    """The full published model loses 2.74 kg; the 7,700 rule's 4.74 kg is far too much."""
    change = weight_after(-100, 365, dynamics(WOMAN))
    assert change == pytest.approx(-2.74, abs=0.15)
    assert change > -36_500 / 7_700


def test_a_surplus_slows_down() -> None:
    """200 kcal a day is no 0.182 kg a week for ever: the gain of week 12 is below the first's."""
    model = dynamics(WOMAN)
    first = weight_after(200, 7, model)
    twelfth = weight_after(200, 84, model) - weight_after(200, 77, model)
    assert twelfth < first < 0.182


def test_energy_availability() -> None:
    """(2,000 − 300)/48.75 = 34.87; intake for 30 is 1,762.5, for 45 is 2,493.75 kcal."""
    assert energy_availability(2000, 300, 48.75) == pytest.approx(34.87, abs=0.005)
    assert intake_for_availability(30, 300, 48.75) == pytest.approx(1762.5)
    assert intake_for_availability(45, 300, 48.75) == pytest.approx(2493.75)


def test_protein_by_mass() -> None:
    """Morton 2018: 1.62 (1.03–2.20) g/kg, so 105.3 (67–143) g at 65 kg."""
    grams = protein_grams(65)
    assert grams.middle == pytest.approx(105.3)
    assert (round(grams.low), round(grams.high)) == (67, 143)


def test_maintenance_learned_from_stable_weight() -> None:
    """Who eats 1,900 kcal and keeps her weight has maintenance near 1,900."""
    logged = Logged(days=28, intake_kcal=1900, intake_se=30, slope_kg_week=0, slope_se=0.03)
    found = maintenance_from(logged, WOMAN)
    assert found.low < 1900 < found.high
    assert abs(found.middle - 1900) < 20


def test_losing_means_maintenance_is_higher() -> None:
    """Losing 0.2 kg a week on 1,800 kcal: 8,875 × 0.2/7 = 254 kcal more, less the shrinkage."""
    logged = Logged(days=28, intake_kcal=1800, intake_se=30, slope_kg_week=-0.2, slope_se=0.03)
    assert maintenance_from(logged, WOMAN).middle == pytest.approx(2054, abs=30)


def test_a_short_log_stays_near_body_size() -> None:
    """An uncertain slope leaves maintenance near its prior, with nearly the prior's width."""
    logged = Logged(days=7, intake_kcal=1200, intake_se=200, slope_kg_week=0, slope_se=1.0)
    before, found = maintenance_before(WOMAN), maintenance_from(logged, WOMAN)
    assert abs(found.middle - before.middle) < 100
    assert found.high - found.low > 0.8 * (before.high - before.low)


@given(st.floats(0, 3000), st.floats(1400, 3500), st.floats(0, 900))
def test_guards_hold_for_every_wish(wanted: float, maintenance: float, exercise: float) -> None:
    """No offer lies more than 500 kcal below maintenance or leaves less than 30 kcal/kg lean."""
    offer = deficit_guidance(wanted, maintenance, WOMAN, exercise).intake_kcal
    if offer is not None:
        assert maintenance - 500.001 <= offer <= maintenance
        assert energy_availability(offer, exercise, WOMAN.lean_kg) >= 29.999


def test_no_deficit_under_eighteen() -> None:
    """Age guards before anything else (AAP 2020)."""
    guidance = deficit_guidance(200, 2200, GIRL, 200)
    assert guidance.intake_kcal is None
    assert "under 18" in guidance.guards[0]


def test_a_surplus_is_small() -> None:
    """Five per cent (Helms 2023)."""
    assert surplus_guidance(2200).intake_kcal == pytest.approx(2310)
