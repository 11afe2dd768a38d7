"""The week as lanes: a lane a muscle group, a feather a session, a barb a hard set.

The pieces are small drawings that a page lays out in columns, so that the words beside
them wrap and grow with the reader's text size.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from pennate.sheets.feather import feather, feather_height

DAYS = 7


@dataclass(frozen=True, slots=True)
class Gap:
    """Hours between two sessions of a group; `first` and `second` are day numbers 0 to 6."""

    first: int
    second: int
    hours: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Lane:
    """One muscle group's week as plain values; doses are fractional sets."""

    group: str
    doses: tuple[float, ...]
    asked: tuple[float, float] | None = None
    priority: bool = False

    @property
    def total(self) -> float:
        """Fractional sets in the week."""
        return sum(self.doses)

    @property
    def outside(self) -> str:
        """`under`, `over`, or empty when the total lies in the range asked."""
        if self.asked is None:
            return ""
        low, high = self.asked
        shown = round(self.total * 2) / 2
        if shown < low:
            return "under"
        return "over" if shown > high else ""

    @property
    def gaps(self) -> tuple[Gap, ...]:
        """Hours from each session to the next, the last one's to next week left out."""
        days = [day for day, dose in enumerate(self.doses) if dose > 0]
        return tuple(
            Gap(first, second, (second - first) * 24) for first, second in itertools.pairwise(days)
        )


def tallest(lanes: Sequence[Lane]) -> float:
    """The largest dose of one day in any lane, at least one; the scale all lanes share."""
    return max([1.0, *(dose for lane in lanes for dose in lane.doses)])


def feather_svg(dose: float, top: float) -> str:
    """One feather on its baseline; `top` is the largest dose drawn beside it."""
    height = feather_height(top) + 3
    return (
        f'<svg viewBox="0 0 24 {height:g}" width="24" height="{height:g}" aria-hidden="true">'
        '<g fill="none" stroke="currentColor" stroke-width="1.7" class="feather">'
        f"{feather(dose, x=12, foot=height - 3)}</g></svg>"
    )


def range_svg(lane: Lane, most: float) -> str:
    """The range asked as a bar with open ends and the week's total as a dot on it."""
    width, middle = 112.0, 12.0
    scale = (width - 12) / most
    total = 6 + min(lane.total, most) * scale
    bar = ""
    if lane.asked is not None:
        low, high = (6 + min(value, most) * scale for value in lane.asked)
        bar = (
            f'<path d="M{low:g} {middle}H{high:g}M{low:g} 6V18M{high:g} 6V18" fill="none"'
            ' stroke="currentColor" stroke-width="2"/>'
        )
    dot = (
        f'<circle cx="{total:g}" cy="{middle}" r="5" fill="#fff" stroke="currentColor"'
        ' stroke-width="2.5" class="ground"/>'
        if lane.outside
        else f'<circle cx="{total:g}" cy="{middle}" r="5.5" fill="currentColor"/>'
    )
    name = escape(range_words(lane))
    return (
        f'<svg viewBox="0 0 {width:g} 24" width="{width:g}" height="24" role="img"'
        f' aria-label="{name}">{bar}{dot}</svg>'
    )


def range_words(lane: Lane) -> str:
    """The total and the range asked, as a sentence part."""
    total = f"{number(lane.total)} sets"
    if lane.asked is None:
        return total
    low, high = lane.asked
    words = f"{total}, asked {number(low)}–{number(high)}"
    return f"{words}, {lane.outside}" if lane.outside else words


def number(value: float) -> str:
    """A dose to the nearest half, written with ½."""
    whole, half = divmod(round(value * 2), 2)
    return f"{whole}½" if half and whole else "½" if half else str(whole)
