"""A feather: a spine with a pair of barbs a hard set; a half set has one barb of the pair."""

from __future__ import annotations


def barbs(dose: float) -> tuple[int, bool]:
    """Full barb pairs, and whether a single barb tops them: the dose to the nearest half."""
    halves = round(dose * 2)
    return halves // 2, halves % 2 == 1


def feather(
    dose: float,
    *,
    x: float,
    foot: float,
    reach: float = 9.0,
    gap: float = 3.6,
    rise: float = 4.5,
) -> str:
    """Paths of a feather of `dose` hard sets standing on `foot` at `x`; barbs then spine."""
    full, half = barbs(dose)
    parts = []
    for index in range(full):
        y = foot - index * gap
        parts.append(f"M{x - reach:g} {y - rise:g}L{x:g} {y:g}L{x + reach:g} {y - rise:g}")
    if half:
        y = foot - full * gap
        parts.append(f"M{x:g} {y:g}L{x + reach:g} {y - rise:g}")
    top = foot - (full + half) * gap - 1
    return f'<path class="barb" d="{"".join(parts)}"/><path d="M{x:g} {foot + 2:g}V{top:g}"/>'


def feather_height(dose: float, *, gap: float = 3.6, rise: float = 4.5) -> float:
    """Height a feather of this dose needs above its foot."""
    full, half = barbs(dose)
    return (full + half) * gap + rise + 1
