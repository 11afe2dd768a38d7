"""What exercises owe to one day or to a change of the person stays common while they rest."""

from __future__ import annotations

import math
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.core.performed import Effort, Side
from pennate.estimate import Exposure, Outcome, StrengthModel
from pennate.estimate import belief as b
from pennate.estimate.belief import Clock
from pennate.estimate.clock import first_belief
from pennate.estimate.exposure import Person
from pennate.estimate.settings import DEFAULTS
from pennate.files.catalogue import read_catalogue

CATALOGUE = read_catalogue()
START = date(2026, 1, 5)
REPS = 10
SHOWN = 0.06
"""Log load that she is weaker by than was expected."""
KG = {"bench_press": 40.0, "seated_leg_curl": 35.0, "curl": 18.0, "hammer_curl": 14.0}


def _on(exercise: str, day: date, kg: float = 1.0, side: Side | None = None) -> Exposure:
    return Exposure(
        when=day, session="a", exercise=exercise, felt_kg=KG[exercise] * kg, rest_s=240.0, side=side
    )


def _trained(weeks: int = 12) -> StrengthModel:
    """She fails at ten reps of everything, twice a week, each half of it on days of its own."""
    model = StrengthModel.start(CATALOGUE)
    for week in range(weeks):
        for at, names in enumerate((("bench_press", "curl"), ("seated_leg_curl", "hammer_curl"))):
            day = START + timedelta(weeks=week, days=3 * at)
            for name in names:
                model.observe(_on(name, day), Outcome(REPS, Effort.FAIL))
    return model


def test_what_a_layoff_took_from_one_exercise_is_expected_of_the_others() -> None:
    """Back after ten weeks and weak on one exercise, she is forecast weaker on one she did not
    do that day, by a good part of it, four days later.
    """
    model = _trained()
    back = START + timedelta(weeks=22)
    as_expected = model.load_for(_on("bench_press", back), REPS, 0.5) / KG["bench_press"]
    loads = []
    for shown in (as_expected, as_expected * math.exp(-SHOWN)):
        seen = model.copy()
        for _ in range(2):
            seen.observe(_on("bench_press", back, shown), Outcome(REPS, Effort.FAIL))
        loads.append(seen.load_for(_on("seated_leg_curl", back + timedelta(days=4)), REPS, 0.5))
    usual, weak = loads
    assert 0.2 * SHOWN < math.log(usual / weak) < SHOWN


def _belief(seed: int, families: int) -> tuple[b.Belief, dict[str, np.ndarray]]:
    """A belief with families awake that have learned from each other, and their own levels."""
    rng = np.random.default_rng(seed)
    belief = first_belief(DEFAULTS, Person())
    levels = {}
    for index in range(families):
        name, nodes = f"family {index}", tuple(f"node {at}" for at in range(rng.integers(1, 4)))
        size = b.FAMILY + len(nodes)
        sd = np.diag(rng.uniform(0.01, 0.3, size) ** 2)
        by = np.zeros((size, b.LASTING))
        start = Clock.start()
        belief.wake(name, b.Resting(np.zeros(size), by, sd, nodes, start))
        level = np.zeros((1, size))
        level[0, b.LEVEL] = level[0, b.FAMILY] = 1.0
        levels[name] = level
    for _ in range(3 * families):
        row = rng.normal(size=len(belief.mean))
        direction = belief.cov.dot(row)
        variance = float(row.dot(direction))
        belief.move(direction, variance, float(rng.normal(0, 0.1)), 0.3 * variance)
    return belief, levels


def _surest(belief: b.Belief, family: str, level: np.ndarray) -> np.ndarray:
    """The family's own level where it is known best, as loadings on the whole belief."""
    start = belief.offsets[family]
    own = slice(start, start + level.shape[1])
    among = belief.cov[: b.LASTING, : b.LASTING]
    cross = belief.cov[own, : b.LASTING]
    left = belief.cov[own, own] - cross @ np.linalg.inv(among) @ cross.T
    ways = slice(b.OWN_SLOPE, b.OWN_DAY)
    row = np.zeros(len(belief.mean))
    row[own] = level[0]
    row[own][ways] -= np.linalg.solve(left[ways, ways], left[ways] @ level[0])
    return row


@given(seed=st.integers(0, 10_000), families=st.integers(1, 4))
@settings(max_examples=40, deadline=None)
def test_a_night_s_rest_loses_nothing_of_what_levels_have_in_common(
    seed: int, families: int
) -> None:
    """Put to rest and woken at once, shared factors and levels are jointly what they were, and
    each family by itself is too.
    """
    belief, levels = _belief(seed, families)
    rows = [_surest(belief, family, level) for family, level in levels.items()]
    looked = np.array([*np.eye(len(belief.mean))[: b.LASTING], *rows])
    before, places = (looked @ belief.mean, looked @ belief.cov @ looked.T), _places(belief, levels)
    alone = {family: belief.cov[np.ix_(own, own)] for family, own in places.items()}
    resting = belief.rest(levels, Clock.start())
    for family in levels:
        belief.wake(family, resting[family])
    moved = np.zeros((len(looked), len(belief.mean)))
    moved[:, : b.SHARED] = looked[:, : b.SHARED]
    for family, own in _places(belief, levels).items():
        moved[:, own] = looked[:, places[family]]
        assert belief.cov[np.ix_(own, own)] == pytest.approx(alone[family], abs=1e-7)
    assert moved @ belief.mean == pytest.approx(before[0], abs=1e-7)
    assert moved @ belief.cov @ moved.T == pytest.approx(before[1], abs=1e-7)


def _places(belief: b.Belief, levels: dict[str, np.ndarray]) -> dict[str, list[int]]:
    """Where each family's elements are."""
    return {
        family: list(range(start, start + levels[family].shape[1]))
        for family, start in belief.offsets.items()
    }


def test_a_session_without_a_known_load_can_be_closed() -> None:
    """A visit of which nothing teaches anything leaves the belief as time alone would."""
    model = _trained(3)
    day = START + timedelta(weeks=4)
    idle = model.copy()
    idle.pass_by(Exposure(when=day, session="a", exercise="leg_press", felt_kg=None), 8)
    asked = _on("curl", day + timedelta(days=2))
    assert idle.load_for(asked, REPS, 0.5) == pytest.approx(model.load_for(asked, REPS, 0.5), 1e-3)


def test_both_sides_of_an_exercise_rest_together() -> None:
    """Left and right done on one day keep their own strengths through the nights between."""
    model = StrengthModel.start(CATALOGUE)
    for week in range(6):
        day = START + timedelta(weeks=week)
        model.observe(_on("curl", day, 1.0, Side.LEFT), Outcome(REPS, Effort.FAIL))
        model.observe(_on("curl", day, 1.1, Side.RIGHT), Outcome(REPS, Effort.FAIL))
    day = START + timedelta(weeks=6)
    left, right = (
        model.load_for(_on("curl", day, 1.0, side), REPS, 0.5) for side in (Side.LEFT, Side.RIGHT)
    )
    assert math.log(right / left) == pytest.approx(math.log(1.1), abs=0.03)
