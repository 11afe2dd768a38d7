"""A made-up lifter's server and a browser, on a fixed day, so that runs can be compared."""

from __future__ import annotations

import shutil
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import uvicorn
from playwright.sync_api import Browser, sync_playwright

from pennate.app.book import Book
from pennate.app.demo import make_demo
from pennate.web.server import make_app

MONDAY = datetime(2026, 11, 23, 18, 0, tzinfo=UTC)
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync"]


@contextmanager
def demo() -> Iterator[tuple[Book, str]]:
    """A year of the demo up to that Monday, and the address it is served at."""
    shift = MONDAY - datetime.now(UTC)
    with tempfile.TemporaryDirectory() as folder:
        book = make_demo(Path(folder), lambda: datetime.now(UTC) + shift)
        server = uvicorn.Server(uvicorn.Config(make_app(book), port=0, log_level="error"))
        thread = threading.Thread(target=server.run, daemon=True)
        thread.start()
        while not server.started:
            time.sleep(0.01)
        yield book, f"http://127.0.0.1:{server.servers[0].sockets[0].getsockname()[1]}"
        server.should_exit = True
        thread.join(5)
        book.close()


@contextmanager
def chromium() -> Iterator[Browser]:
    """The system's Chromium."""
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
        yield browser
        browser.close()
