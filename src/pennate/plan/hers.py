"""What she asks of an exercise in her own week: kept as it is wherever the planner keeps it.

Reps, tempo, rests, reserve, notes and set scheme are hers; only the number of sets may change,
in the largest block of the exercise.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from pennate.core.evidence.planner import SETS_LEAST, SETS_MOST
from pennate.core.performed import SetKind
from pennate.core.prescribed import PrescribedExercise, Week
from pennate.core.week_time import stops_of
from pennate.plan.problem import PlanProblem, Selection

NOT_COUNTED = frozenset({SetKind.WARM_UP, SetKind.DROP})
"""Kinds of sets that come with the others and are not chosen by number."""


def counted(asked: PrescribedExercise) -> int:
    """Working sets, ramp and drops left out."""
    return sum(sets.count for sets in asked.sets if sets.kind not in NOT_COUNTED)


def _block(asked: PrescribedExercise) -> int:
    """Index of the block that takes more or fewer sets: the largest, the last of equals."""
    blocks = [i for i, sets in enumerate(asked.sets) if sets.kind not in NOT_COUNTED]
    return max(blocks, key=lambda i: (asked.sets[i].count, i))


def with_sets(asked: PrescribedExercise, count: int) -> PrescribedExercise:
    """The exercise with so many working sets, at least one in its largest block."""
    place = _block(asked)
    sets = list(asked.sets)
    sets[place] = replace(sets[place], count=max(1, sets[place].count + count - counted(asked)))
    return replace(asked, sets=tuple(sets))


def sets_span(asked: PrescribedExercise) -> tuple[int, int]:
    """Fewest and most working sets the planner may give it: hers are always among them."""
    total = counted(asked)
    others = total - asked.sets[_block(asked)].count
    return max(others + 1, min(int(SETS_LEAST), total)), max(int(SETS_MOST), total)


def plain(asked: PrescribedExercise) -> bool:
    """Whether all its sets are alike, so that a partner can alternate with them."""
    return len(asked.sets) == 1


@dataclass(frozen=True, slots=True)
class Hers:
    """The exercises of her week as she asks for them, by exercise and day."""

    asked: Mapping[str, Mapping[str, PrescribedExercise]] = field(default_factory=dict)
    supersets: tuple[tuple[str, ...], ...] = ()
    """Exercises she alternates, two or more."""
    moving: float = 0.0
    """Cost of a stop of hers on a day that is not its own, √sets."""

    @classmethod
    def of(cls, current: Week | None, gym: str = "", moving: float = 0.0) -> Hers:
        """Of her week; items are forgotten where she is to train in another gym."""
        if current is None:
            return cls()
        elsewhere = bool(gym) and gym != current.gym
        found: dict[str, dict[str, PrescribedExercise]] = {}
        for day in current.days:
            for one in day.exercises:
                if counted(one):
                    kept = replace(one, superset="", because="", replaces="", reason=None)
                    kept = replace(kept, equipment="") if elsewhere else kept
                    found.setdefault(one.exercise, {}).setdefault(day.day, kept)
        return cls(found, tuple(dict.fromkeys(_supersets(current))), moving)

    def on(self, exercise: str, day: str) -> PrescribedExercise | None:
        """What she asks of an exercise on a day; on a day of hers without it, as on the first."""
        by_day = self.asked.get(exercise)
        if not by_day:
            return None
        return by_day.get(day) or next(iter(by_day.values()))

    def move_cost(self, exercises: Iterable[str], day: str) -> float:
        """Cost of a stop of hers on a day: nothing where all of it is there already."""
        return 0.0 if all(day in self.asked.get(one, {}) for one in exercises) else self.moving

    def always(self, exercise: str) -> PrescribedExercise | None:
        """What she asks of it, if that is the same on every day."""
        ways = set(self.asked.get(exercise, {}).values())
        return ways.pop() if len(ways) == 1 else None


def _supersets(week: Week) -> Iterator[tuple[str, ...]]:
    for day in week.days:
        for members in stops_of(day):
            names = tuple(one.exercise for one in members)
            if len(set(names)) == len(names) > 1 and all(counted(one) for one in members):
                yield names


def as_now(problem: PlanProblem, week: Week) -> Selection:
    """Her week among the options, each stop at its least cost; what no option holds is left out."""
    asked = {day.day: day for day in week.days}
    found = []
    for number, name in enumerate(problem.days):
        chosen = []
        for members in stops_of(asked[name]) if name in asked else ():
            exercises = {one.exercise for one in members}
            fitting = [
                (option.stop_cost, index)
                for index, option in enumerate(problem.options)
                if number in option.days and set(option.exercises) == exercises
            ]
            if fitting:
                _, index = min(fitting)
                option = problem.options[index]
                sets = min(max(option.least, counted(members[0])), option.most)
                chosen.append((index, sets))
        found.append(tuple(sorted(chosen)))
    return tuple(found)
