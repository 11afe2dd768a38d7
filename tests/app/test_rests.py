"""The rest really taken: known from the moments sets were closed at, or not known at all."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from fractions import Fraction

import pytest

from pennate.app.book import Book
from pennate.app.record import Recorded, record
from pennate.app.rests import rest_taken, seconds_between
from tests.web.conftest import MONDAY, Clock, own_demo, short_demo
from tests.web.test_session import card_of

__all__ = ["own_demo", "short_demo"]


@pytest.mark.parametrize(
    ("closed_s", "set_s", "asked_s", "rest"),
    [
        (180, 30, 120, 150),  # rested longer than asked, and it says so
        (100, 40, 120, 60),
        (35, 40, 120, None),  # closed sooner than the set can be done: written down late
        (55, 40, 120, None),
        (40, 40, 0, 0),  # the other side, a partner, a drop: at once
        (20, 40, 0, 0),
        (None, 40, 120, None),  # the first set of a session
    ],
)
def test_rest_is_the_gap_less_the_set(
    closed_s: float | None, set_s: float, asked_s: float, rest: int | None
) -> None:
    """Between two closings lie the rest and the set; what cannot be so is not known."""
    assert rest_taken(closed_s, set_s, asked_s) == rest


def test_a_day_alone_tells_no_rest() -> None:
    """Sessions written down on another day have no moments."""
    noon = datetime(2026, 3, 3, 12)  # noqa: DTZ001 # local time, as the log has it
    assert seconds_between(noon, noon + timedelta(seconds=90)) == 90
    assert seconds_between(date(2026, 3, 3), noon) is None


def test_the_plain_floor_logs_the_rest_that_was_taken(own_demo: Book) -> None:
    """Three minutes between two closings are three minutes less the set, whatever was asked."""
    clock = own_demo.now
    assert isinstance(clock, Clock)
    for _ in range(4):
        key = card_of(own_demo).next_key
        assert key
        clock.moment += timedelta(minutes=3)
        record(own_demo, MONDAY.date(), key, Recorded(), weekday="Monday")
    first, *others = sorted(own_demo.history().since(MONDAY.date()), key=lambda done: done.number)
    assert first.rest_s is None
    for before, done in zip([first, *others], others, strict=False):
        assert isinstance(done.when, datetime)
        assert isinstance(before.when, datetime)
        gap = Fraction((done.when - before.when).total_seconds())
        assert done.rest_s is not None
        assert 1 * done.reps < gap - done.rest_s < 6 * done.reps  # a rep takes 1 to 6 s
        assert done.rest_s > 120
