"""Write the benchmark's briefs: varied, from a fixed seed, committed before any tuning.

python bench/plan/make_briefs.py   writes bench/plan/briefs/01.toml …
"""

from __future__ import annotations

from pathlib import Path
from random import Random

FOLDER = Path(__file__).parent / "briefs"
BRIEFS = 44
WEEK = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
GROUPS = (
    "quads", "hamstrings", "glutes", "side glutes", "calves", "chest", "back", "shoulders",
    "biceps", "triceps", "core",
)  # fmt: skip
KITS = (
    (),
    (),
    (),
    ("dumbbells", "body weight", "bands"),
    ("barbell", "dumbbells", "body weight"),
    ("stack", "cable", "dumbbells", "sled", "guided bar"),
    ("body weight", "bands"),
)
SPLITS = {
    4: ("upper body", "lower body", "upper body", "lower body"),
    6: ("push", "pull", "legs", "push", "pull", "legs"),
}
CURRENT = {3: "3_days", 4: "4_days", 5: "5_days", 6: "6_days"}


def brief(number: int) -> str:
    """One brief as TOML; the first six are the stated size, 6 days with all equipment."""
    rng = Random(number)
    count = 6 if number <= 6 else rng.choice((2, 3, 3, 4, 4, 5, 5, 6))
    minutes = rng.choice((30, 45, 45, 60, 60, 75, 75, 90))
    days = sorted(rng.sample(range(7), count)) if count < 6 else list(range(6))
    lines = [f'name = "Brief {number:02d}"', f"years = {rng.choice((0, 1, 3, 6))}"]
    wishes = rng.sample(GROUPS, rng.choice((0, 1, 2, 2, 3)))
    if wishes:
        lines.append("priorities = [" + ", ".join(f'"{one}"' for one in wishes) + "]")
    kit = () if number <= 6 else rng.choice(KITS)
    if kit:
        lines.append("equipment = [" + ", ".join(f'"{one}"' for one in kit) + "]")
    lines.append(f"supersets = {str(rng.random() < 0.6).lower()}")
    if rng.random() < 0.3 and count > 3:
        lines.append(f"sessions = {count - 1}")
    if count in CURRENT and rng.random() < 0.4 and not kit:
        lines.append(f'current = "../../../src/pennate/data/weeks/{CURRENT[count]}.toml"')
    if wishes and rng.random() < 0.5:
        low = min(8, count * minutes // 45)
        lines += ["", "[targets]", f'"{wishes[0]}" = "{low}-{low + 8}"']
    if rng.random() < 0.25:
        lines += [
            "",
            "[joints]",
            f'"{rng.choice(("knee", "lower back", "shoulder"))}" = "moderate"',
        ]
    if rng.random() < 0.15:
        lines += ["", "[pain]", "knee = 4"]
    split = SPLITS.get(count) if rng.random() < 0.35 and not kit else None
    for place, day in enumerate(days):
        lines += ["", "[[day]]", f'day = "{WEEK[day]}"']
        lines.append(
            f"minutes = {minutes if rng.random() < 0.7 else minutes + rng.choice((-15, 15))}"
        )
        if split:
            lines.append(f'focus = "{split[place]}"')
    return "\n".join(lines) + "\n"


def main() -> None:
    """Write all briefs."""
    FOLDER.mkdir(exist_ok=True)
    for number in range(1, BRIEFS + 1):
        (FOLDER / f"{number:02d}.toml").write_text(brief(number), encoding="utf-8")


if __name__ == "__main__":
    main()
