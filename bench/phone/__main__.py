"""Touch to paint on a processor four times slower, and the weight of the page.

Run with `python -m bench.phone`; needs a Chromium. Writes `bench/phone/README.md`.
"""

from __future__ import annotations

import gzip
import re
import shutil
import statistics
import tempfile
import threading
import time
from datetime import datetime
from pathlib import Path
from random import Random

import uvicorn
from playwright.sync_api import BrowserContext, Page, expect, sync_playwright

from pennate.app.book import Book
from pennate.app.demo import make_demo
from pennate.web.phone.document import day_document, days_ahead
from pennate.web.phone.pages import as_json
from pennate.web.render import STATIC
from pennate.web.server import make_app

SLOWER = 4
TOUCHES = 24
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync"]
WATCH = """() => {
  window.took = [];
  addEventListener("click", (event) => {
    if (!event.target.closest(".closing")) return;
    const done = () => window.took.push(performance.now() - event.timeStamp);
    requestAnimationFrame(() => setTimeout(done));
  }, true);
}"""


def main() -> None:
    """Measure, print and write the table."""
    with tempfile.TemporaryDirectory() as folder:
        book = make_demo(Path(folder), lambda: datetime.now().astimezone())
        took = touches(book)
        rows = [("touch to paint, median", f"{statistics.median(took):.0f} ms", "50 ms")]
        rows.append(("touch to paint, 95 %", f"{sorted(took)[int(len(took) * 0.95)]:.0f} ms", ""))
        rows += weights(book)
        book.close()
    text = table(rows, len(took))
    print(text)
    (Path(__file__).parent / "README.md").write_text(text, encoding="utf-8")


def touches(book: Book) -> list[float]:
    """Milliseconds from closing a set to the next one painted, out of reach of the server."""
    server = uvicorn.Server(uvicorn.Config(make_app(book), port=0, log_level="error"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.01)
    address = f"http://127.0.0.1:{server.servers[0].sockets[0].getsockname()[1]}"
    with sync_playwright() as driver:
        path = shutil.which("chromium")
        browser = driver.chromium.launch(executable_path=path, args=FLAGS)
        context = browser.new_context(viewport={"width": 390, "height": 844})
        took = _session(context, address)
        browser.close()
    server.should_exit = True
    thread.join(5)
    return took


def _session(context: BrowserContext, address: str) -> list[float]:
    context.route("**/api/cards?days=7", lambda route: route.abort())
    page = context.new_page()
    page.goto(f"{address}/phone")
    start = page.get_by_role("button", name="Start")
    expect(start).to_be_visible(timeout=60_000)
    start.click()
    context.set_offline(offline=True)
    session = context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.evaluate(WATCH)
    return _close_sets(page, Random(1))


def _close_sets(page: Page, rng: Random) -> list[float]:
    for _ in range(TOUCHES):
        keys = page.locator(".closing button")
        keys.nth(rng.randrange(keys.count())).click()
        page.wait_for_timeout(1100)
    took: list[float] = page.evaluate("() => window.took")
    return took


def weights(book: Book) -> list[tuple[str, str, str]]:
    """Compressed bytes of the page's parts, and of the sessions it takes along."""
    shell = (STATIC.parent / "templates" / "pages" / "phone.html").read_text(encoding="utf-8")
    names = {*re.findall(r"static\('([\w.]+)'\)", shell), "pennate.css", "pennate.js", "sw.js"}
    parts = sum(len(gzip.compress((STATIC / name).read_bytes())) for name in names)
    days = [len(gzip.compress(as_json(day_document(book, *one)))) for one in days_ahead(book)]
    total = parts + days[0] + len(gzip.compress(shell.encode()))
    return [
        ("style, script and page", f"{parts / 1000:.1f} kB", ""),
        ("one session with sheet and drawings", f"{max(days) / 1000:.1f} kB", ""),
        ("page with today's session", f"{total / 1000:.1f} kB", "60 kB"),
        ("all sessions of seven days", f"{sum(days) / 1000:.1f} kB", ""),
    ]


def table(rows: list[tuple[str, str, str]], count: int) -> str:
    """The figures as a page."""
    lines = [
        "# The phone's page, measured",
        "",
        f"`python -m bench.phone`: {count} sets closed out of reach, processor slowed {SLOWER}×",
        "(two cores, Chromium, 390 px); bytes are compressed.",
        "",
        "| what | measured | at most |",
        "|---|---|---|",
        *(f"| {what} | {found} | {most} |" for what, found, most in rows),
        "",
    ]
    return "\n".join(lines)


if __name__ == "__main__":
    main()
