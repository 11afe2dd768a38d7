"""The planner's question as an immutable, indexed problem; no names are looked up past here."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from pennate.core.evidence.dose import CHANGEOVER_S
from pennate.core.muscles import Group, Joint, Part

PARTS: tuple[Part, ...] = tuple(Part)
"""The order in which parts are indexed."""
JOINTS: tuple[Joint, ...] = tuple(joint for joint in Joint if joint is not Joint.GRIP)
"""Joints whose load is tracked like a dose, at the indices after the parts."""
TRACKED = len(PARTS) + len(JOINTS)


class Scheme(StrEnum):
    """How the sets of a stop are arranged."""

    STRAIGHT = "straight sets"
    DROPS = "top sets, drops after the last"
    SUPERSET = "superset"


@dataclass(frozen=True, slots=True)
class Option:
    """One way to fill a stop: one exercise in a set scheme, or a pair as a superset.

    Seconds are `fixed_s` once and `set_s` a set (a round of a superset); dose by part
    index (and joint load by the indices after) is `per_set` for each set, `fixed` once (drops).
    """

    exercises: tuple[str, ...]
    scheme: Scheme
    least: int
    most: int
    fixed_s: float
    set_s: float
    per_set: tuple[tuple[int, float], ...]
    fixed: tuple[tuple[int, float], ...] = ()
    stop_cost: float = 0.0
    set_cost: float = 0.0
    days: tuple[int, ...] = ()
    """Indices of days it may stand on."""
    family: str = ""
    """Of options of one family at most one stands, once in the week; empty is no family."""

    def seconds(self, sets: int) -> float:
        """Seconds of the stop without the changeover before it."""
        return self.fixed_s + self.set_s * sets

    def doses(self, sets: int) -> dict[int, float]:
        """Dose by part index."""
        found = {part: dose * sets for part, dose in self.per_set}
        for part, dose in self.fixed:
            found[part] = found.get(part, 0.0) + dose
        return found


@dataclass(frozen=True, slots=True)
class Rules:
    """The hard limits that are not about time."""

    sessions: int
    """Days used at most."""
    exercises_a_day: int
    days_an_exercise: int
    supersets_a_day: int
    drops_a_day: int
    session_cap: tuple[float, ...]
    """Most dose of each part, and load of each joint, in a session."""
    close_cap: tuple[float, ...]
    """As above, in two sessions within 24 hours together."""
    week_cap: tuple[float, ...]
    """As above, in the week."""
    least: Mapping[Group, float]
    """Group dose that must be reached."""
    most: Mapping[Group, float]
    """Group dose that may not be passed."""
    required: frozenset[str]
    """Exercises that must be in the week."""
    close_mark: tuple[float, ...] = (math.inf,) * TRACKED
    """Load of each joint in two sessions within 24 hours from which more costs."""
    close_price: float = 0.0
    """Cost of a unit of load above that mark, √sets."""

    @property
    def marked(self) -> tuple[int, ...]:
        """Indices of what has a mark."""
        return tuple(place for place, mark in enumerate(self.close_mark) if mark < math.inf)


@dataclass(frozen=True, slots=True)
class Change:
    """What it is worth that exercises are in the week at all."""

    stay: Mapping[str, float]
    """Reward for each exercise that is in the week: liked, current."""
    come: Mapping[str, float]
    """Cost of each exercise that the current week lacks."""
    kept_cost: float = 0.0
    """Cost of dropping the whole current week, so that `stay` counts as avoided cost."""

    def of(self, exercise: str) -> float:
        """Net worth of an exercise being in the week."""
        return self.stay.get(exercise, 0.0) - self.come.get(exercise, 0.0)


@dataclass(frozen=True, slots=True)
class PlanProblem:
    """Days, options, rules and what everything is worth."""

    days: tuple[str, ...]
    seconds: tuple[float, ...]
    """Time of each day in model seconds: her minutes over her pace, preparation taken off."""
    close: tuple[tuple[int, int], ...]
    """Pairs of days 24 hours apart."""
    options: tuple[Option, ...]
    rules: Rules
    worth: tuple[float, ...]
    """Benefit weight of each part: group priority × share of the part; joints have none."""
    change: Change
    done: tuple[float, ...] = (0.0,) * TRACKED
    """Worth of sessions already behind her this week, by part."""

    @property
    def exercises(self) -> tuple[str, ...]:
        """All exercises in the options, each once, in order."""
        return tuple(dict.fromkeys(one for option in self.options for one in option.exercises))


Selection = tuple[tuple[tuple[int, int], ...], ...]
"""For each day: pairs of option index and sets, in option order."""


def day_seconds(problem: PlanProblem, day: tuple[tuple[int, int], ...]) -> float:
    """Model seconds of a day: its stops and a changeover between two."""
    stops = sum(problem.options[index].seconds(sets) for index, sets in day)
    return stops + CHANGEOVER_S * max(0, len(day) - 1)


def part_doses(problem: PlanProblem, day: tuple[tuple[int, int], ...]) -> list[float]:
    """Dose of every part, and load of every joint, on a day."""
    found = [0.0] * TRACKED
    for index, sets in day:
        for part, dose in problem.options[index].doses(sets).items():
            found[part] += dose
    return found
