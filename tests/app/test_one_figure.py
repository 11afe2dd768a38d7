"""A day takes the same minutes wherever it is shown, by her pace."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import time_machine
import typer
from typer.testing import CliRunner

from pennate.app.book import Book
from pennate.app.start import take_starter_gym, take_starter_week
from pennate.app.today import card_for, fit_time, swap
from pennate.app.week_block import her_block, wish_of
from pennate.app.week_known import looking_at
from pennate.app.week_log import pace_of
from pennate.cli.week import register
from pennate.core.card import Card
from pennate.core.prescribed import Week
from pennate.core.week_time import Pace, day_minutes
from pennate.files.week_text import render_week
from pennate.plan.seen import see
from pennate.web.views.week import day_view
from pennate.web.views.week_changed import changed_view
from tests.app.conftest import NOW

APP = typer.Typer()
register(APP)


def _week(book: Book) -> Week:
    week = book.week()
    assert week is not None
    return week


def _on_week(book: Book) -> dict[str, float]:
    """Minutes of each training day as the Week page has them."""
    week = _week(book)
    found = see(week, looking_at(book, week)).minutes
    return {day.day: found[day.day].value for day in week.days if not day.rest}


def _card(book: Book, day: str) -> Card:
    card = card_for(book, book.today, weekday=day)
    assert isinstance(card, Card)
    return card


def _agree(book: Book) -> None:
    for day, minutes in _on_week(book).items():
        card = _card(book, day)
        assert card.minutes == pytest.approx(minutes, abs=1e-6), day
        begins = [stop.starts_at_min for stop in card.stops]
        assert begins == sorted(begins)
        assert begins[-1] + card.stops[-1].minutes == pytest.approx(card.minutes)


def test_today_takes_what_the_week_says(demo_book: Book) -> None:
    """Her own pace is in both, and the line of the session ends at the day's figure."""
    assert pace_of(demo_book) != Pace()
    _agree(demo_book)


@pytest.mark.parametrize("week", ["3_days", "5_days", "home", "travel"])
def test_the_first_session_too(empty_book: Book, week: str) -> None:
    """Without a log: test sets and all, the minutes of the week she took."""
    take_starter_gym(empty_book, {"home": "home", "travel": "travel"}.get(week, "commercial_kg"))
    take_starter_week(empty_book, week)
    _agree(empty_book)


def test_what_changes_today_changes_the_minutes(demo_book: Book) -> None:
    """Another exercise takes what the week with it would take; 25 minutes are 25 at most."""
    day = _week(demo_book).days[0]
    before = _card(demo_book, day.day).minutes
    swap(demo_book, demo_book.today, day.day, 0, {"exercise": "leg_extension"})
    assert _card(demo_book, day.day).minutes < before
    fit_time(demo_book, demo_book.today, day.day, 25)
    assert 15 < _card(demo_book, day.day).minutes <= 25


def test_the_other_pages_say_the_same_minutes(demo_book: Book) -> None:
    """Week, its days, the re-plan’s form and the block: one rule, told to the minute."""
    minutes = _on_week(demo_book)
    week, pace = _week(demo_book), pace_of(demo_book)
    for day in week.days:
        if day.rest:
            continue
        told = f"{minutes[day.day]:.0f}"
        assert day_view(day, demo_book.catalogue, pace).minutes == f"{told} min"
        form = {one.day: one.usual for one in changed_view(demo_book, week).days}
        assert form[day.day] == f"takes {told}, {day.minutes} wanted"
        assert day_minutes(day, demo_book.catalogue, pace).value == minutes[day.day]
    block = her_block(demo_book, wish_of("4", "nothing", lighter=False))
    assert block.weeks[0].minutes == sum(round(one) for one in minutes.values())


def test_the_commands_say_the_same_minutes(demo_book: Book, tmp_path: Path) -> None:
    """`audit`, `replan` and `block` with her records: the figures of her page."""
    path = tmp_path / "week.toml"
    path.write_text(render_week(_week(demo_book)), encoding="utf-8")
    where = ["--data", str(tmp_path / "demo"), "--json"]

    def told(*arguments: str) -> Any:
        with time_machine.travel(NOW, tick=False):
            ran = CliRunner().invoke(APP, [*arguments, *where])
        assert ran.exit_code == 0, ran.output
        return json.loads(ran.stdout)

    minutes = {day: round(value, 1) for day, value in _on_week(demo_book).items()}
    audited = told("audit", str(path))["days"]
    assert {day: one["minutes"] for day, one in audited.items()} == minutes
    block = told("block", str(path), "--weeks", "4", "--ramp", "nothing")["weeks"][0]["days"]
    again = told("replan", str(path), "--to-come", "Monday")["days"]
    for days in (block, again):
        assert {day["day"]: day["minutes"] for day in days if day["exercises"]} == minutes
