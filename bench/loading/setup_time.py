"""How long it takes to set a gym up on a phone: `python -m bench.loading.setup_time`.

Counted, not clocked: 1.2 s a tap, 0.3 s a character, 3 s a choice among several. A starter gym
is chosen, then corrected through the forms of `app.gym_forms`: one tap opens the form of an item
or plate, one tap enters each field that changes, its text is typed anew, one tap saves; taking an
item away is two taps; adding one begins with the choice of its kind. Every correction is carried
out, so that only what the forms accept is counted. Writes `setup_time.md` beside this file.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from pennate.app.gym_forms import shown_values
from pennate.app.gyms import item_named, starter_gym, with_item, with_plates, without_item
from pennate.core.gym import Gym

TAP_S, CHARACTER_S, CHOICE_S = 1.2, 0.3, 3.0


@dataclass(frozen=True, slots=True)
class Effort:
    """Taps, characters and choices so far."""

    taps: int = 0
    characters: int = 0
    choices: int = 0

    @property
    def seconds(self) -> float:
        """What they take."""
        return TAP_S * self.taps + CHARACTER_S * self.characters + CHOICE_S * self.choices

    def typed(self, fields: Mapping[str, str], *, opened: int) -> Effort:
        """A form opened, these fields typed, and saved."""
        return Effort(
            self.taps + opened + len(fields) + 1,
            self.characters + sum(len(text) for text in fields.values()),
            self.choices,
        )


State = tuple[Gym, Effort]
Step = Callable[[State], State]


def plates(mass: str, pairs: str, *, unit: str = "kg") -> Step:
    """Correct the count of a kind of plate."""

    def step(state: State) -> State:
        gym, effort = state
        changed = with_plates(gym, {"mass": mass, "unit": unit, "pairs": pairs})
        return changed, effort.typed({"pairs": pairs}, opened=1)

    return step


def corrected(kind: str, item_id: str, fields: Mapping[str, str]) -> Step:
    """Correct fields of an item; the others stay as the form shows them."""

    def step(state: State) -> State:
        gym, effort = state
        shown = shown_values(item_named(gym, item_id))
        changed = with_item(gym, kind, {**shown, **fields})
        return changed, effort.typed(fields, opened=1)

    return step


def added(kind: str, fields: Mapping[str, str]) -> Step:
    """Add an item: choose its kind, fill in, save."""

    def step(state: State) -> State:
        gym, effort = state
        more = Effort(effort.taps, effort.characters, effort.choices + 1)
        return with_item(gym, kind, fields), more.typed(fields, opened=1)

    return step


def removed(item_id: str) -> Step:
    """Take an item away."""

    def step(state: State) -> State:
        gym, effort = state
        taken = Effort(effort.taps + 2, effort.characters, effort.choices)
        return without_item(gym, item_id), taken

    return step


CASES: Mapping[str, tuple[str, tuple[Step, ...]]] = {
    "a gym like a starter, corrected later": ("commercial_kg", ()),
    "a large gym in kilograms": (
        "commercial_kg",
        (
            plates("25", "0"),
            plates("20", "6"),
            plates("1.25", "1"),
            corrected("dumbbells", "dumbbells", {"masses": "1-10 by 1; 12.5-50 by 2.5"}),
            corrected("guided_bar", "guided_bar", {"start": "10"}),
            removed("landmine"),
            removed("row_machine"),
            removed("hip_thrust_machine"),
            added("stack", {"name": "Lateral raise", "start": "5", "step": "5"}),
        ),
    ),
    "bars in pounds, dumbbells in kilograms": (
        "commercial_kg_lb",
        (
            plates("45", "6", unit="lb"),
            plates("35", "0", unit="lb"),
            plates("2.5", "1", unit="lb"),
            removed("lying_leg_curl"),
            removed("platform_bar"),
            added("stack", {"name": "Leg press", "start": "20", "step": "10"}),
            added("cable", {"name": "Crossover", "start": "5", "step": "5", "ratio": "2:1"}),
        ),
    ),
    "at home with other plates": (
        "home",
        (
            plates("20", "0"),
            plates("15", "2"),
            plates("5", "1"),
            plates("0.5", "0"),
            removed("kettlebells"),
            removed("short_bar"),
            corrected("dumbbells", "dumbbells", {"masses": "2-20 by 2"}),
        ),
    ),
}


def counted(starter: str, steps: tuple[Step, ...]) -> State:
    """The gym in the end and what it took, the choice of the starter first."""
    state: State = (starter_gym(starter), Effort(taps=1, choices=1))
    for step in steps:
        state = step(state)
    return state


def main() -> None:
    """Count every case and write the table."""
    about = (
        "`python -m bench.loading.setup_time`: counted on the forms of `app.gym_forms`, "
        f"{TAP_S} s a tap, {CHARACTER_S} s a character, {CHOICE_S:g} s a choice. "
        "Target: under 120 s."
    )
    head = "| gym | corrections | taps | characters | choices | seconds |"
    lines = ["# Setting a gym up on a phone", "", about, "", head, "|---|---|---|---|---|---|"]
    for name, (starter, steps) in CASES.items():
        _, effort = counted(starter, steps)
        cells = (len(steps), effort.taps, effort.characters, effort.choices)
        lines.append(f"| {name} | {' | '.join(map(str, cells))} | {effort.seconds:.0f} |")
        print(lines[-1])
    Path(__file__).with_suffix(".md").write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
