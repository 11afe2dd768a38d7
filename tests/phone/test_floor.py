"""Tabs cut off, two tabs, two phones, the file of what waits: the ledger is what was tapped."""

from __future__ import annotations

import os
from collections import Counter
from pathlib import Path
from random import Random

import pytest
from playwright.sync_api import expect

from pennate.app.book import Book

from .conftest import NewPhone
from .thumb import Thumb, stored

pytestmark = pytest.mark.browser
CUTS = 10
SESSIONS = 20 if os.environ.get("PENNATE_SOAK") else 1
"""Of so many cuts each: a session has no sets left to be cut off at two hundred."""


@pytest.mark.parametrize("seed", range(7, 7 + SESSIONS))
def test_a_session_cut_again_and_again(thumb: Thumb, own_demo: Book, seed: int) -> None:
    """Tabs die right after a touch, in and out of reach: nothing is lost, nothing doubled."""
    before, context = len(own_demo.history()), thumb.context
    thumb.rng = Random(seed)
    for cut in range(CUTS):
        if thumb.page is None:
            thumb.open()
            thumb.start()
        for _ in range(thumb.rng.randrange(1, 3)):
            if thumb.on_floor:
                thumb.close_set()
        if thumb.rng.random() < 0.2:
            thumb.undo()
        context.set_offline(bool(cut % 3) and cut < CUTS - 1)
        thumb.kill()
    thumb.open()
    thumb.settled()
    assert stored(own_demo, before) == thumb.taps
    assert len(thumb.taps) > CUTS / 2


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


def test_two_phones_at_once(thumb: Thumb, new_phone: NewPhone, own_demo: Book) -> None:
    """Both log the same places out of reach: both sets are kept, and she is asked about them."""
    before = len(own_demo.history())
    other = Thumb(new_phone(), thumb.address, Random(2))
    other.ready()
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
