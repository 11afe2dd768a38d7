"""Ten years of log through every door, timed: `python -m bench.ledger`.

Prints a table, and with `--write` puts it beside this file as `RESULTS.md`. The log is
made up: 65,000 sets of 40 exercises, five days a week, every column filled now and then.
"""

from __future__ import annotations

import platform
import random
import sqlite3
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from statistics import median

from pennate.app.exchange import export_dir, import_dir, import_log
from pennate.app.keep import Place, back_up, check, restore
from pennate.files.catalogue import read_catalogue
from pennate.files.log import read_log
from pennate.ledger import Entry, Ledger, uuid7
from pennate.ledger.sets import sets_from

SETS = 65_000
PER_SESSION = 25
APPENDS = 300
NOW = datetime(2026, 3, 31, 12, tzinfo=UTC)
HEADER = (
    "date,session,set,exercise,kind,load,unit,reps,rir,rest_s,equipment,side,note,body_mass_kg,Mood"
)


def log_text(chance: random.Random) -> str:
    """A log of `SETS` rows."""
    exercises = sorted(read_catalogue().exercises)[:40]
    lines = [HEADER]
    for number in range(SETS):
        session, place = divmod(number, PER_SESSION)
        day = date(2016, 1, 4) + timedelta(days=session * 7 // 5)
        exercise = exercises[(session * 5 + place // 5) % len(exercises)]
        load = 20 + (session % 40) * 0.5 + chance.choice((0, 2.5, 5))
        rir = chance.choice(("", "fail", "0", "1", "2", "3", "4-5"))
        note = chance.choice(("", "", "", "felt strong", '"seat 4, pad 2"'))
        lines.append(
            f"{day},A,{place + 1},{exercise},working,{load},kg,{chance.randint(5, 12)},{rir},"
            f"{chance.choice((90, 120, 180))},item {place // 5},,{note},62.4,ok"
        )
    return "\n".join(lines) + "\n"


class Table:
    """Rows of what was timed."""

    def __init__(self) -> None:
        self.rows: list[tuple[str, str]] = []

    @contextmanager
    def timed(self, what: str) -> Iterator[None]:
        """Time a block in seconds."""
        began = time.perf_counter()
        yield
        self.add(what, f"{time.perf_counter() - began:.2f} s")

    def add(self, what: str, value: str) -> None:
        """Note and print a row."""
        self.rows.append((what, value))
        print(f"{what:58} {value}", flush=True)

    def text(self) -> str:
        """The table in Markdown."""
        lines = [f"| {what} | {value} |" for what, value in self.rows]
        return "\n".join(["| what | time |", "|---|---|", *lines, ""])


def files(table: Table, folder: Path, chance: random.Random) -> None:
    """Import, read, export, back up and restore the whole log."""
    log = folder / "log.csv"
    log.write_text(log_text(chance))
    table.add("log", f"{SETS} sets, {log.stat().st_size / 1e6:.1f} MB")
    catalogue = read_catalogue()
    with table.timed("reading the file, questions included"):
        read_log(log, catalogue, today=NOW.date())
    place = Place(folder / "data")
    with place.open() as ledger:
        with table.timed("import into an empty ledger"):
            report = import_log(ledger, log, now=NOW, rng=chance)
        assert report.added == SETS
        with table.timed("import of the same file again"):
            import_log(ledger, log, now=NOW, rng=chance)
        with table.timed("reading every set from the ledger"):
            sets_from(ledger)
        with table.timed("export"):
            export_dir(ledger, folder / "out")
        with table.timed("import of that export"):
            import_dir(ledger, folder / "out", now=NOW, rng=chance)
        appends(table, ledger, chance, "append of one set, 65,000 there, median (99 %)")
    with table.timed("check"):
        check(place)
    with table.timed("backup, verified"):
        back_up(place, folder / "all.zip")
    size = (folder / "all.zip").stat().st_size
    table.add("size of the ledger and of the backup", _sizes(folder / "data/pennate.sqlite", size))
    with table.timed("restore over it, the old state kept"):
        restore(place, folder / "all.zip", now=NOW, rng=chance)


def _sizes(ledger: Path, backup: int) -> str:
    return f"{ledger.stat().st_size / 1e6:.1f} MB, {backup / 1e6:.1f} MB"


def appends(table: Table, ledger: Ledger, chance: random.Random, what: str) -> None:
    """Latency of single appends, each one flushed to the disk."""
    spent = sorted(_spent(lambda: ledger.append([_entry(chance)])) for _ in range(APPENDS))
    table.add(what, f"{median(spent) * 1e3:.1f} ms ({spent[int(0.99 * APPENDS)] * 1e3:.1f} ms)")


def _entry(chance: random.Random) -> Entry:
    body = {"date": "2026-03-31", "session": "Z", "set": 1, "exercise": "hip_thrust", "reps": 8}
    return Entry(id=uuid7(NOW, chance), kind="set", day=NOW.date(), made_at=NOW, body=body)


def _spent(work: Callable[[], object]) -> float:
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def main() -> None:
    """Run everything on a temporary folder."""
    chance, table = random.Random(5), Table()
    with tempfile.TemporaryDirectory() as folder:
        with Ledger.open(Path(folder) / "small.sqlite") as ledger:
            appends(table, ledger, chance, "append of one set, empty ledger, median (99 %)")
        files(table, Path(folder), chance)
    if "--write" in sys.argv:
        where = f"Python {platform.python_version()}, SQLite {sqlite3.sqlite_version}, two cores"
        text = f"# Ledger and exchange\n\n`python -m bench.ledger --write`, {where}.\n\n"
        (Path(__file__).parent / "RESULTS.md").write_text(text + table.text())


if __name__ == "__main__":
    main()
