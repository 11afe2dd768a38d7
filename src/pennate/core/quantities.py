"""Exact masses in kilograms and pounds, and the ways a lifter writes a load down."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache, total_ordering
from types import MappingProxyType

from pennate.errors import InputError

KG_PER_LB = Fraction("0.45359237")
"""Exact by definition: the international pound (1959)."""


class Unit(StrEnum):
    """A unit of mass; `Unit(text)` takes it as it is commonly spelt."""

    KG = "kg"
    LB = "lb"

    @classmethod
    def _missing_(cls, value: object) -> Unit | None:
        return UNIT_SPELLINGS.get(str(value).strip().casefold().rstrip("."))


UNIT_SPELLINGS: Mapping[str, Unit] = MappingProxyType(
    {
        **dict.fromkeys(("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms"), Unit.KG),
        **dict.fromkeys(("lb", "lbs", "pound", "pounds"), Unit.LB),
    }
)
"""Units as they are written, in every file and option alike."""


class LoadReading(StrEnum):
    """What a written load counts."""

    TOTAL = "total"
    """Bar and plates together, both hands together."""
    EACH = "each"
    """One of a pair of dumbbells."""
    SIDE = "side"
    """The plates on one side; the bar is not counted."""
    PLATES = "plates"
    """All plates, without the sled or guided bar that carries them."""
    LABEL = "label"
    """What the pin or the machine says."""


@total_ordering
@dataclass(frozen=True, slots=True, eq=False)
class Mass:
    """An exact mass that remembers the unit it was written in.

    Two masses are equal when they weigh the same, whatever their units. Sums and
    differences keep the unit when both sides share it, else turn to kilograms.
    """

    amount: Fraction
    unit: Unit

    @classmethod
    def kg(cls, amount: Fraction | int | str | Decimal) -> Mass:
        """A mass in kilograms; floats are refused because they are not exact."""
        return cls(_exact(amount), Unit.KG)

    @classmethod
    def lb(cls, amount: Fraction | int | str | Decimal) -> Mass:
        """A mass in pounds; floats are refused because they are not exact."""
        return cls(_exact(amount), Unit.LB)

    @property
    def in_kg(self) -> Fraction:
        """The exact number of kilograms."""
        return self.amount * KG_PER_LB if self.unit is Unit.LB else self.amount

    @property
    def in_lb(self) -> Fraction:
        """The exact number of pounds."""
        return self.amount if self.unit is Unit.LB else self.amount / KG_PER_LB

    def to(self, unit: Unit) -> Mass:
        """The same mass written in another unit."""
        return Mass(self.in_kg if unit is Unit.KG else self.in_lb, unit)

    def __add__(self, other: Mass) -> Mass:
        if self.unit is other.unit:
            return Mass(self.amount + other.amount, self.unit)
        return Mass(self.in_kg + other.in_kg, Unit.KG)

    def __sub__(self, other: Mass) -> Mass:
        return self + (-other)

    def __neg__(self) -> Mass:
        return Mass(-self.amount, self.unit)

    def __mul__(self, factor: int | Fraction) -> Mass:
        return Mass(self.amount * factor, self.unit)

    __rmul__ = __mul__

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Mass):
            return False
        if self.unit is other.unit:
            return self.amount == other.amount
        return self.in_kg == other.in_kg

    def __lt__(self, other: Mass) -> bool:
        return self.in_kg < other.in_kg

    def __hash__(self) -> int:
        return hash(self.in_kg)

    def __bool__(self) -> bool:
        return self.amount != 0

    def __str__(self) -> str:
        return f"{format_number(self.amount)} {self.unit}"


def _exact(amount: Fraction | int | str | Decimal) -> Fraction:
    if isinstance(amount, float):
        raise TypeError("a mass is exact: give a string, an int, a Decimal or a Fraction")
    return parse_number(amount) if isinstance(amount, str) else Fraction(amount)


def parse_number(text: str) -> Fraction:
    """Read a decimal number exactly; comma and point both mark the decimals.

    Raises InputError when the text is not a finite decimal number.
    """
    try:
        value = Decimal(text.strip().replace(",", ".").replace("\N{MINUS SIGN}", "-"))
    except InvalidOperation:
        raise InputError(f"“{text}” is not a number", remedy="write it like 42.5") from None
    if not value.is_finite() or abs(value.adjusted()) > 30:
        raise InputError(f"“{text}” is not a number", remedy="write it like 42.5")
    return Fraction(value)


@lru_cache(maxsize=4096)  # number: cache size; the same plates are said again and again
def format_number(value: Fraction, places: int = 2) -> str:
    """Write a number with at most `places` decimals and no trailing zeros.

    Half a unit in the last place rounds to even, as decimal arithmetic does.
    """
    scaled = round(value * 10**places)
    text = f"{Decimal(scaled).scaleb(-places):f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in {"-0", ""} else text


def exact_text(value: Fraction) -> str:
    """Write a number so that reading it back gives the same number.

    Decimal where the number has finitely many decimals, else a fraction `a/b`.
    """
    rest = value.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    if rest != 1:
        return f"{value.numerator}/{value.denominator}"
    places = 0
    while (value * 10**places).denominator != 1:
        places += 1
    return format_number(value, places)
