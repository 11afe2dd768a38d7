"""The calendar of a routine, against the grammar of RFC 5545.

No calendar library is among the dependencies, so the rules are written down here anew, each
with its section, and the file is read back by them.
"""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.app.pass_on import passed_file
from pennate.core.passed_on import Passed
from pennate.core.prescribed import WEEKDAYS
from pennate.sheets.passed_calendar import calendar
from tests.app.passing import PRIVATE_WEEK, SECRETS, WEEKS

SINCE = date(2026, 12, 2)
CONTENT_LINE = re.compile(r'[A-Z-]+(;[A-Z-]+=[^";:,\x00-\x1f]+)*:[^\x00-\x08\x0a-\x1f\x7f]*')
"""name *(";" param) ":" value, 3.1."""
TEXT = re.compile(r"(?:[^\\;,\x00-\x1f]|\\[\\;,nN])*")
"""TSAFE-CHAR or an escape; a colon or quote may stand in a TEXT value, 3.3.11."""
ONCE = {"UID", "DTSTAMP", "DTSTART", "RRULE", "TRANSP", "SUMMARY", "DESCRIPTION"}


@pytest.fixture(scope="module")
def routine() -> Passed:
    """A starter week of three days."""
    return passed_file(WEEKS / "3_days.toml")


def _unfolded(text: str) -> list[str]:
    """The content lines: a line break and one blank are taken out, 3.1."""
    assert text.endswith("\r\n")
    return re.sub(r"\r\n[ \t]", "", text)[: -len("\r\n")].split("\r\n")


def _events(lines: list[str]) -> list[dict[str, str]]:
    """Each event's properties by name, parameters kept with the name."""
    events: list[dict[str, str]] = []
    for line in lines:
        assert CONTENT_LINE.fullmatch(line), line
        name, _, value = line.partition(":")
        if line == "BEGIN:VEVENT":
            events.append({})
        elif events and line != "END:VEVENT" and name != "END":
            assert name not in events[-1]
            events[-1][name] = value
    return events


def _plain(value: str) -> str:
    """A text value as it was meant, 3.3.11."""
    assert TEXT.fullmatch(value), value
    return re.sub(r"\\(.)", lambda m: "\n" if m[1] in "nN" else m[1], value)


def test_the_file_follows_the_grammar(routine: Passed) -> None:
    """Lines, components and properties are as RFC 5545 asks: 3.1, 3.4, 3.6.1, 3.7."""
    text = calendar(routine, SINCE)
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))
    assert "\n" not in text.replace("\r\n", "")
    lines = _unfolded(text)
    assert lines[0] == "BEGIN:VCALENDAR"
    assert lines[-1] == "END:VCALENDAR"
    assert lines.count("VERSION:2.0") == 1
    assert sum(line.startswith("PRODID:") for line in lines) == 1
    assert lines.count("BEGIN:VEVENT") == lines.count("END:VEVENT") == 3
    for event in _events(lines):
        assert {name.split(";")[0] for name in event} == ONCE
        assert re.fullmatch(r"\d{8}T\d{6}Z", event["DTSTAMP"])
        assert event["RRULE"] == "FREQ=WEEKLY"
        assert _plain(event["SUMMARY"])


def test_each_day_falls_on_its_weekday(routine: Passed) -> None:
    """Each event begins on the first such weekday from the date on, within a week."""
    events = _events(_unfolded(calendar(routine, SINCE)))
    starts = [date.fromisoformat(event["DTSTART;VALUE=DATE"]) for event in events]
    planned = [day.day for day in routine.days if not day.rest]
    assert [WEEKDAYS[start.weekday()] for start in starts] == planned
    assert all(0 <= (start - SINCE).days < 7 for start in starts)
    assert len({event["UID"] for event in events}) == len(events)


def test_the_day_is_told(routine: Passed) -> None:
    """Each exercise stands in its day's text, with its sets and the emergency line."""
    events = _events(_unfolded(calendar(routine, SINCE)))
    for event, day in zip(events, [day for day in routine.days if not day.rest], strict=True):
        told = _plain(event["DESCRIPTION"])
        for stop in day.stops:
            assert all(one.asked.name in told for one in stop.exercises)
        assert "chest pain" in told


@given(st.text(st.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=200))
def test_any_name_comes_back(name: str) -> None:
    """Commas, semicolons, backslashes and wide characters survive escaping and folding."""
    day = replace(NAMED.days[0], focus="legs")
    text = calendar(replace(NAMED, name=name, days=(day,)), SINCE)
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))
    (event,) = _events(_unfolded(text))
    assert _plain(event["SUMMARY"]) == f"{name}: legs"


NAMED = passed_file(WEEKS / "travel.toml")


def test_nothing_private_is_in_it(tmp_path: Path) -> None:
    """A week full of private things gives a calendar without them."""
    week = tmp_path / "week.toml"
    week.write_text(PRIVATE_WEEK, encoding="utf-8")
    text = "".join(_unfolded(calendar(passed_file(week), SINCE))).casefold()
    assert [secret for secret in SECRETS if secret.casefold() in text] == []


def test_the_same_routine_and_date_give_the_same_bytes(routine: Passed) -> None:
    """No clock or chance is in it."""
    assert calendar(routine, SINCE) == calendar(passed_file(WEEKS / "3_days.toml"), SINCE)
