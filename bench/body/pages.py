"""How long the pages of the body take after a write, on a made-up lifter's year.

    python -m bench.body.pages --write

Each page is asked for right after an entry was written, when nothing of it is at hand.
"""

from __future__ import annotations

import argparse
import statistics
import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from fastapi.testclient import TestClient

from pennate.app.body_notes import Taped, save_girths, save_weight
from pennate.app.book import Book
from pennate.app.demo import make_demo
from pennate.core.body import Site
from pennate.core.performed import Side
from pennate.ledger import Ledger, uuid7
from pennate.ledger.sets import set_entry
from pennate.web.server import make_app

RESULTS = Path(__file__).parent / "PAGES.md"
TIMES = 7
PAGES = (
    "/body",
    "/body/weight",
    "/body/site/thigh",
    "/body/food",
    "/body/recovery",
    "/review/week",
)
END = datetime(2026, 11, 23, 18, 0, tzinfo=UTC)


class Clock:
    """A clock a second later whenever it is asked."""

    def __init__(self) -> None:
        self.moment = END

    def __call__(self) -> datetime:
        """The time."""
        self.moment += timedelta(seconds=1)
        return self.moment


def weighing(book: Book) -> None:
    """A weighing of today."""
    save_weight(book, book.today, Fraction(644, 10))


def girth(book: Book) -> None:
    """Three readings of a thigh."""
    readings = (Fraction(551, 10), Fraction(553, 10), Fraction(552, 10))
    save_girths(book, Taped(day=book.today, site=Site.THIGH, girths={Side.LEFT: readings}))


def a_set(book: Book) -> None:
    """A set of today like the last one of her log."""
    last = book.history().sets[-1]
    number = last.number + 1 if last.day == book.today else 1
    done = replace(last, id=uuid7(book.now(), book.rng), when=book.today, number=number)
    book.ledger.append([set_entry(done, now=book.now(), rng=book.rng)])


def an_old_set(book: Book) -> None:
    """A set of half a year ago, entered now: the strength model starts over."""
    sets = book.history().sets
    done = replace(sets[len(sets) // 2], id=uuid7(book.now(), book.rng), number=90)
    book.ledger.append([set_entry(done, now=book.now(), rng=book.rng)])


WRITES: Mapping[str, Callable[[Book], None]] = {
    "a weighing": weighing,
    "a girth": girth,
    "a set of today": a_set,
    "a set of the past": an_old_set,
}


def took(client: TestClient, path: str) -> float:
    """Processor seconds until a page is there, so that a busy machine does not count."""
    start = time.process_time()
    answer = client.get(path)
    seconds = time.process_time() - start
    if answer.status_code != 200:
        raise RuntimeError(f"{path} answered {answer.status_code}")
    return seconds


def table(book: Book) -> Iterator[str]:
    """Median and slowest of some tries, in seconds, by page and by what was written before."""
    client = TestClient(make_app(book), base_url="http://localhost")
    for path in PAGES:
        client.get(path)  # templates and catalogue are read once a start
    heads = [f"after {write}" for write in WRITES]
    yield f"| page | {' | '.join(heads)} | asked again |"
    yield "|---" * (len(WRITES) + 2) + "|"
    for path in PAGES:
        cells = []
        for write in WRITES.values():
            tries = []
            for _ in range(TIMES):
                write(book)
                tries.append(took(client, path))
            cells.append(f"{statistics.median(tries):.2f} ({max(tries):.2f})")
        cells.append(f"{took(client, path):.2f}")
        yield f"| {path} | {' | '.join(cells)} |"


def report(ledger: Ledger, rows: list[str], sets: int) -> Iterator[str]:
    """The lines of the report."""
    yield "# Pages of the body: seconds after a write"
    yield ""
    yield "Repeat with `python -m bench.body.pages --write`; processor seconds of this machine."
    yield ""
    yield (
        f"A made-up lifter's year: {ledger.count():,} entries, {sets:,} sets. Median of {TIMES}, "
        "the slowest in brackets; wanted: under one second. A set of the past, entered or mended "
        "late, lets the strength model start over from the first set, which is most of that column."
    )
    yield ""
    yield from rows


def main() -> None:
    """Measure, print, and write where asked."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--write", action="store_true")
    write = parser.parse_args().write
    with TemporaryDirectory() as folder:
        make_demo(Path(folder), Clock()).close()
        book = Book.open(Path(folder), Clock(), Random(5))
        sets = len(book.history())
        text = "\n".join(report(book.ledger, list(table(book)), sets)) + "\n"
        book.close()
    print(text)
    if write:
        RESULTS.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
