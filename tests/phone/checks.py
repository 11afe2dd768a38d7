"""What every state of a page must be: usable by all, large enough, legible, still in one column.

Rules: WCAG 2.2 through axe; house rules above it (48 px targets 8 px apart, 64 px to close a
set, 7:1 for text, 4.5:1 for the edges of controls), contrast by the formula of WCAG 2.2.
"""

from __future__ import annotations

import os
from pathlib import Path

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from tests.web.test_browser import SMALL_TARGETS

NARROW = 320
WIDTHS = (NARROW, 390, 1280)
"""Reflow is asked at 320 px (WCAG 1.4.10), twice the text at the others (1.4.4)."""
SOAK = bool(os.environ.get("PENNATE_SOAK"))
"""The long run asks axe in the dark look too; else its contrast is only computed here."""
SCRIPT = Path(__file__).with_name("checks.js").read_text(encoding="utf-8")


def faults(page: Page, *, axe: bool = True) -> list[str]:
    """Everything that is wrong with what the page shows now, in both looks and at all widths.

    Axe waits on timers, which do not run where scripting is off.
    """
    page.wait_for_load_state()
    page.evaluate(SCRIPT)
    size, look = page.viewport_size, page.evaluate("document.documentElement.dataset.look")
    assert size
    found = _fit(page, size["height"])
    page.set_viewport_size(size)
    for said in ("light", "dark"):
        page.evaluate("look => { document.documentElement.dataset.look = look }", said)
        if axe and (said == "light" or SOAK):
            found += [f"{said} axe {one}" for one in _axe(page)]
        found += [f"{said} text {one}" for one in page.evaluate("paleText()")]
        found += [f"{said} edge {one}" for one in page.evaluate("paleEdges()")]
    page.evaluate("look => { document.documentElement.dataset.look = look }", look)
    return found + [f"drawing without a name: {one}" for one in page.evaluate("nameless()")]


def _axe(page: Page) -> list[str]:
    violations = Axe().run(page).response["violations"]
    return [f"{one['id']}: {one['nodes'][0]['html'][:90]}" for one in violations]


def _fit(page: Page, height: int) -> list[str]:
    found = []
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": height})
        found += [f"{width} small {one}" for one in page.evaluate(SMALL_TARGETS, 48)]
        found += [f"{width} near {one}" for one in page.evaluate("tooNear(8)")]
        found += [f"{width} low {one}" for one in page.evaluate("lowClosers()")]
        for size in ("100%",) if width == NARROW else ("100%", "200%"):
            page.evaluate("size => { document.documentElement.style.fontSize = size }", size)
            over = page.evaluate("over()")
            found += [f"{width} at {size} sticks out {over}"] if over > 0 else []
        page.evaluate("document.documentElement.style.fontSize = ''")
    return found
