"""Milliseconds from closing a set to the next one painted, and the browser's own part of them."""

from __future__ import annotations

import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from random import Random

from playwright.sync_api import Browser, BrowserContext, Page, expect

from .place import MONDAY

SLOWER = 4
TOUCHES = 24
PAUSE_MS = 1100
"""A little more than the guard against double touches."""

ON_MONDAY = """
const Real = Date;
Date = class extends Real {
  constructor(...given) {
    super(...(given.length ? given : [Real.now() + SHIFT]));
  }
  static now() {
    return Real.now() + SHIFT;
  }
};
"""
"""The day is moved and nothing else: frames and durations stay the browser's."""

WATCH = """() => {
  window.took = [];
  let began, ended;
  addEventListener("click", () => (began = performance.now()), true);
  addEventListener("click", (event) => {
    if (!event.target.closest?.(".closing") && event.target.isConnected) return;
    ended = performance.now();
    const [start, since] = [began - event.timeStamp, event.timeStamp];
    const script = ended - began;
    requestAnimationFrame(() => {
      const framed = performance.now();
      const wait = framed - ended;
      setTimeout(() => {
        const done = performance.now();
        window.took.push([start, script, wait, done - framed, done - since]);
      });
    });
  });
}"""
"""The event reaches its target between these two; the frame after it styles, lays out, paints."""

EMPTY = """<!doctype html><title>-</title><main class="closing"><p id="n">0</p>
<button onclick="n.textContent = Number(n.textContent) + 1">next</button></main>"""


@dataclass(frozen=True)
class Took:
    """Milliseconds of one touch: until heard, in script, to the frame, in it, and all."""

    heard: float
    script: float
    frame: float
    paint: float
    whole: float


def measured(browser: Browser, address: str) -> tuple[list[Took], list[Took]]:
    """The Floor's touches, and those of a page that only counts, half before and half after."""
    before = _empty(browser)
    floor = _floor(browser, address)
    return floor, before + _empty(browser)


def _slowed(context: BrowserContext, page: Page) -> None:
    session = context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.evaluate(WATCH)


def _empty(browser: Browser) -> list[Took]:
    context = browser.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.set_content(EMPTY)
    _slowed(context, page)
    for _ in range(TOUCHES // 2):
        page.locator("button").click()
        page.wait_for_timeout(PAUSE_MS)
    return _read(context, page)


def _floor(browser: Browser, address: str) -> list[Took]:
    shift = (MONDAY - datetime.now(UTC)).total_seconds() * 1000
    context = browser.new_context(viewport={"width": 390, "height": 844}, timezone_id="UTC")
    context.add_init_script(ON_MONDAY.replace("SHIFT", str(round(shift))))
    context.route("**/api/cards?days=7", lambda route: route.abort())
    page = context.new_page()
    page.goto(f"{address}/phone")
    start = page.get_by_role("button", name="Start")
    expect(start).to_be_visible(timeout=60_000)
    start.click()
    context.set_offline(offline=True)
    _slowed(context, page)
    rng = Random(1)
    for _ in range(TOUCHES):
        keys = page.locator(".closing button")
        keys.nth(rng.randrange(keys.count())).click()
        page.wait_for_timeout(PAUSE_MS)
    return _read(context, page)


def _read(context: BrowserContext, page: Page) -> list[Took]:
    found: list[list[float]] = page.evaluate("() => window.took")
    context.close()
    return [Took(*one) for one in found]


def rows(took: Sequence[Took], empty: Sequence[Took]) -> list[tuple[str, str, str]]:
    """What was measured, as lines of the table."""

    def middle(of: Sequence[Took], name: str) -> float:
        return statistics.median(getattr(one, name) for one in of)

    whole = sorted(one.whole for one in took)
    parts = {
        "until the touch is heard": "heard",
        "in our script": "script",
        "to the next frame": "frame",
        "style, layout and paint": "paint",
    }
    ratio = middle(took, "whole") / middle(empty, "whole")
    return [
        ("touch to paint, median", f"{middle(took, 'whole'):.0f} ms", "50 ms"),
        ("touch to paint, 95 %", f"{whole[int(len(whole) * 0.95)]:.0f} ms", ""),
        *(
            (f"· {words}, median", f"{middle(took, name):.0f} ms", "")
            for words, name in parts.items()
        ),
        ("a page that only counts touches, median", f"{middle(empty, 'whole'):.0f} ms", ""),
        *(
            (f"· {words}, median", f"{middle(empty, name):.0f} ms", "")
            for words, name in parts.items()
        ),
        ("the Floor as a multiple of that page", f"{ratio:.1f}", ""),
    ]
