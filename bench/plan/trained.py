"""What a trained sample can say of the factor for trained people: `python -m bench.plan.trained`.

31 men with 1 to 12 years of training, six weeks of rising volume (Haun 2018/2019, open data).
What a beginner would be expected to grow from their sets is computed by the product's own dose
curve; the sample's mean growth over that is the factor it implies. Writes TRAINED.md.
"""

from __future__ import annotations

import csv
import math
import statistics
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from random import Random

from pennate.core.evidence import every_constant
from pennate.core.evidence.plan import GROWTH_PER_ROOT_SET, Z_90
from pennate.core.percent import signed
from pennate.core.week_effect import session_worth

ROOT = Path(__file__).parent.parent.parent
SAMPLE = ROOT / "tests" / "reference" / "growth" / "trained_thickness.csv"
SETS_FIRST_WEEK = 10
"""Sets of ten of each of four lifts in the first week (publication, from memory)."""
SHARE_OF_MAXIMUM = 0.6
"""Load of those sets (publication, from memory); `squat_sets` holds both against the file."""
THREE_OF_ONE = 0.92
"""A 3RM as a share of 1RM, from memory."""
SESSIONS_A_WEEK = 3
HORIZON_WEEKS = 10
"""Middle of the 8–12 weeks that the growth per √set is for."""
DRAWS = 40_000


@dataclass(frozen=True, slots=True)
class Contrast:
    """One muscle from before to a later measurement, and its credit for a set of the lift."""

    name: str
    column: str
    until: str
    credit: float


CONTRASTS = (
    Contrast("vastus lateralis, after six weeks", "VL", "T3", 1.0),
    Contrast("vastus lateralis, after the light week", "VL", "T4", 1.0),
    Contrast("biceps, after six weeks", "BICEPS", "T3", 0.5),
    Contrast("biceps, after the light week", "BICEPS", "T4", 0.5),
)
"""Squats are direct for the vastus; pulldowns count half for the biceps."""


def sample() -> list[dict[str, float]]:
    """The people of the sample; what was not measured is left out."""
    with SAMPLE.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    return [
        {k: float(v) for k, v in row.items() if k != "PARTICIPANT" and v not in ("", "NA")}
        for row in rows
    ]


def weekly_sets(people: list[dict[str, float]]) -> list[float]:
    """Sets of a lift in each week: those of the first, times the growth of volume load."""
    ratios = [
        [one[f"TOTAL_VOLUME_LOAD_WEEK_{week}"] / one["TOTAL_VOLUME_LOAD_WEEK_1"] for one in people]
        for week in range(1, 7)
    ]
    return [SETS_FIRST_WEEK * statistics.median(ratio) for ratio in ratios]


def squat_sets(people: list[dict[str, float]]) -> float:
    """Squat sets of ten in six weeks that the squat volume of the file amounts to, median."""
    found = [
        one["SQUAT_VOLUME"] / (10 * SHARE_OF_MAXIMUM * one["SQUAT_3RM"] / THREE_OF_ONE)
        for one in people
        if {"SQUAT_VOLUME", "SQUAT_3RM"} <= one.keys()
    ]
    return statistics.median(found)


def growth(people: list[dict[str, float]], contrast: Contrast) -> tuple[float, float, float]:
    """Mean growth in per cent, its standard error, and the spread between people."""
    first, last = f"{contrast.column}_T1", f"{contrast.column}_{contrast.until}"
    grown = [100 * (p[last] / p[first] - 1) for p in people if first in p and last in p]
    spread = statistics.stdev(grown)
    return statistics.mean(grown), spread / math.sqrt(len(grown)), spread


def error_of_reading(people: list[dict[str, float]], column: str) -> float:
    """Spread of the change over the light week, when nothing grows: two readings' error, %."""
    return statistics.stdev([100 * (p[f"{column}_T4"] / p[f"{column}_T3"] - 1) for p in people])


def beginner(sets: list[float], credit: float) -> float:
    """Per cent that a beginner would be expected to grow in these weeks, by our dose curve."""
    worth = [SESSIONS_A_WEEK * session_worth(credit * week / SESSIONS_A_WEEK) for week in sets]
    return GROWTH_PER_ROOT_SET * sum(math.sqrt(week) for week in worth) / HORIZON_WEEKS


def start_draws() -> list[float]:
    """The factor as it is believed at the start: log-normal, its two halves as wide as stated."""
    one = next(item for item in every_constant() if item.name == "plan.trained_factor")
    down, up = (math.log(one.value / one.low) / Z_90, math.log(one.high / one.value) / Z_90)
    rng = Random(7)
    noise = [rng.gauss(0, 1) for _ in range(DRAWS)]
    return [one.value * math.exp(z * (up if z > 0 else down)) for z in noise]


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What one contrast says of the factor."""

    contrast: Contrast
    grown: float
    error: float
    spread: float
    beginner: float
    predicted: tuple[float, float]
    """90 % range of the mean growth that the start predicts, error of measurement included."""
    after: tuple[float, float, float]
    """Median and 90 % range of the factor once this contrast is believed in full."""

    @property
    def implied(self) -> tuple[float, float]:
        """The factor it implies, and its standard error."""
        return self.grown / self.beginner, self.error / self.beginner


def said() -> tuple[Said, ...]:
    """Every contrast against the start."""
    people, draws = sample(), start_draws()
    sets = weekly_sets(people)
    return tuple(_said(people, contrast, sets, draws) for contrast in CONTRASTS)


def _said(
    people: list[dict[str, float]], contrast: Contrast, sets: list[float], draws: list[float]
) -> Said:
    grown, error, spread = growth(people, contrast)
    expected, rng = beginner(sets, contrast.credit), Random(8)
    means = sorted(rng.gauss(factor * expected, error) for factor in draws)
    likely = [math.exp(-0.5 * ((grown - factor * expected) / error) ** 2) for factor in draws]
    middle, low, high = (_weighted(draws, likely, share) for share in (0.5, 0.05, 0.95))
    return Said(
        contrast=contrast,
        grown=grown,
        error=error,
        spread=spread,
        beginner=expected,
        predicted=(means[len(means) // 20], means[-len(means) // 20]),
        after=(middle, low, high),
    )


def _weighted(values: list[float], weights: list[float], share: float) -> float:
    """The quantile of weighted values."""
    whole, passed = sum(weights), 0.0
    for value, weight in sorted(zip(values, weights, strict=True)):
        passed += weight
        if passed >= share * whole:
            return value
    return max(values)


def report() -> Iterator[str]:
    """The lines of TRAINED.md."""
    people = sample()
    sets = weekly_sets(people)
    years = [one["TRAINING_AGE"] for one in people]
    yield "# The factor for trained people against a trained sample"
    yield ""
    yield (
        f"`python -m bench.plan.trained`. {len(people)} men, {min(years):.0f}–{max(years):.0f} "
        f"years of training (median {statistics.median(years):.0f}), "
        f"{sets[0]:.0f} rising to {sets[-1]:.0f} sets of a lift a week for six weeks, three "
        "sessions a week (Haun 2018/2019, open data; sets a week from memory, the file's squat "
        f"volume amounts to {squat_sets(people):.0f} sets of ten against {sum(sets):.0f})."
    )
    yield ""
    yield (
        "| muscle | growth % ± standard error | beginner by our curve % | implied factor ± |"
        " 90 % range the start predicts for the growth | factor after believing it |"
    )
    yield "|---|---|---|---|---|---|"
    for one in said():
        factor, error = one.implied
        yield (
            f"| {one.contrast.name} | {signed(one.grown)} ± {one.error:.1f} | {one.beginner:.1f} "
            f"| {signed(factor, 2)} ± {error:.2f} "
            f"| {' to '.join(map(signed, one.predicted))} "
            f"| {one.after[0]:.2f} ({one.after[1]:.2f}–{one.after[2]:.2f}) |"
        )
    yield ""
    yield from _verdict(people)


def _verdict(people: list[dict[str, float]]) -> Iterator[str]:
    found = said()
    inside = sum(one.predicted[0] <= one.grown <= one.predicted[1] for one in found)
    full = [(one.beginner - one.grown) / one.error for one in found]
    error = {column: error_of_reading(people, column) for column in ("VL", "BICEPS")}
    yield (
        f"The start (median 0.35, 90 % range 0.05–0.9) predicts {inside} of {len(found)} means "
        "inside its 90 % range. A beginner's full growth lies "
        + ", ".join(f"{one:.1f}" for one in full)
        + " standard errors above what was measured."
    )
    yield ""
    yield (
        f"What the data cannot show: one thickness against another differs by {error['VL']:.1f} % "
        f"(vastus) and {error['BICEPS']:.1f} % (biceps) over a week without growth, so a person's "
        "own factor is out of reach and the mean is known to about ± 1.8 points, as much as half "
        "of what a beginner would gain; what a beginner would gain is itself known to a third "
        "either way. Part of the growth after six weeks is water: outside the cells "
        f"{_water(people, 'T3')} % then, {_water(people, 'T4')} % after the light week. "
        "The sets were ten reps at 60 %, many of them far from failure, which our count would "
        "credit less: then the factor implied is too low. All are young men. So the data "
        "contradict neither the median nor the range of the start, and cannot narrow them: both "
        "stay, from memory."
    )


def _water(people: list[dict[str, float]], until: str) -> str:
    changes = (100 * (p[f"ECW_{until}"] / p["ECW_T1"] - 1) for p in people if "ECW_T1" in p)
    return signed(statistics.mean(changes))


def main() -> None:
    """Write TRAINED.md beside this file."""
    text = "\n".join(report()) + "\n"
    (Path(__file__).parent / "TRAINED.md").write_text(text, encoding="utf-8")
    print(text)


if __name__ == "__main__":
    main()
