"""The demo lifter, phones and thumbs; what every phone takes along is prepared once."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date, timedelta
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext

from pennate.app.book import Book
from pennate.web.phone.kept import Kept, Stand
from tests.web.conftest import (
    MONDAY,
    client_of,
    empty,
    large_text,
    own_demo,
    phone,
    served,
    short_demo,
)

from .browsers import found
from .thumb import Thumb

OTHERS = found()
"""Browsers besides Chromium; where there is none, nothing is collected, so nothing is skipped."""
collect_ignore = [] if OTHERS else ["test_others.py"]

__all__ = ["client_of", "empty", "large_text", "own_demo", "phone", "short_demo"]

START = MONDAY + timedelta(hours=1)


class Prepared(Kept):
    """Sessions of the demo as it is copied: prepared once, shared by every test's server."""

    shared: dict[tuple[Stand, date], dict[str, Any]] = {}  # noqa: RUF012 # that is its purpose

    def __init__(self, start: int) -> None:
        super().__init__()
        self.start = start

    def day(
        self, stand_now: Callable[[], Stand], day: date, make: Callable[[], dict[str, Any]]
    ) -> tuple[Stand, dict[str, Any]]:
        """As prepared before, while nothing was written to this copy."""
        stand = stand_now()
        if stand[1] != self.start:
            return super().day(stand_now, day, make)
        if (stand, day) not in self.shared:
            self.shared[stand, day] = super().day(stand_now, day, make)[1]
        return stand, self.shared[stand, day]


def prepared(book: Book) -> Prepared:
    """What is kept for a copy of the demo to which nothing was written yet."""
    return Prepared(book.ledger.position())


@pytest.fixture
def address(own_demo: Book) -> Iterator[str]:
    """A server over a demo of the test's own."""
    with served(own_demo, prepared(own_demo)) as found:
        yield found


NewPhone = Callable[..., BrowserContext]


@pytest.fixture
def new_phone(chromium: Browser) -> Iterator[NewPhone]:
    """Phones with their clock where the records' clock is, ended with the test."""
    made: list[BrowserContext] = []

    def one(width: int = 390, **more: Any) -> BrowserContext:
        height = 844 if width < 1000 else 900
        found = chromium.new_context(
            viewport={"width": width, "height": height}, timezone_id="UTC", **more
        )
        found.set_default_timeout(30_000)
        found.clock.install(time=START)
        made.append(found)
        return found

    yield one
    for context in made:
        context.close()


@pytest.fixture
def context(new_phone: NewPhone) -> BrowserContext:
    """A phone of its own."""
    return new_phone()


@pytest.fixture
def thumb(context: BrowserContext, address: str) -> Thumb:
    """A thumb on that phone, on the first set, with the page kept."""
    found = Thumb(context, address, Random(7))
    found.ready()
    return found
