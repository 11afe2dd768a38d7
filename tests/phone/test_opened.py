"""Numbers open without reception too: the minutes of the session, and the reps that are likely."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from pennate.web.pages.session import LIKELY_RULE

from .thumb import Thumb

pytestmark = pytest.mark.browser


def test_minutes_open_out_of_reach(thumb: Thumb) -> None:
    """On the session's list, before it begins: what they are made of, rule, pace and doubt."""
    page = thumb.before()
    rule = page.get_by_text("times your pace")
    expect(rule).to_be_hidden()
    page.get_by_text("What are these minutes?").click()
    expect(rule).to_be_visible()
    expect(page.get_by_text("nine sessions in ten")).to_be_visible()


def test_likely_reps_open_to_their_rule_out_of_reach(thumb: Thumb) -> None:
    """Past the ramp, the reps that are likely say how often they hold and what they come from."""
    page = thumb.seen
    thumb.context.set_offline(offline=True)
    while "warm-up" in page.locator("#place").inner_text():
        thumb.close_set()
    page.locator("details summary", has_text="likely").click()
    expect(page.get_by_text(LIKELY_RULE)).to_be_visible()
