"""The few strokes that all drawings are made of: SVG text with presentation attributes only.

Ink is `currentColor`, so that a page in dark turns the drawing with its text. Strokes and
fills in the accent or the soft ink carry a class (`accent-stroke`, `accent-fill`,
`soft-stroke`), so that the page's tokens can replace them. Nothing is filled but competition
plates and what is handled: pin, clip, band.
"""

from __future__ import annotations

from html import escape

WIDTH = 398
SOFT = "#43474d"
ACCENT = "#0a5c66"
FONT = 17
"""Size of every figure: 12 pixels on a phone 320 wide, margins off."""
_EM = 0.62
"""Width of a bold tabular figure as a share of the size."""


_CLASSES = {
    ("stroke", ACCENT): "accent-stroke",
    ("fill", ACCENT): "accent-fill",
    ("stroke", SOFT): "soft-stroke",
}


def _look(fill: str, stroke: str, thick: float) -> str:
    """Fill, stroke and its width as attributes, with the classes of token colours."""
    names = [_CLASSES.get(("fill", fill)), _CLASSES.get(("stroke", stroke))]
    marked = " ".join(name for name in names if name)
    classes = f' class="{marked}"' if marked else ""
    return f'{classes} fill="{fill}" stroke="{stroke}" stroke-width="{number(thick)}"'


def number(value: float) -> str:
    """A coordinate with at most one decimal."""
    return f"{value:.1f}".removesuffix(".0")


def drawing(words: str, height: float, *parts: str) -> str:
    """A whole drawing that a screen reader reads out as its words."""
    told = escape(words, quote=True)
    return (
        f'<svg class="picture" viewBox="0 0 {WIDTH} {number(height)}" width="100%" role="img" '
        f'aria-label="{told}" font-family="system-ui, sans-serif" '
        f'font-size="{FONT}" font-weight="700" xmlns="http://www.w3.org/2000/svg">'
        f"<title>{told}</title>{''.join(parts)}</svg>"
    )


def box(
    x: float,
    y: float,
    width: float,
    height: float,
    *,
    fill: str = "none",
    stroke: str = "currentColor",
    thick: float = 2.5,
    round_by: float = 2,
) -> str:
    """A rectangle from its upper left corner."""
    return (
        f'<rect x="{number(x)}" y="{number(y)}" width="{number(width)}" '
        f'height="{number(height)}" rx="{number(round_by)}"{_look(fill, stroke, thick)}/>'
    )


def path(
    steps: str, *, stroke: str = "currentColor", thick: float = 2.5, fill: str = "none"
) -> str:
    """A line or shape from its steps."""
    return f'<path d="{steps}"{_look(fill, stroke, thick)} stroke-linejoin="round"/>'


def disc(x: float, y: float, radius: float, *, fill: str = "none", thick: float = 2.5) -> str:
    """A circle."""
    return (
        f'<circle cx="{number(x)}" cy="{number(y)}" r="{number(radius)}"'
        f"{_look(fill, 'currentColor', thick)}/>"
    )


def label(
    x: float,
    y: float,
    text: str,
    *,
    fill: str = "currentColor",
    size: float = FONT,
    light: bool = False,
    upright: bool = True,
    anchor: str = "middle",
) -> str:
    """Text centred on a point (or from it), standing or turned to read upward."""
    turned = "" if upright else f' transform="rotate(-90 {number(x)} {number(y)})"'
    weight = ' font-weight="400"' if light else ""
    sized = "" if size == FONT else f' font-size="{number(size)}"'
    return (
        f'<text x="{number(x)}" y="{number(y + size * 0.36)}" text-anchor="{anchor}" '
        f'fill="{fill}"{weight}{sized}{turned}>{escape(text)}</text>'
    )


def text_width(text: str, size: float = FONT) -> float:
    """About how wide a bold text is."""
    narrow, broad = sum(char in ".,: il" for char in text), sum(char in "mw" for char in text)
    return _EM * size * (len(text) + (broad - narrow) / 2)
