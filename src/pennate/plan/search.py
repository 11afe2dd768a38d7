"""A good week quickly: annealing over weeks with exact worth, seeded and counted in steps."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from random import Random

from pennate.plan.problem import PlanProblem, Selection
from pennate.plan.walk import Move, Walk

HOT = 0.06  # number: temperature at the start, as a share of what a stop is worth
COLD = 0.08  # number: temperature at the end, as a share of that at the start
SETS_A_STOP = 8  # number: fractional sets that a usual stop gives to all parts together
STOP_S = 650  # number: seconds of a usual stop
LOOK_EVERY = 2000  # number: steps between looking whether to stop

Stop = Callable[[float], bool]
"""Told the best value so far; true asks to stop."""


def search(
    problem: PlanProblem,
    rng: Random,
    steps: int,
    *,
    start: Selection | None = None,
    stop: Stop = lambda _best: False,
) -> tuple[Selection, float]:
    """The best week found in so many steps, and its worth less what is missing.

    The same problem, seed and steps give the same week. `start` sets out from a week
    already known, at a lower temperature.
    """
    walk = Walk(problem)
    by_day = [_offers(problem, day) for day in range(len(problem.days))]
    value = walk.value + _set_out(walk, start)
    best, best_value = walk.selection(), value
    if not any(by_day):
        return best, value
    hot = _worth_of_a_stop(problem) * (HOT if start is None else HOT / 10)
    for step in range(steps):
        if step % LOOK_EVERY == 0 and stop(best_value):
            break
        move = _propose(walk, by_day, rng)
        tried = walk.try_move(move) if move else None
        if tried is None:
            continue
        gain, back = tried
        warmth = hot * COLD ** (step / steps)
        if gain < 0 and rng.random() >= math.exp(gain / warmth):
            walk.undo(back)
            continue
        value += gain
        if value > best_value + 1e-9:
            best, best_value = walk.selection(), value
    return best, best_value


def _worth_of_a_stop(problem: PlanProblem) -> float:
    """A rough scale: the benefit of an even week over its number of stops."""
    stops = max(1.0, sum(problem.seconds) / STOP_S)
    worth = sum(problem.worth)
    even = math.sqrt(SETS_A_STOP * stops / max(1, sum(map(bool, problem.worth))))
    return worth * even / stops


def _offers(problem: PlanProblem, day: int) -> list[int]:
    """The options of a day."""
    return [index for index, option in enumerate(problem.options) if day in option.days]


def _set_out(walk: Walk, start: Selection | None) -> float:
    gained = 0.0
    for day, chosen in enumerate(start or ()):
        for option, sets in chosen:
            tried = walk.try_move([(day, option, sets)])
            gained += tried[0] if tried else 0.0
    return gained


def _propose(walk: Walk, by_day: list[list[int]], rng: Random) -> Move | None:
    day = int(rng.random() * len(by_day))
    here, choice = walk.days[day], rng.random()
    if not by_day[day]:
        return None
    if not here:
        idle = choice < 0.1  # number: share of moves
        return _move_day(walk, day, rng) if idle else _add(walk, by_day, day, rng)
    if choice < 0.35:  # number: share of moves
        return _step(walk, day, rng) if choice < 0.25 else _shift_set(walk, day, rng)
    if choice < 0.5:
        return _add(walk, by_day, day, rng)
    swap = choice < 0.9  # number: share of moves
    return (_swap if swap else _exchange)(walk, by_day, day, rng)


def _some(here: dict[int, int], rng: Random) -> int:
    return list(here)[int(rng.random() * len(here))]


def _size(walk: Walk, option: int, rng: Random) -> int:
    one = walk.problem.options[option]
    return one.least + int(rng.random() * (one.most - one.least + 1))


def _step(walk: Walk, day: int, rng: Random) -> Move | None:
    option = _some(walk.days[day], rng)
    one = walk.problem.options[option]
    sets = walk.days[day][option] + (1 if rng.random() < 0.5 else -1)
    if sets > one.most:
        return None
    return [(day, option, sets if sets >= one.least else 0)]


def _add(walk: Walk, by_day: list[list[int]], day: int, rng: Random) -> Move | None:
    option = by_day[day][int(rng.random() * len(by_day[day]))]
    if option in walk.days[day]:
        return None
    return [(day, option, _size(walk, option, rng))]


def _swap(walk: Walk, by_day: list[list[int]], day: int, rng: Random) -> Move | None:
    added = _add(walk, by_day, day, rng)
    if added is None:
        return None
    here = walk.days[day]
    outs = [(day, _some(here, rng), 0)]
    if rng.random() < 0.2 and len(here) > 1:  # number: now and then two make room for one
        outs.append((day, _some(here, rng), 0))
        if outs[0] == outs[1]:
            outs.pop()
    return [*outs, *added]


def _shift_set(walk: Walk, day: int, rng: Random) -> Move | None:
    here = walk.days[day]
    source, target = _some(here, rng), _some(here, rng)
    options = walk.problem.options
    if source == target or here[target] >= options[target].most:
        return None
    left = here[source] - 1
    left = left if left >= options[source].least else 0
    return [(day, source, left), (day, target, here[target] + 1)]


def _exchange(walk: Walk, by_day: list[list[int]], day: int, rng: Random) -> Move | None:
    other = int(rng.random() * len(by_day))
    if other == day:
        return None
    option = _some(walk.days[day], rng)
    there = walk.days[other]
    if option in there or other not in walk.problem.options[option].days:
        return None
    move = [(day, option, 0), (other, option, walk.days[day][option])]
    if there and rng.random() < 0.7:  # number: share of exchanges against plain moves
        back = _some(there, rng)
        if back in walk.days[day] or day not in walk.problem.options[back].days:
            return None
        move += [(other, back, 0), (day, back, there[back])]
    return move


def _move_day(walk: Walk, day: int, rng: Random) -> Move | None:
    used = [number for number, here in enumerate(walk.days) if here]
    if not used:
        return None
    source = used[int(rng.random() * len(used))]
    here = walk.days[source]
    if any(day not in walk.problem.options[option].days for option in here):
        return None
    return list(_carry(here, source, day))


def _carry(here: dict[int, int], source: int, day: int) -> Iterator[tuple[int, int, int]]:
    for option, sets in here.items():
        yield source, option, 0
        yield day, option, sets
