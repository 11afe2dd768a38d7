"""How long a whole session's loads take: `python -m bench.loading.solve_time`.

A session is five exercises with ramp, top, back-off and drop sets on the starter gyms. Each
repetition shifts all targets, so that no answer is reused; the first repetition is cold:
nothing is cached. Writes `solve_time.md` beside this file.
"""

from __future__ import annotations

import os
import platform
import statistics
import time
from collections.abc import Callable
from math import exp, log
from pathlib import Path

from pennate.app.gyms import starter_gym
from pennate.core.gym import AnyItem, Gym
from pennate.core.performed import SetKind
from pennate.loading import Plan, Target, ladder, solve
from pennate.loading.sleeves import fewest_plates
from pennate.loading.stacks import space_of

ROUNDS = 60
SHARES = (
    (SetKind.WARM_UP, 0.55),
    (SetKind.WARM_UP, 0.8),
    (SetKind.TOP, 1.0),
    (SetKind.TOP, 1.0),
    (SetKind.BACK_OFF, 0.87),
    (SetKind.BACK_OFF, 0.87),
    (SetKind.DROP, 0.68),
    (SetKind.DROP, 0.53),
)
SESSIONS = {
    "lower body, kilograms": (
        "commercial_kg",
        {"rack_bar": 75, "floor_bar": 95, "leg_press": 120, "leg_extension": 50, "dumbbells": 36},
    ),
    "hip day, heavy, kilograms": (
        "commercial_kg",
        {"rack_bar": 150, "floor_bar": 160, "hack_squat": 110, "hip_abduction": 70, "pulldown": 50},
    ),
    "upper body, pounds and kilograms": (
        "commercial_kg_lb",
        {"bench_bar": 42, "pulldown": 48, "rack_bar": 50, "dumbbells": 28, "cable_tower": 12},
    ),
    "at home": (
        "home",
        {"bar": 60, "short_bar": 25, "dumbbells": 30, "kettlebells": 16, "chin_up_bar": 10},
    ),
}


def reps_at(one_rep: float) -> Callable[[float], float]:
    """Reps to failure by the exponential curve, as a forecast would give them."""
    return lambda felt: max(0.0, 1 - log(max(felt, 1.0) / one_rep) / 0.0255)


def exercise(gym: Gym, item: AnyItem, working: float) -> Plan:
    """All sets of one exercise."""
    targets = [Target(felt_kg=working * share, kind=kind) for kind, share in SHARES]
    return solve(gym, item, targets, reps_at=reps_at(working * exp(0.0255 * 9)))


def session_ms(gym: Gym, loads: dict[str, int], shift: float) -> tuple[float, int, bool]:
    """Milliseconds of one session, its moves, and whether all of it is proven."""
    items = {name: item for name in loads if (item := gym.item(name)) is not None}
    begin = time.process_time()
    plans = [exercise(gym, items[name], load * shift) for name, load in loads.items()]
    spent = (time.process_time() - begin) * 1000
    return spent, sum(sum(p.moves) for p in plans), all(p.proven for p in plans)


def measure(gym_id: str, loads: dict[str, int]) -> tuple[list[float], int, bool]:
    """Times of all rounds, first one cold; moves of the first; whether all were proven."""
    for cached in (ladder, fewest_plates, space_of):
        cached.cache_clear()
    gym = starter_gym(gym_id)
    rounds = [session_ms(gym, loads, 1 + 0.004 * (turn % 25)) for turn in range(ROUNDS)]
    return [ms for ms, _, _ in rounds], rounds[0][1], all(proven for _, _, proven in rounds)


def row(name: str, times: list[float], moves: int, *, proven: bool) -> str:
    """One line of the table."""
    ordered = sorted(times[1:])
    p95 = ordered[int(0.95 * len(ordered))]
    median = statistics.median(ordered)
    return (
        f"| {name} | {times[0]:.0f} | {median:.0f} | {p95:.0f} | {moves} "
        f"| {'all' if proven else 'not all'} |"
    )


def main() -> None:
    """Measure every session and write the table."""
    about = (
        f"`python -m bench.loading.solve_time`: five exercises of eight sets each, {ROUNDS} rounds "
        "with shifted targets, milliseconds of processor time in one thread. "
        f"{platform.python_implementation()} {platform.python_version()}, {os.cpu_count()} cores. "
        "Target: median at most 50. Cold: nothing cached, as after a change of the gym."
    )
    head = "| session | cold | median | 95th percentile | moves | proven optimal |"
    lines = ["# Time to solve a session's loads", "", about, "", head, "|---|---|---|---|---|---|"]
    for name, (gym_id, loads) in SESSIONS.items():
        times, moves, proven = measure(gym_id, loads)
        lines.append(row(name, times, moves, proven=proven))
        print(lines[-1])
    Path(__file__).with_suffix(".md").write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
