"""The phone's page: touches a set, touch to paint on a slower processor, and its weight.

Run with `python -m bench.phone`; needs a Chromium. Writes `bench/phone/RESULTS.md`.
"""

from __future__ import annotations

import gzip
import os
import re
from collections.abc import Sequence
from pathlib import Path

from pennate.app.book import Book
from pennate.web.lean import script
from pennate.web.phone.document import day_document, days_ahead
from pennate.web.phone.pages import as_json
from pennate.web.render import STATIC

from . import paint, touches
from .place import chromium, demo

Rows = Sequence[tuple[str, str, str]]


def main() -> None:
    """Measure, print and write the tables."""
    with demo() as (book, address), chromium() as browser:
        took, empty = paint.measured(browser, address)
        tapped = touches.per_set(browser, address)
        weighed = weights(book)
    text = page(touches.rows(tapped), paint.rows(took, empty), weighed)
    print(text)
    (Path(__file__).parent / "RESULTS.md").write_text(text, encoding="utf-8")


def _travels(name: str) -> bytes:
    """A part of the page as it is sent."""
    if name.endswith(".js"):
        return script(STATIC, name).encode()
    return (STATIC / name).read_bytes()


def weights(book: Book) -> Rows:
    """Compressed bytes of the page's parts, and of the sessions it takes along."""
    shell = (STATIC.parent / "templates" / "pages" / "phone.html").read_text(encoding="utf-8")
    names = {*re.findall(r"static\('([\w.]+)'\)", shell), "pennate.css", "pennate.js", "sw.js"}
    parts = sum(len(gzip.compress(_travels(name))) for name in names)
    days = [len(gzip.compress(as_json(day_document(book, *one)))) for one in days_ahead(book)]
    total = parts + max(days) + len(gzip.compress(shell.encode()))
    return [
        ("style, script and page", f"{parts / 1000:.1f} kB", ""),
        ("one session with sheet and drawings", f"{max(days) / 1000:.1f} kB", ""),
        ("page with the week's heaviest session", f"{total / 1000:.1f} kB", "60 kB"),
        ("all sessions of seven days", f"{sum(days) / 1000:.1f} kB", ""),
    ]


def page(tapped: Rows, painted: Rows, weighed: Rows) -> str:
    """The figures as a page."""
    lines = [
        "# The phone's page, measured",
        "",
        "Made by `python -m bench.phone`: Chromium, 390 px, out of reach; the machine's load was",
        f"{os.getloadavg()[0]:.1f} on {os.cpu_count()} processors, so times are an upper bound.",
        "",
        "## Touches",
        "",
        f"{touches.SESSIONS} whole sessions; seven sets in ten end one to three reps off what was",
        "likely, four in ten with effort said. A number not offered is typed, each digit a touch.",
        "",
        *_table(tapped),
        "## Touch to paint",
        "",
        f"{paint.TOUCHES} sets closed, the processor slowed {paint.SLOWER}×. The second page holds",
        "one number and one button, in the same run: what it takes is the browser's own.",
        "",
        *_table(painted),
        "## Weight",
        "",
        "Compressed bytes.",
        "",
        *_table(weighed),
    ]
    return "\n".join(lines)


def _table(rows: Rows) -> list[str]:
    head = ["| what | measured | at most |", "|---|---|---|"]
    return [*head, *(f"| {what} | {found} | {most} |" for what, found, most in rows), ""]


if __name__ == "__main__":
    main()
