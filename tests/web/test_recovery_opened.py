"""What Recovery and the look back on a week say opens to inputs, rule and source."""

from __future__ import annotations

import re
from datetime import timedelta
from html import unescape

from fastapi.testclient import TestClient

from pennate.app.body_notes import Choices, choose, save_period
from pennate.app.book import Book
from pennate.app.illness import say_ill
from pennate.core.readiness import Ill

from .conftest import Client
from .test_claims_opened import behind


def report_energy(book: Book, days: int) -> None:
    """Low energy told on the last days with a session."""
    lately = sorted({one.day for one in book.history()})[-days:]
    for day in lately:
        book.put("readiness", day, {"low_energy": True})


def test_what_she_reports_opens_to_its_sessions(
    client_of: Client, own_demo: Book, empty: Book
) -> None:
    """The sessions on either side, where the effect begins, the rule, and the fewest needed."""
    report_energy(own_demo, 3)
    for book, value in ((own_demo, "value"), (empty, "to begin with")):
        page = unescape(client_of(book).get("/body/recovery").text)
        [said] = re.findall(r"<p>([^<]*low energy or soreness[^<]*)</p>", page)
        facts = behind(page, said)
        [sessions] = re.findall(r": (\d+) such", said)
        assert facts["inputs"].startswith(f"{sessions} sessions with low energy or soreness")
        assert "(95 %)" in facts[value]
        assert "8 sessions of each" in facts["rule"]
        assert "pennate evidence" in facts["source"]


def test_a_lighter_week_opens_called_for_or_not(
    client_of: Client, demo: TestClient, empty: Book
) -> None:
    """Both conditions as they stand: her strength of late, and what she reports."""
    none = "No calendar calls for one here."
    facts = behind(demo.get("/body/recovery").text, none)
    assert re.search(r"\d+ sessions in 14 days, \d+ before: .*has a chance of", facts["strength"])
    assert "our choice" in facts["source"]
    facts = behind(client_of(empty).get("/body/recovery").text, none)
    assert "are needed" in facts["strength"]
    assert facts["you report"] == "nothing the rule counts"
    for past in range(2):
        empty.put("readiness", empty.today - timedelta(days=past), {"low_energy": True})
    facts = behind(client_of(empty).get("/body/recovery").text, none)
    assert facts["you report"].startswith("yes")


def test_the_way_back_opens_to_the_rule_that_holds(client_of: Client, own_demo: Book) -> None:
    """After an illness its easy days, not what days off take from strength."""
    say_ill(own_demo, own_demo.today, Ill.BEFORE)
    page = unescape(client_of(own_demo).get("/body/recovery").text)
    facts = behind(page, re.findall(r'<p class="change">([^<]*after illness[^<]*)</p>', page)[0])
    assert "easy days" in facts["rule"]
    assert "after an illness" in facts["source"]


def test_the_effect_of_the_cycle_opens(client_of: Client, own_demo: Book) -> None:
    """The days that count as first, and that the effect begins at nought."""
    choose(own_demo, Choices(cycle=True))
    save_period(own_demo, own_demo.today - timedelta(days=3))
    page = unescape(client_of(own_demo).get("/body/cycle").text)
    facts = behind(page, re.findall(r"<p>([^<]*first days of a period[^<]*)</p>", page)[0])
    assert "of a cycle" in facts["inputs"]
    assert "towards 0 ±" in facts["rule"]


def test_counts_of_a_week_open_to_what_is_counted(demo: TestClient) -> None:
    """The month before is four weeks and their sets add up to what is said a week."""
    page = unescape(demo.get("/review/week").text)
    [about] = re.findall(r'<p class="s">(\d+ of \d+ sessions[^<]*)</p>', page)
    facts = behind(page, about)
    [said] = re.findall(r"; (\d+) a week", about)
    [month] = re.findall(r"(\d+) in all", facts["a week before"])
    assert round(int(month) / 4) == int(said)
    assert "but warm-ups" in facts["working sets"]
