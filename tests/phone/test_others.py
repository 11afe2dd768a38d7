"""One full session in Firefox and in WebKit, where Debian's packages are on the machine."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from datetime import UTC, datetime
from pathlib import Path
from random import Random
from typing import Any

import pytest

from pennate.app.book import Book
from pennate.app.demo import make_demo
from tests.web.conftest import FEW_WEEKS, served

from .browsers import Remote
from .conftest import OTHERS
from .thumb import EFFORTS, Tap, stored

PAUSE_MS = 1050
"""A little more than the guard against double touches; these browsers keep real time."""
CARDS = "return document.querySelector('#page').dataset.week"
SET = """
const keys = [...document.querySelectorAll('.closing button')];
if (!keys.length) return null;
const words = (css) => document.querySelector(css).innerText;
return {name: words('h1'), load: words('#load'),
  keys: keys.map(one => Number(one.innerText.match(/\\d+/)[0]))};
"""
STAND = "return document.querySelector('#stand').innerText === arguments[0]"
WAIT = "return new Promise(done => setTimeout(() => done(true), arguments[0]))"


@pytest.fixture
def today_demo(tmp_path: Path) -> Iterator[Book]:
    """The demo with its shown session on the day this is run."""
    book = make_demo(tmp_path / "demo", lambda: datetime.now(UTC), weeks=FEW_WEEKS)
    yield book
    book.close()


class Server:
    """A server that can be out of reach and come back at the same address."""

    def __init__(self, book: Book) -> None:
        self.book, self.stack, self.port = book, ExitStack(), 0

    def reach(self) -> str:
        """Begin to serve."""
        address = self.stack.enter_context(served(self.book, port=self.port))
        self.port = int(address.rsplit(":", 1)[1])
        return address

    def lose(self) -> None:
        """End serving."""
        self.stack.close()


def close_sets(remote: Remote, rng: Random, most: int) -> list[Tap]:
    """Close up to so many sets by the keys shown, some with effort; what was touched."""
    taps: list[Tap] = []
    while len(taps) < most and (shown := remote.run(SET)):
        remote.run(WAIT, PAUSE_MS)
        effort = rng.choice(list(EFFORTS.values())) if rng.random() < 0.4 else ""
        if effort:
            remote.click(f"label:has(input[name=effort][value='{effort}'])")
        at = rng.randrange(len(shown["keys"]))
        remote.click(".closing button", at)
        load = shown["load"].replace("\xa0", " ")
        taps.append(Tap(shown["name"], load, shown["keys"][at], effort))
    return taps


@pytest.mark.parametrize("browser", OTHERS)
def test_a_full_session_in_another_browser(browser: str, today_demo: Book, tmp_path: Path) -> None:
    """In reach, out of reach, opened anew out of reach, and back: the ledger is what was tapped."""
    way: Callable[[Path], Any] = OTHERS[browser]
    home = tmp_path / browser
    home.mkdir()
    before, server, rng = len(today_demo.history()), Server(today_demo), Random(5)
    address = server.reach()
    try:
        with way(home) as remote:
            remote.goto(f"{address}/phone")
            remote.wait(CARDS, seconds=300)
            remote.run("return navigator.serviceWorker.ready.then(() => true)")
            remote.click(".foot button")
            taps = close_sets(remote, rng, 4)
            remote.wait(STAND, "Everything is in the records")
            server.lose()
            taps += close_sets(remote, rng, 4)
            remote.goto(f"{address}/phone")
            remote.wait("return document.querySelector('#page').dataset.ready")
            taps += close_sets(remote, rng, 99)
            remote.click(".foot button")
            server.reach()
            remote.goto(f"{address}/phone")
            remote.wait(STAND, "Everything is in the records", seconds=120)
            assert "finished" in remote.run("return document.querySelector('h1').innerText")
    finally:
        server.lose()
    assert len(taps) > 12
    assert stored(today_demo, before) == taps
