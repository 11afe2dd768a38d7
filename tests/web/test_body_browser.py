"""The pages of the body in a real browser: fit, targets, accessibility, one sheet of paper."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser

from pennate.app.body_notes import body_record
from pennate.app.book import Book

from .conftest import served
from .test_body import BODY_PAGES
from .test_browser import SMALL_TARGETS

pytestmark = pytest.mark.browser


def test_axe_and_width_on_every_page(chromium: Browser, demo_address: str) -> None:
    """No accessibility violation in either look, no sideways scrolling at 320, 390 or 1280 px."""
    page = chromium.new_page(viewport={"width": 390, "height": 844}, reduced_motion="reduce")
    found: list[tuple[str, str, str]] = []
    for path in BODY_PAGES:
        page.goto(demo_address + path)
        for look in ("light", "dark"):
            page.evaluate("look => { document.documentElement.dataset.look = look }", look)
            violations = Axe().run(page).response["violations"]
            found += [(path, one["id"], one["nodes"][0]["html"]) for one in violations]
        for width in (320, 390, 1280):
            page.set_viewport_size({"width": width, "height": 844})
            over = page.evaluate("document.documentElement.scrollWidth - innerWidth")
            found += [(path, f"{width} px", f"{over} too wide")] if over > 0 else []
    page.close()
    assert found == []


@pytest.mark.parametrize("width", [320, 390])
def test_targets_are_large_enough(chromium: Browser, demo_address: str, width: int) -> None:
    """Anything to touch is 48 px or more, with every fold open."""
    page = chromium.new_page(viewport={"width": width, "height": 844})
    small: list[str] = []
    for path in BODY_PAGES:
        page.goto(demo_address + path)
        page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true })")
        small += [f"{path} {one}" for one in page.evaluate(SMALL_TARGETS, 48)]
    page.close()
    assert small == []


def test_six_readings_without_script(chromium: Browser, own_demo: Book) -> None:
    """Script off: keyboard alone from box to box, two sides noted with one submit."""
    before = len(body_record(own_demo).measurements)
    with served(own_demo) as address:
        page = chromium.new_page(viewport={"width": 390, "height": 844}, java_script_enabled=False)
        page.goto(f"{address}/body/girth?site=calf")
        page.locator("input[name=left]").first.focus()
        for reading in ("36,1", "36.0", "36,2", "36.4", "36,3", "36.4"):
            page.keyboard.type(reading)
            page.keyboard.press("Tab")
        with page.expect_navigation():
            page.keyboard.press("Enter")
        assert "Saved." in page.content()
        page.close()
    assert len(body_record(own_demo).measurements) == before + 2


def test_the_review_is_one_sheet(chromium: Browser, demo_address: str, tmp_path: Path) -> None:
    """Printed on A4 or Letter with 15 mm margins, the review takes one page."""
    page = chromium.new_page()
    page.goto(f"{demo_address}/review/week")
    margin = dict.fromkeys(("top", "bottom", "left", "right"), "15mm")
    for paper in ("A4", "Letter"):
        pdf = page.pdf(path=tmp_path / "week.pdf", format=paper, margin=margin)  # type: ignore[arg-type] # a plain mapping is taken
        assert len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf)) == 1
    page.close()


def test_charts_read_in_grey(chromium: Browser, demo_address: str) -> None:
    """Left and right differ by dash and by shape, not by colour alone."""
    page = chromium.new_page()
    answer = page.goto(f"{demo_address}/body/girth.svg?site=thigh")
    text = answer.text() if answer else ""
    page.close()
    assert 'stroke-dasharray="6,4"' in text
    marks = re.findall(r'aria-roledescription="point"[^>]* d="([^"]*)"', text)
    assert {"A" in mark for mark in marks} == {True, False}
