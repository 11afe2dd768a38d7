"""Make the pictures of the README from the demo: `python docs/make_pictures.py`.

The demo is made for a fixed evening, served on a free port, and photographed in Chromium, so
the pictures are those of the pages as they are.
"""

from __future__ import annotations

import shutil
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path

import uvicorn
from playwright.sync_api import Page, sync_playwright

from pennate.app.book import Book
from pennate.app.demo import make_demo
from pennate.web.server import make_app

PICTURES = Path(__file__).parent / "pictures"
EVENING = datetime(2026, 11, 22, 18, 0, tzinfo=UTC)
PHONE = {"width": 390, "height": 844}
WIDE = {"width": 1000, "height": 800}
MAIN_EXERCISE = "hip_thrust"


class Clock:
    """A clock of its own, so that every run gives the same pictures."""

    def __init__(self) -> None:
        self.moment = EVENING

    def __call__(self) -> datetime:
        """The time, a second later than when last asked."""
        self.moment += timedelta(seconds=1)
        return self.moment


@contextmanager
def served(book: Book) -> Iterator[str]:
    """The demo behind a server; gives its address."""
    server = uvicorn.Server(uvicorn.Config(make_app(book), port=0, log_level="error"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.01)
    try:
        yield f"http://127.0.0.1:{server.servers[0].sockets[0].getsockname()[1]}"
    finally:
        server.should_exit = True
        thread.join(10)


def close_sets(page: Page, clock: Clock) -> None:
    """Close the ramp and a weak first top set, then rest a little."""
    while not page.locator("h1 + p").inner_text().startswith("top"):
        page.locator(".closing button").first.click()
        clock.moment += timedelta(seconds=75)
    likely = int(page.locator(".closing button.main").inner_text())
    page.locator(".keys label", has_text="missed one").click()
    page.locator("summary", has_text="other number").click()
    page.get_by_label("Full reps").fill(str(likely - 2))
    page.get_by_role("button", name="Save this set").click()
    clock.moment += timedelta(seconds=75)
    page.reload()


def main_day(book: Book) -> str:
    """The day of her week that begins with the exercise of the pictures."""
    week = book.week()
    days = week.days if week else ()
    return next(
        day.day for day in days if day.exercises and day.exercises[0].exercise == MAIN_EXERCISE
    )


def whole_page(page: Page, name: str, most: float = 2000) -> None:
    """Photograph a page from top to end, or down to `most` pixels."""
    bottom = page.evaluate("document.querySelector('main').getBoundingClientRect().bottom")
    height = min(most, bottom)
    size = page.viewport_size or PHONE
    page.set_viewport_size({"width": size["width"], "height": round(height)})
    page.screenshot(path=PICTURES / name)
    page.set_viewport_size({"width": size["width"], "height": size["height"]})


def take(address: str, clock: Clock, weekday: str) -> None:
    """All pictures, on the evening of this day's session."""
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=chromium, args=["--no-sandbox", "--disable-gpu"]
        )
        page = browser.new_page(viewport=PHONE, device_scale_factor=2)
        page.request.post(f"{address}/today/choose", form={"weekday": weekday})
        page.goto(f"{address}/today")
        whole_page(page, "today.png")
        page.goto(f"{address}/floor")
        close_sets(page, clock)
        page.screenshot(path=PICTURES / "floor.png")
        page.goto(f"{address}/exercises/{MAIN_EXERCISE}")
        whole_page(page, "exercise.png", most=1180)
        wide = browser.new_page(viewport=WIDE)
        wide.goto(f"{address}/week")
        lanes = wide.locator(".lanes").bounding_box()
        bottom = lanes["y"] + lanes["height"] + 16 if lanes else WIDE["height"]
        wide.screenshot(
            path=PICTURES / "week.png",
            clip={"x": 0, "y": 0, "width": WIDE["width"], "height": bottom},
        )
        browser.close()


def main() -> None:
    """Make the demo, serve it, photograph it."""
    PICTURES.mkdir(exist_ok=True)
    clock = Clock()
    with tempfile.TemporaryDirectory() as folder:
        book = make_demo(Path(folder), clock)
        with served(book) as address:
            take(address, clock, main_day(book))
        book.close()


if __name__ == "__main__":
    main()
