"""How much the sets of a day tire those that follow, for somebody who follows a routine."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from pennate.app.stranger import EVEN, SOME_DAY, USUAL_SET, Stranger, needed
from pennate.core.evidence.session import DROP_SHARE, SURE_ENOUGH_FIRST
from pennate.core.exercise import Catalogue
from pennate.core.performed import SetKind
from pennate.core.prescribed import LoadFrom, PlannedDay, PrescribedExercise, PrescribedSets
from pennate.core.week_time import rest_before_s, round_rest_s, stops_of
from pennate.estimate import Exposure

Place = tuple[int, int]
"""An exercise of the day and a group of its sets, by their numbers from nought."""


@dataclass(frozen=True, slots=True)
class _Turn:
    """One set in the order it is done."""

    stop: int
    exercise: str
    at: Place
    sets: PrescribedSets
    rest_s: float
    round: int | None = None


def tiring(
    day: PlannedDay, catalogue: Catalogue, stranger: Stranger
) -> dict[Place, tuple[float, float]]:
    """How much heavier loads feel for what was done before, by exercise and group of the day.

    The factors of the first and last set of the group, one or more. Warm-ups and holds are left
    out; body weight is taken as loads that give the asked reps.
    """
    model = stranger.acquainted(asked.exercise for asked in day.exercises)
    found: dict[Place, tuple[float, float]] = {}
    loads: dict[Place, float] = {}
    for turn in _turns(day):
        if catalogue[turn.exercise].timed or turn.sets.reps is None:
            continue
        asking, reps = _exposure(turn), needed(turn.sets)
        fresh = _fresh(stranger, turn.exercise, reps, EVEN)
        tired = max(fresh / model.load_for(asking, reps, EVEN), 1.0)
        found[turn.at] = (found.get(turn.at, (tired, tired))[0], tired)
        if turn.at not in loads:
            loads[turn.at] = _thought(turn, stranger, loads)
        doing = asking.at(loads[turn.at])
        model.assume(doing, _stopped(turn.sets, model.forecast(doing).median))
    return found


def _fresh(stranger: Stranger, exercise: str, reps: int, probability: float) -> float:
    moved = stranger.moved(exercise, USUAL_SET)
    return moved * stranger.share(exercise, USUAL_SET, reps, probability)


def _thought(turn: _Turn, stranger: Stranger, loads: dict[Place, float]) -> float:
    """The load the set is thought to have: by the forecast, or a share of an earlier group's."""
    before = [load for (index, _), load in loads.items() if index == turn.at[0]]
    rule = turn.sets.load
    relative = rule.source in {LoadFrom.OF_TOP, LoadFrom.OF_PREVIOUS}
    if before and (relative or turn.sets.kind is SetKind.DROP):
        of = before[0] if rule.source is LoadFrom.OF_TOP else before[-1]
        return of * (float(rule.share) if rule.share is not None else DROP_SHARE)
    return _fresh(stranger, turn.exercise, needed(turn.sets), SURE_ENOUGH_FIRST)


def _stopped(sets: PrescribedSets, capacity: float) -> int:
    """Reps done with this capacity, stopped where range and reserve say."""
    most = max(round(capacity), 1)
    if sets.to_failure or sets.reps is None or sets.reps.high is None:
        return most
    reserve = sets.reserve.low if sets.reserve else 0
    return max(1, min(most - reserve, sets.reps.high))


def _exposure(turn: _Turn) -> Exposure:
    return Exposure(
        when=SOME_DAY,
        session="today",
        exercise=turn.exercise,
        felt_kg=None,
        kind=turn.sets.kind,
        rest_s=turn.rest_s,
        group="" if turn.round is None else f"stop {turn.stop}",
        round=turn.round,
    )


def _turns(day: PlannedDay) -> list[_Turn]:
    """The working sets in the order they are done; a superset round by round."""
    turns: list[_Turn] = []
    first = 0
    for number, members in enumerate(stops_of(day)):
        rows = [_own_turns(number, first + at, asked) for at, asked in enumerate(members)]
        turns += rows[0] if len(rows) == 1 else _rounds(rows)
        first += len(members)
    return turns


def _own_turns(stop: int, index: int, asked: PrescribedExercise) -> list[_Turn]:
    return [
        _Turn(stop, asked.exercise, (index, at), sets, float(rest_before_s(sets)))
        for at, sets in enumerate(asked.sets)
        if sets.kind is not SetKind.WARM_UP
        for _ in range(sets.count)
    ]


def _rounds(rows: Sequence[Sequence[_Turn]]) -> list[_Turn]:
    turns = []
    for number in range(max(len(row) for row in rows)):
        here = [row[number] for row in rows if number < len(row)]
        rest = round_rest_s(turn.rest_s for turn in here)
        turns += [replace(turn, rest_s=rest, round=number + 1) for turn in here]
    return turns
