"""A load written ten times too high or low, alone or beside a body or a bar."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.core.history import History
from pennate.core.performed import Effort, PerformedSet, SetKind
from pennate.core.quantities import LoadReading
from pennate.estimate import Exposure, ExposureReader, fit
from pennate.estimate.look import believed_load
from pennate.estimate.model import StrengthModel
from pennate.estimate.slips import likely_load
from pennate.files.catalogue import read_catalogue
from tests.estimate.logs import START, asked, one_set

CATALOGUE = read_catalogue()


def _written(kg: float, kind: SetKind = SetKind.WORKING) -> Exposure:
    return Exposure(
        when=START, session="a", exercise="bench_press", felt_kg=kg, kind=kind, chosen=True
    )


def _chin_ups(loads: Sequence[float], reps: int = 8) -> list[PerformedSet]:
    """Three sets a session with so much added, or taken off where it is below zero."""
    return [
        one_set(START + timedelta(days=3 * day), number, "chin_up", kg, reps, Effort.TWO)
        for day, kg in enumerate(loads)
        for number in (1, 2, 3)
    ]


def _read(rows: Sequence[PerformedSet], last: PerformedSet) -> float:
    """Felt kilograms that the last set is believed to be, after the rows before it."""
    model = fit(History.of(rows), CATALOGUE)
    exposure = ExposureReader(CATALOGUE).exposure(last)
    model.meet(exposure)
    return believed_load(model, exposure, model.track(exposure))


def _felt(kg: float) -> float:
    felt = ExposureReader(CATALOGUE).exposure(one_set(START, 1, "chin_up", kg, 8)).felt_kg
    assert felt is not None
    return felt


def test_slips_are_seen_beside_what_is_usual() -> None:
    """A tenth or ten times the usual load is set right; a ramp or a drop may be light."""
    usual = math.log(60)
    assert likely_load(_written(600), usual) == pytest.approx(60)
    assert likely_load(_written(6), usual) == pytest.approx(60)
    assert likely_load(_written(6, SetKind.WARM_UP), usual) == pytest.approx(6)
    assert likely_load(_written(80), usual) == pytest.approx(80)


def test_a_ramp_is_not_three_times_what_it_leads_to() -> None:
    """A ramp of 330 kg before sets with 60 kg was one of 33; one of 70 kg may well be meant."""
    usual = math.log(60)
    assert likely_load(_written(330, SetKind.WARM_UP), usual) == pytest.approx(33)
    assert likely_load(_written(70, SetKind.WARM_UP), usual) == pytest.approx(70)


def test_a_slip_in_the_very_first_set_is_seen() -> None:
    """A first bench press of 400 kg is read as 40 kg: ten times too much is beyond anyone."""
    rows = [one_set(START + timedelta(days=3 * day), 1, "bench_press", 40, 10) for day in range(8)]
    slipped = [one_set(START, 1, "bench_press", 400, 10), *rows[1:]]
    plain = fit(History.of(rows), CATALOGUE).estimate(asked())
    found = fit(History.of(slipped), CATALOGUE).estimate(asked())
    assert found.one_rep_kg == pytest.approx(plain.one_rep_kg, rel=0.02)


@pytest.mark.parametrize(
    ("usual", "written"), [(5, 50), (2.5, 25), (20, 200), (-5, -50), (-20, -200), (-45, -450)]
)
def test_beside_her_body_the_written_part_alone_slips(usual: float, written: float) -> None:
    """Chin-ups with 5 kg for weeks, then 50: the zero too much is seen, though her whole load
    did not grow tenfold; with help from a machine alike.
    """
    rows = _chin_ups([usual] * 8)
    slipped = one_set(START + timedelta(days=24), 1, "chin_up", written, 8, Effort.TWO)
    assert _read(rows, slipped) == pytest.approx(_felt(usual))


def test_beside_a_bar_the_plates_alone_slip() -> None:
    """Ten a side for weeks, then a hundred: the bar does not hide the zero too much."""
    exposure = Exposure(
        when=START, session="a", exercise="bench_press", felt_kg=220.0, chosen=True,
        carried_kg=20.0, written_kg=200.0,
    )  # fmt: skip
    assert likely_load(exposure, math.log(40)) == pytest.approx(40)


@given(st.sampled_from([1.0, 1.25, 2.5, 5.0]), st.integers(8, 30))
def test_progress_beside_her_body_is_no_slip(step: float, sessions: int) -> None:
    """From her body alone up by small steps, week by week, every load is read as written."""
    reader, model = ExposureReader(CATALOGUE), StrengthModel.start(CATALOGUE)
    for done in _chin_ups([step * session for session in range(sessions)]):
        exposure = reader.exposure(done)
        model.assume(exposure, done.reps)
        assert believed_load(model, exposure, model.track(exposure)) == exposure.felt_kg


@pytest.mark.parametrize(("usual", "then"), [(0, 25), (0, -40), (10, 25), (25, 2.5), (25, 0)])
def test_another_load_beside_her_body_is_no_slip(usual: float, then: float) -> None:
    """A heavy day, a light day, help after a pause: loads that are not ten times the usual."""
    rows = _chin_ups([usual] * 8)
    changed = one_set(START + timedelta(days=24), 1, "chin_up", then, 8, Effort.TWO)
    assert _read(rows, changed) == pytest.approx(_felt(then))


def test_ten_times_as_much_that_stays_is_believed() -> None:
    """From one kilogram to ten at once: doubted at first, and by the third set no more."""
    rows = _chin_ups([1] * 6 + [10])
    last = one_set(START + timedelta(days=21), 1, "chin_up", 10, 8, Effort.TWO)
    assert _read(rows, last) == pytest.approx(_felt(10))


def test_what_is_carried_and_written_makes_up_the_load() -> None:
    """Body and added load are told apart for chin-ups, and nothing is carried at a bench."""
    chin = ExposureReader(CATALOGUE).exposure(one_set(START, 1, "chin_up", 7.5, 8))
    assert chin.carried_kg + chin.written_kg == pytest.approx(chin.felt_kg)
    assert chin.written_kg == pytest.approx(7.5)
    bench = ExposureReader(CATALOGUE).exposure(one_set(START, 1, "bench_press", 40, 8))
    assert (bench.carried_kg, bench.written_kg) == (0.0, 0.0)


def test_a_label_beside_her_body_stays_what_the_pin_says() -> None:
    """Help read from a machine's pin counts as written, like any load beside her body."""
    done = one_set(START, 1, "chin_up", -20, 8, reading=LoadReading.LABEL)
    exposure = ExposureReader(CATALOGUE).exposure(done)
    assert exposure.written_kg == pytest.approx(-20)
