"""What a gym really has: bars, plates, dumbbells, stacks, sleds and bands, and where they stand."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from pennate.core.exercise import EVERY_FIXTURE, EquipmentKind, Fixture
from pennate.core.felt import Carrier
from pennate.core.quantities import LoadReading, Mass, Unit


@dataclass(frozen=True, slots=True)
class Plate:
    """A kind of plate and how many pairs of it there are."""

    mass: Mass
    pairs: int
    diameter_mm: int | None = None
    competition: bool = False
    """Made to the open competition rules, so drawn in their colours."""
    thickness_mm: int | None = None
    """Room it takes on the sleeve; unknown plates are never refused for room."""


class BarShape(StrEnum):
    """The shape of a bar."""

    STRAIGHT = "straight"
    SHORT = "short"
    CURVED = "curved"


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """Something that can be loaded, with its station and zone in the gym."""

    id: str
    name: str
    kind: EquipmentKind
    station: str = ""
    """Items that share a station cannot be used for two exercises of a superset."""
    zone: str = ""
    safeties: bool = False
    """Safeties or stops can be set here."""
    serves: tuple[str, ...] = ()
    """Exercises it is made for, as catalogue ids; empty leaves it open to all of its kind."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar(Item):
    """A bar loaded with plates; for a guided bar `mass` is its effective start."""

    mass: Mass
    collars: Mass = field(default_factory=lambda: Mass.kg(0))
    """Both collars together, counted in the load."""
    sleeve_mm: int | None = None
    shape: BarShape = BarShape.STRAIGHT
    label_only: bool = False
    """The start is unknown: numbers mean nothing outside this item."""
    units: tuple[Unit, ...] = ()
    """Units of plates she puts on this bar; empty means one unit at a time."""
    one_end: bool = False
    """One end stands in a corner or a joint; plates go on the other end only."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder(Item):
    """Fixed masses to pick from: dumbbells (mass of one), fixed barbells, kettlebells."""

    masses: tuple[Mass, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack(Item):
    """A pin stack, cable or assisted machine. Load at the hand = label × ratio."""

    start: Mass
    step: Mass
    top: Mass
    add_ons: tuple[Mass, ...] = ()
    ratio: Fraction = Fraction(1)
    label_only: bool = False

    @property
    def labels(self) -> tuple[Mass, ...]:
        """The labels the pin can take, lightest first."""
        many = int((self.top.in_kg - self.start.in_kg) / self.step.in_kg)
        return tuple(self.start + self.step * place for place in range(many + 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Sled(Item):
    """A sled on rails or a plate-loaded machine with two sides.

    Effective load = (sled + plates) × sine of the angle for a sled; a lever machine has
    no angle.
    """

    mass: Mass
    angle_deg: Fraction | None = None
    label_only: bool = False


@dataclass(frozen=True, slots=True)
class Band:
    """One band on her own tension scale: the pull where it matters, and its spread."""

    name: str
    tension: Mass
    sd_log: Fraction = Fraction("0.15")
    """Standard deviation of the log pull; see the evidence register."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BandSet(Item):
    """Bands used alone or against body weight."""

    bands: tuple[Band, ...]
    assists: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyWeight(Item):
    """A bar to hang from, a mat, a bench: body weight, with plates on a belt if she likes."""

    belt: bool = False

    most_on_belt: int | None = None
    """How many plates the belt takes; None leaves it open."""


AnyItem = Bar | Ladder | Stack | Sled | BandSet | BodyWeight


@dataclass(frozen=True, slots=True, kw_only=True)
class Gym:
    """One place: its plates, its items, and small things that change what is possible."""

    id: str
    name: str
    plates: tuple[Plate, ...] = ()
    items: tuple[AnyItem, ...] = ()
    small: tuple[str, ...] = ()
    """Straps, cuffs, belts, blocks, mats: present by name."""
    fixtures: tuple[Fixture, ...] | None = None
    """What there is to hang from, lie on, step on; None where nobody has said: everything."""
    own_units: tuple[tuple[str, Unit], ...] = ()
    """By item, the unit she loads it in: loads of the other unit stand back. Of her, not of the
    place, so no gym file has it; empty offers every load of both units alike."""

    @property
    def has(self) -> frozenset[Fixture]:
        """The fixtures exercises may count on."""
        return EVERY_FIXTURE if self.fixtures is None else frozenset(self.fixtures)

    def item(self, item_id: str) -> AnyItem | None:
        """The item with this id."""
        return next((item for item in self.items if item.id == item_id), None)

    def unit_on(self, item_id: str) -> Unit | None:
        """The unit she loads an item in; None where both are alike to her."""
        return dict(self.own_units).get(item_id)

    def of_kind(self, kind: EquipmentKind) -> tuple[AnyItem, ...]:
        """All items of a kind, in the order of the file."""
        return tuple(item for item in self.items if item.kind is kind)


def carrier_of(item: AnyItem) -> Carrier:
    """What the plates of an item hang on; nothing known for label-only items.

    A sled on rails is felt by the sine of its angle (force along the rails). A bar with one
    end in a joint shows half of its own mass at the other end (a uniform lever).
    """
    if isinstance(item, Bar) and not item.label_only:
        whole = (item.mass + item.collars).in_kg
        return Carrier(mass_kg=whole / 2 if item.one_end else whole)
    if isinstance(item, Stack) and not item.label_only:
        return Carrier(factor=item.ratio)
    if isinstance(item, Sled) and not item.label_only:
        return Carrier(item.mass.in_kg, sine(item.angle_deg))
    return Carrier()


def sine(angle_deg: Fraction | None) -> Fraction:
    """Sine of a sled's angle as a fraction (to ten digits); one for a lever without angle."""
    if angle_deg is None:
        return Fraction(1)
    return Fraction(math.sin(math.radians(angle_deg))).limit_denominator(10**10)


def usual_reading(item: AnyItem, count: int = 1) -> LoadReading:
    """How a lifter says the load of this item; `count` is how many dumbbells she holds."""
    if isinstance(item, Stack | BandSet):
        return LoadReading.LABEL
    if isinstance(item, Sled) or (isinstance(item, Bar) and (item.label_only or item.one_end)):
        return LoadReading.PLATES
    return LoadReading.EACH if count > 1 else LoadReading.TOTAL
