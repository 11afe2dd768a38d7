"""The alarm button: what it leaves on the page, and that a mis-tap can be taken back."""

from __future__ import annotations

from random import Random

import pytest
from playwright.sync_api import Page, expect

from pennate.app.book import Book
from pennate.app.today import day_state
from tests.web.conftest import MONDAY

from .conftest import NewPhone
from .thumb import Thumb, stored

pytestmark = pytest.mark.browser
EMERGENCY = "Call the emergency number"
AGAIN = "touched by mistake"


def alarmed(thumb: Thumb) -> Page:
    """The page after the alarm button of the panel was touched."""
    page = thumb.seen
    page.get_by_role("button", name="hurts", exact=True).click()
    page.get_by_role("button", name="Chest, breath, head").click()
    return page


def test_the_alarm_button_stands_apart(thumb: Thumb) -> None:
    """Nothing to touch is within 24 px of it, and no words within 8 px (style: rare acts apart)."""
    page = thumb.seen
    page.get_by_role("button", name="hurts", exact=True).click()
    alarm = page.get_by_role("button", name="Chest, breath, head").bounding_box()
    title = page.get_by_role("heading", name="What hurts?").bounding_box()
    words = page.get_by_text("A joint, or the muscle").bounding_box()
    first = page.locator("input[name=where]").first.bounding_box()
    assert alarm
    assert title
    assert words
    assert first
    foot = alarm["y"] + alarm["height"]
    assert alarm["y"] - (title["y"] + title["height"]) >= 8
    assert words["y"] - foot >= 16
    assert first["y"] - foot >= 24


def test_a_closed_session_keeps_the_emergency_line(thumb: Thumb) -> None:
    """Back on the list, and after the page was opened anew out of reach, it is still said."""
    thumb.context.set_offline(offline=True)
    thumb.close_set()
    page = alarmed(thumb)
    page.get_by_role("button", name="back to the session").click()
    for _ in range(2):
        expect(page.get_by_text(EMERGENCY)).to_be_visible()
        expect(page.get_by_role("button", name=AGAIN)).to_be_visible()
        expect(page.get_by_text("working sets")).to_have_count(0)
        expect(page.get_by_role("heading", level=1)).to_contain_text(": stopped")
        page.reload()
        expect(page.locator("#page[data-ready]")).to_be_attached()


def test_a_mistap_is_taken_back_out_of_reach(thumb: Thumb, own_demo: Book) -> None:
    """The set comes back, sets go on, nothing is lost, and the records have an open session."""
    before = len(own_demo.history())
    thumb.context.set_offline(offline=True)
    thumb.close_set()
    place = thumb.seen.locator("#place").inner_text()
    page = alarmed(thumb)
    page.get_by_role("button", name=AGAIN).click()
    expect(page.locator("#place")).to_have_text(place)
    thumb.close_set()
    thumb.context.set_offline(offline=False)
    thumb.settled()
    assert stored(own_demo, before) == thumb.taps
    state = day_state(own_demo, MONDAY.date(), "Monday")
    assert (state.opened, state.finished, state.note) == (True, False, "")
    events = [one.body["event"] for one in own_demo.ledger.entries("session")]
    assert events[-3:] == ["opened", "finished", "opened"]


def test_another_phone_says_it_and_takes_it_back(
    thumb: Thumb, new_phone: NewPhone, own_demo: Book
) -> None:
    """From the cards alone the line is said; taken back there, the session is open again."""
    alarmed(thumb)
    thumb.settled()
    other = Thumb(new_phone(), thumb.address, Random(4))
    other.without_week()
    page = other.open()
    expect(page.get_by_text(EMERGENCY)).to_be_visible(timeout=120_000)
    page.get_by_role("button", name=AGAIN).click()
    assert other.on_floor
    other.settled()
    assert not day_state(own_demo, MONDAY.date(), "Monday").finished
