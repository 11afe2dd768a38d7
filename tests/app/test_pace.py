"""A session's minutes follow her own pace, on the page and on the phone."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pennate.app.book import Book
from pennate.app.card import make_card
from pennate.app.response_sheet import response_sheet
from pennate.app.stand import stand
from pennate.app.today import inputs_for, planned_for
from pennate.app.week_log import pace_of
from pennate.core.week_time import Pace


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
    """What the phone adds up without reception is taken at the pace of the session, near hers."""
    planned = planned_for(demo_book, demo_book.today, "Monday")
    assert planned is not None
    pace = stand(inputs_for(demo_book, demo_book.today, planned)).pace
    sheet = response_sheet(demo_book, demo_book.today, "Monday", substitutes=False)
    assert sheet.pace == pytest.approx(pace.factor, abs=1e-4)
    assert sheet.pace == pytest.approx(pace_of(demo_book).factor, rel=0.1)
