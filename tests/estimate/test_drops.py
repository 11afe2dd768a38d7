"""Fatigue where a lighter load follows: between a share of strength and a share of reps."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.core.performed import Effort, SetKind
from pennate.estimate import Exposure, Outcome, Person, StrengthModel
from pennate.estimate import belief as b
from pennate.estimate.clock import woken
from pennate.estimate.fatigue import Lift, Tired, deficit, lighter_by
from pennate.estimate.settings import DEFAULTS
from pennate.files.catalogue import read_catalogue
from tests.estimate.logs import START

CATALOGUE = read_catalogue()
ROOM = 0.25
KG = 40.0


def _tired(slow: float) -> Tired:
    return Tired(slow, 0.0, 0.0, 0.0, 0.0, log_load=math.log(KG), room=ROOM)


def _taken(kg: float, power: float, slow: float = 0.1) -> float:
    """Log capacity that fatigue takes at a load, right after the set that tired."""
    tired = _tired(slow)
    met = (1.0, lighter_by(tired, math.log(kg)), tired)
    return deficit([met], 0.0, 180.0, 75.0, Lift(math.log(kg), power, 1.0, 1.0)).slow


def test_the_two_laws_at_the_ends_of_the_power() -> None:
    """Power 0 takes the same share of strength at every load; power 1 the same share of the room,
    which is the same share of the reps: a work capacity drawn on (Skiba 2012, its definition).
    """
    lighter = 0.8 * KG
    room = ROOM - math.log(0.8)
    assert _taken(lighter, 0.0) == pytest.approx(0.1)
    assert _taken(lighter, 1.0) / room == pytest.approx(0.1 / ROOM)
    assert _taken(KG, 1.0) == pytest.approx(0.1), "at the load that tired both are the same"


@given(st.floats(0.0, 1.0), st.floats(0.0, 0.6), st.floats(8, 90), st.floats(0.01, 30))
@settings(max_examples=200, deadline=None)
def test_a_lighter_load_is_never_harder(power: float, slow: float, kg: float, more: float) -> None:
    """However tired, log capacity less load and fatigue falls as the load rises."""
    light, heavy = (-math.log(load) - _taken(load, power, slow) for load in (kg, kg + more))
    assert heavy < light + 1e-12


def _done(model: StrengthModel, exposure: Exposure, reps: int) -> None:
    model.observe(replace(exposure, chosen=True), Outcome(reps, Effort.FAIL))


def _drop(exposure: Exposure) -> Exposure:
    return replace(exposure, felt_kg=0.8 * KG, kind=SetKind.DROP, rest_s=15.0)


def _seen(drop_reps: int) -> StrengthModel:
    """Eight sessions of a set of ten to failure, and a drop of a fifth of the load after it."""
    model = StrengthModel.start(CATALOGUE, Person())
    for week in range(8):
        first = Exposure(
            when=START + timedelta(weeks=week), session="a", exercise="curl", felt_kg=KG
        )
        _done(model, first, 10)
        _done(model, replace(first, rest_s=150.0), 7)
        _done(model, _drop(first), drop_reps)
    return model


def test_her_drops_teach_her_power() -> None:
    """Of two people alike in straight sets, fewer reps in drops mean a higher power."""
    few, many = (float(_seen(reps).belief.mean[b.LIGHTER]) for reps in (3, 12))
    assert few > many
    assert few > 0.0


@pytest.mark.parametrize("reps", [4, 8, 12])
@pytest.mark.parametrize("lighter", [0.0, 0.5, 1.0])
@pytest.mark.parametrize("sets", [1, 4])
def test_a_load_found_for_a_drop_has_the_chance_asked(reps: int, lighter: float, sets: int) -> None:
    """What fatigue takes depends on the load that is sought; the one found holds what it says."""
    model = StrengthModel.start(CATALOGUE, Person(), replace(DEFAULTS, lighter=lighter))
    first = Exposure(when=START, session="a", exercise="curl", felt_kg=KG)
    for number in range(sets):
        _done(model, replace(first, rest_s=20.0), max(10 - 4 * number, 1))
    asked = _drop(first)
    found = model.load_for(asked, reps, 0.7)
    chance = model.forecast(replace(asked, felt_kg=found)).at_least(reps)
    assert chance == pytest.approx(0.7, abs=0.001)


def test_how_an_exercise_tires_her_may_change_with_the_weeks() -> None:
    """Long after, what was learned of its curve and tiring is less sure, and its mean the same."""
    model = StrengthModel.start(CATALOGUE)
    for week in range(4):
        day = START + timedelta(weeks=week)
        exposure = Exposure(when=day, session="a", exercise="curl", felt_kg=KG)
        for _ in range(3):
            _done(model, exposure, 10)
    own = model.settled().resting["curl"]
    then, learned = own.since.week, model.learned
    soon, late = (
        woken(own, clock, learning=0.0, gain=0.0, settings=DEFAULTS, learned=learned)
        for clock in (replace(model.clock, week=then + weeks) for weeks in (1.0, 9.0))
    )
    for place, spread in (
        (b.OWN_SLOPE, DEFAULTS.slope_exercise_sd),
        (b.OWN_SHAPE, DEFAULTS.shape_exercise_sd),
        (b.OWN_SLOW, DEFAULTS.slow_own_sd),
        (b.OWN_ACUTE, DEFAULTS.acute_own_sd),
    ):
        gained = late.rest[place, place] - soon.rest[place, place]
        assert gained == pytest.approx(8 * (DEFAULTS.ways_drift * spread) ** 2)
        assert late.at[place] == soon.at[place] == own.at[place]
