"""Killed without warning at any moment: nothing half-written, nothing acknowledged lost."""

from __future__ import annotations

import multiprocessing
import os
import time
from collections.abc import Callable, Iterator
from multiprocessing.connection import Connection
from pathlib import Path
from random import Random
from typing import Any

from pennate.app.exchange import import_log
from pennate.app.keep import Place, check
from pennate.ledger.sets import sets_from

from .kill_child import BATCH, NOW, append_on, import_once
from .made import CHANCE

KILLS = 500 if os.environ.get("PENNATE_SOAK") else 20
"""`make soak` kills often, an ordinary run a few times."""

ROWS = 200
LONGEST_S = 0.1
"""How long appending goes on at most."""

moments = Random(11)
processes = multiprocessing.get_context("forkserver")
processes.set_forkserver_preload(["tests.ledger.kill_child", "alembic.command"])


def _killed(work: Callable[..., None], *arguments: Any, after_s: float) -> list[Any]:
    """Run work in a process, kill it so long after it began; what it had reported."""
    receive, send = processes.Pipe(duplex=False)
    child = processes.Process(target=work, args=(*arguments, send))
    child.start()
    send.close()
    first = receive.recv()
    time.sleep(after_s)
    child.kill()
    child.join()
    reports = [first, *_rest(receive)]
    receive.close()
    child.close()
    return reports


def _rest(receive: Connection) -> Iterator[Any]:
    while True:
        try:
            yield receive.recv()
        except (EOFError, OSError):
            return


def test_killed_while_appending(tmp_path: Path) -> None:
    """Every acknowledged entry is there, and every batch is there whole or not at all."""
    acknowledged: set[str] = set()
    for _ in range(KILLS):
        for ids in _killed(append_on, tmp_path, after_s=moments.uniform(0, LONGEST_S)):
            acknowledged |= set(ids)
    with Place(tmp_path).open() as ledger:
        stored = {entry.id for entry in ledger.entries()}
    assert acknowledged <= stored
    assert len(acknowledged) >= KILLS
    assert len(stored) % BATCH == 0
    assert check(Place(tmp_path)).sound


def test_killed_while_importing(tmp_path: Path) -> None:
    """A log is in whole or not at all, and importing it again always ends in the same state."""
    log = tmp_path / "log.csv"
    rows = [f"2026-03-{1 + n // 40:02},A,{1 + n % 40},hip_thrust,40,kg,8" for n in range(ROWS)]
    log.write_text("\n".join(("date,session,set,exercise,load,unit,reps", *rows)))
    began = time.perf_counter()
    with Place(tmp_path / "whole").open() as ledger:
        import_log(ledger, log, now=NOW, rng=CHANCE)
    usual_s = time.perf_counter() - began
    seen = set()
    for number in range(KILLS):
        place = Place(tmp_path / str(number))
        after_s = 2 * usual_s * number / KILLS if number < KILLS - 1 else 2.0
        reports = _killed(import_once, place.folder, log, after_s=after_s)
        with place.open() as ledger:
            stored = len(sets_from(ledger)[0])
            assert stored in {0, ROWS}
            assert stored == ROWS or len(reports) == 1
            import_log(ledger, log, now=NOW, rng=CHANCE)
            assert len(sets_from(ledger)[0]) == ROWS
        assert check(place).sound
        seen.add(stored)
    assert seen == {0, ROWS}
