"""From an empty ledger to the first set, and a whole session, in a real browser at 390 px."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from pennate.app.book import Book
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind

from .conftest import MONDAY, served
from .test_session import card_of, go_to, has_drops

pytestmark = pytest.mark.browser

TAP_S, KEY_S, CHOICE_S = 1.2, 0.3, 3.0
"""Seconds a tap, a character and a choice are counted, as the job states."""
TEN_MINUTES = 600.0


@dataclass
class Thumb:
    """Touches a page as a lifter would, and counts the seconds it takes."""

    page: Page
    seconds: float = 0.0

    def tap(self, target: Locator) -> None:
        """One touch."""
        target.click()
        self.seconds += TAP_S

    def choose(self, target: Locator) -> None:
        """A touch after reading what there is to choose from."""
        self.seconds += CHOICE_S
        self.tap(target)

    def write(self, target: Locator, text: str) -> None:
        """A touch into a box, and the characters."""
        self.tap(target)
        target.press_sequentially(text)
        self.seconds += KEY_S * len(text)

    def button(self, name: str) -> Locator:
        """A button by its words."""
        return self.page.get_by_role("button", name=name)


@pytest.fixture
def empty_address(empty: Book) -> Iterator[str]:
    """A server over an empty ledger."""
    with served(empty) as address:
        yield address


@pytest.fixture
def own_address(own_demo: Book) -> Iterator[str]:
    """A server over a demo of the test's own."""
    with served(own_demo) as address:
        yield address


def test_from_nothing_to_the_first_set_within_ten_minutes(
    phone: Page, empty_address: str, empty: Book
) -> None:
    """No file, no log: an answer, a week, a gym, five remembered sets, a changed week, a set."""
    thumb = Thumb(phone)
    phone.goto(empty_address)
    thumb.choose(thumb.button("None of these"))
    thumb.choose(phone.locator("button.choice").nth(2))
    thumb.choose(phone.locator("button.choice").first)
    thumb.write(phone.get_by_label("Body mass"), "64")
    thumb.choose(phone.get_by_label("Sex"))
    phone.get_by_label("Sex").select_option("yes")
    rows = phone.locator("fieldset.remembered")
    for number, (load, reps) in enumerate([("60", "8"), ("80", "10"), ("45", "12"), ("40", "15")]):
        thumb.seconds += CHOICE_S
        thumb.write(rows.nth(number).locator("input[name=load]"), load)
        thumb.write(rows.nth(number).locator("input[name=reps]"), reps)
    thumb.tap(thumb.button("That is all"))
    _change_the_week(thumb)
    thumb.tap(phone.get_by_role("link", name="Today"))
    thumb.tap(phone.get_by_role("link", name="Start"))
    thumb.tap(phone.locator(".closing button").first)
    assert len(empty.history()) == 1
    assert thumb.seconds < TEN_MINUTES / 2


def _change_the_week(thumb: Thumb) -> None:
    """Another exercise for one, one more, and one earlier."""
    page = thumb.page
    thumb.tap(page.get_by_role("link", name="Week"))
    thumb.choose(page.locator(".asked a").nth(1))
    thumb.write(page.get_by_label("Name"), "leg press")
    thumb.tap(thumb.button("Replace"))
    expect(page.get_by_role("heading", level=1)).to_have_text("Leg press")
    thumb.tap(page.get_by_role("link", name="Monday"))
    thumb.write(page.get_by_label("Name"), "crunch")
    thumb.tap(thumb.button("Add"))
    thumb.choose(page.get_by_role("button", name="Leg press: one earlier"))
    assert page.locator(".list a.strong").first.inner_text() == "Leg press"


def _close(page: Page, *, weak: bool = False) -> None:
    """Close the set shown: done, or the likely number, or the lowest one."""
    buttons = page.locator(".closing button")
    buttons.first.click() if weak or buttons.count() == 1 else buttons.nth(2).click()


def test_a_whole_session(phone: Page, own_address: str, own_demo: Book) -> None:
    """Check-in, sets, a weak first top set, a superset, finish, review: nothing gets lost."""
    phone.goto(own_address + "/today")
    phone.get_by_role("button", name="nothing").click()
    phone.get_by_role("link", name="Start").click()
    planned = {s.key: s.load for stop in card_of(own_demo).stops for s in stop.sets}
    places, rounds = set(), []
    while "/floor" in phone.url:
        place = phone.locator("h1 + p").inner_text()
        box = phone.locator(".closing").bounding_box()
        assert box
        places.add(tuple(box.values()))
        if place.startswith("round"):
            rounds.append((place[:7], phone.locator("h1").inner_text()))
        _close(phone, weak=place.startswith("top"))
    assert len(places) == 1, "closing a set moved"
    assert len(set(rounds[:2])) == 2, "partners of a superset alternate"
    assert rounds[0][0] == rounds[1][0]
    _lowered(own_demo, planned)
    assert phone.url.endswith("/review/2026-11-23")
    phone.get_by_label("A note on the session").fill("Slept badly.")
    phone.get_by_role("button", name="Finish").click()
    expect(phone.get_by_text("Slept badly.")).to_be_visible()
    expect(phone.get_by_role("heading", name="Next time")).to_be_visible()


def _lowered(book: Book, planned: dict[str, Loaded | None]) -> None:
    """Every set is stored, and after the weak top set nothing got heavier."""
    card = card_of(book)
    assert card.next_key is None
    squat = [s for s in card.stops[0].sets if s.kind is SetKind.BACK_OFF]
    before = [planned[s.key] for s in squat]
    for one, load in zip(squat, before, strict=True):
        assert one.done
        assert one.done.load is not None
        assert load is not None
        assert one.done.load <= load.load.amount


def test_a_drop_set_in_the_browser(phone: Page, own_address: str, own_demo: Book) -> None:
    """On the day with drops, the drop follows at once at a lighter load, with five numbers."""
    go_to(own_demo, has_drops)
    phone.goto(own_address + "/floor")
    while "drop" not in phone.locator("h1 + p").inner_text():
        last = phone.locator(".big").first.inner_text()
        _close(phone)
    first = float(last.split()[0])
    assert float(phone.locator(".big").first.inner_text().split()[0]) < first
    assert phone.locator(".closing button").count() == 5


def test_a_session_without_script(chromium: Browser, own_address: str, own_demo: Book) -> None:
    """With scripting off, check-in, steps, closing and undo work as plain forms."""
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(own_address + "/today")
    page.get_by_role("button", name="short sleep").click()
    page.get_by_role("link", name="Start").click()
    before = page.locator(".big").first.inner_text()
    page.get_by_role("button", name="one step heavier").click()
    assert page.locator(".big").first.inner_text() != before
    page.locator(".keys label", has_text="none left").click()
    page.locator(".closing button").first.click()
    page.get_by_role("button", name="undo").click()
    page.locator(".closing button").first.click()
    context.close()
    today = [one for one in own_demo.history() if one.day == MONDAY.date()]
    assert len(today) == 1


def test_a_set_with_the_keyboard_alone(phone: Page, own_address: str, own_demo: Book) -> None:
    """Effort and closing are reached and worked by keys."""
    phone.goto(own_address + "/floor")
    while phone.evaluate("document.activeElement.name") != "effort":
        phone.keyboard.press("Tab")
    phone.keyboard.press("ArrowRight")
    while phone.evaluate("document.activeElement.closest('.closing')") is None:
        phone.keyboard.press("Tab")
    phone.keyboard.press("Enter")
    expect(phone.get_by_text("last:")).to_be_visible()
    done = own_demo.history().sets[-1]
    assert done.effort is not None


def test_the_rest_clock_counts_and_saves_nothing(phone: Page, own_address: str) -> None:
    """The clock goes on by itself; the page and the set stay as they are."""
    phone.goto(own_address + "/floor")
    phone.locator(".closing button").first.click()
    clock = phone.locator("[data-clock]")
    before, place = clock.inner_text(), phone.locator("h1 + p").inner_text()
    phone.wait_for_function(
        "before => document.querySelector('[data-clock]').innerText > before", arg=before
    )
    assert phone.locator("h1 + p").inner_text() == place
