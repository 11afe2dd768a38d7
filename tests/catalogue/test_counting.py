"""Doses and felt loads that follow from the shipped exercises, against published values."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.core import dose as dose_module
from pennate.core.dose import CountedSet, dose_by_group, dose_by_part
from pennate.core.evidence import every_constant
from pennate.core.exercise import Exercise
from pennate.core.felt import felt_kg
from pennate.core.muscles import GROUP_SHARES, Group, Part
from pennate.core.performed import SetKind
from pennate.core.quantities import LoadReading, Unit
from pennate.files.catalogue import read_catalogue

CATALOGUE = read_catalogue()


def doses(**counts: int) -> dict[Part, float]:
    """Dose of each part from whole hard sets of exercises named by id."""
    counted = [
        CountedSet(1.0, SetKind.WORKING, CATALOGUE[one].weights())
        for one, sets in counts.items()
        for _ in range(sets)
    ]
    return {part: found.value for part, found in dose_by_part(counted).items()}


def test_pressing_counts_for_the_triceps() -> None:
    """Check value 39 of the growth evidence: 4 bench, 3 overhead press, 3 push-downs."""
    found = doses(bench_press=4, shoulder_press=3, triceps_pushdown=3)
    assert found[Part.TRICEPS] == 6.5
    assert found[Part.DELT_SIDE] == 1.5
    assert found[Part.CHEST_STERN] == 4


def test_seated_calf_raises_leave_the_gastrocnemius_out() -> None:
    """Check value 40 (Kinoshita 2023)."""
    found = doses(seated_calf_raise=3)
    assert found.get(Part.GASTROCNEMIUS, 0) == 0
    assert found[Part.SOLEUS] == 3


def test_a_guided_bar_squat() -> None:
    """Check value 41: three sets give 3 vasti, ¾ rectus femoris, no hamstrings, 3 glutes."""
    found = doses(guided_bar_squat=3)
    assert found[Part.QUADS_VASTI] == 3
    assert found[Part.RECTUS_FEMORIS] == 0.75
    assert found.get(Part.HAMSTRINGS, 0) == 0
    assert found[Part.GLUTE_MAX] == 3


def _percents(exercise: str) -> list[float]:
    """The percentages named in an exercise's evidence, in order."""
    return [float(one) for one in re.findall(r"([\d.]+) %", CATALOGUE[exercise].evidence)]


def test_a_row_is_half_a_curl_for_the_elbow_flexors() -> None:
    """Check value 42: growth 5.16 against 11.06 % is 0.467, to the nearest step ½."""
    row, curl = _percents("dumbbell_row_one_arm")
    assert row / curl == pytest.approx(0.467, abs=5e-4)
    weight = CATALOGUE["dumbbell_row_one_arm"].weights()[Part.ELBOW_FLEXORS]
    assert min((0.25, 0.5, 1), key=lambda step: abs(step - row / curl)) == weight


def test_the_growth_figures_quoted_beside_curls_and_extensions() -> None:
    """Check value 43: lying to seated curl 0.643, push-down to overhead 0.698."""
    lying, seated = _percents("lying_leg_curl")
    side, overhead = _percents("triceps_pushdown")
    assert lying / seated == pytest.approx(0.643, abs=5e-4)
    assert side / overhead == pytest.approx(0.698, abs=5e-4)


EXERCISE_IDS = st.lists(st.sampled_from(sorted(CATALOGUE.exercises)), max_size=12)


@given(EXERCISE_IDS, st.sampled_from(Part), st.fractions(0, 1))
def test_splitting_a_part_changes_no_group(ids: list[str], part: Part, cut: Fraction) -> None:
    """A part cut in two that are trained alike leaves every group's dose as it was."""
    owner = next((group for group in Group if part in GROUP_SHARES[group]), None)
    piece = Part.FOREARM_GRIP  # in no group, so it can stand in for the piece cut off
    whole, cut_up = [], []
    for one in ids:
        weights = {p: w for p, w in CATALOGUE[one].weights().items() if p is not piece}
        whole.append(CountedSet(1.0, SetKind.WORKING, weights))
        cut_up.append(
            CountedSet(1.0, SetKind.WORKING, {**weights, piece: weights.get(part, Fraction(0))})
        )
    shares = {group: dict(parts) for group, parts in GROUP_SHARES.items()}
    if owner is not None:
        shares[owner] = {**shares[owner], part: shares[owner][part] * (1 - cut)}
        shares[owner][piece] = GROUP_SHARES[owner][part] * cut
    before = dose_by_group(dose_by_part(whole))
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(dose_module, "GROUP_SHARES", shares)
        after = dose_by_group(dose_by_part(cut_up))
    assert {g: d.value for g, d in after.items()} == pytest.approx(
        {g: d.value for g, d in before.items()}
    )


SEGMENTS = {  # de Leva 1996, share of body mass, women and men; limbs are of one side
    "head": ("0.0668", "0.0694"),
    "trunk": ("0.4257", "0.4346"),
    "upper arm": ("0.0255", "0.0271"),
    "forearm": ("0.0138", "0.0162"),
    "hand": ("0.0056", "0.0061"),
    "thigh": ("0.1478", "0.1416"),
    "shank": ("0.0481", "0.0433"),
    "foot": ("0.0129", "0.0137"),
}


def both(sex: int, *limbs: str) -> Fraction:
    """Share of these limbs, both sides together."""
    return 2 * sum((Fraction(SEGMENTS[limb][sex]) for limb in limbs), Fraction(0))


def shares(exercise: str) -> tuple[Fraction, Fraction]:
    """Shares of body mass of an exercise, women and men."""
    found = CATALOGUE[exercise].body_mass
    assert found is not None
    return found.female, found.male


@pytest.mark.parametrize("sex", [0, 1])
def test_shares_follow_from_the_segments(sex: int) -> None:
    """Published segment masses give the shares of hangs, squats, calf raises, leg raises."""
    assert shares("chin_up")[sex] == 1 - both(sex, "forearm", "hand")
    standing = 1 - both(sex, "shank", "foot")
    assert float(shares("split_squat")[sex]) == pytest.approx(float(standing), abs=5e-4)
    calf = 1 - both(sex, "foot")
    assert float(shares("standing_calf_raise")[sex]) == pytest.approx(float(calf), abs=7e-4)
    assert shares("hanging_leg_raise")[sex] == both(sex, "thigh", "shank", "foot")


@pytest.mark.parametrize(
    ("name", "exercise", "index"),
    [
        ("share.push_up_female", "push_up", 0),
        ("share.push_up_male", "push_up", 1),
        ("share.standing_female", "body_weight_squat", 0),
        ("share.standing_male", "body_weight_squat", 1),
    ],
)
def test_data_and_register_agree(name: str, exercise: str, index: int) -> None:
    """The share in the data file is the constant with its source in the register."""
    registered = {one.name: one.value for one in every_constant()}
    assert float(shares(exercise)[index]) == registered[name]


def felt(exercise: Exercise, load: str, mass: int, *, female: bool) -> float:
    """Felt kilograms of a load in kilograms at this body mass."""
    return float(
        felt_kg(
            exercise,
            Fraction(load),
            Unit.KG,
            LoadReading.TOTAL,
            Fraction(mass),
            female=female,
        )
    )


def test_felt_load_of_chin_ups_and_push_ups() -> None:
    """Checks 31 and 33 of the loads evidence (segments: de Leva 1996; push-up: Mier 2014)."""
    chin, push, knee = (CATALOGUE[one] for one in ("chin_up", "push_up", "knee_push_up"))
    assert felt(chin, "5", 60, female=True) == pytest.approx(62.67, abs=0.005)
    assert felt(chin, "0", 80, female=False) == pytest.approx(76.43, abs=0.005)
    assert felt(push, "0", 60, female=True) == pytest.approx(40.6, abs=0.05)
    assert felt(knee, "0", 60, female=True) == pytest.approx(32.4, abs=0.05)


def test_help_is_a_negative_load() -> None:
    """A chin-up with 20 kg of help feels 20 kg less than one without."""
    chin = CATALOGUE["chin_up"]
    helped, alone = (felt(chin, load, 60, female=True) for load in ("-20", "0"))
    assert alone - helped == pytest.approx(20)


def test_a_bar_on_the_back_is_counted_as_the_bar_says() -> None:
    """Published load and rep tables of squat and deadlift are in bar load."""
    for one in ("back_squat_free", "front_squat", "guided_bar_squat", "conventional_deadlift"):
        assert felt(CATALOGUE[one], "60", 70, female=True) == 60
