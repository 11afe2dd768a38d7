"""Week and Today name the same minutes: one time model, at her own pace."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from pennate.app.book import Book
from pennate.app.card import make_card
from pennate.app.response_sheet import response_sheet
from pennate.app.today import inputs_for, planned_for
from pennate.app.week_log import pace_of
from pennate.core.week_time import Pace, day_minutes

DAYS = ("Monday", "Tuesday", "Saturday")
HANDLING = 0.12
"""The card knows the ramps and the plates of the day, the week only the usual ones."""


@pytest.mark.parametrize("weekday", DAYS)
def test_today_takes_as_long_as_the_week_says(demo_book: Book, weekday: str) -> None:
    """Both lie within each other's interval, and apart by no more than ramps and plates."""
    planned = planned_for(demo_book, demo_book.today, weekday)
    assert planned is not None
    card = make_card(inputs_for(demo_book, demo_book.today, planned), {})
    week = day_minutes(planned, demo_book.catalogue, pace_of(demo_book))
    assert abs(math.log(card.minutes / week.value)) < HANDLING
    assert week.low < card.minutes < week.high
    assert card.minutes_low < week.value < card.minutes_high


def test_minutes_of_the_card_follow_her_pace(demo_book: Book) -> None:
    """Half the pace is half the minutes, of the session and of each stop in it."""
    planned = planned_for(demo_book, demo_book.today, "Monday")
    assert planned is not None
    inputs = inputs_for(demo_book, demo_book.today, planned)
    assert inputs.pace == pace_of(demo_book)
    assert inputs.pace.sessions > 5
    usual = make_card(replace(inputs, pace=Pace()), {})
    quick = make_card(replace(inputs, pace=Pace(factor=0.5)), {})
    assert quick.minutes == pytest.approx(usual.minutes / 2)
    for one, other in zip(quick.stops, usual.stops, strict=True):
        assert one.minutes == pytest.approx(other.minutes / 2)
        assert one.starts_at_min == pytest.approx(other.starts_at_min / 2)


def test_the_phone_takes_her_pace_along(demo_book: Book) -> None:
    """What the phone adds up without reception is taken at the same pace."""
    sheet = response_sheet(demo_book, demo_book.today, "Monday", substitutes=False)
    assert sheet.pace == pytest.approx(pace_of(demo_book).factor, abs=1e-3)
