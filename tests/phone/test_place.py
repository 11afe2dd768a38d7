"""Where things stand on the set's page: seen without a search, and still where they were."""

from __future__ import annotations

import pytest
from playwright.sync_api import FloatRect, Locator, Page, expect

from .test_comfort import address, counted, to
from .test_hurts import in_sight, top
from .thumb import Thumb

__all__ = ["address", "counted"]

pytestmark = pytest.mark.browser
SIZES = [(320, 640), (390, 664), (390, 844)]


def box(one: Locator) -> FloatRect:
    """Where it is on the screen."""
    found = one.bounding_box()
    assert found
    return found


def sized(page: Page, size: tuple[int, int]) -> None:
    """A screen of this size, from its top."""
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.evaluate("scrollTo(0, 0)")


def test_load_reps_and_undo_are_seen_at_once(counted: Thumb) -> None:
    """On the first top set nothing need be scrolled for: load, reps, undo, taken and hurts."""
    counted.ready()
    page = to(counted, "press")
    while "warm-up" in page.locator("#place").inner_text():
        counted.close_set()
    counted.close_set()
    for size in SIZES:
        sized(page, size)
        for one in (page.locator("#load"), page.locator(".asked")):
            assert in_sight(page, one), (size, box(one))
        for name in ("undo", "taken", "hurts"):
            key = page.get_by_role("button", name=name, exact=True)
            assert in_sight(page, key), (size, name, box(key))


def test_undo_stays_until_the_next_set_and_away_from_it(counted: Thumb) -> None:
    """It is there after each set, none before the first, at one place, far from the keys."""
    counted.ready()
    page = counted.seen
    undo = page.get_by_role("button", name="undo", exact=True)
    expect(undo).to_have_count(0)
    counted.close_set()
    first = box(undo)
    sized(page, SIZES[0])
    clock = box(page.locator(".clock"))
    assert box(undo)["y"] <= clock["y"] <= box(undo)["y"] + 48, "in one row at 320 px too"
    sized(page, SIZES[-1])
    counted.close_set()
    assert box(undo) == first
    assert box(page.locator(".closing"))["y"] - first["y"] > 200
    counted.undo()
    expect(page.get_by_text("last: ")).to_be_visible()


def test_after_a_typed_set_the_next_load_is_in_sight(counted: Thumb) -> None:
    """Scrolled down to type, she sees the next load without scrolling back."""
    counted.ready()
    page = counted.seen
    for size in SIZES:
        sized(page, size)
        counted.context.clock.fast_forward(1100)
        place = page.locator("#place").inner_text()
        page.get_by_text("other number, other load, note").click()
        page.get_by_label("Full reps").fill("5")
        page.get_by_role("button", name="Save this set").click()
        expect(page.locator("#place")).not_to_have_text(place)
        assert page.evaluate("scrollY") == 0
        assert in_sight(page, page.locator("#load")), size


def test_the_counter_stays_in_its_place(counted: Thumb) -> None:
    """Counting and stopping are at the same spot of the page, in each width."""
    counted.ready()
    counted.context.set_offline(offline=True)
    page = to(counted, "plank")
    for exercise in ("plank", "calf raise"):
        to(counted, exercise)
        for size in SIZES:
            sized(page, size)
            key = page.locator(".counter button")
            before, place, under = box(key), top(key), top(page.locator(".exits", has_text="hurts"))
            key.click()
            expect(key).to_have_text("stop")
            counted.context.clock.run_for(3000)
            after = box(key)
            assert (after["x"], after["width"]) == (before["x"], before["width"]), size
            assert top(key) == place, size
            assert top(page.locator(".exits", has_text="hurts")) == under, size
            key.click()


def test_the_question_has_room_beside_its_keys(counted: Thumb) -> None:
    """The words before the keys of what was left end 8 px before the first key."""
    counted.ready()
    page = counted.seen
    for size in SIZES:
        sized(page, size)
        ends = page.locator(".ask").evaluate(
            "one => { const r = document.createRange(); r.selectNodeContents(one);"
            " return r.getBoundingClientRect().right }"
        )
        key = box(page.locator(".left .keys label").first)
        assert key["x"] - ends >= 8, size
