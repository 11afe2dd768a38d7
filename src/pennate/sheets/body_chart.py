"""Charts of the body: weight with its trend and interval, girths with their error.

Drawn by Vega-Altair and rendered to SVG here, so the page needs no chart script. Shapes,
dashes and line weights differ, so that both read in grey.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from pennate.sheets.strength_chart import DARK, LIGHT, NARROW, Frame, dates, drawn, levels, moment

SHAPES = ("circle", "square")
DASHES = ((1, 0), (6, 4))


@dataclass(frozen=True, slots=True)
class WeightPoint:
    """The trend on a day with its interval, and that morning's weighing if there is one."""

    day: date
    trend: float
    low: float
    high: float
    weighed: float | None


@dataclass(frozen=True, slots=True)
class GirthPoint:
    """One date of one side: mean of the readings and the interval of its error, cm."""

    day: date
    side: str
    girth: float
    low: float
    high: float


def weight_svg(points: Sequence[WeightPoint], frame: Frame = NARROW, *, dark: bool = False) -> str:
    """Weighings as points, the trend as a line in its interval, as SVG text."""
    import altair as alt

    _, soft, accent, _ = DARK if dark else LIGHT
    rows = alt.InlineData(values=[_weight_row(one) for one in points])
    day, level = _dates(alt, points, frame), levels(alt, "low:Q", "kg", frame, _scale(alt))
    band = alt.Chart(rows).mark_area(color=accent, opacity=0.25).encode(x=day, y=level, y2="high:Q")
    dots = (
        alt.Chart(rows)
        .mark_circle(color=soft, size=16, opacity=0.6)
        .encode(x=day, y=alt.Y("weighed:Q"))
    )
    line = alt.Chart(rows).mark_line(color=accent, strokeWidth=3).encode(x=day, y="trend:Q")
    return _svg(alt.layer(band, dots, line), frame, dark=dark)


def girth_svg(points: Sequence[GirthPoint], frame: Frame = NARROW, *, dark: bool = False) -> str:
    """Girths by date with error bars, a shape and a dash a side, as SVG text."""
    import altair as alt

    ink, _, accent, _ = DARK if dark else LIGHT
    rows = alt.InlineData(values=[_girth_row(one) for one in points])
    names = list(dict.fromkeys(one.side for one in points))
    colours = alt.Scale(domain=names, range=[accent, ink][: len(names)])
    look = alt.Color("side:N", scale=colours, legend=None)
    shape = alt.Shape(
        "side:N", scale=alt.Scale(domain=names, range=list(SHAPES[: len(names)])), legend=None
    )
    dash = alt.StrokeDash(
        "side:N",
        scale=alt.Scale(domain=names, range=[list(one) for one in DASHES[: len(names)]]),
        legend=None,
    )
    reach = [min((p.low for p in points), default=0), max((p.high for p in points), default=1)]
    day, level = _dates(alt, points, frame), levels(alt, "girth:Q", "cm", frame, _scale(alt, reach))
    base = alt.Chart(rows)
    bars = base.mark_rule(strokeWidth=1.5, opacity=0.8).encode(
        x=day, y=levels(alt, "low:Q", "cm", frame, _scale(alt, reach)), y2="high:Q", color=look
    )
    line = base.mark_line(strokeWidth=2).encode(x=day, y=level, color=look, strokeDash=dash)
    dots = base.mark_point(size=60, filled=True, opacity=1).encode(
        x=day, y=level, color=look, shape=shape
    )
    return _svg(alt.layer(bars, line, dots), frame, dark=dark)


def _dates(alt: Any, points: Sequence[WeightPoint] | Sequence[GirthPoint], frame: Frame) -> Any:
    return dates(alt, [one.day for one in points], frame)


def _scale(alt: Any, reach: Sequence[float] | None = None) -> Any:
    return alt.Scale(zero=False) if reach is None else alt.Scale(zero=False, domain=list(reach))


def _svg(whole: Any, frame: Frame, *, dark: bool) -> str:
    """Lay out and render one chart."""
    import vl_convert

    return str(vl_convert.vegalite_to_svg(drawn(whole, frame, dark=dark).to_dict()))


def _weight_row(one: WeightPoint) -> dict[str, object]:
    return {
        "day": moment(one.day),
        "trend": one.trend,
        "low": one.low,
        "high": one.high,
        "weighed": one.weighed,
    }


def _girth_row(one: GirthPoint) -> dict[str, object]:
    return {
        "day": moment(one.day),
        "side": one.side,
        "girth": one.girth,
        "low": one.low,
        "high": one.high,
    }
