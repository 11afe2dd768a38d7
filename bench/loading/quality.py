"""What solving the sequence together is worth: `python -m bench.loading.quality`.

Against taking each set's nearest load with the fewest plates, heaviest inside, as one does in
the head. Both loads and moves are counted for the sessions of `solve_time`; drops that need a
plate put on are counted as such. Writes `quality.md` beside this file.
"""

from __future__ import annotations

from itertools import pairwise
from math import exp
from pathlib import Path

from bench.loading.solve_time import ROUNDS, SESSIONS, SHARES, reps_at
from pennate.app.gyms import starter_gym
from pennate.core.gym import AnyItem, Gym, Plate
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.loading import RepsAt, Target, ladder, solve
from pennate.loading.solve import plates_moved


def nearest(gym: Gym, item: AnyItem, targets: list[Target], reps: RepsAt) -> list[Loaded]:
    """Each set by itself: the load that is fewest reps off."""
    rungs = ladder(gym, item)
    return [
        min(rungs, key=lambda rung: abs(reps(rung.felt_kg) - reps(target.felt_kg)))
        for target in targets
    ]


def tally(states: list[Loaded], targets: list[Target], reps: RepsAt) -> tuple[int, int, float]:
    """Pairs moved, drops that put a plate on, and mean reps off over the hard sets."""
    sides: list[tuple[Plate, ...]] = [(), *(state.plates for state in states)]
    moves = sum(plates_moved(a, b) for a, b in pairwise(sides))
    put_on = sum(
        target.kind is SetKind.DROP and after != before[: len(after)]
        for target, (before, after) in zip(targets, pairwise(sides), strict=True)
    )
    hard = [
        abs(reps(state.felt_kg) - reps(target.felt_kg))
        for target, state in zip(targets, states, strict=True)
        if target.kind in {SetKind.TOP, SetKind.BACK_OFF}
    ]
    return moves, put_on, sum(hard) / len(hard)


def compared(gym: Gym, item: AnyItem, working: float) -> tuple[tuple[int, int, float], ...]:
    """Ours and set by set, for one exercise."""
    reps = reps_at(working * exp(0.0255 * 9))
    targets = [Target(felt_kg=working * share, kind=kind) for kind, share in SHARES]
    together = list(solve(gym, item, targets, reps_at=reps).states)
    apart = nearest(gym, item, targets, reps)
    return tally(together, targets, reps), tally(apart, targets, reps)


def main() -> None:
    """Compare over all sessions and write the table."""
    head = "| session | pairs moved, together | set by set | drops that put a plate on, together "
    head += "| set by set | reps off per hard set, together | set by set |"
    lines = ["# Solving the sequence together against set by set", ""]
    lines += [f"`python -m bench.loading.quality`: means of {ROUNDS} rounds a session over its"]
    lines[-1] += " exercises with plates; eight sets each, two of them drops."
    lines += ["", head, "|---|---|---|---|---|---|---|"]
    for name, (gym_id, loads) in SESSIONS.items():
        gym = starter_gym(gym_id)
        plated = [(item, kg) for one, kg in loads.items() if (item := gym.item(one)) is not None]
        plated = [(item, kg) for item, kg in plated if any(s.plates for s in ladder(gym, item))]
        rows = [
            compared(gym, item, kg * (1 + 0.004 * (turn % 25)))
            for turn in range(ROUNDS)
            for item, kg in plated
        ]
        cells = [
            sum(row[which][part] for row in rows) / len(rows)
            for part in range(3)
            for which in (0, 1)
        ]
        lines.append(f"| {name} | " + " | ".join(f"{cell:.2f}" for cell in cells) + " |")
        print(lines[-1])
    Path(__file__).with_suffix(".md").write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
