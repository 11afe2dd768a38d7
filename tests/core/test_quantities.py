"""Masses are exact and both units mix."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.core.quantities import Mass, Unit, exact_text, format_number, parse_number
from pennate.errors import InputError

amounts = st.fractions(min_value=-2000, max_value=2000, max_denominator=1000)
masses = st.builds(Mass, amounts, st.sampled_from(Unit))


@pytest.mark.parametrize("text", ["lb", "LBS", "lbs.", "pound", " Pounds "])
def test_a_unit_as_it_is_commonly_spelt(text: str) -> None:
    """Pounds are pounds however they are written; a stone is neither unit."""
    assert Unit(text) is Unit.LB
    with pytest.raises(ValueError, match="stone"):
        Unit("stone")


def test_the_pound_is_exact() -> None:
    """One pound is 0.45359237 kg by the 1959 international agreement, without rounding."""
    assert Mass.lb(1).in_kg == Fraction(45359237, 100_000_000)


@pytest.mark.parametrize(("pounds", "kilograms"), [("45", "20.41"), ("2.5", "1.13")])
def test_pound_plates_in_kilograms(pounds: str, kilograms: str) -> None:
    """Pound plates read as in the published tables: 45 lb is 20.41 kg, 2.5 lb is 1.13 kg."""
    assert format_number(Mass.lb(pounds).in_kg) == kilograms


@given(masses, masses, masses)
def test_sums_are_exact_in_any_order_and_unit(a: Mass, b: Mass, c: Mass) -> None:
    """A mixed bar weighs the same however its plates are added up."""
    assert (a + b) + c == a + (b + c) == Mass(a.in_kg + b.in_kg + c.in_kg, Unit.KG)


@given(masses)
def test_changing_the_unit_keeps_the_mass(mass: Mass) -> None:
    """Kilograms to pounds and back loses nothing."""
    assert mass.to(Unit.LB).to(Unit.KG) == mass
    assert hash(mass.to(Unit.LB)) == hash(mass)


@given(amounts)
def test_exact_text_reads_back(value: Fraction) -> None:
    """A written number reads back as the same number when it has finitely many decimals."""
    text = exact_text(value)
    assert (Fraction(text) if "/" in text else parse_number(text)) == value


@pytest.mark.parametrize("text", ["", "abc", "1,2,3", "NaN", "inf", "1e99"])
def test_nonsense_is_refused_with_a_remedy(text: str) -> None:
    """What is not a number is refused with the way to write one."""
    with pytest.raises(InputError, match="write it like"):
        parse_number(text)


def test_comma_and_point_both_mark_decimals() -> None:
    """Lifters write 42,5 and 42.5 alike."""
    assert parse_number("42,5") == parse_number(" 42.5 ") == Fraction(85, 2)
