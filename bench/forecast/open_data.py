"""The register's growth, day and trend against open data; needs the files beside the repo.

`python -m bench.forecast --data DIR`, DIR with `exscidata_cc0/strengthvolume.csv`
(Hammarström 2020, CC0) and `powerlifting_meets/repeat_lifters.csv.gz` (OpenPowerlifting
project, public domain).
"""

from __future__ import annotations

import csv
import gzip
import math
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import numpy as np

from pennate.core.evidence.strength import (
    DAY_SD,
    DAY_SD_NOVICE,
    DRIFT,
    GROWTH_LOG,
    OWN_DAY_SD,
    TREND,
    TREND_SD,
)

WEEKS = {"pre": 0.0, "session1": 0.5, "week2": 2.0, "week5": 5.0, "week9": 9.0, "post": 12.0}
Series = dict[tuple[str, str, str], dict[float, float]]


def _read(path: Path) -> Series:
    """Log load by person, exercise and leg, by week; repeated trials take the best."""
    series: Series = defaultdict(dict)
    with path.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if row["include"] != "incl" or not row["load"]:
                continue
            try:
                load = math.log(float(row["load"]))
            except ValueError:
                continue
            key = (row["participant"], row["exercise"], row["leg"])
            week = WEEKS[row["time"]]
            series[key][week] = max(load, series[key].get(week, load))
    return series


def _growth(series: Series, exercise: str) -> tuple[float, float, int]:
    """Mean and SD of the log gain in 12 weeks, and how many legs."""
    gains = [
        points[12.0] - points[0.0]
        for (_, name, _), points in series.items()
        if name == exercise and 0.0 in points and 12.0 in points
    ]
    return float(np.mean(gains)), float(np.std(gains)), len(gains)


def _shared_day(series: Series, exercise: str) -> tuple[float, float]:
    """SD of what both legs share on a day, and their correlation, trends taken out."""
    left, right = [], []
    for (person, name, leg), points in series.items():
        other = series.get((person, name, "R" if leg == "L" else "L"))
        if name != exercise or leg != "L" or not other:
            continue
        weeks = sorted(points.keys() & other.keys())
        if len(weeks) < 5:
            continue
        grid = np.log1p(np.array(weeks))
        for out, values in ((left, points), (right, other)):
            y = np.array([values[week] for week in weeks])
            out.extend(y - np.polyval(np.polyfit(grid, y, 1), grid))
    a, b = np.array(left), np.array(right)
    # Two numbers of six go into each trend, so the rest is scaled up.
    return math.sqrt(max(float(np.mean(a * b)) * 6 / 4, 0.0)), float(np.corrcoef(a, b)[0, 1])


def _lifters(path: Path) -> tuple[float, float, float, int]:
    """Median log gain per week of best bench presses, its spread, scatter about the trend."""
    meets: dict[str, list[tuple[float, float]]] = defaultdict(list)
    with gzip.open(path, "rt", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if row["Best3BenchKg"] and float(row["Best3BenchKg"]) > 0:
                meets[row["LifterID"]].append(
                    (float(row["days"]) / 7, math.log(float(row["Best3BenchKg"])))
                )
    slopes, scatter = [], []
    for points in meets.values():
        weeks, loads = np.array(points).T
        if len(points) < 5 or np.ptp(weeks) < 52 or np.ptp(weeks) > 260:
            continue
        slope, start = np.polyfit(weeks, loads, 1)
        slopes.append(slope)
        scatter.append(float(np.std(loads - start - slope * weeks, ddof=2)))
    low, high = np.quantile(slopes, [0.16, 0.84])
    return float(np.median(slopes)), float(high - low) / 2, float(np.median(scatter)), len(slopes)


def open_data_lines(folder: Path | None) -> Iterator[str]:
    """Lines of the section; says so where the data are not at hand."""
    yield "## Open data"
    yield ""
    if folder is None:
        yield "Not run: give `--data DIR`."
        yield ""
        return
    series = _read(folder / "exscidata_cc0" / "strengthvolume.csv")
    model = GROWTH_LOG * math.log(13)
    for exercise in ("legpress", "legext"):
        mean, sd, count = _growth(series, exercise)
        yield (
            f"- Growth of beginners in 12 weeks, {exercise}: {mean:.2f} ± {sd:.2f} log load "
            f"({count} legs); the register expects {model:.2f} and learns the rest."
        )
    for exercise in ("isom", "isok.60", "legext"):
        shared, correlation = _shared_day(series, exercise)
        yield (
            f"- Day shared by both legs, {exercise}: SD {shared:.3f}, correlation "
            f"{correlation:.2f}; the register has {DAY_SD_NOVICE:.3f} for beginners, "
            f"{DAY_SD:.3f} trained, and {OWN_DAY_SD:.3f} of an exercise's own."
        )
    slope, spread, scatter, count = _lifters(
        folder / "powerlifting_meets" / "repeat_lifters.csv.gz"
    )
    yield (
        f"- Competition bench presses, {count} lifters over one to five years: "
        f"{slope:.4f} ± {spread:.4f} log load a week, scatter {scatter:.3f} about a straight "
        f"line; the register has {TREND:.4f} ± {TREND_SD:.4f}, a drift of {DRIFT:.4f} per √week "
        "and the day."
    )
    yield ""
