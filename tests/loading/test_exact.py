"""The solver against trying everything."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.core.evidence.loading import MOVE_REPS, PIN_REPS, UNTIDY_REPS
from pennate.core.exercise import EquipmentKind
from pennate.core.gym import Bar, Gym, Ladder, Plate
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.core.quantities import Mass
from pennate.loading import RepsAt, Target, Turn, solve, solve_superset
from pennate.loading.effort import clipped, costs_from, reps_of
from pennate.loading.sleeves import sleeve_of
from pennate.loading.stacks import Problem, solve_stacks, space_of
from tests.loading.exhaustive import change, every_stack, least_cost, off_target

KINDS = (SetKind.WARM_UP, SetKind.TOP, SetKind.BACK_OFF, SetKind.DROP)
BAR = Bar(id="bar", name="Bar", kind=EquipmentKind.BARBELL, mass=Mass.kg(20))

pair_counts = st.lists(st.integers(1, 3), min_size=1, max_size=4).filter(lambda n: sum(n) <= 4)
masses = st.lists(
    st.sampled_from(("1.25", "2.5", "5", "10", "15", "20")), min_size=4, max_size=4, unique=True
)
targets = st.lists(
    st.builds(
        Target,
        felt_kg=st.integers(15, 90).map(float),
        kind=st.sampled_from(KINDS),
        ceiling=st.booleans(),
    ),
    min_size=1,
    max_size=5,
)


def gym_of(pairs: list[int], sizes: list[str]) -> Gym:
    plates = zip(sizes, pairs, strict=False)
    return Gym(
        id="g",
        name="g",
        plates=tuple(Plate(Mass.kg(mass), many) for mass, many in plates),
        items=(BAR,),
    )


def side(state: Loaded) -> tuple[float, ...]:
    return tuple(float(plate.mass.in_kg) for plate in state.each_side)


@settings(max_examples=1000, deadline=None, derandomize=True)
@given(pairs=pair_counts, sizes=masses, asked=targets)
def test_no_sequence_of_stacks_is_cheaper(
    pairs: list[int], sizes: list[str], asked: list[Target]
) -> None:
    """On small inventories the plan costs what the best of all sequences costs."""
    gym = gym_of(pairs, sizes)
    plan = solve(gym, BAR, asked)
    stacks = list(every_stack({float(p.mass.in_kg): p.pairs for p in gym.plates}))
    assert plan.proven
    assert abs(plan.cost - least_cost(20.0, stacks, asked)) < 1e-9


@settings(max_examples=200, deadline=None, derandomize=True)
@given(pairs=pair_counts, sizes=masses, asked=targets, data=st.data())
def test_a_loaded_bar_is_a_start_like_any_other(
    pairs: list[int], sizes: list[str], asked: list[Target], data: st.DataObject
) -> None:
    """From plates that are on already, the rest of the sequence is solved as exactly."""
    gym = gym_of(pairs, sizes)
    first = Target(felt_kg=float(data.draw(st.integers(20, 90))), kind=SetKind.TOP)
    start = solve(gym, BAR, [first]).states[0]
    plan = solve(gym, BAR, asked, start=start)
    stacks = list(every_stack({float(p.mass.in_kg): p.pairs for p in gym.plates}))
    assert abs(plan.cost - least_cost(20.0, stacks, asked, side(start))) < 1e-9


@settings(max_examples=200, deadline=None, derandomize=True)
@given(pairs=pair_counts, sizes=masses, asked=targets)
def test_moves_are_counted_and_plates_conserved(
    pairs: list[int], sizes: list[str], asked: list[Target]
) -> None:
    """The stated moves are the moves between the stated stacks; no plate comes from nowhere."""
    gym = gym_of(pairs, sizes)
    plan = solve(gym, BAR, asked)
    sides = [side(state) for state in plan.states]
    walked = [change(a, b)[0] for a, b in zip([(), *sides], sides, strict=False)]
    assert list(plan.moves) == walked
    for state in plan.states:
        assert all(state.each_side.count(plate) <= plate.pairs for plate in gym.plates)
        assert state.felt == 20 + 2 * sum(plate.mass.in_kg for plate in state.each_side)


@settings(max_examples=200, deadline=None, derandomize=True)
@given(pairs=pair_counts, sizes=masses, asked=targets)
def test_drops_only_strip(pairs: list[int], sizes: list[str], asked: list[Target]) -> None:
    """Before a drop outer plates come off and nothing goes on."""
    plan = solve(gym_of(pairs, sizes), BAR, asked)
    sides = [side(state) for state in plan.states]
    for before, after, target in zip(sides, sides[1:], asked[1:], strict=False):
        if target.kind is SetKind.DROP:
            assert after == before[: len(after)]
            assert len(after) < len(before) or not before


realistic = st.lists(
    st.builds(
        Target,
        felt_kg=st.integers(40, 240).map(lambda half: half / 2),
        kind=st.sampled_from(KINDS),
        ceiling=st.booleans(),
    ),
    min_size=3,
    max_size=8,
)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(asked=realistic, strength=st.integers(60, 160), start=st.booleans())
def test_leaving_stacks_out_never_loses(asked: list[Target], strength: int, *, start: bool) -> None:
    """On a whole rack the search that prunes finds what the search of everything finds."""
    plates = tuple(
        Plate(Mass.kg(mass), pairs)
        for mass, pairs in (("20", 2), ("15", 1), ("10", 2), ("5", 2), ("2.5", 2), ("1.25", 1))
    )
    gym = Gym(id="g", name="g", plates=plates, items=(BAR,))
    reps_at = capped_reps(strength)
    on = solve(gym, BAR, asked[:1], reps_at=reps_at).states[0] if start else None
    plan = solve(gym, BAR, asked, reps_at=reps_at, start=on)
    assert abs(plan.cost - everything(gym, asked, reps_at, on)) < 1e-9


def capped_reps(strength: int) -> RepsAt:
    """Exponential reps that end at none, so that heavy loads cost no more and more."""
    return lambda felt: max(0.0, 1 - math.log(max(felt, 1.0) / strength) / 0.0255)


def everything(gym: Gym, asked: list[Target], reps_at: RepsAt, on: Loaded | None) -> float:
    """Least cost over all multisets of the inventory, none left out."""
    sleeve = sleeve_of(gym, BAR)
    assert sleeve is not None
    space = space_of(sleeve, 1e9, 99)
    assert len(space.mass) == math.prod(cap + 1 for cap in sleeve.caps)
    felt = 20 + 2 * space.mass
    reps = reps_of(felt, reps_at)
    costs = tuple(costs_from(t, felt, reps, clipped(reps_at(t.felt_kg))) for t in asked)
    drops = tuple(target.kind is SetKind.DROP for target in asked)
    start = tuple(sleeve.plates.index(plate) for plate in on.each_side) if on else ()
    return solve_stacks(Problem(space, costs, drops, MOVE_REPS, UNTIDY_REPS), start)[0]


@settings(max_examples=150, deadline=None, derandomize=True)
@given(
    labels=st.lists(st.integers(1, 40), min_size=1, max_size=6, unique=True),
    asked=st.lists(
        st.builds(Target, felt_kg=st.integers(2, 90).map(float), kind=st.sampled_from(KINDS)),
        min_size=1,
        max_size=4,
    ),
)
def test_dumbbells_are_chosen_as_by_trying_all(labels: list[int], asked: list[Target]) -> None:
    """No sequence of dumbbells is cheaper than the chosen one."""
    rack = Ladder(
        id="d",
        name="d",
        kind=EquipmentKind.DUMBBELLS,
        masses=tuple(Mass.kg(label) for label in labels),
    )
    plan = solve(Gym(id="g", name="g", items=(rack,)), rack, asked)
    lightest, best = min(labels), math.inf
    for tried in product(labels, repeat=len(asked)):
        cost = sum(
            off_target(target, 2.0 * label, 2.0 * lightest)
            for target, label in zip(asked, tried, strict=True)
        )
        for before, after, target in zip(tried, tried[1:], asked[1:], strict=False):
            stays = after == before == lightest
            if target.kind is SetKind.DROP and not (after < before or stays):
                cost = math.inf
            cost += PIN_REPS * (before != after)
        best = min(best, cost)
    assert abs(plan.cost - best) < 1e-9


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    pairs=st.lists(st.integers(1, 2), min_size=2, max_size=3).filter(lambda n: sum(n) <= 4),
    sizes=masses,
    first=targets.filter(lambda t: len(t) <= 3),
    second=targets.filter(lambda t: len(t) <= 3),
)
def test_superset_partners_share_plates_as_well_as_possible(
    pairs: list[int], sizes: list[str], first: list[Target], second: list[Target]
) -> None:
    """No other way to deal the pairs out to two bars is cheaper, and none is dealt twice."""
    other = Bar(id="other", name="Other", kind=EquipmentKind.BARBELL, mass=Mass.kg(15))
    gym = replace(gym_of(pairs, sizes), items=(BAR, other))
    plans = solve_superset(
        gym, [Turn(item=BAR, targets=tuple(first)), Turn(item=other, targets=tuple(second))]
    )
    best = math.inf
    for mine in product(*(range(plate.pairs + 1) for plate in gym.plates)):
        a = {float(p.mass.in_kg): n for p, n in zip(gym.plates, mine, strict=True)}
        b = {float(p.mass.in_kg): p.pairs - n for p, n in zip(gym.plates, mine, strict=True)}
        best = min(
            best,
            least_cost(20.0, list(every_stack(a)), first)
            + least_cost(15.0, list(every_stack(b)), second),
        )
    assert abs(sum(plan.cost for plan in plans) - best) < 1e-9
    for plate in gym.plates:
        most = [max(state.each_side.count(plate) for state in plan.states) for plan in plans]
        assert sum(most) <= plate.pairs
