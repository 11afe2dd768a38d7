"""Remake the committed table: `python -m bench.forecast`."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

from bench.forecast.admission import admission
from bench.forecast.judging import LAWS, REPORTS, judge_all
from bench.forecast.open_data import open_data_lines
from bench.forecast.report import (
    admission_lines,
    exploiter_lines,
    floor_lines,
    law_lines,
    peer_lines,
    target_lines,
    zoo_lines,
)
from bench.forecast.timing import timing_lines
from bench.forecast.training import SCENARIOS
from pennate.files.catalogue import read_catalogue

RESULTS = Path(__file__).parent / "RESULTS.md"
OPENING = """# One-step-ahead forecasts

Made by `python -m bench.forecast`. Each set of a simulated log is forecast from what came
before it, then revealed. Tuning used other laws, another report law and other seeds
(`laws.py`: TUNING_ against JUDGING_); whether what was tuned holds was looked at on the
laws here too, with other people (seeds from 70,000). Error is the mean absolute difference
of the median and the true reps to failure, scored where the oracle expects 20 reps or fewer;
the oracle knows everything but the day and the set's noise. Intervals by bootstrap over
lifters. “Switched, not the first” leaves out the first visit after a machine was replaced or a
style changed: where nobody noted that, no forecaster can foresee it.
"**out**" and "**missed**" stay in the table.
"""


def main() -> None:
    """Run admission, judging and timing, and write the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--lifters", type=int, default=6, help="per pair of laws and scenario")
    parser.add_argument("--workers", type=int, default=min(2, os.cpu_count() or 1))
    parser.add_argument("--out", type=Path, default=RESULTS)
    parser.add_argument("--data", type=Path, default=None, help="folder of the open data")
    given = parser.parse_args()
    catalogue = read_catalogue()
    checks, steadier = (
        {
            f"{curve} + {fatigue}": admission(catalogue, (curve, fatigue, REPORTS), SCENARIOS[kind])
            for curve, fatigue in LAWS
        }
        for kind in ("effort noted", "steadier sets")
    )
    judged = judge_all(given.lifters, given.workers)
    count = len(judged)
    lines = [
        OPENING,
        f"{count} logs: {given.lifters} lifters for each pair of laws, in each kind of log.\n",
        *target_lines(judged),
        *floor_lines(judged, steadier),
        *peer_lines(judged),
        *law_lines(judged),
        *exploiter_lines(judged),
        *zoo_lines(judged),
        *open_data_lines(given.data),
        *admission_lines(checks),
        *timing_lines(),
    ]
    given.out.write_text("\n".join(lines).rstrip() + "\n", encoding="utf-8")
    print(f"written: {given.out.name}")


if __name__ == "__main__":
    main()
