"""The mark: a feather, short strokes at an angle to a line, like a pennate muscle's fibres."""

from __future__ import annotations

from pennate.sheets.feather import feather

MARK_BARBS = 5.0
"""Barb pairs of the mark; enough to read as a feather at the size of a word."""


def mark_svg(*, colour: str = "#0a5c66") -> str:
    """The mark as a square SVG document, for the page icon and the head of a page."""
    strokes = feather(MARK_BARBS, x=16.0, foot=29.0, reach=9.0, gap=4.2, rise=5.0)
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32" width="32" height="32">'
        f'<g fill="none" stroke="{colour}" stroke-width="2.4" stroke-linecap="round">'
        f"{strokes}</g></svg>"
    )
