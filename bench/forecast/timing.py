"""How long an update takes, and ten years of log with 120 exercises; memory too."""

from __future__ import annotations

import resource
import time
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from bench.forecast.judging import Job, longer
from pennate.core.exercise import Catalogue
from pennate.core.history import History
from pennate.core.performed import PerformedSet
from pennate.estimate import Exposure, ExposureReader, StrengthModel, outcome_of, trace
from pennate.files.catalogue import read_catalogue

SETS = 65_000
COPIES = 7
"""Each of 18 exercises under this many names makes more than 120 tracks."""


def ten_years(*, apart: bool = False) -> History:
    """65,000 sets over ten years, of 18 exercises on seven stands each.

    `apart` as exercises of their own, 126 of them, that share less.
    """
    rows = longer(Job(7, "asymptote", "two pools", "effort noted"), 530).rows
    out: list[PerformedSet] = []
    sessions = 0
    last = None
    while len(out) < SETS:
        for done in rows:
            if done.when != last:
                sessions += 1
                last = done.when
            stand = f"stand {(sessions // 3) % COPIES}"
            exercise = f"{done.exercise} on {stand}" if apart else done.exercise
            shift = timedelta(days=0 if len(out) < len(rows) else 1)
            out.append(
                replace(
                    done,
                    exercise=exercise,
                    equipment="" if apart else stand,
                    when=done.when + shift,
                    session=str(len(out) // len(rows)),
                )
            )
            if len(out) == SETS:
                break
    return History.of(out)


class _Pass(NamedTuple):
    """A model after one pass, what each set took, and the whole on the clock and the processor."""

    model: StrengthModel
    spent: NDArray[np.float64]
    whole: float
    used: float


def _pass(history: History, catalogue: Catalogue) -> _Pass:
    reader = ExposureReader(catalogue)
    model = StrengthModel.start(catalogue)
    spent = np.empty(len(history))
    begin, used = time.perf_counter(), time.process_time()
    for index, done in enumerate(history):
        start = time.perf_counter()
        model.observe(reader.exposure(done), outcome_of(done))
        spent[index] = time.perf_counter() - start
    return _Pass(model, spent, time.perf_counter() - begin, time.process_time() - used)


def timing_lines() -> Iterator[str]:
    """Lines of the timing section."""
    catalogue = read_catalogue()
    history = ten_years()
    model, spent, whole, used = _pass(history, catalogue)
    tracks = len({(done.exercise, done.equipment) for done in history})
    begin = time.perf_counter()
    for key in list(model.points)[:50]:
        trace(model, Exposure(when=history.sets[-1].when, session="x", exercise=key[0],
                              felt_kg=None, equipment=key[1]))  # fmt: skip
    smooth = time.perf_counter() - begin
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    apart = _pass(ten_years(apart=True), catalogue).used
    yield "## Timing"
    yield ""
    yield (
        f"{len(history):,} sets on {tracks} tracks: one pass {used:.1f} s of processor time "
        f"({whole:.1f} s on the clock); update median "
        f"{np.median(spent) * 1e3:.3f} ms, 99 % {np.quantile(spent, 0.99) * 1e3:.3f} ms. "
        f"Smoothing 50 tracks {smooth:.2f} s. Peak memory {peak:.0f} MB. "
        f"As many exercises of their own: {apart:.1f} s."
    )
    yield ""
