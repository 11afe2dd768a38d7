"""The picture of a day: everything on it, nothing off its edge, nothing private."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from playwright.sync_api import Browser

from pennate.app.pass_on import passed_file
from pennate.core.passed_on import Passed, PassedDay
from pennate.sheets.passed_picture import HEIGHT, WIDTH, picture, picture_svg, picture_words
from tests.app.passing import PRIVATE_WEEK, SECRETS, STARTERS, WEEKS

OUTSIDE = """([right, bottom]) => [...document.querySelectorAll("svg text")]
  .map(e => [e.textContent, e.getBoundingClientRect()])
  .filter(([, r]) => r.left < 0 || r.top < 0 || r.right > right || r.bottom > bottom)
  .map(([text]) => text)"""


def _days(routine: Passed) -> list[PassedDay]:
    return [day for day in routine.days if not day.rest]


@pytest.mark.browser
@pytest.mark.parametrize("name", STARTERS)
def test_nothing_runs_off_the_picture(chromium: Browser, name: str) -> None:
    """Measured in a browser, every line of every starter day lies within the picture."""
    routine = passed_file(WEEKS / f"{name}.toml")
    page = chromium.new_page(viewport={"width": WIDTH, "height": HEIGHT})
    outside = []
    for day in _days(routine):
        page.set_content(f"<body style='margin:0'>{picture_svg(routine, day)}")
        outside += page.evaluate(OUTSIDE, [WIDTH, HEIGHT])
    page.close()
    assert outside == []


def test_each_exercise_is_on_it_and_in_its_words() -> None:
    """The picture is well-formed XML that names every exercise; the words name them too."""
    routine = passed_file(WEEKS / "6_days.toml")
    for day in _days(routine):
        tree = ET.fromstring(picture_svg(routine, day))  # noqa: S314 - our own drawing
        text = " ".join(tree.itertext())
        for stop in day.stops:
            for one in stop.exercises:
                assert one.asked.name in text
                assert one.asked.name in picture_words(routine, day)


def test_the_same_day_gives_the_same_picture() -> None:
    """No chance is in it, down to the bytes."""
    routine = passed_file(WEEKS / "travel.toml")
    day = _days(routine)[0]
    assert picture(routine, day) == picture(routine, day)


def test_nothing_private_is_on_it(tmp_path: Path) -> None:
    """A week full of private things gives a picture without them."""
    week = tmp_path / "week.toml"
    week.write_text(PRIVATE_WEEK, encoding="utf-8")
    routine = passed_file(week)
    text = (picture_svg(routine, routine.days[0]) + picture_words(routine, routine.days[0])).lower()
    assert [secret for secret in SECRETS if secret.casefold() in text] == []
