"""The loads of a follower: rounded down to what can be had, and tables read between knots."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from numpy import interp

from pennate.core.follow import (
    FINEST,
    Curves,
    Group,
    Option,
    Source,
    Typed,
    between,
    loads_for,
    rounded_down,
)

AMOUNTS = st.integers(0, 500_000)
STEPS = st.integers(1, 20_000)
FLAT = Curves((500, 1000, 1500), (((((300, 400), (100, 160), (0, 20))),) * 20,))


@given(AMOUNTS, AMOUNTS, STEPS)
def test_a_load_is_the_heaviest_step_not_above(wanted: int, lightest: int, step: int) -> None:
    """What is told can be loaded, is not above the wanted load, and the next step would be."""
    load = rounded_down(wanted, lightest, step)
    if load is None:
        assert wanted < lightest
        return
    assert (load - lightest) % step == 0
    assert load <= wanted < load + step


@given(st.integers(-200_000, 200_000), STEPS)
def test_help_is_rounded_to_more_of_it(wanted: int, step: int) -> None:
    """Help counts below nought, so rounding down never leaves her with less help than needed."""
    load = rounded_down(wanted, 0, step, helped=True)
    assert load is not None
    assert load % step == 0
    assert load <= wanted < load + step


@given(st.integers(-200_000, 200_000), STEPS)
def test_body_weight_is_never_below_itself(wanted: int, step: int) -> None:
    """Nobody can be made lighter: body weight alone stands where less is wanted."""
    load = rounded_down(wanted, 0, step, bodily=True)
    assert load is not None
    assert 0 <= load <= max(wanted, 0)


def test_warm_up_sets_are_helped_only_where_the_load_is() -> None:
    """Before body weight alone nothing is taken off; before helped sets a warm-up has more."""
    for share, warm in ((900, -45_000), (1200, 0)):
        groups = (
            Group(source=Source.TABLE, shares=(share,) * 20),
            Group(source=Source.OF, of=0, share=500, warm_up=True),
        )
        option = Option(
            key="x", groups=groups, curve=0, kind="b", carried=1000, bodily=True, helpable=True
        )
        typed = Typed(load=0, reps=8, step=5_000, body=80_000)
        working, ramp = loads_for(option, typed, FLAT)
        assert working
        assert ramp
        assert (working.load, ramp.load) == ({900: -10_000, 1200: 15_000}[share], warm)


def test_without_a_step_a_tenth_is_told() -> None:
    """Where any load can be had, a tenth of the unit is fine enough."""
    assert rounded_down(41_287, 0, 0) == 41_287 // FINEST * FINEST == 41_200


@given(st.integers(0, 3000))
def test_between_knots_is_straight(at: int) -> None:
    """The reading agrees with numpy's linear interpolation, rounded down."""
    knots, values = (500, 800, 1500), (400, 160, 20)
    exact = float(interp(at, knots, values))
    assert exact - 1 < between(knots, values, at) <= exact + 1e-9


def test_shares_of_what_stands_above() -> None:
    """A drop is a share of the rounded load it follows, itself rounded down."""
    groups = (
        Group(source=Source.TABLE, shares=(900,) * 20),
        Group(source=Source.OF, of=0, share=700),
    )
    option = Option(key="x", groups=groups, curve=0, kind="barbell")
    told = loads_for(option, Typed(load=50_000, reps=8, lightest=20_000, step=2_500), FLAT)
    assert [one.load for one in told if one] == [45_000, 30_000]


def test_body_weight_counts_in() -> None:
    """Nine tenths of a body and its load are taken of both, not of the load alone."""
    groups = (Group(source=Source.TABLE, shares=(900,) * 20),)
    option = Option(key="x", groups=groups, curve=0, kind="dumbbells", carried=500, together=True)
    typed = Typed(load=40_000, reps=8, body=60_000, lightest=2_000, step=1_000)
    (told,) = loads_for(option, typed, FLAT)
    assert told is not None
    assert told.load == 32_000  # 0.9 · (40 + 30) − 30 = 33, and pairs go up by two kilograms


def test_reserve_is_taken_off_and_fatigue_makes_heavier() -> None:
    """A tired set is read at a heavier share, and what is held in reserve is not done."""
    groups = (Group(source=Source.TABLE, shares=(1000,) * 20, reserve=2, tired=(1000, 1250)),)
    option = Option(key="x", groups=groups, curve=0, kind="sled")
    (told,) = loads_for(option, Typed(load=100_000, reps=8, step=5_000), FLAT)
    assert told is not None
    assert told.first == (8, 14)
    assert told.last == (3, 7)
