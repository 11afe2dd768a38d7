"""The gym file as tables: its keys, their types, examples and words.

These models are the published JSON Schema; `files.gym` turns them into a `Gym`.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Annotated, Any

from pydantic import Field, PlainValidator, StringConstraints, WithJsonSchema

from pennate.core.exercise import Fixture
from pennate.core.gym import BarShape
from pennate.core.quantities import Unit, parse_number
from pennate.errors import InputError
from pennate.files.toml import Entry, said
from pennate.files.week_tables import words

MOST_KG = 2000
"""Heavier than anything in a gym; more is a slip."""
_RANGE = re.compile(r"\s*([\d.,]+)\s*(?:-|–|to)\s*([\d.,]+)\s*by\s*([\d.,]+)\s*")


def number_of(value: Any) -> Fraction:
    """An exact number, bare or as text (also `1/3`); comma and point both mark decimals."""
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise InputError(f"“{value}” is not a number", remedy="write it like 22.5")
    text = str(value)
    if re.fullmatch(r"\d{1,30}/[1-9]\d{0,29}", text):
        return Fraction(text)
    return parse_number(text)


def amount_of(value: Any) -> Fraction:
    """A number from 0 to a limit beyond any real equipment."""
    amount = number_of(value)
    if not 0 <= amount <= MOST_KG:
        remedy = f"write a number from 0 to {MOST_KG}"
        raise InputError(f"“{value}” cannot be a mass here", remedy=remedy)
    return amount


def positive_of(value: Any) -> Fraction:
    """As `amount_of`, but more than nothing."""
    amount = amount_of(value)
    if amount == 0:
        raise InputError("a mass of 0 cannot be right here", remedy="write what it weighs")
    return amount


def ratio_of(value: Any) -> Fraction:
    """Load at the hand as a share of the label: 0.5, "1/2" and "2:1" all mean half.

    A number above one is read as the pulley's `n:1`; a doubling pulley is written "1:2".
    """
    text = str(value).strip()
    parts = re.fullmatch(r"([\d.,]+)\s*([:/])\s*([\d.,]+)", text)
    if parts:
        left, sign, right = number_of(parts[1]), parts[2], number_of(parts[3])
        top, bottom = (right, left) if sign == ":" else (left, right)
        ratio = top / bottom if bottom else Fraction(0)
    else:
        plain = number_of(value)
        ratio = 1 / plain if plain > 1 else plain
    if not Fraction(1, 10) <= ratio <= 10:
        remedy = 'write 1, 0.5, or "2:1" where the stack feels half as heavy'
        raise InputError(f"“{value}” cannot be a pulley ratio", remedy=remedy)
    return ratio


def angle_of(value: Any) -> Fraction:
    """Degrees from the floor."""
    angle = number_of(value)
    if not 0 < angle <= 90:
        remedy = "write degrees from the floor, like 45"
        raise InputError(f"“{value}” cannot be the angle of a sled", remedy=remedy)
    return angle


def spread_of(value: Any) -> Fraction:
    """A relative standard deviation."""
    spread = number_of(value)
    if not 0 <= spread <= 1:
        raise InputError(f"“{value}” cannot be a spread", remedy="write a share like 0.15")
    return spread


def masses_of(value: Any) -> tuple[Fraction, ...]:
    """Masses in a row: numbers, and ranges like "12-30 by 2"."""
    if not isinstance(value, list) or not value:
        raise InputError("masses must be a list", remedy='write [5, 7.5] or ["1-10 by 1"]')
    found: set[Fraction] = set()
    for one in value:
        found.update(_some_of(one))
    if len(found) > _MOST_MASSES:
        remedy = "check the step of the range"
        raise InputError(f"these are {len(found)} masses", remedy=remedy)
    return tuple(sorted(found))


_MOST_MASSES = 300


def _some_of(value: Any) -> list[Fraction]:
    ranged = _RANGE.fullmatch(value) if isinstance(value, str) else None
    if ranged is None:
        return [positive_of(value)]
    low, high, step = (positive_of(part) for part in ranged.groups())
    many = (high - low) / step
    if high < low or many > _MOST_MASSES:
        raise InputError(f"“{value}” is not a range", remedy='write it like "12-30 by 2"')
    return [low + step * place for place in range(int(many) + 1)]


def _written(read: Any, *kinds: str) -> tuple[Any, ...]:
    return PlainValidator(said(read)), WithJsonSchema({"type": list(kinds)})


_AMOUNT = _written(amount_of, "number", "string")
_POSITIVE = _written(positive_of, "number", "string")
_RATIO = _written(ratio_of, "number", "string")
_ANGLE = _written(angle_of, "number", "string")
_SPREAD = _written(spread_of, "number", "string")
_MASSES = (
    PlainValidator(said(masses_of)),
    WithJsonSchema({"type": "array", "items": {"type": ["number", "string"]}, "minItems": 1}),
)
_UNIT = words(Unit)
_SHAPE = words(BarShape)
_FIXTURE = words(Fixture)

Amount = Annotated[Fraction, _AMOUNT[0], _AMOUNT[1]]
Positive = Annotated[Fraction, _POSITIVE[0], _POSITIVE[1]]
Ratio = Annotated[Fraction, _RATIO[0], _RATIO[1]]
Angle = Annotated[Fraction, _ANGLE[0], _ANGLE[1]]
Spread = Annotated[Fraction, _SPREAD[0], _SPREAD[1]]
Masses = Annotated[tuple[Fraction, ...], _MASSES[0], _MASSES[1]]
UnitWord = Annotated[Unit, _UNIT[0], _UNIT[1]]
Shape = Annotated[BarShape, _SHAPE[0], _SHAPE[1]]
FixtureWord = Annotated[Fixture, _FIXTURE[0], _FIXTURE[1]]
Id = Annotated[str, StringConstraints(min_length=1, max_length=60, pattern=r"^\S(.*\S)?$")]
Name = Annotated[str, StringConstraints(max_length=80)]


class Measured(Entry):
    """A table with masses in one unit."""

    unit: UnitWord | None = Field(
        None, examples=["kg"], description="kg or lb; left out, the unit of the gym."
    )


class PlateTable(Measured):
    """A kind of plate."""

    mass: Positive = Field(examples=[20])
    pairs: int = Field(1, ge=0, le=20, examples=[2], description="How many pairs there are.")
    diameter: int | None = Field(None, ge=50, le=800, examples=[450], description="Millimetres.")
    thickness: int | None = Field(None, ge=1, le=200, examples=[40], description="Millimetres.")
    competition: bool = Field(
        default=False, description="Made to the competition rules, drawn in their colours."
    )


class ItemTable(Measured):
    """What every item has."""

    id: Id = Field(examples=["rack_bar"], description="A short name of its own.")
    name: Name = Field("", examples=["Bar at the rack"], description="Left out, made of the id.")
    station: Name = Field(
        "", examples=["rack"], description="Items at one station cannot make a superset."
    )
    zone: Name = Field("", examples=["free weights"])
    safeties: bool = Field(default=False, description="Safeties or stops can be set here.")
    serves: list[Name] = Field(
        default_factory=list,
        alias="for",
        max_length=60,
        examples=[["leg_extension"]],
        description="Exercises it is made for, by id; left out, all of its kind.",
    )


class BarTable(ItemTable):
    """A bar for plates."""

    mass: Positive = Field(examples=[20])
    collars: Amount = Field(
        Fraction(0), examples=[5], description="Both collars together, where they count."
    )
    sleeve: int | None = Field(None, ge=50, le=600, examples=[415], description="Millimetres.")
    shape: Shape = Field(BarShape.STRAIGHT, examples=["curved"])
    units: list[UnitWord] = Field(
        default_factory=list,
        examples=[["kg", "lb"]],
        description="Plates you put on it; both only where you mix them on one bar.",
    )
    one_end: bool = Field(default=False, description="One end in a corner, plates on the other.")


class GuidedBarTable(ItemTable):
    """A bar on rails, with the load it starts at."""

    start: Amount = Field(
        Fraction(0), examples=[8], description="What it feels like without plates."
    )
    units: list[UnitWord] = Field(default_factory=list, examples=[["kg"]])
    label_only: bool = Field(default=False, description="The start is unknown.")


class PickTable(ItemTable):
    """Fixed masses to pick from."""

    masses: Masses = Field(examples=[["1-10 by 1", "12-30 by 2"]])


class StackTable(ItemTable):
    """A pin stack."""

    start: Amount = Field(examples=[5], description="The label of the lightest pin place.")
    step: Positive = Field(examples=[5])
    top: Positive | None = Field(
        None, examples=[100], description="The heaviest label; left out, 30 steps are assumed."
    )
    ratio: Ratio = Field(
        Fraction(1),
        examples=["2:1"],
        description="Load at the hand as a share of the label: 0.5, “1/2” and “2:1” mean half; "
        "a plain number above one is the pulley's n:1.",
    )
    add_ons: tuple[Positive, ...] = Field((), examples=[[2.5]], strict=False)
    label_only: bool = Field(default=False, description="Its numbers mean nothing elsewhere.")


class SledTable(ItemTable):
    """A sled on rails, or a machine loaded with plates on two sides."""

    mass: Amount = Field(Fraction(0), examples=[40], description="Sled or arms without plates.")
    angle: Angle | None = Field(
        None, examples=[45], description="Degrees of the rails from the floor; none for a lever."
    )
    label_only: bool = Field(default=False, description="Its own mass is unknown.")


class BandTable(Measured):
    """One band on her own scale."""

    name: Name = Field(examples=["red"])
    tension: Positive = Field(examples=[12], description="Pull where the exercise is hardest.")
    spread: Spread = Field(
        Fraction("0.15"), examples=[0.15], description="How unsure the pull is, as a share."
    )


class BandsTable(ItemTable):
    """Bands, used alone or to help against body weight."""

    assists: bool = Field(default=False, description="They take load off instead of adding it.")
    bands: tuple[BandTable, ...] = Field(
        alias="band", min_length=1, max_length=12, strict=False, examples=[[{"name": "red"}]]
    )


class BodyWeightTable(ItemTable):
    """Somewhere to work against body weight."""

    belt: bool = Field(default=False, description="Plates can be hung on a belt.")
    most_on_belt: int | None = Field(None, ge=1, le=10, examples=[3])


class GymTable(Entry):
    """One place to train."""

    id: Id = Field("gym", examples=["city"])
    name: Name = Field("", examples=["The gym in the city"])
    unit: UnitWord = Field(Unit.KG, examples=["kg"], description="Where a table names no unit.")
    small: list[Name] = Field(
        default_factory=list, max_length=60, examples=[["straps", "ankle cuff", "belt"]]
    )
    fixtures: list[FixtureWord] | None = Field(
        None,
        max_length=30,
        examples=[["chin-up bar", "bench"]],
        description="What there is to hang from, lie on, step on; left out, everything.",
    )
    plates: list[PlateTable] = Field(default_factory=list, alias="plate", max_length=30)
    bars: list[BarTable] = Field(default_factory=list, alias="bar")
    guided_bars: list[GuidedBarTable] = Field(default_factory=list, alias="guided_bar")
    dumbbells: list[PickTable] = Field(default_factory=list)
    fixed_barbells: list[PickTable] = Field(default_factory=list)
    kettlebells: list[PickTable] = Field(default_factory=list)
    stacks: list[StackTable] = Field(default_factory=list, alias="stack")
    cables: list[StackTable] = Field(default_factory=list, alias="cable")
    sleds: list[SledTable] = Field(default_factory=list, alias="sled")
    plate_loaded: list[SledTable] = Field(default_factory=list)
    band_sets: list[BandsTable] = Field(default_factory=list, alias="bands")
    assisted: list[StackTable] = Field(default_factory=list)
    body_weight: list[BodyWeightTable] = Field(default_factory=list)
