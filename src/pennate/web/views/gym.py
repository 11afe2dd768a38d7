"""The Gym page: her gyms, the plates and things of one, and where her week is trained."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from pennate.app.gym_page import Misfit
from pennate.app.gym_words import holds
from pennate.core.exercise import Fixture
from pennate.core.gym import AnyItem, Gym, Plate
from pennate.core.plural import plural
from pennate.core.quantities import format_number
from pennate.files.gym_text import render_gym
from pennate.web.words import mass_words

KIND_WORDS: Mapping[str, str] = {
    "bar": "Bar for plates",
    "guided_bar": "Guided bar",
    "dumbbells": "Dumbbells",
    "fixed_barbells": "Fixed barbells",
    "kettlebells": "Kettlebells",
    "stack": "Machine with a pin",
    "cable": "Cable",
    "sled": "Sled on rails",
    "plate_loaded": "Machine with plates",
    "bands": "Bands",
    "assisted": "Machine that helps",
    "body_weight": "Body weight",
}
"""Kinds of things in her words, by the key of their table, in the order they are offered."""

ZONE_WORDS = {"free": "Free", "": "Elsewhere"}


@dataclass(frozen=True, slots=True)
class PlateRow:
    """One kind of plate and its pairs, as stored or as typed."""

    words: str
    mass: str
    unit: str
    pairs: str
    wrong: str = ""


@dataclass(frozen=True, slots=True)
class ItemWords:
    """One thing to load, in words."""

    id: str
    name: str
    words: str


@dataclass(frozen=True, slots=True)
class GymLink:
    """One of her gyms."""

    id: str
    name: str
    shown: bool
    used: bool


@dataclass(frozen=True, slots=True)
class NewPlate:
    """Another kind of plate as typed, and what is wrong with it by field."""

    typed: Mapping[str, str]
    wrong: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Slips:
    """What was typed and could not be read, so that it stands where it was typed."""

    plates: tuple[PlateRow, ...] = ()
    new_plate: NewPlate | None = None
    text: str = ""
    name: str | None = None
    name_wrong: str = ""


NO_SLIPS = Slips()
NO_PLATE: Mapping[str, str] = {}


@dataclass(frozen=True, slots=True, kw_only=True)
class GymView:
    """What the Gym page shows."""

    id: str
    name: str
    about: str
    used: bool
    gyms: tuple[GymLink, ...]
    plates: tuple[PlateRow, ...]
    new_plate: NewPlate
    new_plate_open: bool
    groups: tuple[tuple[str, tuple[ItemWords, ...]], ...]
    kinds: tuple[tuple[str, str], ...]
    fixtures: tuple[tuple[str, bool], ...]
    """What there may be to hang from, lie on and step on, and whether it is there."""
    small: str
    new_name: str
    name_wrong: str
    text: str
    typed: bool


def gym_view(gym: Gym, gyms: Iterable[Gym], used: str, slips: Slips = NO_SLIPS) -> GymView:
    """The page of a gym; `used` is the id of the one her week is trained in."""
    new_plate = slips.new_plate or NewPlate(NO_PLATE, NO_PLATE)
    return GymView(
        id=gym.id,
        name=gym.name,
        about=_about(gym, used=gym.id == used),
        used=gym.id == used,
        gyms=tuple(
            GymLink(one.id, one.name, one.id == gym.id, one.id == used)
            for one in sorted(gyms, key=lambda one: (one.id != used, one.name))
        ),
        plates=slips.plates or tuple(plate_row(plate) for plate in gym.plates),
        new_plate=new_plate,
        new_plate_open=bool(new_plate.wrong) or not gym.plates,
        groups=_groups(gym.items),
        kinds=tuple(KIND_WORDS.items()),
        fixtures=tuple((one.value, one in gym.has) for one in Fixture),
        small=", ".join(gym.small),
        new_name=gym.name if slips.name is None else slips.name,
        name_wrong=slips.name_wrong,
        text=slips.text or render_gym(gym),
        typed=bool(slips.text),
    )


def _about(gym: Gym, *, used: bool) -> str:
    things = plural(len(gym.items), "thing")
    pairs = sum(plate.pairs for plate in gym.plates)
    parts = ["your week is trained here"] if used else []
    parts += [f"{things}, {plural(pairs, 'pair')} of plates" if pairs else things]
    return " · ".join(parts)


def plate_row(plate: Plate) -> PlateRow:
    """A stored kind of plate."""
    mass = plate.mass
    return PlateRow(mass_words(mass), format_number(mass.amount), mass.unit.value, str(plate.pairs))


def _groups(items: Iterable[AnyItem]) -> tuple[tuple[str, tuple[ItemWords, ...]], ...]:
    """Things by where they stand, in the order of the file."""
    zones: dict[str, list[ItemWords]] = {}
    for item in items:
        zones.setdefault(item.zone, []).append(item_words(item))
    if list(zones) == [""]:
        return (("Things to load", tuple(zones[""])),)
    return tuple((_zone_words(zone), tuple(found)) for zone, found in zones.items())


def _zone_words(zone: str) -> str:
    return ZONE_WORDS.get(zone, zone[:1].upper() + zone[1:])


def item_words(item: AnyItem) -> ItemWords:
    """One thing in a line."""
    marks = [holds(item)]
    marks += ["safeties"] if item.safeties else []
    marks += [f"at the {item.station}"] if item.station else []
    return ItemWords(item.id, item.name, " · ".join(mark for mark in marks if mark))


# Another gym for the week


@dataclass(frozen=True, slots=True)
class MisfitRow:
    """An exercise this gym cannot carry, and what would replace it."""

    key: str
    day: str
    name: str
    instead: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChooseView:
    """The question before the week is moved to a gym that cannot carry all of it."""

    id: str
    name: str
    rows: tuple[MisfitRow, ...]


def choose_view(gym: Gym, found: Iterable[Misfit]) -> ChooseView:
    """What does not fit, day by day."""
    return ChooseView(id=gym.id, name=gym.name, rows=tuple(_misfit_row(one) for one in found))


def _misfit_row(one: Misfit) -> MisfitRow:
    if one.instead is None:
        return MisfitRow(one.key, one.day, one.name, "nothing here replaces it: leave it out")
    kept = f"{100 * one.keeps:.0f}\u00a0% of its dose" if one.keeps < 0.995 else "all of its dose"
    return MisfitRow(one.key, one.day, one.name, f"{one.instead_name} on {one.on}, {kept}")
