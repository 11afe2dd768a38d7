"""Ramp sets, the test set of an unknown exercise, the price of a step, and help."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.core.gym import AnyItem, Bar, Gym, Ladder, Plate
from pennate.core.performed import SetKind
from pennate.errors import NoAnswerError
from pennate.loading import (
    RampSet,
    Remedy,
    Target,
    Turn,
    Warmth,
    assistance_ladder,
    calibration,
    effective,
    ladder,
    ramp,
    reps_by_distance,
    solve,
    solve_superset,
    step_cost,
)
from tests.loading.gyms import (
    ASSISTED,
    BANDS,
    BAR,
    CHIN_UP_BAR,
    DUMBBELLS,
    GYM,
    LEG_CURL,
    SLED,
    kg,
)


def shares(sets: tuple[RampSet, ...], working: float) -> list[float]:
    return [round(one.target.felt_kg / working, 3) for one in sets]


def test_a_cold_muscle_gets_two_ramp_sets() -> None:
    """5–8 reps at 50–60 % and 3–5 at 80 % of the working load (Neves 2020; our default)."""
    first, second = ramp(100, Warmth.COLD)
    assert 50 <= first.target.felt_kg <= 60
    assert second.target.felt_kg == 80
    assert 5 <= first.reps <= 8
    assert 3 <= second.reps <= 5
    assert {first.target.kind, second.target.kind} == {SetKind.WARM_UP}


@pytest.mark.parametrize(
    ("warmth", "heavy", "short", "many"),
    [
        (Warmth.COLD, True, False, 2),
        (Warmth.COLD, True, True, 1),
        (Warmth.LUKEWARM, True, False, 1),
        (Warmth.WARM, True, False, 1),
        (Warmth.WARM, True, True, 0),
        (Warmth.WARM, False, False, 0),
    ],
)
def test_warm_muscles_need_less(warmth: Warmth, many: int, *, heavy: bool, short: bool) -> None:
    """Later exercises of warm muscles take one ramp set or none; short of time keeps the 80 %."""
    sets = ramp(100, warmth, heavy=heavy, short=short)
    assert shares(sets, 100) == [0.55, 0.8][2 - many :]


def test_ramp_sets_of_body_weight_count_the_body() -> None:
    """A chin-up with 10 kg added, 58 kg of body moved: 80 % of 68 kg is 3.6 kg of help."""
    (last,) = ramp(10, Warmth.LUKEWARM, body_kg=58)
    assert abs(last.target.felt_kg - (0.8 * 68 - 58)) < 1e-9


@settings(max_examples=200, deadline=None, derandomize=True)
@given(
    working=st.floats(5, 300),
    lightest=st.floats(0, 60),
    warmth=st.sampled_from(Warmth),
    short=st.booleans(),
)
def test_a_ramp_rises_between_the_bar_and_the_work(
    working: float, lightest: float, warmth: Warmth, *, short: bool
) -> None:
    """No ramp set is lighter than the empty bar, nor within a tenth of the next set."""
    sets = ramp(working, warmth, lightest_kg=lightest, short=short)
    loads = [one.target.felt_kg for one in sets]
    assert all(load >= lightest for load in loads)
    steps = [*loads, working]
    assert all(b - a >= 0.1 * working - 1e-9 for a, b in pairwise(steps))


def test_the_test_set_is_light_and_a_ceiling() -> None:
    """Six reps at 60 % of the guess, body mass counted, never rounded up."""
    test_set = calibration(100)
    assert (test_set.target.felt_kg, test_set.reps) == (60, 6)
    assert test_set.target.ceiling
    assert abs(calibration(60, body_kg=58).target.felt_kg - (36 - 58)) < 1e-9


def test_the_answer_is_read_on_the_published_curve() -> None:
    """6 done and 3 more at 60 kg is nine reps: 60 · exp(0.0255 · 8) = 73.6 kg (definition)."""
    read = calibration(100).read(3)
    assert abs(read.one_rep_kg - 73.58) < 0.01
    assert not read.at_least
    assert read.again is None


def test_far_from_failure_the_answer_is_a_lower_bound() -> None:
    """Beyond five in reserve errors exceed two reps (Hackett 2017): test again, well heavier."""
    read = calibration(100).read(12)
    assert read.at_least
    assert read.again is not None
    assert 1.3 < read.again.target.felt_kg / 60 < 1.6
    assert calibration(100).read(12).one_rep_kg == calibration(100).read(6).one_rep_kg


def test_the_answer_is_less_sure_further_from_failure() -> None:
    """Spread grows with reps in reserve; a negative answer is refused."""
    spreads = [calibration(100).read(more).sd_log for more in range(6)]
    assert spreads == sorted(spreads)
    assert 0.03 < spreads[0] < 0.06
    with pytest.raises(ValueError, match="negative"):
        calibration(100).read(-1)


def test_small_steps_are_left_alone() -> None:
    """A step of about one rep asks for nothing."""
    rungs = ladder(GYM, BAR)
    step = step_cost(rungs, 100.0, reps_by_distance(BAR))
    assert not step.too_big
    assert step.advice == ()
    assert step.next is not None
    assert step.next.felt_kg > 100


def test_big_steps_come_with_a_way() -> None:
    """From 5 to 6 kg dumbbells is 20 %: reps first, a wider range, harder reps, another item."""
    step = step_cost(ladder(GYM, DUMBBELLS), 10.0, reps_by_distance(DUMBBELLS))
    assert step.too_big
    assert [advice.remedy for advice in step.advice] == [
        Remedy.REPS_FIRST,
        Remedy.WIDER_RANGE,
        Remedy.HARDER_REPS,
        Remedy.OTHER_ITEM,
    ]
    assert "8 reps more" in step.advice[0].words


def test_bars_ask_for_small_plates() -> None:
    """From 25 to 30 kg costs 7 reps at 0.0255; a pair of 0.5 kg makes it 1.5 (ln 26/25)."""
    bar = Bar(id="b", name="b", kind=BAR.kind, mass=kg(20))
    gym = Gym(id="g", name="g", plates=(Plate(kg("2.5"), 3),), items=(bar,))
    step = step_cost(ladder(gym, bar), 25.0, reps_by_distance(bar))
    assert abs(step.reps_lost - math.log(30 / 25) / 0.0255) < 1e-9
    said = [advice.words for advice in step.advice if advice.remedy is Remedy.SMALL_PLATES]
    assert said == ["a pair of 0.5 kg plates would cut the step to about 2 reps"]


def test_the_top_of_an_item_says_so() -> None:
    """At the heaviest load there is no next step, and that is said."""
    step = step_cost(ladder(GYM, DUMBBELLS), 60.0, reps_by_distance(DUMBBELLS))
    assert step.next is None
    assert "heaviest" in step.advice[0].words


def test_help_is_uncertain_and_iron_is_not() -> None:
    """Two bands of 8 and 16 kg at a spread of 0.15 leave 58 − 24 ± 2.68 kg (root of squares)."""
    state = next(one for one in ladder(GYM, BANDS) if one.bands == ("thin", "middle"))
    left = effective(BANDS, state, 58)
    assert left.kg == 34
    assert abs(left.sd_kg - 0.15 * math.hypot(8, 16)) < 1e-9
    belted = next(one for one in ladder(GYM, CHIN_UP_BAR) if one.load == kg(5))
    assert effective(CHIN_UP_BAR, belted, 58).sd_kg == 0


def test_the_way_to_no_help_rises_step_by_step() -> None:
    """From most help to none and on to the belt, each rung with the chance that it is harder."""
    rungs = assistance_ladder(GYM, [BANDS, ASSISTED, CHIN_UP_BAR], 58)
    left = [rung.effective.kg for rung in rungs]
    assert left == sorted(left)
    assert left[0] > 0
    assert any(rung.effective.kg == 58 and rung.effective.sd_kg == 0 for rung in rungs)
    assert all(0.5 <= rung.harder <= 1 for rung in rungs)
    bands_only = assistance_ladder(GYM, [BANDS], 58)
    assert bands_only[-1].harder > 0.99


def test_two_exercises_cannot_share_a_bar() -> None:
    """A superset on one bar, or on one station, is refused with the reason."""
    with pytest.raises(NoAnswerError, match="cannot share"):
        solve_superset(GYM, [turn(BAR, 60), turn(BAR, 40)])
    partner = Ladder(
        id="p", name="Rack dumbbells", kind=DUMBBELLS.kind, masses=(kg(10),), station="rack"
    )
    with pytest.raises(NoAnswerError, match="same station"):
        solve_superset(GYM, [turn(BAR, 60), Turn(item=partner, targets=(Target(felt_kg=20),))])


def turn(item: AnyItem, felt: float) -> Turn:
    return Turn(item=item, targets=(Target(felt_kg=felt),))


def test_partners_without_plates_keep_their_own_plans() -> None:
    """Dumbbells and a stack in a superset with a bar change nothing for each other."""
    turns = [turn(BAR, 80), turn(DUMBBELLS, 28), turn(LEG_CURL, 45)]
    together = solve_superset(GYM, turns)
    alone = [solve(GYM, one.item, one.targets) for one in turns]
    assert list(together) == alone


def test_the_sled_and_the_bar_share_the_plates() -> None:
    """Two heavy plate-loaded exercises together never need more plates than there are."""
    plans = solve_superset(GYM, [turn(BAR, 200), turn(SLED, 300)])
    for plate in GYM.plates:
        used = sum(max(s.each_side.count(plate) for s in plan.states) for plan in plans)
        assert used <= plate.pairs
