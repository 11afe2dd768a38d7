"""The table as Markdown: admission, targets, peers, laws, exploiter."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from bench.forecast.admission import Check
from bench.forecast.informed import INFORMED
from bench.forecast.judging import HONEST, LAWS, OURS, Judged
from bench.forecast.peers import HABIT
from bench.forecast.scoring import SPLITS, Row, Tally, summarise, win_rate
from bench.forecast.training import SCENARIOS

TARGETS = {
    "effort noted": {"first": 1.08, "later": 0.80, "drop": 1.15, "early": 1.45},
    "effort mostly not noted": {"first": 1.25, "later": 1.0, "drop": 1.35, "early": 1.8},
    "habit-driven": {"first": 1.35, "later": 1.1, "drop": 1.35, "early": 1.8},
    "typing errors": {"first": 1.10, "later": 0.84, "drop": 1.2, "early": 1.5},
    "machine replaced": {"first": 1.12, "later": 0.84, "drop": 1.2, "early": 1.45},
    "livelier days": {"first": 1.08, "later": 0.80, "drop": 1.15, "early": 1.45},
    "steadier sets": {"first": 1.08, "later": 0.80, "drop": 1.15, "early": 1.45},
}
COMPARED = ("first", "later", "drop", "early")


def table(header: Iterable[str], rows: Iterable[Iterable[object]]) -> Iterator[str]:
    """Lines of a Markdown table."""
    names = list(header)
    yield "| " + " | ".join(names) + " |"
    yield "|" + "---|" * len(names)
    for row in rows:
        yield "| " + " | ".join(str(cell) for cell in row) + " |"
    yield ""


def admission_lines(checks: dict[str, list[Check]]) -> Iterator[str]:
    """Every published figure beside every population."""
    yield "## Admission: published figures"
    yield ""
    names = [check.name for check in next(iter(checks.values()))]
    rows = []
    for index, name in enumerate(names):
        cells = [found[index] for found in checks.values()]
        span = f"{cells[0].low:.2f}–{cells[0].high:.2f}"
        rows.append([name, span, *(f"{c.found:.2f}{'' if c.ok else ' **out**'}" for c in cells)])
    yield from table(["figure", "published", *checks], rows)


def _outside(checks: dict[str, list[Check]]) -> str:
    """How many checks a population meets, and those it does not."""
    every = [(laws, check) for laws, found in checks.items() for check in found]
    out = [(laws, check) for laws, check in every if not check.ok]
    told = f"{len(every) - len(out)} of {len(every)} published figures are met"
    missed = [f"{c.name} {c.found:.2f} ({c.low:.2f}–{c.high:.2f}, {laws})" for laws, c in out]
    return "; outside: ".join([told, ", ".join(missed)]) if missed else told


def _of(judged: list[Judged], scenario: str, name: str) -> list[dict[str, Tally]]:
    return [one.tallies[name] for one in judged if one.job.scenario == scenario]


def zoo_lines(judged: list[Judged]) -> Iterator[str]:
    """How hard the zoo is."""
    noted = [one for one in judged if one.job.scenario == "effort noted"]
    tallies = [one.tallies[OURS] for one in noted]
    yield "## How hard the zoo is"
    yield ""
    rows: list[list[object]] = []
    for split in SPLITS:
        row = summarise(tallies, split)
        if row is not None:
            rows.append([split, f"{row.error / row.ratio:.2f}"])
    yield from table(["split", "oracle's mean absolute error, reps"], rows)
    days = float(np.median([one.day_sd for one in noted]))
    noise = float(np.mean([one.noise for one in noted]))
    yield f"Median day SD {days:.3f} log load; noise of a ten-rep set {noise:.2f} reps."
    yield ""


def target_lines(judged: list[Judged]) -> Iterator[str]:
    """Our error over the oracle's, with targets and coverage."""
    yield "## Targets"
    yield ""
    for scenario in SCENARIOS:
        tallies = _of(judged, scenario, OURS)
        yield f"### {scenario}"
        yield ""
        rows = [
            _target_row(row, TARGETS.get(scenario, {}).get(split))
            for split in SPLITS
            if (row := summarise(tallies, split)) is not None
        ]
        yield from table(
            ["split", "sets", "error", "× oracle (95 %)", "target", "CRPS", "50 %", "80 %", "95 %"],
            rows,
        )


def _target_row(row: Row, target: float | None) -> list[object]:
    told = "" if target is None else f"{target} {'met' if row.ratio <= target else '**missed**'}"
    if row.split == "first-ever":
        ratio = "coverage only"
    else:
        ratio = f"{row.ratio:.2f} ({row.ratio_low:.2f}–{row.ratio_high:.2f})"
    room = max(0.04, 2.5 * row.cover_se)
    inside = abs(row.cover[1] - 0.8) <= room
    eighty = f"{row.cover[1]:.3f}{'' if inside else ' **out**'}"
    return [
        row.split, row.sets, f"{row.error:.2f}", ratio, told, f"{row.crps:.2f}",
        f"{row.cover[0]:.2f}", eighty, f"{row.cover[2]:.3f}",
    ]  # fmt: skip


def floor_lines(judged: list[Judged], steadier: dict[str, list[Check]]) -> Iterator[str]:
    """What a forecaster that knows the lifter would err by on the same logs."""
    yield "## The floor: a forecaster that knows the lifter"
    yield ""
    yield (
        "It knows her laws, curves, levels, growth, how sets tire her, how she ends them and how "
        "she misjudges reserve (`informed.py`); slips of the pen and a changed machine do not "
        "deceive it. It learns only the day, the wander of each strength, what a layoff took and "
        "how near to failure each set was, from the same reports. No reader of the log can do "
        "better by more than a little: a target below its figure cannot be met on such logs. "
        "“Livelier days” have the day SD that the product's own documents name (0.025 trained, "
        "0.04 novices); such people repeat a set at 90 % less well than published, so they are "
        "no admitted population."
    )
    yield ""
    yield (
        "Published retests bound the spread from day and set together, hardly how it is divided. "
        "“Steadier sets” have half the noise within a set and days a tenth livelier, as much as "
        f"the retest at 90 % bears: {_outside(steadier)}. What can be reached hangs on that "
        "division, so both are shown."
    )
    yield ""
    rows = []
    for scenario in HONEST:
        for split in TARGETS.get(scenario, ()):
            found = [summarise(_of(judged, scenario, name), split) for name in (INFORMED, OURS)]
            if found[0] is not None and found[1] is not None:
                target = TARGETS[scenario][split]
                cells = [f"{row.ratio:.2f}" for row in found if row is not None]
                below = " below the floor" if found[0].ratio > target else ""
                rows.append([f"{scenario}: {split}", *cells, f"{target:.2f}{below}"])
    yield from table(["log: split", "knows the lifter", "pennate", "target"], rows)


def peer_lines(judged: list[Judged]) -> Iterator[str]:
    """Every forecaster's error over the oracle's, and on how many lifters ours is lower."""
    yield "## Peers: error over the oracle's (share of lifters on whom ours is lower)"
    yield ""
    names = [name for name in judged[0].tallies if name not in {HABIT, INFORMED}]
    rows = []
    for scenario in SCENARIOS:
        for split in COMPARED:
            mine = _of(judged, scenario, OURS)
            cells = [f"{scenario}: {split}"]
            for name in names:
                theirs = _of(judged, scenario, name)
                row = summarise(theirs, split)
                ratio = f"{row.ratio:.2f}" if row else ""
                if name != OURS:
                    ratio += f" ({win_rate(mine, theirs, split):.0%})"
                cells.append(ratio)
            rows.append(cells)
    yield from table(["log: split", *names], rows)


def law_lines(judged: list[Judged]) -> Iterator[str]:
    """Each pair of laws by itself, effort noted: ours and the best peer."""
    yield "## Law by law, effort noted: ours / best peer"
    yield ""
    rows = []
    for laws in LAWS:
        here = [
            one
            for one in judged
            if (one.job.curve, one.job.fatigue) == laws and one.job.scenario == "effort noted"
        ]
        cells = [" + ".join(laws)]
        for split in COMPARED:
            ratios = {}
            for name in here[0].tallies:
                row = summarise([one.tallies[name] for one in here], split)
                if row is not None and name not in {HABIT, INFORMED}:
                    ratios[name] = row.ratio
            own = ratios.pop(OURS)
            best = min(ratios, key=lambda name: ratios[name])
            mark = "" if own < ratios[best] else " **lost**"
            cells.append(f"{own:.2f} / {ratios[best]:.2f} {best}{mark}")
        rows.append(cells)
    yield from table(["laws", *COMPARED], rows)


def exploiter_lines(judged: list[Judged]) -> Iterator[str]:
    """What scoring by the reps done would reward."""
    yield "## Exploiter: how the score could be gamed"
    yield ""
    yield (
        "A forecaster that repeats last time's reps looks best when logs are habit-driven and "
        "the score is the reps *done*; against reps to failure it is worthless. So the score "
        "here is reps to failure, which only a simulator or an honest failure set knows."
    )
    yield ""
    rows = []
    for scenario in ("effort noted", "habit-driven"):
        for name in (OURS, HABIT):
            gaps = np.array([one.habit_gap[name] for one in judged if one.job.scenario == scenario])
            to_failure, to_done = gaps.mean(axis=0)
            rows.append([scenario, name, f"{to_failure:.2f}", f"{to_done:.2f}"])
    yield from table(["log", "forecaster", "error, reps to failure", "error, reps done"], rows)
