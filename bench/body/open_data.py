"""Girths of 6,068 people (ANSUR II, public domain): what the data-entry check rests on.

    python -m bench.body.open_data --data FOLDER

prints, for each site, the constants of `pennate.core.evidence.body` as computed here.
"""

from __future__ import annotations

import argparse
import csv
from collections.abc import Iterator
from pathlib import Path

import numpy as np

from pennate.core.body import Site

COLUMNS = {
    Site.NECK: "neckcircumference",
    Site.SHOULDER: "shouldercircumference",
    Site.CHEST: "chestcircumference",
    Site.UPPER_ARM: "bicepscircumferenceflexed",
    Site.FOREARM: "forearmcircumferenceflexed",
    Site.WAIST: "waistcircumference",
    Site.HIP: "buttockcircumference",
    Site.THIGH: "thighcircumference",
    Site.CALF: "calfcircumference",
}
Rows = list[dict[str, str]]


def read(folder: Path) -> Rows:
    """All people; girths and stature in mm, mass in tenths of a kilogram."""
    with (folder / "ansur2" / "ansur2_girths.csv").open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def _column(rows: Rows, name: str, scale: float) -> np.ndarray:
    return np.array([float(row[name]) for row in rows]) / scale


def fitted(rows: Rows, column: str, *, stature: bool) -> np.ndarray:
    """Log girth (cm) at 70 kg, and what a log of mass (at like stature, if asked) adds."""
    mass = np.log(_column(rows, "weightkg", 10) / 70)
    parts = [np.ones(len(rows)), mass]
    if stature:
        parts.append(np.log(_column(rows, "stature", 1000) / 1.7))
    solution, *_ = np.linalg.lstsq(
        np.column_stack(parts), np.log(_column(rows, column, 10)), rcond=None
    )
    return np.asarray(solution)


def table(rows: Rows) -> Iterator[str]:
    """One row a site: women, men, the mean used, and the spread of both about it."""
    women = [row for row in rows if row["Gender"] == "Female"]
    men = [row for row in rows if row["Gender"] == "Male"]
    mass = np.log(_column(rows, "weightkg", 10) / 70)
    yield "| site | girth at 70 kg: women, men, cm | on mass: women, men | spread | range, cm |"
    yield "|---|---|---|---|---|"
    for site, column in COLUMNS.items():
        at70 = [float(np.exp(fitted(group, column, stature=False)[0])) for group in (women, men)]
        on_mass = [float(fitted(group, column, stature=True)[1]) for group in (women, men)]
        girths = _column(rows, column, 10)
        expected = np.log(np.mean(at70)) + np.mean(on_mass) * mass
        spread = float(np.std(np.log(girths) - expected))
        yield (
            f"| {site.value} | {at70[0]:.1f}, {at70[1]:.1f} | {on_mass[0]:.2f}, {on_mass[1]:.2f} | "
            f"{spread:.3f} | {girths.min():.1f}–{girths.max():.1f} |"
        )


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--data", type=Path, required=True)
    print("\n".join(table(read(parser.parse_args().data))))


if __name__ == "__main__":
    main()
