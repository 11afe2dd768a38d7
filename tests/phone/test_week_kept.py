"""The week the phone takes along: fetched once a day, also late, also by a page that stays open."""

from __future__ import annotations

from random import Random

import pytest
from playwright.sync_api import Route, expect

from .conftest import NewPhone
from .thumb import Thumb

pytestmark = pytest.mark.browser

WEEK = "**/api/cards?days=7"
LONGER_THAN_A_TRY_MS = 31_000
DAY_MS = 24 * 3600 * 1000


@pytest.fixture
def phone_of(new_phone: NewPhone, address: str) -> Thumb:
    """A phone that gets the day's session only from its week."""
    thumb = Thumb(new_phone(), address, Random(4))
    thumb.context.route("**/api/cards?days=1", lambda route: route.abort())
    return thumb


def test_a_week_that_failed_is_fetched_later(phone_of: Thumb) -> None:
    """The connection broke while the week was on its way: it is asked for again by itself."""
    phone_of.context.route(WEEK, lambda route: route.abort())
    page = phone_of.open()
    expect(page.locator("#page[data-week='']")).to_be_attached()
    phone_of.context.unroute(WEEK)
    phone_of.context.clock.fast_forward(LONGER_THAN_A_TRY_MS)
    expect(page.locator("#page[data-week='2026-11-23']")).to_be_attached(timeout=120_000)
    expect(page.get_by_role("button", name="Start")).to_be_visible()


def test_a_page_left_open_takes_each_day_s_week(phone_of: Thumb) -> None:
    """Opened from the home screen a page lives for days: each day it asks for its week, once."""
    asked: list[str] = []
    made: list[bytes] = []

    def again(route: Route) -> None:
        asked.append(route.request.url)
        if not made:
            headers = {**route.request.headers, "sec-fetch-site": "same-origin"}
            reply = route.fetch(headers=headers, timeout=120_000)
            assert reply.ok, reply.text()
            made.append(reply.body())
        route.fulfill(body=made[0], content_type="application/json")

    phone_of.context.route(WEEK, again)
    page = phone_of.open()
    expect(page.locator("#page[data-week='2026-11-23']")).to_be_attached(timeout=120_000)
    for day in ("24", "25"):
        phone_of.context.clock.fast_forward(DAY_MS)
        expect(page.locator(f"#page[data-week='2026-11-{day}']")).to_be_attached()
        phone_of.context.clock.fast_forward(LONGER_THAN_A_TRY_MS)
        phone_of.settled()
    assert len(asked) == 3
