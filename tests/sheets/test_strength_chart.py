"""The chart of an exercise."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from datetime import date, timedelta

import pytest
from playwright.sync_api import Browser

from pennate.sheets.strength_chart import (
    FRAMES,
    Estimate,
    Frame,
    SetPoint,
    StrengthChart,
    strength_svg,
)

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


@pytest.mark.parametrize("frame", FRAMES.values(), ids=FRAMES)
def test_no_word_is_smaller_than_seventeen_pixels(frame: Frame) -> None:
    """Axis words keep the smallest size of the house."""
    root = ET.fromstring(strength_svg(CHART, frame))  # noqa: S314 # our own drawing
    sizes = [
        int(one.get("font-size", "0px").removesuffix("px"))
        for one in root.iter("{http://www.w3.org/2000/svg}text")
    ]
    assert sizes
    assert min(sizes) >= 17


@pytest.mark.parametrize("frame", FRAMES.values(), ids=FRAMES)
@pytest.mark.parametrize("weeks", [8, 12, 28, 29, 52, 150])
def test_no_two_marks_of_time_read_alike(weeks: int, frame: Frame) -> None:
    """Each mark under the chart has a date of its own, short spans and long ones alike."""
    days = [START + timedelta(days=7 * week) for week in range(weeks)]
    chart = StrengthChart("kg", [Estimate(day, 60, 57, 63) for day in days], [])
    root = ET.fromstring(strength_svg(chart, frame))  # noqa: S314 # our own drawing
    words = [" ".join(one.itertext()) for one in root.iter("{http://www.w3.org/2000/svg}text")]
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


CLASHES = """
() => {
  const words = [...document.querySelectorAll('svg text')].filter((one) => one.textContent)
  const boxes = words.map((one) => one.getBoundingClientRect())
  const whole = document.querySelector('svg').getBoundingClientRect()
  const out = (a) => a.left < whole.left || a.right > whole.right || a.bottom > whole.bottom
  const meet = (a, b) =>
    a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
  const met = (a, i) => boxes.slice(i + 1).some((b) => meet(a, b))
  return words.filter((one, i) => out(boxes[i]) || met(boxes[i], i)).map((one) => one.textContent)
}
"""


@pytest.mark.browser
@pytest.mark.parametrize("weeks", [2, 8, 60])
@pytest.mark.parametrize("frame", FRAMES.values(), ids=FRAMES)
def test_no_words_of_a_chart_meet_or_are_cut_off(
    chromium: Browser, frame: Frame, weeks: int
) -> None:
    """WCAG 1.4.4: at twice the text too, what stands at the axes can be read whole."""
    days = [START + timedelta(days=7 * week) for week in range(weeks)]
    line = [Estimate(day, 160.5, 157.5 - n, 163 + n) for n, day in enumerate(days)]
    page = chromium.new_page(viewport={"width": 1280, "height": 844})
    page.set_content(strength_svg(StrengthChart("kg felt, one rep", line, []), frame))
    clashes = page.evaluate(CLASHES)
    page.close()
    assert clashes == []
