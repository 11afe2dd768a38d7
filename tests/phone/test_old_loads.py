"""Loads of another day, or from before the records went on: Start waits until fresh ones came."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from random import Random

import pytest
from playwright.sync_api import BrowserContext, Page, Route, expect

from pennate.app.book import Book

from .conftest import START, NewPhone
from .thumb import Thumb

pytestmark = pytest.mark.browser

ASKING = "Start waits for today’s loads"
FRESH = "**/api/cards?days=1"


def turned(book: Book) -> None:
    """Another week is chosen in the records: its Monday begins where the old one ends."""
    week = book.week()
    assert week
    days = tuple(replace(day, exercises=day.exercises[::-1]) for day in week.days)
    book.save_week(replace(week, days=days))


def kept(new_phone: NewPhone, address: str) -> BrowserContext:
    """A phone that took the sessions along and was closed."""
    thumb = Thumb(new_phone(), address, Random(3))
    page = thumb.open()
    expect(page.get_by_role("button", name="Start")).to_be_enabled(timeout=120_000)
    thumb.kept()
    page.close()
    return thumb.context


def first(page: Page) -> str:
    """The exercise the session begins with."""
    return page.locator(".stop .name").first.inner_text()


def test_start_waits_for_the_session_that_holds_now(
    new_phone: NewPhone, address: str, own_demo: Book
) -> None:
    """The week was changed elsewhere: no early touch begins the old session, and it says why."""
    context = kept(new_phone, address)
    turned(own_demo)
    waiting: list[Route] = []

    def hold(route: Route) -> None:
        waiting.append(route)

    context.route(FRESH, hold)
    page = Thumb(context, address, Random(3)).open()
    expect(page.get_by_text(ASKING)).to_be_visible()
    expect(page.get_by_role("button", name="Start")).to_be_disabled()
    expect(page.locator("#stand")).to_have_text("Asking for today’s loads")
    old = first(page)
    page.wait_for_timeout(1000)
    expect(page.get_by_role("button", name="Start")).to_be_disabled()
    for route in waiting:
        route.continue_()
    expect(page.get_by_role("button", name="Start")).to_be_enabled(timeout=60_000)
    assert first(page) != old
    expect(page.get_by_text(ASKING)).to_have_count(0)


@pytest.mark.parametrize("how", ["out of reach", "no answer"])
def test_start_does_not_wait_for_what_cannot_come(
    new_phone: NewPhone, address: str, how: str
) -> None:
    """Loads of another day: begun at once out of reach, and unanswered after a short while."""
    context = kept(new_phone, address)
    context.clock.set_system_time(START + timedelta(days=3))
    context.set_offline(offline=how == "out of reach")
    context.route(FRESH, lambda _: None)
    page = Thumb(context, address, Random(3)).open()
    begin = page.get_by_role("button", name="Start")
    if how == "no answer":
        expect(begin).to_be_disabled()
        context.clock.run_for(16_000)
    expect(begin).to_be_enabled(timeout=5000)
    expect(page.get_by_text("loads worked out on 23 November")).to_be_visible()


def test_loads_of_now_are_begun_at_once(new_phone: NewPhone, address: str) -> None:
    """Nothing happened since they were taken along: Start waits for no fresh cards."""
    context = kept(new_phone, address)
    context.route(FRESH, lambda _: None)
    page = Thumb(context, address, Random(3)).open()
    expect(page.get_by_role("button", name="Start")).to_be_enabled(timeout=5000)
