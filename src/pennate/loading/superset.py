"""Two exercises done in turn, round by round: who gets which plates."""

from __future__ import annotations

import heapq
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import combinations, count

from pennate.core.gym import AnyItem, Gym, Plate
from pennate.errors import NoAnswerError
from pennate.loading.effort import Target
from pennate.loading.sleeves import Sleeve, sleeve_of
from pennate.loading.solve import Plan, Setting, solve, solve_on


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One exercise of a superset: its item and the targets of its sets."""

    item: AnyItem
    targets: tuple[Target, ...]
    setting: Setting = Setting()


def solve_superset(gym: Gym, turns: Sequence[Turn]) -> tuple[Plan, ...]:
    """Plans for all exercises at once, with the plates shared out between their bars.

    A plate stays with its bar for the whole superset. The allotment is the cheapest one:
    best first, branching on a kind of plate that is wanted twice.

    Raises NoAnswerError where two exercises need the same item or station.
    """
    _refuse_clash([turn.item for turn in turns])
    sleeves = [sleeve_of(gym, turn.item) for turn in turns]
    plated = [place for place, sleeve in enumerate(sleeves) if sleeve is not None]
    found: dict[int, Plan] = {}
    if len(plated) > 1:
        shared = _Sharing(
            tuple(turns[place] for place in plated),
            tuple(sleeve for sleeve in sleeves if sleeve is not None),
        )
        found = dict(zip(plated, shared.solve(), strict=True))
    return tuple(found.get(place) or _alone(gym, turn) for place, turn in enumerate(turns))


def _alone(gym: Gym, turn: Turn) -> Plan:
    setting = turn.setting
    return solve(
        gym,
        turn.item,
        turn.targets,
        reps_at=setting.reps_at,
        body_kg=setting.body_kg,
        held=setting.held,
        start=setting.start,
        count=setting.count,
    )


def _refuse_clash(items: Sequence[AnyItem]) -> None:
    for left, right in combinations(items, 2):
        if left.id == right.id:
            raise NoAnswerError(
                f"two exercises of a superset cannot share “{left.name}”",
                {"change": "give one of them another item"},
            )
        if left.station and left.station == right.station:
            raise NoAnswerError(
                f"“{left.name}” and “{right.name}” stand at the same station "
                f"({left.station}), so a superset cannot use both",
                {"change": "give one of them another station"},
            )


Caps = tuple[tuple[int, ...], ...]
"""For each exercise, how many of each kind of plate one of its places may use."""


@dataclass(frozen=True, slots=True)
class _Sharing:
    turns: tuple[Turn, ...]
    sleeves: tuple[Sleeve, ...]
    solved: dict[tuple[int, tuple[int, ...]], Plan] = field(default_factory=dict)

    def solve(self) -> tuple[Plan, ...]:
        """Best-first search over allotments; the first one without a clash is the best."""
        order = count()
        start = tuple(
            sleeve.without(turn.setting.held).caps
            for sleeve, turn in zip(self.sleeves, self.turns, strict=True)
        )
        plans = self.plans(start)
        queue = [(_cost(plans), next(order), start, plans)]
        seen = {start}
        while queue:
            _, _, caps, plans = heapq.heappop(queue)
            clash = self.clash(plans)
            if clash is None:
                return plans
            for narrower in self.narrowed(caps, *clash):
                if narrower not in seen:
                    seen.add(narrower)
                    plans = self.plans(narrower)
                    heapq.heappush(queue, (_cost(plans), next(order), narrower, plans))
        raise NoAnswerError(
            "the plates on these bars are more than the gym has",
            {"change": "correct the plates of the gym, or strip one of the bars"},
        )

    def plans(self, caps: Caps) -> tuple[Plan, ...]:
        return tuple(self.plan(which, mine) for which, mine in enumerate(caps))

    def plan(self, which: int, caps: tuple[int, ...]) -> Plan:
        """The plan of one exercise with so many of each plate; solved once."""
        if (which, caps) not in self.solved:
            turn, sleeve = self.turns[which], self.sleeves[which].capped(caps)
            plan = solve_on(turn.item, sleeve, turn.targets, turn.setting)
            self.solved[which, caps] = plan
        return self.solved[which, caps]

    def used(self, plans: tuple[Plan, ...]) -> list[Counter[Plate]]:
        """Single plates of each kind that each exercise needs at most at any time."""
        found: list[Counter[Plate]] = []
        for plan, sleeve in zip(plans, self.sleeves, strict=True):
            most: Counter[Plate] = Counter()
            for state in plan.states:
                most |= Counter(state.plates)
            found.append(Counter({plate: n * sleeve.places for plate, n in most.items()}))
        return found

    def clash(self, plans: tuple[Plan, ...]) -> tuple[int, int, Plate] | None:
        """Two exercises and a kind of plate of which they want more than there are."""
        used = self.used(plans)
        for left, right in combinations(range(len(plans)), 2):
            for plate in self.sleeves[left].plates:
                together = sum(one[plate] for one in used)
                both = used[left][plate] and used[right][plate]
                if both and together > self.available(plate):
                    return left, right, plate
        return None

    def available(self, plate: Plate) -> int:
        """Single plates of a kind that are not in use elsewhere."""
        held = max(turn.setting.held.count(plate) for turn in self.turns)
        return 2 * max(0, plate.pairs - held)

    def narrowed(self, caps: Caps, left: int, right: int, plate: Plate) -> list[Caps]:
        """Every way to cap one of the two so that both caps fit into the gym's plates."""
        a, b = self.sleeves[left], self.sleeves[right]
        mine, theirs = a.plates.index(plate), b.plates.index(plate)
        whole = self.available(plate)
        ways = []
        for many in range(caps[left][mine] + 1):
            rest = min(caps[right][theirs], max(0, (whole - many * a.places) // b.places))
            if (many, rest) == (caps[left][mine], caps[right][theirs]):
                continue
            ways.append(_with(_with(caps, left, mine, many), right, theirs, rest))
        return ways


def _with(caps: Caps, which: int, kind: int, many: int) -> Caps:
    row = caps[which]
    changed = (*row[:kind], many, *row[kind + 1 :])
    return (*caps[:which], changed, *caps[which + 1 :])


def _cost(plans: tuple[Plan, ...]) -> float:
    return sum(plan.cost for plan in plans)
