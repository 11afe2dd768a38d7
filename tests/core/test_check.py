"""Questions about readable but improbable values; the bounds are our own choice."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from fractions import Fraction

import pytest

from pennate.core.check import Asked, questions_about
from pennate.core.history import History
from pennate.core.performed import Effort, PerformedSet, SetKind
from pennate.core.quantities import Unit
from pennate.files.catalogue import read_catalogue

CATALOGUE = read_catalogue()
TODAY = date(2026, 3, 31)


def done(number: int = 1, load: str | None = "40", reps: int = 8, **rest: object) -> PerformedSet:
    """A set of one session."""
    values: dict[str, object] = {
        "when": date(2026, 3, 2), "session": "A", "exercise": "hip_thrust", "unit": Unit.KG,
    } | rest  # fmt: skip
    mass = None if load is None else Fraction(load)
    return PerformedSet(id="", number=number, load=mass, reps=reps, **values)  # type: ignore[arg-type]  # a mixed bag


def asked(*sets: PerformedSet) -> list[tuple[str, int]]:
    """Field and set number of every question."""
    history = History.of(sets)
    places = {one.identity: one.number for one in history}
    found = questions_about(Asked(history, CATALOGUE, TODAY))
    return [(question.field, places[question.about]) for question in found]


def test_an_ordinary_session_raises_nothing() -> None:
    """Ramp, top set, back-offs and a drop are all in order."""
    loads = [("20", SetKind.WARM_UP), ("60", SetKind.WARM_UP), ("100", SetKind.TOP)]
    loads += [("80", SetKind.BACK_OFF), ("80", SetKind.BACK_OFF), ("45", SetKind.DROP)]
    assert asked(*(done(n, load, kind=kind) for n, (load, kind) in enumerate(loads, 1))) == []


@pytest.mark.parametrize(("typed", "meant"), [("400", "40"), ("4", "40"), ("4.25", "42.5")])
def test_a_digit_too_many_or_too_few(typed: str, meant: str) -> None:
    """400 for 40 is asked about, and the sentence shows what stands around it."""
    sets = [done(n, typed if n == 3 else meant) for n in range(1, 7)]
    assert asked(*sets) == [("load", 3)]
    (question,) = questions_about(Asked(History.of(sets), CATALOGUE))
    assert f"near {Fraction(meant) * 1.0:g} kg" in question.text


def test_the_first_set_ever_is_compared_with_those_after_it() -> None:
    """A slip in the first row is found from what follows."""
    assert asked(*(done(n, "400" if n == 1 else "40") for n in range(1, 6))) == [("load", 1)]


def test_a_real_step_is_not_a_slip() -> None:
    """A change that stays, as on another machine, is asked about at most once."""
    sets = [done(n, "20" if n <= 6 else "70") for n in range(1, 13)]
    assert len(asked(*sets)) <= 1


def test_more_than_the_equipment_carries() -> None:
    """Without any history a load of half a tonne is still asked about."""
    assert asked(done(1, "900")) == [("load", 1)]


def test_pounds_taken_for_kilograms() -> None:
    """Steady loads and one 2.2 times as large smell of another unit."""
    sets = [done(n, "88" if n == 4 else "40") for n in range(1, 8)]
    (question,) = questions_about(Asked(History.of(sets), CATALOGUE))
    assert "pounds and kilograms" in question.text


@pytest.mark.parametrize(
    ("field", "one"),
    [
        ("reps", done(reps=101)),
        ("reps", done(reps=0)),
        ("rest_s", done(rest_s=Fraction(90_000))),
        ("seconds", done(reps=1, seconds=Fraction(45_000))),
        ("body_mass_kg", done(body_mass_kg=Fraction(624))),
        ("date", done(when=TODAY + timedelta(days=2))),
        ("date", done(when=date(202, 3, 2))),
    ],
)
def test_single_values_out_of_bounds(field: str, one: PerformedSet) -> None:
    """Each check speaks for its own column."""
    assert asked(one) == [(field, 1)]


def test_tomorrow_may_be_today_elsewhere() -> None:
    """A lifter east of us may be a day ahead."""
    assert asked(done(when=TODAY + timedelta(days=1))) == []


def test_a_day_to_come_is_asked_about_once() -> None:
    """Twenty sets on a wrong day are one question."""
    day = TODAY + timedelta(days=40)
    assert asked(*(done(n, when=day) for n in range(1, 21))) == [("date", 1)]


def test_a_missed_first_rep_is_fine() -> None:
    """No reps with a miss noted is a set like any other."""
    assert asked(done(reps=0, effort=Effort.FAIL)) == []


def test_eighty_reps_for_eight() -> None:
    """Reps are compared with those around."""
    assert asked(*(done(n, reps=80 if n == 3 else 8) for n in range(1, 7))) == [("reps", 3)]


def test_body_mass_that_jumps() -> None:
    """A pound written for a kilogram shows against the days around."""
    sets = [done(n, body_mass_kg=Fraction(138 if n == 3 else 62)) for n in range(1, 7)]
    assert asked(*sets) == [("body_mass_kg", 3)]


def test_a_clock_that_runs_back() -> None:
    """A later set with an earlier time is asked about."""
    at = datetime.fromisoformat("2026-03-02T18:00")
    assert asked(done(1, when=at), done(2, when=at - timedelta(minutes=5))) == [("set", 2)]


def test_one_place_with_two_sets() -> None:
    """Two phones counted the same number."""
    one, two = done(1), done(1, reps=9)
    assert [field for field, _ in asked(one, two)] == ["set"]
