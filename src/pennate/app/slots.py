"""From a planned day to single sets in the order they are done, before any load is chosen."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import groupby

from pennate.core.cautions import Limits
from pennate.core.evidence.dose import DROP_REST_S, USUAL_REST_S, WARM_UP_REST_S
from pennate.core.exercise import Exercise, Sides
from pennate.core.performed import SetKind, Side
from pennate.core.prescribed import LoadFrom, PrescribedExercise, PrescribedSets, Span
from pennate.core.week_check import MOST_SETS
from pennate.core.week_time import round_rest_s

USUAL_REST = {SetKind.DROP: DROP_REST_S, SetKind.WARM_UP: WARM_UP_REST_S}


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One set to come: its place, its side and what is asked of it."""

    key: str
    block: int
    """The sets that share its load, see `block_at`; −1 for a ramp set the card adds."""
    asked: PrescribedSets
    side: Side | None = None
    round: int | None = None
    rest_s: int = 0


def block_at(place: int, number: int = 1) -> int:
    """The block of a set by the place of its prescribed sets; numbers of a falling one count."""
    return place * MOST_SETS + number - 1


def falls(asked: PrescribedSets) -> bool:
    """Whether each of these sets is a share of the one just lifted, so that no two are alike."""
    if asked.load.source is LoadFrom.MODEL:
        return asked.kind is SetKind.DROP
    return asked.load.source is LoadFrom.OF_PREVIOUS and asked.kind is not SetKind.WARM_UP


def one_by_one(asked: PrescribedExercise) -> PrescribedExercise:
    """The exercise with sets that fall from one to the next asked one by one."""
    sets = tuple(part for one in asked.sets for part in fallen(one))
    return replace(asked, sets=sets)


def fallen(asked: PrescribedSets) -> tuple[PrescribedSets, ...]:
    """These sets one by one where each is a share of the one before, else as they are."""
    return (replace(asked, count=1),) * asked.count if falls(asked) else (asked,)


def with_care(asked: PrescribedSets, limits: Limits) -> PrescribedSets:
    """The same sets kept as short of failure as the health answer calls for."""
    if limits.failure or asked.kind is SetKind.WARM_UP:
        return asked
    reserve = asked.reserve or Span(0, 0)
    low = max(limits.least_reserve, reserve.low)
    high = low if reserve.high is None else max(low, reserve.high)
    kind = SetKind.WORKING if asked.kind is SetKind.AMRAP else asked.kind
    return replace(asked, kind=kind, to_failure=False, reserve=Span(low, high), partials=0)


def slots_of(
    stop: int, asked: PrescribedExercise, exercise: Exercise, limits: Limits = Limits()
) -> tuple[Slot, ...]:
    """Every set of one exercise, left before right, with its usual rest."""
    sides = (Side.LEFT, Side.RIGHT) if exercise.sides_in(asked.variant) is Sides.ONE else (None,)
    slots = []
    for cluster in _clusters(asked, limits):
        for side in sides:
            for place, number, sets, rest in cluster:
                key = f"{stop}.{place + 1}.{number}" + (f".{side.value}" if side else "")
                follows = side is Side.RIGHT and sets.kind is not SetKind.DROP
                block = block_at(place, number if falls(sets) else 1)
                slots.append(
                    Slot(key=key, block=block, asked=sets, side=side, rest_s=0 if follows else rest)
                )
    return tuple(slots)


_Element = tuple[int, int, PrescribedSets, int]


def _clusters(asked: PrescribedExercise, limits: Limits) -> list[list[_Element]]:
    """A set with the drops that follow it, so that one side finishes before the other begins."""
    clusters: list[list[_Element]] = []
    for place, sets in enumerate(asked.sets):
        kept = with_care(sets, limits)
        rest = int(USUAL_REST.get(kept.kind, USUAL_REST_S)) if sets.rest_s is None else sets.rest_s
        for number in range(1, sets.count + 1):
            element = (place, number, kept, rest)
            if kept.kind is SetKind.DROP and clusters:
                clusters[-1].append(element)
            else:
                clusters.append([element])
    return clusters


def superset_runs(exercises: tuple[PrescribedExercise, ...]) -> tuple[tuple[int, ...], ...]:
    """Stops that are done together: indices of neighbours with the same superset mark."""
    runs: list[tuple[int, ...]] = []
    for mark, members in groupby(enumerate(exercises), key=lambda pair: pair[1].superset):
        indices = tuple(index for index, _ in members)
        runs.extend([indices] if mark else [(index,) for index in indices])
    return tuple(runs)


def in_order(
    runs: tuple[tuple[int, ...], ...], slots: dict[int, tuple[Slot, ...]]
) -> tuple[tuple[int, Slot], ...]:
    """All sets as they are done: (stop, slot); supersets round by round, ramps first."""
    done: list[tuple[int, Slot]] = []
    for run in runs:
        if len(run) == 1:
            done.extend((run[0], slot) for slot in slots[run[0]])
        else:
            done.extend(_alternating({stop: slots[stop] for stop in run}))
    return tuple(done)


def _alternating(members: dict[int, tuple[Slot, ...]]) -> list[tuple[int, Slot]]:
    """Ramps of every member, then one round after another; no rest inside a round."""
    order = [
        (stop, slot)
        for stop, slots in members.items()
        for slot in slots
        if slot.asked.kind is SetKind.WARM_UP
    ]
    rounds = {stop: _rounds(slots) for stop, slots in members.items()}
    for number in range(max(len(r) for r in rounds.values())):
        here = {stop: own[number] for stop, own in rounds.items() if number < len(own)}
        rest = int(round_rest_s(sets[0].rest_s for sets in here.values()))
        for stop, slot in ((stop, slot) for stop, sets in here.items() for slot in sets):
            order.append((stop, replace(slot, round=number + 1, rest_s=rest)))
            rest = 0
    return order


def _rounds(slots: tuple[Slot, ...]) -> list[tuple[Slot, ...]]:
    """Working sets cut into rounds: both sides stay together, drops follow their set."""
    rounds: list[list[Slot]] = []
    for slot in slots:
        if slot.asked.kind is SetKind.WARM_UP:
            continue
        joins = slot.side is Side.RIGHT or slot.asked.kind is SetKind.DROP
        if joins and rounds:
            rounds[-1].append(slot)
        else:
            rounds.append([slot])
    return [tuple(one) for one in rounds]
