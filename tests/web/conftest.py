"""A demo lifter, an empty ledger, and a real server for a real browser."""

from __future__ import annotations

import shutil
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random
from typing import Any

import pytest
import uvicorn
from fastapi.testclient import TestClient
from playwright.sync_api import Browser, Locator, Page, Playwright

from pennate.app.book import Book
from pennate.app.demo import make_demo
from pennate.core.prescribed import Week
from pennate.web.phone.kept import Kept
from pennate.web.server import make_app
from tests.conftest import CHROMIUM, FLAGS

MONDAY = datetime(2026, 11, 23, 18, 0, tzinfo=UTC)
WEEKS = 12
FEW_WEEKS = 4
MANY_WEEKS = 26


class Clock:
    """A clock that goes on by a second whenever it is looked at, so that order is kept."""

    def __init__(self, start: datetime = MONDAY) -> None:
        self.moment = start

    def __call__(self) -> datetime:
        """The time, a second later than when last asked."""
        self.moment += timedelta(seconds=1)
        return self.moment


@contextmanager
def served(book: Book, kept: Kept | None = None, port: int = 0) -> Iterator[str]:
    """A server over these records, with sessions already prepared; gives its address."""
    app = make_app(book, development=True)
    app.state.kept = kept or app.state.kept
    with running(app, port=port) as found:
        yield f"http://127.0.0.1:{found}"


@contextmanager
def running(app: Any, *, politely: bool = False, **how: Any) -> Iterator[int]:
    """A server of this app, ended with the block; gives its port.

    It ends at once, since no request is worth waiting for; politely, it closes what is open.
    """
    config = uvicorn.Config(app, **{"port": 0, "log_level": "error", **how})
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    until = time.monotonic() + 20
    while not server.started and time.monotonic() < until:
        time.sleep(0.01)
    try:
        yield server.servers[0].sockets[0].getsockname()[1]
    finally:
        server.should_exit, server.force_exit = True, not politely
        thread.join(10)


def turned(page: Page, link: Locator) -> None:
    """Follow a link or send a form, and wait until the page it leads to stands."""
    with page.expect_navigation():
        link.click()


@pytest.fixture(scope="session")
def demo_book(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Book]:
    """The demo, for pages that only read."""
    book = make_demo(tmp_path_factory.mktemp("demo"), Clock(), weeks=WEEKS)
    yield book
    book.close()


@pytest.fixture(scope="session")
def demo(demo_book: Book) -> TestClient:
    """The pages of the demo, without a browser."""
    return TestClient(make_app(demo_book, development=True), base_url="http://localhost")


@pytest.fixture(scope="session")
def demo_address(demo_book: Book) -> Iterator[str]:
    """The demo behind a real server, for pages that only read."""
    with served(demo_book) as address:
        yield address


@pytest.fixture(scope="session")
def short_demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a few weeks of the demo, to be copied."""
    folder = tmp_path_factory.mktemp("short")
    make_demo(folder, Clock(), weeks=FEW_WEEKS).close()
    return folder


@pytest.fixture
def seasoned(tmp_path: Path) -> Iterator[Book]:
    """Half a year of the demo, so that loads sit where a weak day shows."""
    make_demo(tmp_path / "seasoned", Clock(), weeks=MANY_WEEKS).close()
    book = Book.open(tmp_path / "seasoned", Clock(MONDAY + timedelta(hours=1)), Random(5))
    yield book
    book.close()


@pytest.fixture
def own_demo(short_demo: Path, tmp_path: Path) -> Iterator[Book]:
    """A demo of a test's own, to be changed."""
    shutil.copytree(short_demo, tmp_path / "demo")
    book = Book.open(tmp_path / "demo", Clock(MONDAY + timedelta(hours=1)), Random(5))
    yield book
    book.close()


@pytest.fixture
def empty(tmp_path: Path) -> Iterator[Book]:
    """An empty ledger."""
    book = Book.open(tmp_path / "empty", Clock(), Random(3))
    yield book
    book.close()


Client = Callable[[Book], TestClient]


@pytest.fixture
def client_of() -> Client:
    """A client for the pages over given records."""
    return lambda book: TestClient(make_app(book), base_url="http://localhost")


@pytest.fixture
def client(client_of: Client, own_demo: Book) -> TestClient:
    """Pages over a demo of the test's own."""
    return client_of(own_demo)


def week_of(book: Book) -> Week:
    """The week, which is there."""
    week = book.week()
    assert week
    return week


@pytest.fixture(scope="session")
def large_text(playwright: Playwright) -> Iterator[Browser]:
    """The same with text set to twice the usual size, as a reader would set it."""
    args = [*FLAGS, "--blink-settings=defaultFontSize=32"]
    browser = playwright.chromium.launch(executable_path=CHROMIUM, args=args)
    yield browser
    browser.close()


@pytest.fixture
def phone(chromium: Browser) -> Iterator[Page]:
    """A page 390 px wide; a message on its console fails the test."""
    page = chromium.new_page(viewport={"width": 390, "height": 844})
    heard: list[str] = []
    page.on("console", lambda message: heard.append(message.text))
    page.on("pageerror", lambda error: heard.append(str(error)))
    yield page
    page.close()
    assert heard == []
