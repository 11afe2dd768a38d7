"""How long an update takes, and ten years of log with 120 exercises; memory too."""

from __future__ import annotations

import resource
import time
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta

import numpy as np

from bench.forecast.judging import Job, longer
from pennate.core.history import History
from pennate.core.performed import PerformedSet
from pennate.estimate import Exposure, ExposureReader, StrengthModel, outcome_of, trace
from pennate.files.catalogue import read_catalogue

SETS = 65_000
COPIES = 7
"""Each of 18 exercises under this many names makes more than 120 tracks."""


def ten_years() -> History:
    """65,000 sets of 126 exercises on equipment, over ten years."""
    rows = longer(Job(7, "asymptote", "two pools", "effort noted"), 530).rows
    out: list[PerformedSet] = []
    sessions = 0
    last = None
    while len(out) < SETS:
        for done in rows:
            if done.when != last:
                sessions += 1
                last = done.when
            name = f"stand {(sessions // 3) % COPIES}"
            shift = timedelta(days=0 if len(out) < len(rows) else 1)
            out.append(
                replace(
                    done, equipment=name, when=done.when + shift, session=str(len(out) // len(rows))
                )
            )
            if len(out) == SETS:
                break
    return History.of(out)


def timing_lines() -> Iterator[str]:
    """Lines of the timing section."""
    catalogue = read_catalogue()
    history = ten_years()
    reader = ExposureReader(catalogue)
    model = StrengthModel.start(catalogue)
    spent = np.empty(len(history))
    begin, used = time.perf_counter(), time.process_time()
    for index, done in enumerate(history):
        start = time.perf_counter()
        model.observe(reader.exposure(done), outcome_of(done))
        spent[index] = time.perf_counter() - start
    whole, used = time.perf_counter() - begin, time.process_time() - used
    tracks = len({(done.exercise, done.equipment) for done in history})
    begin = time.perf_counter()
    for key in list(model.points)[:50]:
        trace(model, Exposure(when=history.sets[-1].when, session="x", exercise=key[0],
                              felt_kg=None, equipment=key[1]))  # fmt: skip
    smooth = time.perf_counter() - begin
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    yield "## Timing"
    yield ""
    yield (
        f"{len(history):,} sets on {tracks} tracks: one pass {used:.1f} s of processor time "
        f"({whole:.1f} s on the clock); update median "
        f"{np.median(spent) * 1e3:.3f} ms, 99 % {np.quantile(spent, 0.99) * 1e3:.3f} ms. "
        f"Smoothing 50 tracks {smooth:.2f} s. Peak memory {peak:.0f} MB."
    )
    yield ""
