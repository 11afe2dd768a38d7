"""The chart of an exercise."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from datetime import date, timedelta

import pytest

from pennate.sheets.strength_chart import Estimate, SetPoint, StrengthChart, strength_svg

START = date(2026, 1, 5)
DAYS = [START + timedelta(days=7 * week) for week in range(8)]
CHART = StrengthChart(
    unit="kg felt, one rep",
    line=[Estimate(day, 60 + number, 57 + number, 63 + number) for number, day in enumerate(DAYS)],
    points=[
        SetPoint(day, 61 + number, "fixed" if number % 2 else "at least")
        for number, day in enumerate(DAYS)
    ],
)


def test_every_set_is_a_point() -> None:
    """Each set is drawn, sets to the end and sets stopped early by different shapes."""
    svg = strength_svg(CHART)
    points = re.findall(r'<path aria-label="[^"]*kind: ([a-z ]+)"', svg)
    assert len(points) == len(CHART.points)
    assert set(points) == {"fixed", "at least"}


@pytest.mark.parametrize("wide", [False, True])
def test_no_word_is_smaller_than_seventeen_pixels(wide: bool) -> None:  # noqa: FBT001 # a table
    """Axis words keep the smallest size of the house."""
    root = ET.fromstring(strength_svg(CHART, wide=wide))  # noqa: S314 # our own drawing
    sizes = [
        int(one.get("font-size", "0px").removesuffix("px"))
        for one in root.iter("{http://www.w3.org/2000/svg}text")
    ]
    assert sizes
    assert min(sizes) >= 17


@pytest.mark.parametrize("wide", [False, True])
@pytest.mark.parametrize("weeks", [8, 12, 28, 29, 52, 150])
def test_no_two_marks_of_time_read_alike(weeks: int, wide: bool) -> None:  # noqa: FBT001 # a table
    """Each mark under the chart has a date of its own, short spans and long ones alike."""
    days = [START + timedelta(days=7 * week) for week in range(weeks)]
    chart = StrengthChart("kg", [Estimate(day, 60, 57, 63) for day in days], [])
    root = ET.fromstring(strength_svg(chart, wide=wide))  # noqa: S314 # our own drawing
    words = [one.text or "" for one in root.iter("{http://www.w3.org/2000/svg}text")]
    dates = [word for word in words if re.search(r"[A-Z][a-z]{2}", word)]
    assert len(dates) >= 2
    assert len(set(dates)) == len(dates)


def test_what_is_to_come_is_drawn_apart() -> None:
    """The coming weeks are a dashed line and a paler band, and take their room on the axis."""
    last = CHART.line[-1]
    coming = [last, Estimate(last.day + timedelta(weeks=4), 69, 64, 74)]
    plain, drawn = strength_svg(CHART), strength_svg(replace(CHART, ahead=coming))
    assert plain.count("stroke-dasharray") == 0
    assert drawn.count("stroke-dasharray") == 1
    assert "23 Mar" not in plain
    assert "23 Mar" in drawn


def test_the_chart_asks_for_nothing() -> None:
    """No font, script or picture from elsewhere is named."""
    svg = strength_svg(CHART)
    assert "<script" not in svg
    assert re.findall(r"(?:href|src)=\"(?!#)", svg) == []
    assert "url(http" not in svg


def test_dark_turns_ink_and_accent() -> None:
    """In dark the line and the words are pale."""
    assert "#86d3dc" in strength_svg(CHART, dark=True)
    assert "#15171a" not in strength_svg(CHART, dark=True)
