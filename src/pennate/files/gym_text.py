"""A gym as TOML text that reads back as the same gym."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from pennate.core.exercise import EquipmentKind
from pennate.core.gym import (
    AnyItem,
    Band,
    BandSet,
    Bar,
    BarShape,
    BodyWeight,
    Gym,
    Ladder,
    Plate,
    Sled,
    Stack,
)
from pennate.core.quantities import Mass, Unit, exact_text
from pennate.files.gym import KIND_OF
from pennate.files.toml_text import Value, pair_lines

Pairs = list[tuple[str, Value]]
_KEY_OF = {kind: key for key, kind in KIND_OF.items()}


def gym_values(gym: Gym) -> dict[str, Value]:
    """A gym as plain values shaped like the file, for a form; masses as exact text."""
    values: dict[str, Value] = {"id": gym.id, "name": gym.name, "small": list(gym.small)}
    if gym.fixtures is not None:
        values["fixtures"] = [one.value for one in gym.fixtures]
    tables: dict[str, list[dict[str, Value]]] = {}
    if gym.plates:
        tables["plate"] = [dict(plate_pairs(plate)) for plate in gym.plates]
    for item in sorted(gym.items, key=_kind_order):
        tables.setdefault(_KEY_OF[item.kind], []).append(dict(item_pairs(item)))
    return {**values, **tables}


def render_gym(gym: Gym) -> str:
    """The file of a gym; items are kept in the order of their kinds."""
    lines = pair_lines([("id", gym.id), ("name", gym.name)])
    if gym.small:
        lines += pair_lines([("small", list(gym.small))])
    if gym.fixtures is not None:
        lines += pair_lines([("fixtures", [one.value for one in gym.fixtures])])
    for plate in gym.plates:
        lines += ["", "[[plate]]", *pair_lines(plate_pairs(plate))]
    for item in sorted(gym.items, key=_kind_order):
        lines += ["", f"[[{_KEY_OF[item.kind]}]]", *pair_lines(item_pairs(item))]
    return "\n".join(lines) + "\n"


def _kind_order(item: AnyItem) -> int:
    return list(KIND_OF.values()).index(item.kind)


def number(value: Fraction) -> Value:
    """A number as TOML writes it: bare where it is a short decimal, else exact text."""
    text = exact_text(value)
    if "/" in text:
        return text
    plain: float = int(text) if "." not in text else float(text)
    return plain if Fraction(str(plain)) == value else text


def plate_pairs(plate: Plate) -> Pairs:
    """The keys and values of a plate's table."""
    pairs: Pairs = [
        ("mass", number(plate.mass.amount)),
        ("unit", plate.mass.unit.value),
        ("pairs", plate.pairs),
    ]
    if plate.diameter_mm is not None:
        pairs.append(("diameter", plate.diameter_mm))
    if plate.thickness_mm is not None:
        pairs.append(("thickness", plate.thickness_mm))
    return pairs + _flags(competition=plate.competition)


def _flags(**flags: bool) -> Pairs:
    return [(key, True) for key, given in flags.items() if given]


def _common(item: AnyItem, unit: Unit | None) -> Pairs:
    pairs: Pairs = [("id", item.id), ("name", item.name)]
    if unit is not None:
        pairs.append(("unit", unit.value))
    texts: Pairs = [("station", item.station), ("zone", item.zone)]
    pairs += [(key, text) for key, text in texts if text]
    if item.serves:
        pairs.append(("for", list(item.serves)))
    return pairs + _flags(safeties=item.safeties)


def item_pairs(item: AnyItem) -> Pairs:
    """The keys and values of an item's table."""
    if isinstance(item, Bar):
        return _bar_pairs(item)
    if isinstance(item, Ladder):
        return _picks_pairs(item)
    if isinstance(item, Stack):
        return _stack_pairs(item)
    if isinstance(item, Sled):
        return _sled_pairs(item)
    if isinstance(item, BandSet):
        return _bands_pairs(item)
    return _body_weight_pairs(item)


def _bar_pairs(item: Bar) -> Pairs:
    unit = item.mass.unit
    units: Pairs = [("units", [one.value for one in item.units])] if item.units else []
    if item.kind is EquipmentKind.GUIDED_BAR:
        start: Pairs = [("start", number(item.mass.amount))]
        return _common(item, unit) + start + units + _flags(label_only=item.label_only)
    pairs: Pairs = [*_common(item, unit), ("mass", number(item.mass.amount))]
    if item.collars:
        pairs.append(("collars", number(item.collars.to(unit).amount)))
    if item.sleeve_mm is not None:
        pairs.append(("sleeve", item.sleeve_mm))
    if item.shape is not BarShape.STRAIGHT:
        pairs.append(("shape", item.shape.value))
    return pairs + units + _flags(one_end=item.one_end)


def _one_unit(masses: Iterable[Mass]) -> Unit:
    return next(iter(masses)).unit


def _picks_pairs(item: Ladder) -> Pairs:
    unit = _one_unit(item.masses)
    return [
        *_common(item, unit),
        ("masses", [number(mass.to(unit).amount) for mass in item.masses]),
    ]


def _stack_pairs(item: Stack) -> Pairs:
    unit = item.start.unit
    pairs: Pairs = [
        *_common(item, unit),
        ("start", number(item.start.amount)),
        ("step", number(item.step.to(unit).amount)),
        ("top", number(item.top.to(unit).amount)),
    ]
    if item.ratio != 1:
        pairs.append(("ratio", exact_ratio(item.ratio)))
    if item.add_ons:
        pairs.append(("add_ons", [number(one.to(unit).amount) for one in item.add_ons]))
    return pairs + _flags(label_only=item.label_only)


def exact_ratio(ratio: Fraction) -> str:
    """A pulley ratio that reads back as itself, whatever its size."""
    return f"{ratio.numerator}/{ratio.denominator}"


def _sled_pairs(item: Sled) -> Pairs:
    pairs: Pairs = [*_common(item, item.mass.unit), ("mass", number(item.mass.amount))]
    if item.angle_deg is not None:
        pairs.append(("angle", number(item.angle_deg)))
    return pairs + _flags(label_only=item.label_only)


def _bands_pairs(item: BandSet) -> Pairs:
    rows = [dict(_band_pairs(band)) for band in item.bands]
    return [*_common(item, None), *_flags(assists=item.assists), ("band", rows)]


def _band_pairs(band: Band) -> Pairs:
    return [
        ("name", band.name),
        ("tension", number(band.tension.amount)),
        ("unit", band.tension.unit.value),
        ("spread", number(band.sd_log)),
    ]


def _body_weight_pairs(item: BodyWeight) -> Pairs:
    pairs = _common(item, None) + _flags(belt=item.belt)
    return pairs if item.most_on_belt is None else [*pairs, ("most_on_belt", item.most_on_belt)]
