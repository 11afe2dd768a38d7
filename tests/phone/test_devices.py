"""Two devices in one session: sets, undo, and what is taken or refused, seen on both."""

from __future__ import annotations

import os
import re
from collections import Counter
from random import Random

import pytest
from playwright.sync_api import Page, expect

from pennate.app.book import Book
from pennate.core.exercise import EquipmentKind
from pennate.core.performed import PerformedSet
from pennate.web.render import static

from .conftest import NewPhone
from .test_replay import bare
from .thumb import Thumb, number_on, stored

__all__ = ["bare"]

pytestmark = pytest.mark.browser
ROUNDS = 8 if os.environ.get("PENNATE_SOAK") else 2


def today(book: Book, before: int) -> list[PerformedSet]:
    """The sets logged in this test, in order."""
    return sorted(book.history().sets[before:], key=lambda done: done.number)


def test_rounds_on_two_phones_out_of_reach(
    thumb: Thumb, new_phone: NewPhone, own_demo: Book
) -> None:
    """Round after round both log the same places: all is kept, shown, and settled by a touch."""
    before = len(own_demo.history())
    other = Thumb(new_phone(), thumb.address, Random(2))
    other.ready()
    for played in range(1, ROUNDS + 1):
        for one in (thumb, other):
            one.context.set_offline(offline=True)
            one.close_set()
        for one in (thumb, other):
            one.context.set_offline(offline=False)
            one.settled()
        asked = other.seen.get_by_text("Logged on two devices.")
        expect(asked).to_have_count(played)
    assert Counter(stored(own_demo, before)) == Counter([*thumb.taps, *other.taps])
    for left in range(ROUNDS - 1, -1, -1):
        other.seen.get_by_role("button", name=re.compile("^take back")).first.click()
        expect(other.seen.get_by_text("Logged on two devices.")).to_have_count(left)
    other.settled()
    places = Counter(done.extra["card_key"] for done in own_demo.history().sets[before:])
    assert set(places.values()) == {1}
    assert len(places) == ROUNDS


def test_undo_reaches_the_other_device(thumb: Thumb, new_phone: NewPhone, own_demo: Book) -> None:
    """What one phone logged, another takes back; at the first's next touch it is open again."""
    before = len(own_demo.history())
    place = thumb.seen.locator("#place").inner_text()
    thumb.close_set()
    thumb.settled()
    other = Thumb(new_phone(), thumb.address, Random(2))
    other.without_week()
    other.open()
    other.start()
    expect(other.seen.locator("#place")).not_to_have_text(place)
    other.seen.get_by_role("button", name="undo").click()
    other.settled()
    assert len(own_demo.history()) == before
    thumb.context.unroute("**/api/cards?days=1")
    with thumb.seen.expect_response("**/api/cards?days=1", timeout=60_000):
        thumb.seen.reload()
    thumb.close_set()
    expect(thumb.seen.locator("#place")).to_have_text(place)
    thumb.settled()
    assert stored(own_demo, before) == thumb.taps[1:]


def test_taken_is_answered_by_touch(thumb: Thumb, own_demo: Book) -> None:
    """A station is taken: a substitute with its load is one touch away, and is what is stored."""
    before, page = len(own_demo.history()), thumb.seen
    thumb.context.set_offline(offline=True)
    page.get_by_role("button", name="taken", exact=True).click()
    offered = page.locator("#ask li")
    assert 1 <= offered.count() <= 2
    name, item = offered.first.locator(".strong").inner_text().split(" · ")
    offer = offered.first.inner_text()
    assert " at " in offer, "a substitute comes with its load"
    offered.first.get_by_role("button", name="Do this").click()
    expect(page.get_by_role("heading", level=1)).to_have_text(name)
    thumb.close_set()
    thumb.context.set_offline(offline=False)
    thumb.settled()
    assert stored(own_demo, before) == thumb.taps
    assert thumb.taps[0].exercise == name
    swap = own_demo.ledger.entries("decision")[-1].body
    gym = own_demo.gym()
    assert gym is not None
    free = gym.item(swap["item"])
    assert free is not None
    assert free.name == item
    assert free.kind is not EquipmentKind.BARBELL, "the bar is what is taken"
    assert (swap["what"], swap["reason"]) == ("swap", "taken")


SAID = """async (url) => {
  const { changeWords } = await import(url);
  const at = (amount) => ({ amount, form_unit: "kg", load_is: "total", line: `${amount} kg` });
  return [changeWords(at("50"), at("45"), -2), changeWords(at("50"), at("45"), 1)];
}"""


def test_a_set_that_ended_the_other_way_is_no_reason(bare: tuple[Page, str]) -> None:
    """Never “1 rep over what was likely: 5 kg lighter”."""
    page, address = bare
    assert page.evaluate(SAID, address + static("views.js")) == [
        "2 reps under what was likely: the next set is 5 kg lighter",
        "after what was done so far: the next set is 5 kg lighter",
    ]


def test_a_lighter_load_can_be_refused(thumb: Thumb, own_demo: Book) -> None:
    """A weak top set makes the next one lighter, with its reason; she keeps the load instead."""
    before, page = len(own_demo.history()), thumb.seen
    thumb.context.set_offline(offline=True)
    while "warm-up" in page.locator("#place").inner_text():
        thumb.close_set()
    likely = number_on(page.locator(".closing button.main"))
    thumb.close_with(likely - 4, "missed one")
    change = page.locator("#change")
    expect(change).to_contain_text(re.compile(r"under what was likely: .* lighter"))
    lighter = page.locator("#load").inner_text()
    page.get_by_role("button", name=re.compile("^keep ")).click()
    kept = page.locator("#load").inner_text()
    assert float(kept.split()[0]) > float(lighter.split()[0])
    thumb.close_set()
    thumb.context.set_offline(offline=False)
    thumb.settled()
    assert stored(own_demo, before) == thumb.taps
    assert own_demo.ledger.entries("decision")[-1].body["what"] == "keep load"
    last = today(own_demo, before)[-1]
    assert last.load is not None
    assert float(last.load) == float(kept.split()[0])
