"""The one line at the top: what waits, what stands twice, and that nothing is stored yet."""

from __future__ import annotations

from random import Random

import pytest
from playwright.sync_api import Page, expect

from .conftest import NewPhone
from .thumb import Thumb

pytestmark = pytest.mark.browser
RECORDS = "Everything is in the records"
EMPTY = "Nothing is stored here yet"


def place(page: Page) -> tuple[float, float]:
    """Height of the line and where the page begins below it, in px, at the narrowest."""
    found: list[float] = page.evaluate(
        "() => [document.getElementById('stand').offsetHeight, page.offsetTop]"
    )
    return found[0], found[1]


def test_an_empty_phone_says_so_and_tries_again(new_phone: NewPhone, address: str) -> None:
    """Out of reach with nothing stored, the records are not named; a touch gets the sessions."""
    thumb = Thumb(new_phone(), address, Random(3))
    thumb.without_week()
    thumb.context.route("**/api/**", lambda route: route.abort())
    page = thumb.open()
    again = page.get_by_role("button", name="Try again")
    expect(page.locator("#stand")).to_have_text(EMPTY)
    again.click()
    expect(page.locator("#stand")).to_have_text(EMPTY)
    expect(again).to_be_visible()
    thumb.context.unroute("**/api/**")
    thumb.without_week()
    again.click()
    expect(page.get_by_role("button", name="Start")).to_be_visible(timeout=120_000)
    expect(page.locator("#stand")).to_have_text(RECORDS)


def test_the_top_says_what_stands_twice(thumb: Thumb, new_phone: NewPhone) -> None:
    """A place logged on two phones is named in the same one line, until she has decided."""
    other = Thumb(new_phone(320), thumb.address, Random(2))
    other.ready()
    page = other.seen
    expect(page.locator("#stand")).to_have_text(RECORDS)
    before = place(page)
    for one in (thumb, other):
        one.context.set_offline(offline=True)
        one.close_set()
    for one in (thumb, other):
        one.context.set_offline(offline=False)
        one.settled()
    expect(page.locator("#stand")).to_have_text("1 logged twice: see below")
    assert place(page) == before
    other.context.set_offline(offline=True)
    other.close_set()
    expect(page.locator("#stand")).to_have_text("1 waiting; 1 twice: see below")
    assert place(page) == before
    page.evaluate("() => { stand.textContent = '12 waiting; not paired: see below' }")
    assert place(page) == before, "the longest of these lines"
    other.context.set_offline(offline=False)
    page.get_by_role("button", name="both were done").click()
    expect(page.locator("#stand")).to_have_text(RECORDS)
    assert place(page) == before
