"""Left against right: the difference now, its change, and the error of both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import sqrt

from pennate.body.error_model import ErrorGrid
from pennate.body.series import Point, Series
from pennate.core.body import Site
from pennate.core.performed import Side

_95 = 1.96  # number: two-sided 95 % of a normal


@dataclass(frozen=True, slots=True, kw_only=True)
class SideDifference:
    """Right less left on the latest date both were measured, cm."""

    site: str
    day: date
    difference_cm: float
    low95: float
    high95: float
    change_cm: float | None
    """Change of the difference since the first common date; None with one common date."""
    change_low95: float | None
    change_high95: float | None
    say: str


def side_difference(left: Series, right: Series, error: ErrorGrid) -> SideDifference | None:
    """The difference of two sides of a site; None without a common date.

    A body-wide day effect would cancel; it is not counted on, so the interval is cautious.
    """
    common = _common(left, right)
    if not common:
        return None
    latest, first = common[-1], common[0]
    half = _95 * sqrt(_variance(latest, error))
    now = latest[1].girth_cm - latest[0].girth_cm
    change = bound = None
    if len(common) > 1:
        change = now - (first[1].girth_cm - first[0].girth_cm)
        bound = _95 * sqrt(_variance(latest, error) + _variance(first, error))
    return SideDifference(
        site=left.site.value,
        day=latest[0].day,
        difference_cm=now,
        low95=now - half,
        high95=now + half,
        change_cm=change,
        change_low95=None if change is None or bound is None else change - bound,
        change_high95=None if change is None or bound is None else change + bound,
        say=_sentence(left.site.value, now, half),
    )


def _common(left: Series, right: Series) -> list[tuple[Point, Point]]:
    by_day = {point.day: point for point in right.points}
    return [(point, by_day[point.day]) for point in left.points if point.day in by_day]


def _variance(pair: tuple[Point, Point], error: ErrorGrid) -> float:
    """Error variance of the difference of two points of one date, cm²."""
    reading2 = float(error.weight @ error.reading**2)
    day2 = float(error.weight @ error.day**2)
    return sum((p.girth_cm / 100) ** 2 * (reading2 / p.readings + day2) for p in pair)


def _sentence(site: str, now: float, half: float) -> str:
    if abs(now) <= half:
        return f"{site.capitalize()}: no difference between the sides that the tape can show."
    larger = "right" if now > 0 else "left"
    return f"{site.capitalize()}: the {larger} is larger by {abs(now):.1f} ± {half:.1f} cm."


def side_differences(
    all_series: Sequence[Series], errors: dict[Site, ErrorGrid]
) -> tuple[SideDifference, ...]:
    """The difference at every site measured on both sides."""
    found = []
    by_key = {(series.site, series.side): series for series in all_series}
    for (site, side), left in by_key.items():
        right = by_key.get((site, Side.RIGHT))
        if side is Side.LEFT and right is not None:
            difference = side_difference(left, right, errors[site])
            if difference:
                found.append(difference)
    return tuple(found)
