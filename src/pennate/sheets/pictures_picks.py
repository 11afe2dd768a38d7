"""Stacks with their pin, dumbbells, fixed barbells, kettlebells and bands."""

from __future__ import annotations

from fractions import Fraction

from pennate.core.exercise import EquipmentKind
from pennate.core.gym import Band, BandSet, Ladder, Stack
from pennate.core.loaded import Loaded
from pennate.core.quantities import Mass, format_number
from pennate.sheets.pictures_marks import (
    ACCENT,
    SOFT,
    WIDTH,
    box,
    disc,
    drawing,
    label,
    path,
)

_ROWS = 5
_ROW = 24.0


def stack_picture(item: Stack, loaded: Loaded) -> str:
    """The stack as a whole with its pin, and beside it the labels around the pin."""
    rungs = item.labels
    pin = _pin_place(rungs, loaded)
    shown = _window(len(rungs), pin)
    height = _ROW * len(shown) + 10
    parts = [*_whole(len(rungs), pin, height), *_near(rungs, shown, pin), *_aside(item, loaded)]
    return drawing(loaded.words, height, *parts)


def _pin_place(rungs: tuple[Mass, ...], loaded: Loaded) -> int | None:
    """Which label the pin is at; None without a pin."""
    if loaded.label is None:
        return None
    return next((place for place, rung in enumerate(rungs) if rung == loaded.label), None)


def _window(count: int, pin: int | None) -> list[int]:
    first = max(0, min((pin or 0) - _ROWS // 2, count - _ROWS))
    return list(range(first, min(first + _ROWS, count)))


def _whole(count: int, pin: int | None, height: float) -> list[str]:
    """All plates of the stack, thin; those above the pin are the ones that move."""
    top, step = 5.0, (height - 10) / count
    thin = max(1.0, min(6.0, step - 1.5))
    parts = []
    for place in range(count):
        moved = pin is not None and place <= pin
        middle = top + step * (place + 0.5)
        ink, wide = ("currentColor", thin) if moved else (SOFT, 1.0)
        parts.append(path(f"M8 {middle:.1f}H58", stroke=ink, thick=wide))
    if pin is not None:
        middle = top + step * (pin + 0.5)
        parts.append(path(f"M62 {middle:.1f}H80", stroke=ACCENT, thick=4))
    return parts


def _near(rungs: tuple[Mass, ...], shown: list[int], pin: int | None) -> list[str]:
    """The labels around the pin, the pin in its hole."""
    parts = []
    for row, place in enumerate(shown):
        middle = 5 + _ROW * (row + 0.5)
        chosen = place == pin
        parts.append(box(98, middle - _ROW / 2 + 1.5, 104, _ROW - 3, thick=3 if chosen else 1.2))
        text = format_number(rungs[place].amount, 3)
        size = 20.0 if chosen else 17.0
        parts.append(label(140, middle, text, size=size, light=not chosen))
        parts.append(disc(186, middle, 3.5, fill=ACCENT if chosen else "none", thick=1.2))
        if chosen:
            parts.append(path(f"M190 {middle:.1f}H226", stroke=ACCENT, thick=6))
            parts.append(disc(232, middle, 7, fill=ACCENT, thick=0))
    return parts


def _aside(item: Stack, loaded: Loaded) -> list[str]:
    """What the figures do not show: unit, small masses laid on, help."""
    lines: list[tuple[str, bool]] = []
    if loaded.label is None:
        lines.append(("no pin", True))
    elif not item.label_only:
        lines.append((str(loaded.label), True))
    lines += [(f"+ {mass}", True) for mass in loaded.add_ons]
    if item.kind is EquipmentKind.ASSISTED:
        lines.append(("taken off" if loaded.label else "no help", False))
    elif item.label_only:
        lines.append(("its own scale", False))
    elif item.ratio != 1:
        lines.append((f"{_hand(item.ratio, loaded)} in hand", False))
    first = 65 - 12 * (len(lines) - 1)
    return [
        label(252, first + 24 * place, text, light=not bold, anchor="start")
        for place, (text, bold) in enumerate(lines)
    ]


def _hand(ratio: Fraction, loaded: Loaded) -> str:
    return str(loaded.load * ratio)


def picks_picture(item: Ladder, loaded: Loaded) -> str:
    """Dumbbells, a fixed barbell or kettlebells with their mass."""
    mass = loaded.label or loaded.load
    share = _size(item, mass)
    if item.kind is EquipmentKind.FIXED_BARBELLS:
        return drawing(loaded.words, 110, *_fixed(mass, share))
    one = _kettlebell if item.kind is EquipmentKind.KETTLEBELLS else _dumbbell
    places = {1: (WIDTH / 2,), 2: (WIDTH / 4 + 4, WIDTH * 3 / 4 - 4)}
    parts: list[str] = []
    for x in places.get(loaded.count, (WIDTH / 2,)):
        parts += one(x, mass, share)
    return drawing(loaded.words, 118, *parts)


def _size(item: Ladder, mass: Mass) -> float:
    """0 to 1 by the cube root of the mass, as solids of one material grow."""
    heaviest = max(float(one.in_kg) for one in item.masses)
    return float((float(mass.in_kg) / heaviest) ** (1 / 3))


def _dumbbell(x: float, mass: Mass, share: float) -> list[str]:
    tall, wide, y = 30 + 50 * share, 22 + 26 * share, 44.0
    parts = [path(f"M{x - 30:g} {y:g}H{x + 30:g}", thick=9)]
    for side in (-1, 1):
        inner = x + side * 30
        left = inner if side > 0 else inner - wide
        parts.append(_head(left, y, wide, tall))
    return [*parts, label(x, 104, str(mass), size=22)]


def _head(left: float, y: float, wide: float, tall: float) -> str:
    """A six-sided head seen from the side."""
    cut = min(8.0, wide / 4)
    return path(
        f"M{left + cut:.1f} {y - tall / 2:.1f}h{wide - 2 * cut:.1f}l{cut:.1f} {cut:.1f}"
        f"v{tall - 2 * cut:.1f}l{-cut:.1f} {cut:.1f}h{-(wide - 2 * cut):.1f}l{-cut:.1f} {-cut:.1f}"
        f"v{-(tall - 2 * cut):.1f}z",
        thick=3,
    )


def _fixed(mass: Mass, share: float) -> list[str]:
    tall, wide, y = 36 + 36 * share, 26 + 22 * share, 44.0
    left, right = 90.0, WIDTH - 90.0
    return [
        path(f"M{left:g} {y:g}H{right:g}", thick=7),
        box(left - wide, y - tall / 2, wide, tall, thick=3, round_by=6),
        box(right, y - tall / 2, wide, tall, thick=3, round_by=6),
        label(WIDTH / 2, 98, f"{mass}, fixed", size=22),
    ]


def _kettlebell(x: float, mass: Mass, share: float) -> list[str]:
    radius = 24 + 14 * share
    y = 112 - radius
    grip, top = radius * 0.62, y - radius * 1.55
    handle = (
        f"M{x - grip:.1f} {y - radius * 0.72:.1f}C{x - grip * 1.5:.1f} {top - 6:.1f} "
        f"{x + grip * 1.5:.1f} {top - 6:.1f} {x + grip:.1f} {y - radius * 0.72:.1f}"
    )
    return [path(handle, thick=8), disc(x, y, radius, thick=3), label(x, y, str(mass))]


def bands_picture(item: BandSet, loaded: Loaded) -> str:
    """Each band as a loop as thick as its pull, named."""
    by_name = {band.name: band for band in item.bands}
    chosen = [by_name[name] for name in loaded.bands]
    if not chosen:
        return drawing(loaded.words, 62, label(WIDTH / 2, 31, "no band", size=26))
    strongest = max(float(band.tension.in_kg) for band in item.bands)
    parts: list[str] = []
    for place, band in enumerate(chosen):
        parts += _band(30 + 58 * place, band, float(band.tension.in_kg) / strongest)
    return drawing(loaded.words, 58 * len(chosen) + 6, *parts)


def _band(y: float, band: Band, share: float) -> list[str]:
    """A stretched loop between two anchors."""
    loop = f"M40 {y - 14:g}H200a14 14 0 0 1 0 28H40a14 14 0 0 1 0 -28z"
    return [
        path(loop, stroke=ACCENT, thick=3 + 9 * share),
        label(236, y - 11, band.name, anchor="start"),
        label(236, y + 11, f"about {band.tension}", light=True, anchor="start"),
    ]
