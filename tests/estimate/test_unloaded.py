"""Sets whose load was not noted: they tire, and teach nothing of strength."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest

from pennate.core.history import History
from pennate.core.load_words import NO_LOAD, lacks_load, told_load_words
from pennate.core.performed import Effort, PerformedSet
from pennate.core.quantities import LoadReading
from pennate.estimate import Person, StrengthModel, explain, exposure_of, fit, one_step_ahead, trace
from pennate.files.catalogue import read_catalogue

from .logs import START, one_set

CATALOGUE = read_catalogue()

WEEKS = 12


def bare(done: PerformedSet) -> PerformedSet:
    """The same set with its load left out."""
    return replace(done, load=None, unit=None)


def benches(*, without: frozenset[int] = frozenset()) -> History:
    """Three sets of bench press to failure a week; some of each session say no load."""
    sets = [
        one_set(START + timedelta(weeks=week), number, "bench_press", 40, reps, Effort.FAIL)
        for week in range(WEEKS)
        for number, reps in ((1, 10), (2, 8), (3, 7))
    ]
    return History.of([bare(one) if one.number in without else one for one in sets])


def one_rep(history: History) -> float:
    """1RM of the bench press a week after the log."""
    asked = exposure_of(next(iter(benches())), CATALOGUE)
    ahead = replace(asked, when=START + timedelta(weeks=WEEKS))
    return fit(history, CATALOGUE).estimate(ahead).one_rep_kg


def test_a_log_without_loads_leaves_strength_where_it_began() -> None:
    """Nothing on the bar would be read as a 1RM of two kilograms; weeks of training do count."""
    nothing = one_rep(History.of([]))
    assert one_rep(benches(without=frozenset({1, 2, 3}))) == pytest.approx(nothing, rel=0.03)


def test_a_log_with_some_loads_is_judged_by_those() -> None:
    """A forgotten load here and there hardly moves what the others say."""
    whole = one_rep(benches())
    for number in (1, 2, 3):
        some = one_rep(benches(without=frozenset({number})))
        assert some == pytest.approx(whole, rel=0.05)


@pytest.mark.parametrize("called", ["bands", "red loop", "Resistance Band"])
def test_a_band_whose_pull_is_not_told_moves_no_strength(called: str) -> None:
    """Weeks of curls on a band, by any name, are no curls of nothing with the dumbbells."""
    curl = one_set(START, 1, "curl", 10, 15, Effort.FAIL)
    on_band = [
        replace(bare(curl), when=START + timedelta(weeks=week), number=number, equipment=called)
        for week in range(8)
        for number in (1, 2, 3)
    ]
    asked = replace(exposure_of(curl, CATALOGUE), when=START + timedelta(weeks=9))
    told, nothing = (
        fit(History.of(sets), CATALOGUE).estimate(asked).one_rep_kg for sets in (on_band, [])
    )
    assert told == pytest.approx(nothing, rel=0.03)


def test_a_set_without_its_load_tires_the_next() -> None:
    """The third set of a session meets the second, whether its load was noted or not."""
    log = benches()
    last = max(done.day for done in log)
    second = next(one for one in log if one.day == last and one.number == 2)
    others = [one for one in log if one is not second]
    noted, forgotten, not_done = (
        list(one_step_ahead(History.of(sets), CATALOGUE))[-1][1]
        for sets in (list(log), [*others, bare(second)], others)
    )
    assert noted is not None
    assert forgotten is not None
    assert not_done is not None
    assert forgotten.mean == pytest.approx(noted.mean, abs=0.3)
    assert not_done.mean > forgotten.mean + 0.5


def test_a_session_of_such_sets_is_no_point_of_strength() -> None:
    """Dated strength, and with it what is called a stall, rests on sets that told something."""
    log = benches()
    last = max(done.day for done in log)
    history = History.of([bare(one) if one.day == last else one for one in log])
    asked = exposure_of(next(iter(log)), CATALOGUE)
    points = trace(fit(history, CATALOGUE), asked)
    assert len(points) == WEEKS - 1
    assert last not in {one.day for one in points}


def test_replaying_and_stepping_agree_on_them() -> None:
    """Nothing is forecast where no load is known, and each other set has its forecast."""
    history = benches(without=frozenset({2}))
    for done, forecast in one_step_ahead(history, CATALOGUE):
        assert (forecast is None) == (done.number == 2)


def test_they_are_not_named_among_what_moved_a_strength() -> None:
    """“At body weight” was said of a bench press."""
    history = benches(without=frozenset({3}))
    asked = replace(
        exposure_of(next(iter(history)), CATALOGUE), when=START + timedelta(weeks=WEEKS)
    )
    found = explain(history, asked, CATALOGUE, Person())
    assert found.influences
    assert all(one.done.load for one in found.influences)


def test_a_remembered_set_without_its_load_hints_at_nothing() -> None:
    """Records of before may hold one."""
    model, fresh = StrengthModel.start(CATALOGUE), StrengthModel.start(CATALOGUE)
    asked = exposure_of(bare(SET), CATALOGUE)
    model.remembered(asked, 8)
    assert model.estimate(asked) == fresh.estimate(asked)


SET = one_set(date(2026, 1, 5), 1, "bench_press", 40, 8)


@pytest.mark.parametrize(
    ("done", "lacks"),
    [
        (SET, False),
        (bare(SET), True),
        (replace(SET, load=Fraction(0)), True),
        (replace(SET, load=Fraction(0), reading=LoadReading.SIDE), False),
        (replace(bare(SET), exercise="chin_up"), False),
        (replace(bare(SET), exercise="bench of my own"), False),
        (replace(bare(SET), exercise="curl"), True),
        (replace(bare(SET), exercise="curl", equipment="bands"), True),
        (replace(SET, exercise="curl", equipment="bands", reading=LoadReading.LABEL), False),
        (replace(bare(SET), exercise="curl", seconds=Fraction(30)), False),
    ],
)
def test_a_load_is_missed_where_there_must_have_been_one(
    done: PerformedSet, *, lacks: bool
) -> None:
    """Her body, a hold, an empty bar and an unknown exercise need no number."""
    known = CATALOGUE.exercises.get(done.exercise)
    assert lacks_load(done, known) is lacks
    assert (told_load_words(done, known) == NO_LOAD) is lacks
