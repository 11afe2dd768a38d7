"""Bars, sleds and belts with their plates, diameters to scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from pennate.core.exercise import EquipmentKind
from pennate.core.gym import Bar, BarShape, Plate, Sled
from pennate.core.loaded import Loaded
from pennate.core.quantities import Mass, Unit, format_number
from pennate.sheets.pictures_marks import (
    ACCENT,
    FONT,
    SOFT,
    WIDTH,
    box,
    disc,
    drawing,
    label,
    path,
    text_width,
)

HEIGHT = 126
_MIDDLE = 60.0
_SCALE = 112 / 450
"""Pixels per millimetre: a full plate of 450 mm stands 112 high."""
_LEAST_TALL = 30.0
_GAP = 2.5

USUAL_DIAMETERS = ((20, 450), (15, 400), (10, 325), (5, 230), (2, 190), (1, 160), (0, 120))
"""Kilograms from which a plate of unknown size is drawn this many millimetres wide."""

COMPETITION = {
    Fraction(25): ("#a3262a", "#fff"),
    Fraction(20): ("#1c4f8f", "#fff"),
    Fraction(15): ("#f0c02e", "#15171a"),
    Fraction(10): ("#17592f", "#fff"),
    Fraction(5): ("#fff", "#15171a"),
    Fraction("2.5"): ("#a3262a", "#fff"),
    Fraction(2): ("#1c4f8f", "#fff"),
    Fraction("1.5"): ("#f0c02e", "#15171a"),
    Fraction(1): ("#17592f", "#fff"),
    Fraction("0.5"): ("#fff", "#15171a"),
}
"""Fill and figure of plates by kilograms: the order of colours in the open rules of the sport."""


@dataclass(frozen=True, slots=True)
class Side:
    """Where plates go: the face of the sleeve, outward direction (1 right, −1 left), room."""

    face: float
    outward: int
    room: float


def diameter_mm(plate: Plate) -> int:
    """The diameter in the inventory, else what such a plate usually has."""
    if plate.diameter_mm is not None:
        return plate.diameter_mm
    return next(mm for kg, mm in USUAL_DIAMETERS if plate.mass.in_kg >= kg)


def figure(plate: Plate, own: Unit | None) -> str:
    """The number on a plate; pounds among kilograms (or the reverse) say so."""
    text = format_number(plate.mass.amount)
    return text if own in {None, plate.mass.unit} else f"{text} {plate.mass.unit}"


def _thickness(plate: Plate) -> float:
    return 26 - 2.5 * max(0.0, 1 - float(plate.mass.in_kg) / 20)


def plates_on(side: Side, plates: Sequence[Plate], own: Unit | None) -> tuple[list[str], float]:
    """Plates on one sleeve, inner to outer, and where the last one ends."""
    whole = sum(_thickness(plate) + _GAP for plate in plates)
    squeeze = min(1.0, side.room / whole) if whole else 1.0
    parts: list[str] = []
    at = side.face
    for plate in plates:
        thick = max(4.0, _thickness(plate) * squeeze)
        left = at if side.outward > 0 else at - thick
        parts += _plate(left, thick, plate, own)
        at += side.outward * (thick + _GAP * squeeze)
    return parts, at


def _plate(left: float, thick: float, plate: Plate, own: Unit | None) -> list[str]:
    tall = max(_LEAST_TALL, diameter_mm(plate) * _SCALE)
    fill, ink = colours(plate)
    shape = box(left, _MIDDLE - tall / 2, thick, tall, fill=fill, round_by=3)
    return [shape, *_figure_on(left, thick, tall, figure(plate, own), ink)]


def colours(plate: Plate) -> tuple[str, str]:
    """Fill and figure: competition colours for competition plates, else plain iron."""
    plain = ("none", "currentColor")
    if not plate.competition or plate.mass.unit is not Unit.KG:
        return plain
    return COMPETITION.get(plate.mass.amount, plain)


def _figure_on(left: float, thick: float, tall: float, text: str, ink: str) -> list[str]:
    """The number inside where it fits, standing or turned, as large as fits."""
    middle = left + thick / 2
    if text_width(text) <= thick - 2:
        return [label(middle, _MIDDLE, text, fill=ink)]
    size = min(FONT, thick * 0.94, FONT * (tall - 4) / text_width(text))
    return [label(middle, _MIDDLE, text, fill=ink, size=size, upright=False)]


def bar_picture(item: Bar, loaded: Loaded) -> str:
    """A bar with its plates on both sides, or on its free end."""
    if item.one_end:
        return _one_end(item, loaded)
    name = "guided bar" if item.kind is EquipmentKind.GUIDED_BAR else "bar"
    known = bool(item.mass) and not item.label_only
    caption = f"{item.mass} {name}" if known else name
    rails = item.kind is EquipmentKind.GUIDED_BAR
    half = text_width(caption) / 2 + (20 if rails else 4)
    left, right = WIDTH / 2 - half, WIDTH / 2 + half
    parts = [_shaft(item, left, right), label(WIDTH / 2, _MIDDLE - 22, caption, light=True)]
    if rails:
        parts += [_rail(left + 12), _rail(right - 12)]
    return drawing(loaded.words, HEIGHT, *parts, *_both_sides(loaded, left, right, item.mass))


def _rail(x: float) -> str:
    return path(f"M{x:g} 4V{HEIGHT - 10}", stroke=SOFT, thick=2)


def _shaft(item: Bar, left: float, right: float) -> str:
    if item.shape is BarShape.CURVED:
        step = (right - left) / 6
        bends = "".join(f"l{step:g} {10 if i % 2 == 0 else -10}" for i in range(6))
        return path(f"M{left:g} {_MIDDLE - 5:g}{bends}", thick=5)
    return path(f"M{left:g} {_MIDDLE:g}H{right:g}", thick=5)


def _both_sides(loaded: Loaded, left: float, right: float, own: Mass) -> list[str]:
    parts: list[str] = []
    unit = own.unit if own or not loaded.plates else loaded.plates[0].mass.unit
    for face, outward in ((left, -1), (right, 1)):
        parts.append(box(face - 4, _MIDDLE - 11, 8, 22, fill="currentColor", thick=1))
        room = (face if outward < 0 else WIDTH - face) - 20
        side = Side(face + outward * 6, outward, room)
        plates, end = plates_on(side, loaded.each_side, unit)
        parts += [*plates, *_sleeve_end(end, outward, clip=bool(loaded.each_side))]
    return parts


def _sleeve_end(at: float, outward: int, *, clip: bool) -> list[str]:
    """The sleeve beyond the last plate, with the clip that holds the plates."""
    stop = WIDTH - 4 if outward > 0 else 4
    begin = at + outward * (3 if clip else -2)
    bare = path(f"M{begin:g} {_MIDDLE:g}H{stop:g}", stroke=SOFT, thick=7)
    if not clip:
        return [bare]
    left = at if outward > 0 else at - 7
    return [bare, box(left, _MIDDLE - 11, 7, 22, fill=ACCENT, stroke="none")]


def _one_end(item: Bar, loaded: Loaded) -> str:
    """One end in a joint, plates on the other."""
    foot, face = 30.0, 210.0
    plates, end = plates_on(Side(face + 6, 1, WIDTH - face - 30), loaded.single, item.mass.unit)
    return drawing(
        loaded.words,
        HEIGHT,
        path(f"M{foot:g} {_MIDDLE:g}H{face:g}", thick=5),
        disc(foot, _MIDDLE, 8, fill=ACCENT, thick=1),
        path(f"M{foot - 16:g} {_MIDDLE + 22:g}H{foot + 16:g}M{foot:g} {_MIDDLE + 8:g}v14"),
        label((foot + face) / 2 + 8, _MIDDLE - 22, f"{item.mass} bar", light=True),
        box(face - 4, _MIDDLE - 11, 8, 22, fill="currentColor", thick=1),
        *plates,
        *_sleeve_end(end, 1, clip=bool(loaded.single)),
    )


def sled_picture(item: Sled, loaded: Loaded) -> str:
    """A sled or a plate-loaded machine seen from the front, plates on both pegs."""
    name = "sled" if item.kind is EquipmentKind.SLED else "machine"
    known = bool(item.mass) and not item.label_only
    upper = f"{item.mass}" if known else name
    lower = name if known else ""
    half = max(52.0, text_width(upper) / 2 + 16)
    left, right = WIDTH / 2 - half, WIDTH / 2 + half
    body = [
        box(left + 6, 22, 2 * half - 12, 76, round_by=8),
        label(WIDTH / 2, 49 if lower else _MIDDLE, upper),
        label(WIDTH / 2, 71, lower, light=True),
    ]
    if item.angle_deg is not None:
        body.append(label(WIDTH / 2, 114, f"{format_number(item.angle_deg)}°", light=True))
    return drawing(loaded.words, HEIGHT, *body, *_both_sides(loaded, left, right, item.mass))


def belt_picture(loaded: Loaded) -> str:
    """Body weight, with the plates that hang from the belt seen from the front."""
    if not loaded.single:
        words = label(WIDTH / 2, 31, "body weight", size=26)
        return drawing(loaded.words, 62, words)
    unit = loaded.single[0].mass.unit
    parts = [
        label(16, 24, "on the belt", light=True, anchor="start"),
        path(f"M4 4H{WIDTH - 4}", thick=5, stroke=SOFT),
    ]
    sizes = [max(_LEAST_TALL, diameter_mm(plate) * _SCALE * 0.82) for plate in loaded.single]
    gap = 14.0
    at = WIDTH / 2 - (sum(sizes) + gap * (len(sizes) - 1)) / 2
    for plate, size in zip(loaded.single, sizes, strict=True):
        parts += _hanging(at + size / 2, size / 2, plate, figure(plate, unit))
        at += size + gap
    return drawing(loaded.words, HEIGHT, *parts)


def _hanging(x: float, radius: float, plate: Plate, text: str) -> list[str]:
    middle = 32 + radius
    fill, ink = colours(plate)
    size = min(26.0, FONT * (2 * radius - 8) / text_width(text))
    chain = path(f"M{x:g} 8V{middle - radius:g}", stroke=ACCENT, thick=3)
    return [chain, disc(x, middle, radius, fill=fill), label(x, middle, text, fill=ink, size=size)]
