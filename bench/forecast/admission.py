"""A population may judge only after it reproduces published figures.

Figures: Wolfe 2024 (women), Ratamess 2010 (men), Willardson & Burkett 2005 as quoted by a
secondary page, Mitter 2022 (retest), Grgic 2020 and Banyard 2017 (days), Refalo 2024 and
Zourdos 2021 (reports).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from bench.forecast.laws import Curve, Fatigue
from bench.forecast.people import Lifter, make_lifter
from bench.forecast.training import EXERCISES, SCENARIOS, Scenario, _misjudged, among
from pennate.core.exercise import Catalogue

PEOPLE = 160
WOLFE = {
    "back_squat_free": {95: (4.1, 2.4), 85: (10.3, 3.7), 75: (18.0, 6.2), 65: (26.1, 6.8)},
    "bench_press": {95: (2.5, 2.0), 85: (9.0, 4.6), 75: (14.4, 4.2), 65: (21.3, 6.8)},
    "conventional_deadlift": {95: (3.4, 2.0), 85: (9.6, 4.1), 75: (15.7, 4.7), 65: (23.4, 6.3)},
}
RATAMESS_MEN = {60: 18.0, 120: 21.4, 180: 23.5}


@dataclass(frozen=True)
class Check:
    """One published figure against the zoo."""

    name: str
    found: float
    low: float
    high: float

    @property
    def ok(self) -> bool:
        """Whether the zoo is inside."""
        return self.low <= self.found <= self.high


def people(catalogue: Catalogue, laws: tuple[str, str, str], *, female: bool) -> list[Lifter]:
    """A sample of the population with these laws of curve, fatigue and report."""
    curve, fatigue, report = laws
    return [
        make_lifter(
            90_000 + i, curve, fatigue, catalogue, EXERCISES, report_law=report, female=female
        )
        for i in range(PEOPLE)
    ]


def admission(
    catalogue: Catalogue, laws: tuple[str, str, str], scenario: Scenario = SCENARIOS["effort noted"]
) -> list[Check]:
    """All checks of one population: its laws of curve, fatigue and report, and a scenario."""
    women = [among(one, scenario) for one in people(catalogue, laws, female=True)]
    men = [among(one, scenario) for one in people(catalogue, laws, female=False)]
    return [
        *_wolfe(women),
        *_totals(men),
        *_ratios(men),
        *_retest(men),
        *_reports(men),
    ]


def _tested_max(lifter: Lifter, curve: Curve, rng: np.random.Generator) -> float:
    """A tested one-repetition maximum, as a share of the true one: the last attempt made."""
    day = lifter.day_sd * float(rng.normal())
    noise = float(rng.normal(0, lifter.noise_sd(1))) * curve.slope + float(rng.normal(0, 0.027))
    step = 0.025
    return math.floor((math.exp(day + noise) + 0.012) / step) * step


def _wolfe(women: list[Lifter]) -> list[Check]:
    rng = np.random.default_rng(5)
    checks = []
    for exercise, rows in WOLFE.items():
        for percent, (mean, sd) in rows.items():
            found = []
            for lifter in women:
                curve = lifter.skills[exercise].curve
                share = percent / 100 * _tested_max(lifter, curve, rng)
                day = lifter.day_sd * float(rng.normal())
                real = curve.reps(share * math.exp(-day))
                found.append(max(0, round(real + float(rng.normal(0, lifter.noise_sd(real))))))
            checks.append(
                Check(
                    f"women {exercise} {percent} % mean",
                    float(np.mean(found)),
                    mean - 1.5,
                    mean + 1.5,
                )
            )
            checks.append(
                Check(f"women {exercise} {percent} % SD", float(np.std(found)), 0.6 * sd, 1.4 * sd)
            )
    return checks


def straight_sets(
    lifter: Lifter, exercise: str, start: float, sets: int, rest: float,
    rng: np.random.Generator, cap: int | None = None,
) -> list[int]:  # fmt: skip
    """Sets to failure (or the cap) with the load of `start` reps."""
    skill = lifter.skills[exercise]
    body = Fatigue(lifter.fatigue_law, lifter.fatigue_amount * skill.tiring, lifter.fatigue_seconds)
    share = skill.curve.share(start)
    clock, out = 0.0, []
    for index in range(sets):
        clock += rest if index else 0.0
        body.rest_until(clock)
        real = body.reps(skill.curve, share)
        reps = max(0, round(real + float(rng.normal(0, lifter.noise_sd(real)))))
        done = reps if cap is None else min(reps, cap)
        body.add(skill.curve, share, done, max(reps, 1), 1.0)
        clock += 3.0 * done
        out.append(done)
    return out


def _totals(men: list[Lifter]) -> list[Check]:
    rng = np.random.default_rng(6)
    checks = []
    for rest, total in RATAMESS_MEN.items():
        found = [sum(straight_sets(man, "bench_press", 10.0, 3, rest, rng, cap=10)) for man in men]
        checks.append(
            Check(f"men bench 10RM × 3, {rest} s", float(np.mean(found)), total - 1, total + 1)
        )
    return checks


def _ratios(men: list[Lifter]) -> list[Check]:
    rng = np.random.default_rng(8)
    checks = []
    for exercise, low, high in (("bench_press", 1.4, 1.6), ("back_squat_free", 1.2, 1.35)):
        total = {
            rest: sum(sum(straight_sets(man, exercise, 8.0, 4, rest, rng)) for man in men)
            for rest in (60, 300)
        }
        checks.append(
            Check(f"{exercise} 8RM × 4, 5 min / 1 min", total[300] / total[60], low, high)
        )
    return checks


def _retest(men: list[Lifter]) -> list[Check]:
    rng = np.random.default_rng(9)
    spread: dict[int, list[float]] = {70: [], 90: []}
    strength = []
    for man in men:
        curve = man.skills["bench_press"].curve
        for percent, kept in spread.items():
            tests = []
            for _ in range(2):
                day = man.day_sd * float(rng.normal())
                real = curve.reps(percent / 100 * math.exp(-day))
                tests.append(round(real + float(rng.normal(0, man.noise_sd(real)))))
            kept.append((tests[0] - tests[1]) ** 2 / 2)
        days = [
            man.day_sd * float(rng.normal()) + float(rng.normal(0, man.noise_sd(1))) * curve.slope
            for _ in range(12)
        ]
        strength.extend(days - np.mean(days))
    values = np.array(strength) * math.sqrt(12 / 11)
    return [
        Check("retest SD of reps at 70 %", math.sqrt(float(np.mean(spread[70]))), 0.8, 1.4),
        Check("retest SD of reps at 90 %", math.sqrt(float(np.mean(spread[90]))), 0.5, 0.9),
        Check("day-to-day CV of e1RM", float(values.std()), 0.02, 0.042),
        Check("days within ±8 %", float(np.mean(np.abs(values) < 0.08)), 0.95, 1.0),
    ]


def _reports(men: list[Lifter]) -> list[Check]:
    near = np.array(
        [_misjudged(man, reserve, 11) for man in men for reserve in (1, 3) for _ in range(4)]
    )
    far = {
        reserve: float(np.mean([_misjudged(man, reserve, 16) for man in men for _ in range(8)]))
        for reserve in (1, 3, 5)
    }
    return [
        Check("report error near failure, mean", float(near.mean()), -0.5, 0.5),
        Check("report error near failure, SD", float(near.std()), 0.8, 1.5),
        Check("report error near failure, absolute", float(np.abs(near).mean()), 0.5, 1.2),
        Check("16 reps: error at 1 reserve", far[1], 0.5, 4.0),
        Check("16 reps: 3 reserve above 1", far[3] - far[1], 0.0, 4.0),
        Check("16 reps: 5 reserve above 3", far[5] - far[3], 0.0, 4.0),
    ]
