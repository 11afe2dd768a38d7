"""A lane opens: its total is the sum of what stands behind it, with rule, source and doubt."""

from __future__ import annotations

import re
from html import unescape

from fastapi.testclient import TestClient
from playwright.sync_api import Page, expect

from pennate.app.book import Book
from pennate.core.muscles import Group
from pennate.files.week import read_week
from pennate.web.views.lane_opened import opened_lanes

from .conftest import week_of

BY_HAND = """
name = "One exercise"

[[day]]
day = "Monday"

[[day.exercise]]
exercise = "leg_extension"
sets = [
  { sets = 3, reps = "10-15", reserve = "1" },
  { kind = "drop", sets = 2, reps = "8-12", reserve = "fail" },
]
"""

Opened = dict[str, str]


def lanes(page: str) -> dict[str, Opened]:
    """Every lane of a page with the facts it opens to."""
    found = re.findall(r'<li class="lane[^"]*">(.*?)</li>', page, re.DOTALL)
    return {
        re.findall(r'class="group[^"]*">([^<]+)<', one)[0]: dict(
            re.findall(
                r"<dt>(.*?)</dt><dd>(.*?)</dd>", unescape(one).replace("\N{NO-BREAK SPACE}", " ")
            )
        )
        for one in found
    }


def _first(words: str) -> float:
    return float(re.findall(r"\d+\.\d", words)[0])


def test_every_total_is_the_sum_of_its_days_and_each_day_of_its_exercises(
    demo: TestClient, demo_book: Book
) -> None:
    """What opens adds up to the tenth, in every lane, as anybody would check it on paper."""
    days = {day.day for day in week_of(demo_book).days}
    seen = lanes(demo.get("/week").text)
    assert len(seen) == len(Group)
    for facts in seen.values():
        told = {day: words for day, words in facts.items() if day in days}
        sums = [_first(words) for words in told.values()]
        assert round(sum(sums), 1) == _first(facts["a week"]) > 0
        for words in told.values():
            whole, *parts = (float(one) for one in re.findall(r"\d+\.\d", words))
            assert round(sum(parts), 1) == whole
        assert {"rule", "how sure", "source"} <= set(facts)


def test_sets_and_drops_are_counted_as_by_hand(demo_book: Book) -> None:
    """Three hard sets and two drops at half are 4.0; as nothing or whole, 3.0 to 5.0.

    Direct work counts 1 (Pelland 2024); the rectus femoris and the vasti both extend the knee.
    """
    week = read_week(BY_HAND, demo_book.catalogue)
    facts = dict(opened_lanes(week, demo_book.catalogue)["quads"])
    assert facts["a week"].startswith("4.0 fractional sets")
    assert facts["Monday"] == "4.0: Leg extension 4.0"
    assert facts["how sure"].startswith("3.0 to 5.0, drops counted")
    assert "hours" not in facts


def test_a_touch_on_a_lane_opens_it(demo_address: str, phone: Page) -> None:
    """The whole lane is its handle, high enough for a thumb; its drawing stays above what opens."""
    phone.goto(f"{demo_address}/week")
    lane = phone.locator(".lane").first
    box = lane.locator("summary").bounding_box()
    assert box
    assert box["height"] >= 48
    expect(lane.get_by_text("rule")).to_be_hidden()
    lane.locator(".strip").click()
    expect(lane.get_by_text("rule")).to_be_visible()
