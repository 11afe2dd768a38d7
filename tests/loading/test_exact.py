"""The solver against trying everything."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.core.exercise import EquipmentKind
from pennate.core.gym import Bar, Gym, Plate
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.core.quantities import Mass
from pennate.loading import Target, solve
from tests.loading.exhaustive import change, every_stack, least_cost

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
