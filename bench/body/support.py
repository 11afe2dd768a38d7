"""How much strength and dose say about growth, on open training data (CC0)."""

from __future__ import annotations

import csv
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from fractions import Fraction
from pathlib import Path

import numpy as np

from bench.body.people import FIRST
from pennate.app.body import growth
from pennate.core.body import Measurement, Site, TapeState

TESTS = {
    "leg press 1RM": "legpress",
    "leg extension 1RM": "legext",
    "isometric": "isom",
    "60°/s": "isok.60",
    "120°/s": "isok.120",
    "240°/s": "isok.240",
}
Leg = tuple[str, str]


def _rows(folder: Path, name: str) -> list[dict[str, str]]:
    with (folder / "exscidata_cc0" / name).open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def lean_gain(folder: Path) -> dict[Leg, float]:
    """Log gain of lean mass by person and condition of the leg, in 12 weeks."""
    lean: dict[Leg, dict[str, float]] = defaultdict(dict)
    for row in _rows(folder, "dxadata.csv"):
        for condition in ("multiple", "single"):
            side = "left" if row[condition] == "L" else "right"
            lean[row["participant"], condition][row["time"]] = float(row[f"lean.{side}_leg"])
    return {leg: float(np.log(v["post"] / v["pre"])) for leg, v in lean.items() if len(v) == 2}


Trials = dict[tuple[str, str, str], dict[str, list[float]]]


def trials(folder: Path) -> Trials:
    """Strength trials by person, condition and test, then by time."""
    found: Trials = defaultdict(lambda: defaultdict(list))
    for row in _rows(folder, "strengthvolume.csv"):
        if row["load"] not in ("", "NA"):
            key = (row["participant"], row["sets"], row["exercise"])
            found[key][row["time"]].append(float(row["load"]))
    return found


def strength_table(folder: Path) -> Iterator[str]:
    """Correlation of strength gain with lean gain of the same leg, bootstrap by person."""
    yield "| test | legs | correlation with lean gain | 95 % by person | share told |"
    yield "|---|---|---|---|---|"
    lean, tried = lean_gain(folder), trials(folder)
    for name, test in TESTS.items():
        pairs: dict[str, list[tuple[float, float]]] = defaultdict(list)
        for (person, condition), gain in lean.items():
            times = tried.get((person, condition, test), {})
            if "pre" in times and "post" in times:
                strength = np.log(max(times["post"]) / max(times["pre"]))
                pairs[person].append((float(strength), gain))
        low, high = _bootstrap(list(pairs.values()))
        r = _correlation(list(pairs.values()))
        count = sum(map(len, pairs.values()))
        yield f"| {name} | {count} | {r:+.2f} | {low:+.2f} to {high:+.2f} | {r**2:.1%} |"


def _correlation(groups: list[list[tuple[float, float]]]) -> float:
    return float(np.corrcoef(np.array([pair for group in groups for pair in group]).T)[0, 1])


def _bootstrap(groups: list[list[tuple[float, float]]]) -> tuple[float, float]:
    rng = np.random.default_rng(7)
    count = len(groups)
    draws = [
        _correlation([groups[i] for i in rng.integers(count, size=count)]) for _ in range(2000)
    ]
    low, high = np.quantile(draws, [0.025, 0.975])
    return float(low), float(high)


def dose_line(folder: Path) -> str:
    """Lean gain of the leg with three sets less that of the leg with one."""
    lean = lean_gain(folder)
    people = sorted({person for person, _ in lean})
    both = [p for p in people if (p, "multiple") in lean and (p, "single") in lean]
    difference = 100 * np.array([lean[p, "multiple"] - lean[p, "single"] for p in both])
    error = difference.std(ddof=1) / np.sqrt(len(both))
    return (
        f"Three sets against one in the same person: {difference.mean():+.2f} ± {error:.2f} "
        f"(standard error) points of lean mass in 12 weeks, {len(both)} people."
    )


def twin_line(folder: Path) -> str:
    """Real twin baselines: two test days before training, two isometric trials each.

    Strength is not a girth, so the log values are scaled until the half of the people with
    odd places has the error the prior expects; false alarms are counted in the other half.
    """
    pairs = [
        (times["pre"], times["session1"])
        for (_, _, test), times in sorted(trials(folder).items())
        if test == "isom" and len(times["pre"]) == 2 and len(times["session1"]) == 2
    ]
    differences = np.array([np.mean(np.log(b)) - np.mean(np.log(a)) for a, b in pairs])
    learnt = float(differences[1::2].mean())
    expected = np.sqrt(2 * (0.008**2 / 2 + 0.0045**2))
    scale = expected / float(differences[1::2].std(ddof=1))
    called = sum(_verdict(a, b, scale, learnt) in {"growing", "losing"} for a, b in pairs[0::2])
    return (
        "Real twin baselines (isometric strength, two days before training, scaled to a girth, "
        f"the mean gain of learning {learnt:+.1%} taken off): {called} of {len(pairs[0::2])} "
        "called."
    )


def _verdict(before: list[float], after: list[float], scale: float, learnt: float) -> str:
    centre = float(np.mean(np.log(before)))
    first = Measurement(
        day=FIRST,
        site=Site.THIGH,
        state=TapeState.RELAXED,
        girths_cm=_girths(np.log(before) - centre, scale),
    )
    second = replace(
        first,
        day=FIRST + timedelta(days=7),
        girths_cm=_girths(np.log(after) - centre - learnt, scale),
    )
    return growth([first, second]).sites[0].verdict.value


def _girths(logs: np.ndarray, scale: float) -> tuple[Fraction, ...]:
    return tuple(Fraction(round(1000 * 55 * (1 + scale * one)), 1000) for one in logs)
