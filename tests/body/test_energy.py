"""Energy balance, protein and guards against the published equations."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.body.energy import (
    Logged,
    Person,
    deficit_guidance,
    energy_availability,
    maintenance_before,
    maintenance_from,
    surplus_guidance,
)

WOMAN = Person(mass_kg=65, height_cm=165, age=30, female=True, fat_kg=17)
MAN = Person(mass_kg=80, height_cm=180, age=30, female=False, fat_kg=20, activity=1.6)
GIRL = Person(mass_kg=60, height_cm=165, age=16, female=True, fat_kg=14)


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
