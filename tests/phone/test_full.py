"""Whole sessions at 320, 390 and 1280 px, light and dark: the ledger is what was tapped.

Two or three of the six in every run, all of them with PENNATE_SOAK=1.
"""

from __future__ import annotations

import os
from datetime import timedelta
from itertools import product
from random import Random

import pytest
from playwright.sync_api import expect

from pennate.app.book import Book
from pennate.web.render import LOOK_COOKIE
from tests.web.conftest import Clock

from .conftest import NewPhone
from .thumb import Thumb, stored

pytestmark = pytest.mark.browser

ALL = list(product((320, 390, 1280), ("light", "dark")))
SOAK = bool(os.environ.get("PENNATE_SOAK"))
ONLINE = ALL if SOAK else [(320, "dark"), (1280, "light")]
AWAY = ALL if SOAK else [(390, "dark")]
SETS_A_DAY = 99 if SOAK else 4

WATCH = """
window.shifts = [];
new PerformanceObserver((list) => {
  for (const one of list.getEntries()) {
    const moved = one.sources.map((source) => source.node?.nodeName);
    if (!one.hadRecentInput) window.shifts.push([one.value, moved]);
  }
}).observe({type: 'layout-shift', buffered: true});
"""
"""Layout Instability API (WICG): shifts that no touch within half a second explains."""


@pytest.fixture
def held(new_phone: NewPhone, address: str, width: int, look: str) -> Thumb:
    """A thumb on a phone of this width in this look, with shifts watched."""
    context = new_phone(width)
    context.add_cookies([{"name": LOOK_COOKIE, "value": look, "url": address}])
    context.add_init_script(WATCH)
    return Thumb(context, address, Random(width))


@pytest.mark.parametrize(("width", "look"), ONLINE)
def test_a_full_session_in_reach(held: Thumb, own_demo: Book, look: str) -> None:
    """To the last set and its end: all stored, one closing place, no shift, nobody else asked."""
    asked: list[str] = []
    held.context.on("request", lambda request: asked.append(request.url))
    before = len(own_demo.history())
    held.ready(fresh=True)
    assert held.seen.evaluate("document.documentElement.dataset.look") == look
    places = set()
    while held.on_floor:
        places.add(str(held.seen.locator(".closing").bounding_box()))
        held.close_set()
    held.seen.get_by_role("button", name="Finish").click()
    held.settled()
    expect(held.seen.get_by_role("heading", level=1)).to_contain_text("finished")
    assert stored(own_demo, before) == held.taps
    assert own_demo.ledger.entries("session")[-1].body["event"] == "finished"
    assert len(places) == 1
    assert held.seen.evaluate("window.shifts") == []
    assert [url for url in asked if not url.startswith(held.address)] == []


@pytest.mark.parametrize(("width", "look"), AWAY)
def test_five_days_out_of_reach(held: Thumb, own_demo: Book, look: str) -> None:
    """Three sessions on stored cards, the tab killed each time, then back: all of it arrives."""
    before, context = len(own_demo.history()), held.context
    held.ready()
    context.set_offline(offline=True)
    for days in (0, 2, 2):
        context.clock.fast_forward(days * 24 * 3600 * 1000)
        if held.page is None:
            held.open()
            held.start()
        assert held.seen.evaluate("document.documentElement.dataset.look") == look
        for _ in range(SETS_A_DAY):
            if held.on_floor:
                held.close_set()
        expect(held.seen.locator("#stand")).to_contain_text("waiting")
        assert held.seen.evaluate("window.shifts") == []
        held.kill()
    assert len(own_demo.history()) == before
    clock = own_demo.now
    assert isinstance(clock, Clock)
    clock.moment += timedelta(days=5)
    context.clock.fast_forward(24 * 3600 * 1000)
    context.set_offline(offline=False)
    held.open()
    held.settled()
    assert stored(own_demo, before) == held.taps
    sessions = {(done.day, done.session) for done in own_demo.history().sets[before:]}
    assert len(sessions) == 3
