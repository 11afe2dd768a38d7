"""Strength over time and some weeks on, with its interval, and every set as a point.

Drawn by Vega-Altair and rendered to SVG here, so the page needs no chart script. Shapes
and line weights differ, so that it reads in grey.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any


@dataclass(frozen=True, slots=True)
class Estimate:
    """Strength on a day, in the unit of the chart."""

    day: date
    middle: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class SetPoint:
    """What one set alone would say of strength that day."""

    day: date
    value: float
    kind: str
    """`fixed`, or `at least` where the set was stopped early."""


@dataclass(frozen=True, slots=True)
class StrengthChart:
    """The chart's plain values."""

    unit: str
    line: Sequence[Estimate]
    points: Sequence[SetPoint]
    ahead: Sequence[Estimate] = ()
    """What is to be expected, from the last of the line on."""


LIGHT = ("#15171a", "#43474d", "#0a5c66", "#c9ccd1")
DARK = ("#f1f2ef", "#c2c7cd", "#86d3dc", "#4a4f56")
"""Ink, soft, accent, hair: the tokens of the stylesheet."""


@dataclass(frozen=True, slots=True)
class Frame:
    """The room a chart has, and how large its words are in it."""

    size: tuple[int, int]
    text_px: int = 17
    marks: int = 3
    """Dates under the chart."""
    levels: int = 5
    """About how many numbers at its side."""
    in_lines: bool = False
    """Whether words that are long here are broken: a month under its day, a unit at its comma."""


NARROW, WIDE = Frame((358, 300)), Frame((800, 360), marks=6)
LARGE = Frame((326, 420), text_px=34, marks=2, levels=3, in_lines=True)
"""A phone whose text is set to twice the usual size: the words of the chart grow with it."""
TITLE_Y, LINE_GAP_PX = -6, 2
"""The unit ends so far above the plot; between its lines is as much as the charts leave."""
FRAMES = {"": NARROW, "wide": WIDE, "large": LARGE}
MONTHS_FROM = 200
"""Days from which marks lie months apart, so that their months name them."""


def strength_svg(chart: StrengthChart, frame: Frame = NARROW, *, dark: bool = False) -> str:
    """The chart as SVG text."""
    import vl_convert

    return str(vl_convert.vegalite_to_svg(_spec(chart, frame, dark=dark)))


def dates(alt: Any, days: Sequence[date], frame: Frame) -> Any:
    """The axis of dates: evenly spaced marks, by day or, over longer times, by month."""
    first, last = (min(days), max(days)) if days else (date.min, date.min)
    span = (last - first).days
    steps = min(frame.marks, span + 1) - 1
    marks = [first + timedelta(days=span * mark // max(steps, 1)) for mark in range(steps + 1)]
    values = [alt.DateTime(year=one.year, month=one.month, date=one.day) for one in marks]
    told = ("%b", "%Y") if span > MONTHS_FROM else ("%-d", "%b")
    written = (
        {"labelExpr": "[" + ", ".join(f"timeFormat(datum.value, '{part}')" for part in told) + "]"}
        if frame.in_lines
        else {"format": " ".join(told)}
    )
    return alt.X("day:T", title=None, axis=alt.Axis(values=values, grid=False, **written))


def levels(alt: Any, what: str, unit: str, frame: Frame, scale: Any) -> Any:
    """The axis of numbers, its unit above it."""
    first, comma, rest = unit.partition(", ")
    broken = [f"{first},", rest] if comma and frame.in_lines else [unit]
    above = TITLE_Y - (len(broken) - 1) * (frame.text_px + LINE_GAP_PX)
    axis = alt.Axis(tickCount=frame.levels, titleY=above)
    return alt.Y(what, title=broken if len(broken) > 1 else unit, scale=scale, axis=axis)


def drawn(whole: Any, frame: Frame, *, dark: bool) -> Any:
    """A chart laid out in its frame, in the colours of the look."""
    _, soft, _, hair = DARK if dark else LIGHT
    (width, height), edge = frame.size, frame.text_px // 4
    return (
        whole.properties(
            width=width, height=height, autosize={"type": "fit", "contains": "padding"}
        )
        .configure(background="transparent", font="system-ui, sans-serif", padding=edge)
        .configure_view(stroke=None)
        .configure_axis(
            labelFontSize=frame.text_px, titleFontSize=frame.text_px, labelColor=soft,
            titleColor=soft, gridColor=hair, domainColor=soft, tickColor=soft,
            titleFontWeight="normal", titleAngle=0, titleAnchor="end", titleAlign="left",
            titleBaseline="bottom", titleX=0, labelFlush=True,
        )
    )  # fmt: skip


def moment(day: date) -> str:
    """A day as the charts read it: midnight where they are drawn, so that no day shifts."""
    return f"{day.isoformat()}T00:00:00"


def _spec(chart: StrengthChart, frame: Frame, *, dark: bool) -> dict[str, Any]:
    """The chart as a Vega-Lite document."""
    import altair as alt

    ink, _, accent, _ = DARK if dark else LIGHT
    line = alt.InlineData(values=[_row(one) for one in chart.line])
    points = alt.InlineData(values=[_point(one) for one in chart.points])
    ahead = alt.InlineData(values=[_row(one) for one in chart.ahead])
    day = dates(alt, [one.day for one in (*chart.line, *chart.ahead)], frame)
    level = levels(alt, "low:Q", chart.unit, frame, alt.Scale(zero=False))
    shapes = alt.Scale(domain=["fixed", "at least"], range=["circle", "triangle-up"])
    band = alt.Chart(line).mark_area(color=accent, opacity=0.22).encode(x=day, y=level, y2="high:Q")
    middle = alt.Chart(line).mark_line(color=accent, strokeWidth=3).encode(x=day, y="middle:Q")
    dots = (
        alt.Chart(points)
        .mark_point(color=ink, size=34, strokeWidth=1.2, opacity=0.75)
        .encode(x=day, y="value:Q", shape=alt.Shape("kind:N", scale=shapes, legend=None))
    )
    coming = (
        alt.Chart(ahead).mark_area(color=accent, opacity=0.10).encode(x=day, y=level, y2="high:Q"),
        alt.Chart(ahead)
        .mark_line(color=accent, strokeWidth=2, strokeDash=[5, 4])
        .encode(x=day, y="middle:Q"),
    )
    whole = alt.layer(band, *coming, dots, middle)
    spec: dict[str, Any] = drawn(whole, frame, dark=dark).to_dict()
    return spec


def _row(one: Estimate) -> dict[str, object]:
    return {"day": moment(one.day), "middle": one.middle, "low": one.low, "high": one.high}


def _point(one: SetPoint) -> dict[str, object]:
    return {"day": moment(one.day), "value": one.value, "kind": one.kind}
