"""The loads of an exercise's whole sequence, chosen together: near the targets, few moves."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pennate.core.evidence.loading import MOVE_REPS, PIN_REPS, UNTIDY_REPS
from pennate.core.gym import AnyItem, Gym, Plate, carrier_of
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.core.quantities import Mass
from pennate.loading.effort import (
    Floats,
    RepsAt,
    Target,
    body_reference,
    clipped,
    costs_from,
    reps_by_distance,
    reps_of,
)
from pennate.loading.ladder import every_load, ladder, usual_count, with_plates
from pennate.loading.own_unit import suffices
from pennate.loading.picks import moves_between, solve_picks
from pennate.loading.relaxed import through
from pennate.loading.sleeves import Sleeve, fewest_plates, sleeve_of
from pennate.loading.stacks import Problem, Space, Stack, row_of, solve_stacks, space_of

_MOST_STATES = 60_000  # number: about a second of work; beyond it the plan is not proven

_MORE_PLATES = (2, 4, 6)  # number: search effort; the last search decides
"""Plates beyond the fewest that the first, quick searches may use, one after the other."""
_NEAR = 7
"""Searched deeper only while the bound on depth lies this far beyond what was searched."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The chosen state of every set, the moves before each, and whether it is the best."""

    states: tuple[Loaded, ...]
    moves: tuple[int, ...]
    """Before each set: pairs of plates put on or taken off (single plates in one place), or
    pins, dumbbells, add-ons and bands changed."""
    reps_off: tuple[float, ...]
    """Reps to failure at the chosen load minus those at the target: negative is heavier."""
    cost: float
    """Weighted reps off target plus the price of the moves."""
    proven: bool
    """Nothing better exists for these weights; False only where the search was cut."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What the choice depends on besides gym, item and targets."""

    reps_at: RepsAt | None = None
    body_kg: float = 0.0
    """Body mass the exercise moves, used only without `reps_at`."""
    held: tuple[Plate, ...] = ()
    """Pairs (or single plates) in use by a superset partner."""
    start: Loaded | None = None
    """What is on now; None starts from the empty bar."""
    count: int | None = None
    """How many dumbbells or kettlebells she holds."""


def solve(
    gym: Gym,
    item: AnyItem,
    targets: Sequence[Target],
    *,
    reps_at: RepsAt | None = None,
    body_kg: float = 0.0,
    held: Sequence[Plate] = (),
    start: Loaded | None = None,
    count: int | None = None,
) -> Plan:
    """The best states for these targets in this order, taken as one whole.

    Least sum of weighted reps off target and price of moves. Drops only strip outer plates
    (or take a lighter pin). Both sides are equal. `reps_at` maps felt kilograms without
    body mass to reps; without it equal ratios of load count as equal numbers of reps.
    """
    setting = Setting(reps_at=reps_at, body_kg=body_kg, held=tuple(held), start=start, count=count)
    sleeve = sleeve_of(gym, item)
    if not targets:
        return Plan(states=(), moves=(), reps_off=(), cost=0.0, proven=True)
    if sleeve is None:
        return _picked(gym, item, tuple(targets), setting)
    return _plated(item, sleeve.without(setting.held), tuple(targets), setting)


def solve_on(item: AnyItem, sleeve: Sleeve, targets: tuple[Target, ...], setting: Setting) -> Plan:
    """As `solve`, with the plates at hand given as a sleeve."""
    return _plated(item, sleeve, targets, setting)


def _reps_at(item: AnyItem, setting: Setting) -> RepsAt:
    return setting.reps_at or reps_by_distance(item, setting.body_kg)


def _picked(gym: Gym, item: AnyItem, targets: tuple[Target, ...], setting: Setting) -> Plan:
    rungs = _pickable(gym, item, targets, setting)
    reps_at = _reps_at(item, setting)
    felt = np.array([rung.felt_kg for rung in rungs])
    reps = reps_of(felt, reps_at)
    costs = tuple(costs_from(t, felt, reps, clipped(reps_at(t.felt_kg))) for t in targets)
    cost, path = solve_picks(rungs, costs, _drops(targets), PIN_REPS, setting.start)
    states = tuple(rungs[index] for index in path)
    before = (setting.start or states[0], *states[:-1])
    moves = tuple(moves_between(a, b) for a, b in zip(before, states, strict=True))
    return Plan(
        states=states,
        moves=moves,
        reps_off=_off(targets, states, reps_at),
        cost=cost,
        proven=True,
    )


def _pickable(
    gym: Gym, item: AnyItem, targets: tuple[Target, ...], setting: Setting
) -> tuple[Loaded, ...]:
    """Her unit's loads; all of them where one was asked that they do not reach."""
    count, own = setting.count or usual_count(item), gym.unit_on(item.id)
    rungs = ladder(gym, item, count)
    felt = [rung.felt_kg for rung in rungs]
    if own is None or suffices(felt, targets, own, body_reference(item)):
        return rungs
    return every_load(gym, item, count)


def _drops(targets: tuple[Target, ...]) -> tuple[bool, ...]:
    return tuple(target.kind is SetKind.DROP for target in targets)


def _off(
    targets: tuple[Target, ...], states: tuple[Loaded, ...], reps_at: RepsAt
) -> tuple[float, ...]:
    return tuple(
        clipped(reps_at(state.felt_kg)) - clipped(reps_at(target.felt_kg))
        for target, state in zip(targets, states, strict=True)
    )


@dataclass(frozen=True, slots=True)
class _Asked:
    """Plate loading as numbers: what is asked, and what a mass on one place feels like."""

    item: AnyItem
    sleeve: Sleeve
    targets: tuple[Target, ...]
    reps_at: RepsAt

    def within(self, group: tuple[int, ...]) -> _Asked:
        """The same, with the plates of one group only."""
        return _Asked(self.item, self.sleeve.only(group), self.targets, self.reps_at)

    def felt(self, mass: Floats) -> Floats:
        carrier = carrier_of(self.item)
        whole = self.sleeve.places * mass + float(carrier.mass_kg)
        return np.asarray(whole * float(carrier.factor)).round(9)  # number: float noise only

    def costs(self, mass: Floats) -> tuple[Floats, ...]:
        felt = self.felt(mass)
        reps = reps_of(felt, self.reps_at)
        asked = [clipped(self.reps_at(target.felt_kg)) for target in self.targets]
        pairs = zip(self.targets, asked, strict=True)
        return tuple(costs_from(target, felt, reps, want) for target, want in pairs)


@dataclass(frozen=True, slots=True)
class _Found:
    """The best stacks of one search, inner to outer, one a target."""

    cost: float
    stacks: tuple[tuple[Plate, ...], ...]
    proven: bool


def _plated(item: AnyItem, sleeve: Sleeve, targets: tuple[Target, ...], setting: Setting) -> Plan:
    start = setting.start.plates if setting.start else ()
    asked = _Asked(item, sleeve.including(start), targets, _reps_at(item, setting))
    found = _best_unit(asked, start)
    states = tuple(with_plates(item, stack) for stack in found.stacks)
    before = (start, *found.stacks[:-1])
    return Plan(
        states=states,
        moves=tuple(plates_moved(a, b) for a, b in zip(before, found.stacks, strict=True)),
        reps_off=_off(targets, states, asked.reps_at),
        cost=found.cost,
        proven=found.proven,
    )


def _best_unit(asked: _Asked, start: tuple[Plate, ...]) -> _Found:
    """Plates of one unit serve the whole sequence, unless the bar takes both at once.

    Those of the unit she uses here, where they come near to every target.
    """
    plates = asked.sleeve.plates
    everything = tuple(range(len(plates)))
    fitting = [
        group
        for group in asked.sleeve.groups
        if all(plate in {plates[index] for index in group} for plate in start)
    ]
    own = getattr(asked.item, "mass", Mass.kg(0)).unit
    fitting.sort(key=lambda group: plates[group[0]].mass.unit is not own)
    if any(_serves(asked, group) for group in fitting):
        fitting = [group for group in fitting if _serves(asked, group)]
    best = _Found(math.inf, (), proven=True)
    for group in fitting or [everything]:
        found = _search(asked.within(group), start, best.cost)
        if found is not None and found.cost < best.cost:
            best = found
    return best


def _serves(asked: _Asked, group: tuple[int, ...]) -> bool:
    """Whether these plates are of the unit she uses here and come near to every target."""
    own = asked.sleeve.own
    if own is None or asked.sleeve.mixed:
        return False
    if asked.sleeve.plates[group[0]].mass.unit is not own:
        return False
    masses = np.array([float(mass) for mass, _ in fewest_plates(asked.within(group).sleeve)])
    return suffices(
        [float(one) for one in asked.felt(masses)], asked.targets, own, body_reference(asked.item)
    )


def plates_moved(before: tuple[Plate, ...], after: tuple[Plate, ...]) -> int:
    """Plates of one place that come off and go on: all beyond the common inner ones."""
    same = 0
    for left, right in zip(before, after, strict=False):
        if left != right:
            break
        same += 1
    return len(before) + len(after) - 2 * same


def _search(asked: _Asked, on: tuple[Plate, ...], budget: float) -> _Found | None:
    """Solve in a small space for a good plan, then in all that could hold a better one.

    None where no plan can cost less than the budget.
    """
    start = tuple(asked.sleeve.plates.index(plate) for plate in on)
    sums = fewest_plates(asked.sleeve)
    masses = np.array([float(mass) for mass, _ in sums])
    costs = asked.costs(masses)
    at_least = through(costs, _drops(asked.targets), MOVE_REPS)
    if at_least.min() >= budget:
        return None
    nearest = [int(one.argmin()) for one in costs]
    heavy = max(_kg(on), *(float(masses[index]) for index in nearest))
    deep = max(len(start), *(len(sums[index][1]) for index in nearest))
    for more in _MORE_PLATES:
        cost, stacks = _solved(asked, space_of(asked.sleeve, heavy, deep + more), start)
        if cost - at_least.min() <= MOVE_REPS * (deep + more + _NEAR):
            break
    space = _could_help(asked, start, masses, at_least, min(cost, budget) + 1e-9)
    proven = len(space.mass) <= _MOST_STATES
    if proven:
        cost, stacks = _solved(asked, space, start)
    plates = asked.sleeve.plates
    named = tuple(tuple(plates[index] for index in stack) for stack in stacks)
    return _Found(cost, named, proven)


def _kg(plates: tuple[Plate, ...]) -> float:
    return sum(float(plate.mass.in_kg) for plate in plates)


def _could_help(
    asked: _Asked, start: Stack, masses: Floats, at_least: Floats, budget: float
) -> Space:
    """All stacks that a plan within the budget could use, and what they are built on."""
    on = _kg(tuple(asked.sleeve.plates[index] for index in start))
    fewest = np.array([len(plates) for _, plates in fewest_plates(asked.sleeve)])
    within = at_least + MOVE_REPS * np.maximum(fewest - len(start), 0) <= budget
    heavy = max(on, float(masses[within].max(initial=0.0)))
    spare = budget - at_least[within].min(initial=budget)
    space = space_of(asked.sleeve, heavy, len(start) + int(spare / MOVE_REPS))
    place = np.searchsorted(masses, space.mass - 1e-9)
    put_on = np.maximum(space.depth - len(start), 0) * MOVE_REPS
    useful = at_least[place] + put_on <= budget
    for kept in range(len(start) + 1):
        useful[row_of(space, start[:kept])] = True
    return space.only(useful)


def _solved(asked: _Asked, space: Space, start: Stack) -> tuple[float, tuple[Stack, ...]]:
    problem = Problem(space, asked.costs(space.mass), _drops(asked.targets), MOVE_REPS, UNTIDY_REPS)
    return solve_stacks(problem, start)
