"""The session page before, between and after the sets: usable by all, and nothing sticks out."""

from __future__ import annotations

from random import Random

import pytest
from playwright.sync_api import expect

from .conftest import NewPhone
from .test_sound import States, address, every_kind
from .thumb import Thumb

__all__ = ["address", "every_kind"]

pytestmark = pytest.mark.browser


def test_the_line_is_sound_in_every_state(new_phone: NewPhone, address: str) -> None:
    """The line, an opened stop, what is sore or hurts, skipped, short of time, looked back on."""
    thumb = Thumb(new_phone(reduced_motion="reduce"), address, Random(3))
    page = thumb.open()
    expect(page.get_by_role("button", name="Start")).to_be_visible(timeout=120_000)
    page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
    thumb.context.set_offline(offline=True)
    states = States(page)
    states.look("the line")
    page.locator(".stop .name").nth(1).click()
    states.look("an opened stop")
    page.get_by_role("button", name="skip it today").click()
    page.locator(".stop .name").nth(1).click()
    states.look("a skipped stop")
    page.get_by_role("button", name="take it up again").click()
    page.get_by_role("button", name="sore").click()
    states.look("what is sore")
    page.get_by_role("button", name="hurts").click()
    states.look("what hurts")
    page.locator("input[name=where][value=shoulder]").check()
    page.locator("input[name=score][value='7']").check()
    page.get_by_role("button", name="Take it into account").click()
    page.get_by_role("button", name="short sleep").click()
    page.get_by_role("button", name="less time").click()
    states.look("how long")
    page.get_by_role("button", name="20", exact=True).click()
    states.look("said, and short of time")
    page.get_by_role("button", name="nothing", exact=True).click()
    thumb.start()
    for _ in range(3):
        thumb.close_set()
    page.get_by_role("button", name="session", exact=True).click()
    states.look("under way")
    page.get_by_role("button", name="finish the session").click()
    states.look("looked back on")
    page.get_by_role("button", name="Finish").click()
    states.look("finished early")
    assert not states.wrong, states.report()


def test_a_stop_is_decided_about_by_keys_alone(new_phone: NewPhone, address: str) -> None:
    """Tab to a stop, open it, skip it, take it up again: the focus is never lost to the page."""
    thumb = Thumb(new_phone(), address, Random(3))
    page = thumb.open()
    expect(page.get_by_role("button", name="Start")).to_be_visible(timeout=120_000)
    name = page.locator(".stop .name").first
    name.focus()
    page.keyboard.press("Enter")
    expect(name).to_have_attribute("aria-expanded", "true")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "later"
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.locator(".stop .words").first).to_contain_text("skipped today")
    expect(name).to_be_focused()
    for key in ("Enter", "Tab", "Enter"):
        page.keyboard.press(key)
    expect(page.locator(".stop .words").first).not_to_contain_text("skipped today")
    expect(name).to_be_focused()
    for key in ("Enter", "Tab", "Enter"):
        page.keyboard.press(key)
    expect(page.locator(".stop .name").nth(1)).to_be_attached()
    assert page.evaluate("document.activeElement.className") == "name"
