"""The states of the phone's Floor: pain, alarm, less time, and what a reader is told."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Locator, Page, expect

from pennate.app.book import Book

from .conftest import START
from .test_hurts import in_sight
from .test_place import box, sized
from .thumb import Thumb, number_on

pytestmark = pytest.mark.browser


LOW = [(320, 640), (390, 664), (390, 560), (390, 540), (360, 520), (320, 480), (390, 450)]
"""Screens of small phones, with the browser's own bars taken off, and beside another program."""
LYING = [(932, 430), (844, 390), (740, 360), (667, 375), (640, 360)]
LOWEST = [(360, 400), (320, 400), (568, 320)]
"""Where there is room for the keys, and not for all that is above them too."""
OLDER = """() => new Promise((done) => {
  const opening = indexedDB.open("pennate");
  opening.onsuccess = () => {
    const changed = opening.result.transaction("kept", "readwrite");
    changed.objectStore("kept").put({ made_at: "2026-11-01", days: [{}] }, "cards");
    changed.oncomplete = done;
  };
})"""
"""As a page of an earlier release may have left it."""
STILL = "() => Promise.allSettled(document.getAnimations().map((one) => one.finished))"
MET = """(one) => {
  const {x, y, width, height} = one.getBoundingClientRect();
  const met = document.elementFromPoint(x + width / 2, y + height / 2);
  return one.contains(met);
}"""


def _sound(page: Page) -> None:
    page.evaluate(STILL)  # a colour on its way to another has the contrast of neither
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


def test_pain_asks_and_answers_out_of_reach(thumb: Thumb) -> None:
    """A joint at four of ten is told to go lighter; lighter is a lighter step."""
    page = thumb.page
    assert page
    thumb.context.set_offline(offline=True)
    _sound(page)
    while "warm-up" in page.locator("#place").inner_text():
        thumb.close_set()
    before = page.locator("#load").inner_text()
    page.get_by_role("button", name="hurts").click()
    page.locator("input[name=where][value=shoulder]").check()
    page.locator("input[name=score][value='4']").check()
    page.get_by_role("button", name="What now?").click()
    expect(page.get_by_text("Shoulder: Take less load")).to_be_visible()
    _sound(page)
    page.get_by_role("button", name="lighter", exact=True).click()
    after = page.locator("#load").inner_text()
    assert float(after.split()[0]) < float(before.split()[0])


def test_alarm_signs_end_the_session(thumb: Thumb, own_demo: Book) -> None:
    """Chest, breath or head: stop and get help, shown out of reach; the session is closed."""
    page = thumb.page
    assert page
    thumb.context.set_offline(offline=True)
    page.get_by_role("button", name="hurts").click()
    page.get_by_role("button", name="Chest, breath, head").click()
    expect(page.get_by_role("alert")).to_have_text("Stop now, get help")
    thumb.context.set_offline(offline=False)
    thumb.settled()
    last = own_demo.ledger.entries("session")[-1]
    assert last.body["event"] == "finished"


def test_less_time_leaves_sets_out(thumb: Thumb) -> None:
    """Ten minutes left is a shorter session, and taking it back is one touch."""
    page = thumb.page
    assert page
    page.get_by_role("button", name="less time").click()
    page.get_by_role("button", name="10", exact=True).click()
    expect(page.get_by_text("left out for lack of time").first).to_be_visible()
    _sound(page)
    words = page.locator(".foot .label").inner_text()
    assert 0 < int(words.split()[-2]) <= 10


@pytest.mark.parametrize("reading", ["total", "each", "side", "plates", "label"])
def test_a_typed_load_counts_as_she_says(thumb: Thumb, own_demo: Book, reading: str) -> None:
    """Each of the five readings of a written load reaches the records as it was chosen."""
    page = thumb.page
    assert page
    thumb.context.set_offline(offline=True)
    page.get_by_text("other number, other load, note").click()
    page.get_by_label("Full reps").fill("8")
    page.get_by_label("Load, as written").fill("12.5")
    page.get_by_label("The load counts").select_option(reading)
    page.get_by_role("button", name="Save this set").click()
    thumb.context.set_offline(offline=False)
    thumb.settled()
    last = max(own_demo.history(), key=lambda done: done.order)
    assert (last.reps, last.load, last.reading) == (8, Fraction("12.5"), reading)


def test_cards_of_another_release_are_not_used(thumb: Thumb) -> None:
    """Cards kept by an older page are put away for fresh ones; what waits is kept and sent."""
    page = thumb.seen
    thumb.context.set_offline(offline=True)
    thumb.close_set()
    page.evaluate(OLDER)
    page.reload()
    expect(page.get_by_role("heading", level=1)).to_contain_text("nothing is stored")
    expect(page.locator("#stand")).to_contain_text("2 waiting")
    thumb.context.set_offline(offline=False)
    thumb.context.unroute("**/api/cards?days=1")
    thumb.settled()
    expect(page.get_by_role("button", name="Go on")).to_be_visible()


@pytest.mark.parametrize("height", [640, 844])
def test_a_step_without_a_drawing_moves_nothing(thumb: Thumb, height: int) -> None:
    """Far from the load asked no step is drawn; the keys beside the load stay where they are."""
    page = thumb.seen
    page.set_viewport_size({"width": 390, "height": height})
    less, more = page.locator(".steps button").all()
    expect(page.locator(".picture svg")).to_have_count(1)
    before = more.bounding_box()
    more.click()
    expect(page.locator(".picture.blank")).to_have_count(1)
    assert more.bounding_box() == before
    less.click()
    assert more.bounding_box() == before


def test_all_that_a_set_needs_is_seen_at_once(thumb: Thumb) -> None:
    """On a low screen and lying too, for each exercise: load, reps, what was left, closing keys."""
    page, seen = thumb.seen, set[str]()
    thumb.context.set_offline(offline=True)
    while thumb.on_floor:
        name = page.locator("h1").inner_text()
        for size in [*LOW, *LYING, *LOWEST] if name not in seen else []:
            sized(page, size)
            for one in (page.locator("#load"), page.locator(".asked")):
                assert size in LOWEST or in_sight(page, one), (size, name, box(one))
            for key in page.locator(".left label, .closing button").all():
                _whole(page, key, size)
        sized(page, (390, 844))
        seen.add(name)
        thumb.close_with(number_on(page.locator(".closing button").first))
    assert len(seen) > 4


# 44 by 44 px: WCAG 2.2, 2.5.5 (AAA).
def _whole(page: Page, key: Locator, size: tuple[int, int]) -> None:
    """On the screen with all of it, wide and high enough, and what a touch on it meets."""
    at = box(key)
    assert at["x"] >= 0, (size, at)
    assert at["x"] + at["width"] <= size[0], (size, at)
    assert at["y"] >= 0, (size, at)
    assert at["y"] + at["height"] <= size[1], (size, at)
    assert min(at["width"], at["height"]) >= 44, (size, key.inner_text(), at)
    assert key.evaluate(MET), (size, key.inner_text())


def test_a_low_screen_is_sound_and_keeps_its_keys(thumb: Thumb) -> None:
    """Usable by all there too; the keys stand where they stood, whatever the next set asks."""
    page = thumb.seen
    thumb.context.set_offline(offline=True)
    for size in [(360, 520), (390, 450), (844, 390)]:
        sized(page, size)
        _sound(page)
        before = box(page.locator(".closing .numbers, .closing > button"))["y"]
        thumb.close_set()
        assert box(page.locator(".closing .numbers, .closing > button"))["y"] == before, size


def test_large_text_on_a_low_screen_covers_nothing(large_text: Browser, address: str) -> None:
    """With text at twice its size the keys stay in the flow, where all can be scrolled to."""
    context = large_text.new_context(viewport={"width": 390, "height": 540}, timezone_id="UTC")
    context.clock.install(time=START)
    thumb = Thumb(context, address, Random(7))
    thumb.without_week()
    thumb.open()
    thumb.start()
    hands = thumb.seen.locator(".foot.hands")
    assert hands.evaluate("one => getComputedStyle(one).position") == "static"
    assert thumb.seen.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    context.close()
