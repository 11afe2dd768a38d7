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
NARROW, WIDE = (358, 300), (800, 360)
TEXT_PX = 17
MARKS_NARROW, MARKS_WIDE = 3, 6
MONTHS_FROM = 200
"""Days from which marks lie months apart, so that their months name them."""


def strength_svg(chart: StrengthChart, *, wide: bool = False, dark: bool = False) -> str:
    """The chart as SVG text, for a phone or a wide page."""
    import vl_convert

    return str(vl_convert.vegalite_to_svg(_spec(chart, wide=wide, dark=dark)))


def dates(alt: Any, days: Sequence[date], *, wide: bool) -> Any:
    """The axis of dates: evenly spaced marks, by day or, over longer times, by month."""
    first, last = (min(days), max(days)) if days else (date.min, date.min)
    span = (last - first).days
    steps = min(MARKS_WIDE if wide else MARKS_NARROW, span + 1) - 1
    marks = [first + timedelta(days=span * mark // max(steps, 1)) for mark in range(steps + 1)]
    values = [alt.DateTime(year=one.year, month=one.month, date=one.day) for one in marks]
    told = "%b %Y" if span > MONTHS_FROM else "%-d %b"
    return alt.X("day:T", title=None, axis=alt.Axis(values=values, format=told, grid=False))


def moment(day: date) -> str:
    """A day as the charts read it: midnight where they are drawn, so that no day shifts."""
    return f"{day.isoformat()}T00:00:00"


def _spec(chart: StrengthChart, *, wide: bool, dark: bool) -> dict[str, Any]:
    """The chart as a Vega-Lite document."""
    import altair as alt

    ink, soft, accent, hair = DARK if dark else LIGHT
    line = alt.InlineData(values=[_row(one) for one in chart.line])
    points = alt.InlineData(values=[_point(one) for one in chart.points])
    ahead = alt.InlineData(values=[_row(one) for one in chart.ahead])
    day = dates(alt, [one.day for one in (*chart.line, *chart.ahead)], wide=wide)
    level = alt.Y(
        "low:Q", title=chart.unit, scale=alt.Scale(zero=False), axis=alt.Axis(tickCount=5)
    )
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
    width, height = WIDE if wide else NARROW
    whole = (
        alt.layer(band, *coming, dots, middle)
        .properties(width=width, height=height, autosize={"type": "fit", "contains": "padding"})
        .configure(background="transparent", font="system-ui, sans-serif", padding=4)
        .configure_view(stroke=None)
        .configure_axis(
            labelFontSize=TEXT_PX, titleFontSize=TEXT_PX, labelColor=soft, titleColor=soft,
            gridColor=hair, domainColor=soft, tickColor=soft, titleFontWeight="normal",
            titleAngle=0, titleAnchor="end", titleAlign="left", titleBaseline="bottom", titleX=0,
            titleY=-6, labelFlush=True,
        )
    )  # fmt: skip
    spec: dict[str, Any] = whole.to_dict()
    return spec


def _row(one: Estimate) -> dict[str, object]:
    return {"day": moment(one.day), "middle": one.middle, "low": one.low, "high": one.high}


def _point(one: SetPoint) -> dict[str, object]:
    return {"day": moment(one.day), "value": one.value, "kind": one.kind}
