"""The weight filter on simulated and on open daily series, against simple peers."""

from __future__ import annotations

import csv
import warnings
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

import numpy as np

from pennate.body.weight import filter_weighings, gather_weighings, weighing_ahead
from pennate.body.weight_model import next_day, settings_for

FIRST = date(2025, 1, 6)
CLEAN = (2, 5, 8, 9, 11, 12, 13, 14)
KINDS = ("still", "line", "wandering", "diets", "diets and cycle")
A_KIND = 44
Series = dict[int, float]


@dataclass(frozen=True, slots=True)
class Forecast:
    """Median and 80 % interval of a weighing a week on, and what the scale said."""

    p10: float
    p50: float
    p90: float
    said: float

    @property
    def hit(self) -> bool:
        """Whether the interval held it."""
        return self.p10 <= self.said <= self.p90


Method = Callable[[Series, list[int]], list[Forecast]]


def ours(series: Series, origins: list[int]) -> list[Forecast]:
    """The product's filter, each forecast from what came before."""
    weighings = gather_weighings((FIRST + timedelta(days=d), kg) for d, kg in series.items())
    settings = settings_for(weighings.masses[0])
    found = []
    for beliefs in filter_weighings(weighings, settings):
        day = (beliefs.day - FIRST).days
        if day in origins and day + 7 in series:
            seen = weighing_ahead(next_day(beliefs, settings, 7), settings)
            spoken = (seen.quantile(q) for q in (0.1, 0.5, 0.9))
            found.append(Forecast(*spoken, series[day + 7]))
    return found


def _by_residuals(smooth: Callable[[list[float]], float]) -> Method:
    """A peer whose interval comes from its own past errors a week ahead."""

    def method(series: Series, origins: list[int]) -> list[Forecast]:
        days = sorted(series)
        said = {d: smooth([series[e] for e in days if e <= d]) for d in days}
        found = []
        for day in origins:
            if day not in said or day + 7 not in series:
                continue
            past = [series[d + 7] - said[d] for d in days if d + 7 <= day and d + 7 in series]
            low, high = np.quantile(past, [0.1, 0.9])
            found.append(Forecast(said[day] + low, said[day], said[day] + high, series[day + 7]))
        return found

    return method


def _mean7(values: list[float]) -> float:
    return float(np.mean(values[-7:]))


def _exponential(values: list[float]) -> float:
    level = values[0]
    for value in values[1:]:
        level += 0.1 * (value - level)
    return level


def local_linear(series: Series, origins: list[int]) -> list[Forecast]:
    """The local linear trend of statsmodels, refitted at every origin."""
    from statsmodels.tsa.statespace.structural import UnobservedComponents

    found = []
    for day in origins:
        if day not in series or day + 7 not in series:
            continue
        first = min(series)
        values = np.array([series.get(d, np.nan) for d in range(first, day + 1)])
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # a flat likelihood warns; the fit is still its answer
            fitted = UnobservedComponents(values, "local linear trend").fit(disp=0)
            ahead = fitted.get_forecast(7)
        mean, sd = float(ahead.predicted_mean[-1]), float(ahead.se_mean[-1])
        found.append(Forecast(mean - 1.2816 * sd, mean, mean + 1.2816 * sd, series[day + 7]))
    return found


METHODS: dict[str, Method] = {
    "this filter": ours,
    "7-day mean": _by_residuals(_mean7),
    "exponential mean, 0.1": _by_residuals(_exponential),
    "local linear trend (statsmodels)": local_linear,
}


def simulated(kind: str, rng: np.random.Generator) -> Series:
    """One person's 13 weeks of weighings by a mechanism that is not the filter's."""
    days = np.arange(91)
    mass = rng.uniform(52, 85)
    noise_sd = mass * rng.lognormal(np.log(0.0055), 0.25)
    noise = noise_sd * rng.standard_t(5, 91) / np.sqrt(5 / 3)
    level = mass + _path(kind, rng)
    if kind.startswith("diets"):
        level = level + 0.7 * noise_sd * _water(rng) + 0.0015 * mass * _rhythm(rng)
        noise = 0.7 * noise
    if kind.endswith("cycle"):
        day_of_cycle = (days + rng.integers(28)) % 28
        level = level + rng.uniform(0, 0.8) * np.exp(-0.5 * ((day_of_cycle - 14) / 2) ** 2)
    kept = rng.random(91) > rng.choice([0.0, 0.1, 0.4])
    return {
        int(d): round(float(v), 1) for d, v, k in zip(days, level + noise, kept, strict=True) if k
    }


def _path(kind: str, rng: np.random.Generator) -> np.ndarray:
    slope = rng.normal(0, 0.035)
    if kind == "still":
        return np.zeros(91)
    if kind == "line":
        return slope * np.arange(91)
    if kind == "wandering":
        slopes = slope + np.cumsum(rng.normal(0, 0.004, 91))
        return np.cumsum(slopes + rng.normal(0, 0.04, 91))
    slopes, day = np.zeros(91), 0
    while day < 91:
        length = int(rng.integers(14, 60))
        slopes[day : day + length] = rng.choice([0, 0, -0.07, -0.04, 0.03]) + rng.normal(0, 0.01)
        day += length
    return np.cumsum(slopes)


def _water(rng: np.random.Generator) -> np.ndarray:
    keep, now, found = rng.uniform(0.3, 0.7), 0.0, []
    for _ in range(91):
        now = keep * now + rng.normal(0, np.sqrt(1 - keep**2))
        found.append(now)
    return np.array(found)


def _rhythm(rng: np.random.Generator) -> np.ndarray:
    return np.cos(2 * np.pi * (np.arange(91) - rng.integers(7)) / 7)


def read_open(folder: Path) -> dict[int, Series]:
    """The clean subjects of the open daily series (Krone 2020, CC BY 4.0)."""
    found: dict[int, Series] = defaultdict(dict)
    path = folder / "daily_weight" / "pone.0232680.s001.csv"
    with path.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if int(row["subject"]) in CLEAN and row["body_weight"] not in ("", "NA"):
                found[int(row["subject"])][int(row["day"])] = float(row["body_weight"])
    return dict(found)


def _summary(by_person: list[list[Forecast]]) -> tuple[float, float, float]:
    flat = [one for person in by_person for one in person]
    return (
        float(np.mean([one.hit for one in flat])),
        float(np.mean([abs(one.p50 - one.said) for one in flat])),
        float(np.mean([one.p90 - one.p10 for one in flat])),
    )


def bootstrap(by_person: list[list[Forecast]], seed: int = 3) -> tuple[float, float]:
    """95 % interval of the coverage, people drawn with replacement."""
    rng = np.random.default_rng(seed)
    count = len(by_person)
    draws = [
        _summary([by_person[i] for i in rng.integers(count, size=count)])[0] for _ in range(2000)
    ]
    low, high = np.quantile(draws, [0.025, 0.975])
    return float(low), float(high)


def simulated_table() -> Iterator[str]:
    """Coverage a week ahead on simulated people, by mechanism and together."""
    yield "| people | coverage of 80 % | mean error, kg | width, kg | 7-day mean: error |"
    yield "|---|---|---|---|---|"
    everyone: list[list[Forecast]] = []
    rng = np.random.default_rng(5)
    for kind in KINDS:
        people = [simulated(kind, rng) for _ in range(A_KIND)]
        found = [ours(person, list(range(27, 84, 4))) for person in people]
        peer = [METHODS["7-day mean"](person, list(range(27, 84, 4))) for person in people]
        everyone += found
        hit, error, width = _summary(found)
        yield (
            f"| {kind} ({A_KIND}) | {hit:.1%} | {error:.2f} | {width:.2f} | "
            f"{_summary(peer)[1]:.2f} |"
        )
    hit, error, width = _summary(everyone)
    low, high = bootstrap(everyone)
    yield (
        f"| **all ({len(everyone)})** | **{hit:.1%}** ({low:.1%} to {high:.1%}) | {error:.2f} | "
        f"{width:.2f} | |"
    )


def open_table(folder: Path) -> Iterator[str]:
    """The same on the open series, all methods on the same days."""
    yield "| method | coverage of 80 % (95 % by subject) | mean error, kg | width, kg |"
    yield "|---|---|---|---|"
    people = read_open(folder)
    origins = list(range(20, 56))
    for name, method in METHODS.items():
        found = [method(people[subject], origins) for subject in CLEAN]
        hit, error, width = _summary(found)
        low, high = bootstrap(found)
        yield f"| {name} | {hit:.1%} ({low:.0%} to {high:.0%}) | {error:.2f} | {width:.2f} |"
