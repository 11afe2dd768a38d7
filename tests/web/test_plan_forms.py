"""The forms of the plan on a phone: room between targets, days first, a plan at the end."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page, expect

from pennate.app.book import Book

from .conftest import served, turned

pytestmark = pytest.mark.browser

CROWDED = """
() => {
  document.querySelectorAll('details').forEach(one => { one.open = true; });
  const boxes = [...document.querySelectorAll('main :is(a, button, select, summary, label, input)')]
    .filter(one => one.checkVisibility({visibilityProperty: true}))
    .filter(one => !one.matches('[type=hidden], label :is(input), label:not(:has(input)), p.s a'))
    .map(one => ({words: one.name || one.innerText, box: one.getBoundingClientRect()}));
  const apart = (a, b) => Math.hypot(
    Math.max(0, a.left - b.right, b.left - a.right),
    Math.max(0, a.top - b.bottom, b.top - a.bottom));
  const found = [];
  boxes.forEach((one, i) => {
    if (one.box.height < 24 || one.box.width < 24) found.push(`small: ${one.words}`);
    boxes.slice(i + 1).forEach(other => {
      if (apart(one.box, other.box) < 7.5) found.push(`near: ${one.words}, ${other.words}`);
    });
  });
  return found;
}
"""
"""Targets under 24 px (WCAG 2.5.8), or nearer to another than 8 px (house rule); links within a
sentence are free (2.5.8)."""


@pytest.mark.parametrize("path", ["/week", "/week/brief", "/week/changed", "/week/block"])
def test_targets_are_large_and_apart(phone: Page, demo_address: str, path: str) -> None:
    """With everything that opens opened, no two targets are taken for one another."""
    phone.goto(demo_address + path)
    assert phone.evaluate(CROWDED) == []


def test_days_and_minutes_come_first_and_only_where_she_trains(
    phone: Page, demo_address: str
) -> None:
    """The first things to fill in are days; minutes stand beside those she ticks."""
    phone.goto(demo_address + "/week/brief")
    assert phone.locator("main legend").first.inner_text() == "Days and minutes"
    minutes = phone.locator("[name=minutes_Saturday]")
    expect(minutes).to_be_hidden()
    phone.locator("label", has_text="Saturday").click()
    expect(minutes).to_be_visible()
    expect(minutes).to_have_value("60")


def test_the_form_is_filled_in_and_sent_by_thumb(chromium: Browser, own_demo: Book) -> None:
    """Two days ticked off, minutes typed, a wish chosen: the plan is for these."""
    with served(own_demo) as address:
        page = chromium.new_page(viewport={"width": 390, "height": 844})
        page.goto(address + "/week/brief")
        for day in ("Wednesday", "Thursday", "Friday"):
            page.locator("label", has_text=day).click()
        page.fill("[name=minutes_Monday]", "30")
        page.fill("[name=minutes_Sunday]", "25")
        page.select_option("#p1", "back")
        turned(page, page.get_by_role("button", name="Plan it"))
        stop = page.get_by_role("button", name="enough: take the best so far")
        if stop.count():
            stop.click()
        expect(page.get_by_role("heading", name="Days, and why")).to_be_visible(timeout=60_000)
        assert "planned for 30 min" in page.inner_text("main")
        assert "planned for 25 min" in page.inner_text("main")
        assert page.locator(".day").count() == 2
        page.close()
