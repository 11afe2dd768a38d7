"""Sessions on the phone, cut off, out of reach, on two tabs: the ledger is what was tapped."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from random import Random

import pytest
from playwright.sync_api import Browser, BrowserContext, expect

from pennate.app.book import Book
from tests.web.conftest import MONDAY, Clock, served

from .thumb import Thumb, stored

pytestmark = pytest.mark.browser
CUTS = 200 if os.environ.get("PENNATE_SOAK") else 10
START = MONDAY + timedelta(hours=1)


@pytest.fixture
def address(own_demo: Book) -> Iterator[str]:
    """A server over a demo of the test's own."""
    with served(own_demo) as found:
        yield found


@pytest.fixture
def context(chromium: Browser) -> Iterator[BrowserContext]:
    """A phone of its own, with its clock where the records' clock is."""
    found = chromium.new_context(viewport={"width": 390, "height": 844}, timezone_id="UTC")
    found.set_default_timeout(15_000)
    found.clock.install(time=START)
    yield found
    found.close()


@pytest.fixture
def thumb(request: pytest.FixtureRequest, context: BrowserContext, address: str) -> Thumb:
    """A thumb on that phone, with the week's cards taken along."""
    if "five_days" not in request.node.name:  # the week ahead is not needed, and takes a while
        context.route("**/api/cards?days=7", lambda route: route.abort())
    found = Thumb(context, address, Random(7))
    page = found.open()
    found.start()
    page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
    return found


def test_a_session_cut_again_and_again(thumb: Thumb, own_demo: Book) -> None:
    """Tabs die right after a touch, in and out of reach: nothing is lost, nothing doubled."""
    before, context = len(own_demo.history()), thumb.context
    for cut in range(CUTS):
        if thumb.page is None:
            thumb.open()
            thumb.start()
        for _ in range(thumb.rng.randrange(1, 4)):
            if thumb.page and thumb.page.locator(".closing").count():
                thumb.close_set()
        if thumb.rng.random() < 0.2:
            thumb.undo()
        context.set_offline(bool(cut % 3) and cut < CUTS - 1)
        thumb.kill()
    thumb.open()
    thumb.settled()
    assert stored(own_demo, before) == thumb.taps
    assert len(thumb.taps) > CUTS / 2 or len(thumb.taps) > 20


@pytest.mark.slow
def test_five_days_out_of_reach(thumb: Thumb, own_demo: Book) -> None:
    """Three sessions on stored cards, the tab killed each time, then back: all of it arrives."""
    before, context = len(own_demo.history()), thumb.context
    assert thumb.page
    expect(thumb.page.locator("#page[data-week='2026-11-23']")).to_be_attached(timeout=60_000)
    context.set_offline(offline=True)
    for days in (0, 2, 1):
        context.clock.fast_forward(days * 24 * 3600 * 1000)
        if thumb.page is None:
            thumb.open()
            thumb.start()
        for _ in range(5):
            thumb.close_set()
        expect(thumb.page.locator("#stand")).to_contain_text("waiting")
        if days != 1:
            thumb.kill()
    assert len(own_demo.history()) == before
    clock = own_demo.now
    assert isinstance(clock, Clock)
    clock.moment += timedelta(days=3)
    context.set_offline(offline=False)
    thumb.kill()
    thumb.open()
    thumb.settled()
    assert stored(own_demo, before) == thumb.taps
    sessions = {(done.day, done.session) for done in own_demo.history().sets[before:]}
    assert len(sessions) == 3


def test_two_tabs_share_one_session(thumb: Thumb, own_demo: Book) -> None:
    """A second tab follows the first; the place is logged once."""
    before = len(own_demo.history())
    other = Thumb(thumb.context, thumb.address, Random(1))
    page = other.open()
    other.start()
    thumb.close_set()
    assert thumb.page
    expect(page.locator("#place")).to_have_text(thumb.page.locator("#place").inner_text())
    other.close_set()
    thumb.settled()
    other.settled()
    keys = Counter(done.extra["card_key"] for done in own_demo.history().sets[before:])
    assert list(keys.values()) == [1, 1]


def test_two_phones_at_once(thumb: Thumb, chromium: Browser, own_demo: Book) -> None:
    """Both log the same places out of reach: both sets are kept, and she is asked about them."""
    before = len(own_demo.history())
    second = chromium.new_context(viewport={"width": 390, "height": 844}, timezone_id="UTC")
    second.clock.install(time=START)
    second.route("**/api/cards?days=7", lambda route: route.abort())
    other = Thumb(second, thumb.address, Random(2))
    other.open()
    other.start()
    for one in (thumb, other):
        one.context.set_offline(offline=True)
        one.close_set()
        one.close_set()
    for one in (thumb, other):
        one.context.set_offline(offline=False)
        one.settled()
    assert Counter(stored(own_demo, before)) == Counter([*thumb.taps, *other.taps])
    assert other.page
    expect(other.page.get_by_text("Logged on two devices.")).to_have_count(2)
    other.page.get_by_role("button", name="take back").first.click()
    expect(other.page.get_by_text("Logged on two devices.")).to_have_count(1)
    other.settled()
    assert len(own_demo.history()) == before + 3
    second.close()


def test_waiting_sets_as_a_file(thumb: Thumb, own_demo: Book, tmp_path: Path) -> None:
    """The waiting sets leave the phone as a log that import takes, and doubles nothing later."""
    from typer.testing import CliRunner

    from pennate.cli.main import app

    thumb.context.set_offline(offline=True)
    for _ in range(4):
        thumb.close_set()
    assert thumb.page
    with thumb.page.expect_download() as waiting:
        thumb.page.get_by_role("button", name="save what waits as a file").click()
    waiting.value.save_as(tmp_path / "waiting.csv")
    folder = own_demo.ledger.path
    assert folder
    before = len(own_demo.history())
    args = ["import", str(tmp_path / "waiting.csv"), "--data", str(folder.parent)]
    result = CliRunner().invoke(app, args)
    assert result.exit_code == 0, result.output
    assert stored(own_demo, before) == thumb.taps
    thumb.context.set_offline(offline=False)
    thumb.settled()
    assert stored(own_demo, before) == thumb.taps
    assert own_demo.ledger.conflicts() == ()
