"""From an empty ledger to the first set, and a whole session, in a real browser at 390 px."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from pennate.app.book import Book
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind

from .conftest import MONDAY, served, turned
from .test_session import card_of

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
def seasoned_address(seasoned: Book) -> Iterator[str]:
    """A server over half a year of the demo."""
    with served(seasoned) as address:
        yield address


@pytest.fixture
def own_address(own_demo: Book) -> Iterator[str]:
    """A server over a demo of the test's own."""
    with served(own_demo) as address:
        yield address


def test_from_nothing_to_the_first_set_within_ten_minutes(
    empty_address: str, empty: Book, phone: Page
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
    thumb.tap(page.get_by_role("link", name="Week", exact=True))
    thumb.choose(page.locator(".asked a").nth(1))
    thumb.write(page.get_by_label("Name"), "leg press")
    thumb.tap(thumb.button("Replace"))
    expect(page.get_by_role("heading", level=1)).to_have_text("Leg press")
    thumb.tap(page.get_by_role("link", name="Monday"))
    thumb.write(page.get_by_label("Name"), "crunch")
    thumb.tap(thumb.button("Add"))
    thumb.choose(page.get_by_role("button", name="Leg press: one earlier"))
    assert page.locator(".list a.strong").first.inner_text() == "Leg press"


def _close(page: Page) -> None:
    """Close the set shown: done, or the likely number."""
    buttons = page.locator(".closing button")
    turned(page, buttons.first if buttons.count() == 1 else buttons.nth(2))


def _close_weak(page: Page) -> None:
    """Four reps under what was likely, and one was missed."""
    likely = page.locator(".closing button.main").inner_text()
    page.locator(".keys label", has_text="missed one").click()
    page.locator("summary", has_text="other number").click()
    page.get_by_label("Full reps").fill(str(int(likely) - 4))
    turned(page, page.get_by_role("button", name="Save this set"))


def test_a_whole_session(seasoned_address: str, seasoned: Book, phone: Page) -> None:
    """Check-in, a weak top set lowers the rest, a superset, a drop set, finish, review."""
    phone.goto(seasoned_address + "/today")
    phone.get_by_role("button", name="nothing").click()
    phone.get_by_role("link", name="Start").click()
    planned = {s.key: s.load for stop in card_of(seasoned).stops for s in stop.sets}
    places, rounds, drops, load = set(), [], 0, 0.0
    while "/floor" in phone.url:
        place = phone.locator("h1 + p").inner_text()
        box = phone.locator(".closing").bounding_box()
        assert box
        places.add(tuple(box.values()))
        if place.startswith("round"):
            rounds.append((place[:7], phone.locator("h1").inner_text()))
        before, load = load, float(phone.locator(".big").first.inner_text().split()[0])
        if "drop" in place:
            drops += 1
            assert load < before, "a drop is lighter than the set before it"
            assert phone.locator(".closing button").count() == 5
        if place.startswith("top set 1"):
            _close_weak(phone)
            expect(phone.locator(".change").first).to_contain_text("lighter")
            expect(phone.get_by_role("button", name="keep")).to_be_visible()
        else:
            _close(phone)
    assert drops
    assert len(places) == 1, "closing a set moved"
    assert len(set(rounds[:2])) == 2, "partners of a superset alternate"
    assert rounds[0][0] == rounds[1][0]
    _lowered(seasoned, planned)
    assert phone.url.endswith("/review/2026-11-23")
    phone.get_by_label("A note on the session").fill("Slept badly.")
    phone.get_by_role("button", name="Finish").click()
    expect(phone.get_by_text("Slept badly.")).to_be_visible()
    expect(phone.get_by_role("heading", name="Next time")).to_be_visible()


def _lowered(book: Book, planned: dict[str, Loaded | None]) -> None:
    """Every set is stored; after the weak top set the next was lighter, and none was heavier.

    A set that meets its forecast at the lighter load may bring the ones after it back.
    """
    card = card_of(book)
    assert card.next_key is None
    first = next(s for s in card.stops if any(one.kind is SetKind.TOP for one in s.sets))
    hard = [one for one in first.sets if one.kind is not SetKind.WARM_UP]
    for place, one in enumerate(hard[1:]):
        load = planned[one.key]
        assert load is not None
        assert one.done is not None
        assert one.done.load is not None
        assert one.done.load <= load.load.amount, one.key
        assert place or one.done.load < load.load.amount, "the next set"


def test_a_session_without_script(chromium: Browser, own_address: str, own_demo: Book) -> None:
    """With scripting off, check-in, steps, closing and undo work as plain forms."""
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(own_address + "/today")
    page.get_by_role("button", name="short sleep").click()
    page.get_by_role("link", name="Start").click()
    before = page.locator(".big").first.inner_text()
    page.get_by_role("button", name="one step heavier").click()
    expect(page.locator(".big").first).not_to_have_text(before)
    page.locator(".keys label", has_text="none left").click()
    page.locator(".closing button").first.click()
    page.get_by_role("button", name="undo").click()
    turned(page, page.locator(".closing button").first)
    context.close()
    today = [one for one in own_demo.history() if one.day == MONDAY.date()]
    assert len(today) == 1


def test_a_set_with_the_keyboard_alone(own_address: str, own_demo: Book, phone: Page) -> None:
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


def test_the_rest_clock_counts_and_saves_nothing(own_address: str, phone: Page) -> None:
    """The clock goes on by itself; the page and the set stay as they are."""
    phone.goto(own_address + "/floor")
    turned(phone, phone.locator(".closing button").first)
    clock = phone.locator("[data-clock]")
    before, place = clock.inner_text(), phone.locator("h1 + p").inner_text()
    phone.wait_for_function(
        "before => document.querySelector('[data-clock]').innerText > before", arg=before
    )
    assert phone.locator("h1 + p").inner_text() == place
