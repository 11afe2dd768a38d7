"""What the killed processes of `test_kill.py` do."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from multiprocessing.connection import Connection
from pathlib import Path
from random import Random

from pennate.app.exchange import import_log
from pennate.app.keep import Place
from pennate.ledger import Entry, uuid7

NOW = datetime(2026, 3, 31, tzinfo=UTC)
BATCH = 7


def append_on(folder: Path, told: Connection) -> None:
    """Append batches without end and report each one after it was acknowledged."""
    rng = Random(os.urandom(8))
    with Place(folder).open() as ledger:
        told.send([])
        while True:
            ids = [uuid7(NOW, rng) for _ in range(BATCH)]
            ledger.append(
                Entry(id=one, kind="weight", day=NOW.date(), made_at=NOW, body={"kg": "60"})
                for one in ids
            )
            told.send(ids)


def import_once(folder: Path, log: Path, told: Connection) -> None:
    """Import a log and report when it is in."""
    rng = Random(os.urandom(8))
    with Place(folder).open() as ledger:
        told.send("open")
        told.send(import_log(ledger, log, now=NOW, rng=rng).added)
