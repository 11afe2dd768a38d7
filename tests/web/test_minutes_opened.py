"""Minutes open wherever they stand, and what they are made of adds up to what is shown."""

from __future__ import annotations

import re
from datetime import timedelta
from html import unescape

from fastapi.testclient import TestClient

from pennate.app.book import Book
from pennate.app.minutes_told import minutes_facts, whole_minutes
from pennate.core.week_time import Minutes, Pace
from pennate.web.phone.document import day_document

from .conftest import MONDAY


def opened(page: str) -> dict[str, str]:
    """The facts behind “What are these minutes?” on a page."""
    text = unescape(page[page.index("What are these minutes?") :])
    return dict(re.findall(r"<dt>(.*?)</dt><dd>(.*?)</dd>", text[: text.index("</dl>")]))


def added(words: str) -> int:
    """The sum of what is named: “Hip thrust 12, Leg press 9” is 21."""
    return sum(int(number) for number in re.findall(r" (\d+)(?:,|$)", words))


def test_the_minutes_of_a_week_are_the_sum_of_its_days_as_shown(demo: TestClient) -> None:
    """At the head, in what opens, and day by day: one sum that anybody can add up."""
    page = unescape(demo.get("/week").text)
    days = [int(minutes) for minutes in re.findall(r'<p class="s">(\d+) min \(\d+–\d+\)', page)]
    [(hours, rest)] = re.findall(r"days · (\d+) h (\d+) min", page)
    facts = opened(page)
    assert len(days) == 5
    assert sum(days) == int(hours) * 60 + int(rest) == int(facts["minutes"])
    assert added(facts["made of"]) == sum(days)


def test_days_that_round_up_are_not_rounded_again() -> None:
    """Five days of 43.4 minutes are five times 43 on the page, so 215 and not 217."""
    assert whole_minutes([Minutes(43.4, 36.0, 52.0)] * 5) == 215


def test_a_block_says_the_minutes_of_the_week_it_repeats(demo: TestClient) -> None:
    """The week that nothing changes takes as long as the Week page says."""
    told = int(opened(demo.get("/week").text)["minutes"])
    page = demo.get("/week/block?weeks=4&ramp=nothing&lighter=no").text
    assert f"<td>{told // 60}:{told % 60:02d}</td>" in page


def test_today_opens_its_minutes_stop_by_stop(demo: TestClient) -> None:
    """The stops, from the minute each begins, add up to the minutes at the head."""
    page = demo.get("/today").text
    facts = opened(page)
    [shown] = map(int, re.findall(r'<p class="s">(\d+) min ·', page))
    assert added(facts["made of"]) == shown
    assert facts["minutes"].startswith(f"{shown}, within ")
    assert {"rule", "your pace", "how sure", "source"} <= set(facts)


def test_a_session_looked_back_on_opens_what_was_planned(demo: TestClient) -> None:
    """“Planned 43 min” is made of its stops at her pace, which is said to be that of now."""
    page = demo.get("/review/2026-11-20").text
    facts = opened(page)
    [planned] = map(int, re.findall(r"planned (\d+) min", page))
    assert facts["planned"].startswith(f"{planned}, within ")
    assert added(facts["made of"]) == planned
    assert "as known now" in facts["your pace"]
    assert facts["taken"].startswith("from the first set")
    assert {"rule", "how sure", "source"} <= set(facts)


def test_a_day_of_the_week_opens_too_and_says_what_today_says(demo: TestClient) -> None:
    """The same day, the same figure and range, wherever it is read."""
    assert (
        opened(demo.get("/week/Monday").text)["minutes"]
        == opened(demo.get("/today").text)["minutes"]
    )


def test_before_sessions_have_taught_the_pace_that_is_said() -> None:
    """Without a clock of hers the range is called what it is: from memory."""
    facts = dict(minutes_facts("60", "", Pace()))
    assert "from memory" in facts["how sure"]
    assert "will teach" in facts["your pace"]
    assert "made of" not in facts


def test_the_phone_takes_the_same_facts_along(demo_book: Book, demo: TestClient) -> None:
    """Without reception the minutes open to what they open to on Today."""
    document = day_document(demo_book, MONDAY.date() + timedelta(0), "Monday")
    assert dict(document["minutes_facts"]) == opened(demo.get("/today").text)
