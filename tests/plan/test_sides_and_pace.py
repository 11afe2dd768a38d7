"""What the log says to the week by itself: left against right, and how long sessions take.

Both are held against made-up lifters whose truth is known; no published value is used here.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest

from pennate.app.book import Book
from pennate.app.exchange import import_log
from pennate.app.week_log import pace_of, sides_of
from pennate.core.evidence.audit import SIDE_SD_TIMES
from pennate.core.evidence.plan import PACE_PRIOR_SESSIONS, TIME_SD_LOG, Z_90
from pennate.core.evidence.strength import SIDE_SD
from pennate.core.history import History
from pennate.core.performed import Effort, PerformedSet, Side
from pennate.core.quantities import LoadReading, Unit
from pennate.core.week_time import Pace, day_minutes
from pennate.estimate import Exposure, ExposureReader, StrengthModel, outcome_of
from pennate.estimate.sides import side_difference
from pennate.files.catalogue import read_catalogue
from pennate.files.log import write_log
from tests.plan.floor import FLOOR, day, sets

CATALOGUE = read_catalogue()
ROW = "dumbbell_row_one_arm"
KG, SLOPE = 24.0, 0.0255
NOW = datetime(2026, 3, 30, 12, tzinfo=UTC)


def _row(when: date, number: int, side: Side, reps: int, exercise: str = ROW) -> PerformedSet:
    """A set of one arm to failure with 24 kg."""
    return PerformedSet(
        id="",
        when=when,
        session="a",
        number=number,
        exercise=exercise,
        reps=reps,
        load=Fraction(24),
        unit=Unit.KG,
        reading=LoadReading.EACH,
        effort=Effort.FAIL,
        side=side,
        rest_s=Fraction(150),
    )


def _lifter(gap: float, *, seed: int, sessions: int = 10) -> History:
    """Both arms to failure, in turn first; the right is stronger by `gap` of its log strength.

    Shared days vary by 3 %, each set by one rep: usual sizes, nothing of our model's.
    """
    rng, rows = Random(seed), []
    for visit in range(sessions):
        when, today = date(2026, 1, 5) + timedelta(days=4 * visit), rng.gauss(0, 0.03)
        sides = (Side.LEFT, Side.RIGHT) if visit % 2 else (Side.RIGHT, Side.LEFT)
        for number in range(6):
            side = sides[number % 2]
            own = today + (gap / 2 if side is Side.RIGHT else -gap / 2)
            reps = 10 + own / SLOPE - 0.7 * (number // 2) + rng.gauss(0, 1)
            rows.append(_row(when, number + 1, side, max(1, round(reps))))
    return History.of(rows)


def _told(history: History) -> tuple[float, float]:
    """What the model says of the two sides after the whole log."""
    model, reader = StrengthModel.start(CATALOGUE), ExposureReader(CATALOGUE)
    for done in history:
        model.observe(reader.exposure(done), outcome_of(done))
    left, right = _asking(reader)
    found = side_difference(model, left, right)
    assert found is not None
    return found


def _asking(reader: ExposureReader) -> tuple[Exposure, Exposure]:
    base = reader.exposure(_row(date(2026, 4, 1), 1, Side.LEFT, 10))
    return base, replace(base, side=Side.RIGHT)


def test_nothing_logged_says_nothing() -> None:
    """Before any set the sides are alike, as uncertain as two sides are (register)."""
    model, reader = StrengthModel.start(CATALOGUE), ExposureReader(CATALOGUE)
    found = side_difference(model, *_asking(reader))
    assert found == pytest.approx((0.0, SIDE_SD * math.sqrt(2)))


@pytest.mark.parametrize("gap", [-0.12, 0.0, 0.08])
def test_the_interval_holds_the_true_difference(gap: float) -> None:
    """Of twelve made-up lifters the 95 % interval as told misses two at most, and is narrow."""
    told = [_told(_lifter(gap, seed=seed)) for seed in range(12)]
    missed = sum(abs(mean - gap) > 1.96 * SIDE_SD_TIMES * sd for mean, sd in told)
    assert missed <= 2
    assert all(sd < SIDE_SD for _, sd in told)
    middle = sum(mean for mean, _ in told) / len(told)
    assert middle == pytest.approx(gap, abs=0.03)


def test_left_and_right_are_named_rightly() -> None:
    """Exchanging the sides in a log turns the sign of the difference and leaves its error."""
    history = _lifter(0.1, seed=3)
    other = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}
    turned = History.of([replace(one, side=other[one.side]) for one in history if one.side])
    (mean, sd), (back, sd_back) = _told(history), _told(turned)
    assert mean > 0
    assert back == pytest.approx(-mean, abs=1e-9)
    assert sd_back == pytest.approx(sd)


def test_what_both_sides_share_cancels() -> None:
    """A much stronger lifter with the same reps apart has the same difference (10 % more load)."""
    history = _lifter(0.1, seed=5)
    heavier = History.of([replace(one, load=Fraction("26.4")) for one in history])
    assert _told(heavier)[0] == pytest.approx(_told(history)[0], abs=0.02)


def test_two_exercises_are_not_compared_as_sides() -> None:
    """Left of one family against right of another is no difference of sides."""
    model, reader = StrengthModel.start(CATALOGUE), ExposureReader(CATALOGUE)
    left, _ = _asking(reader)
    other = reader.exposure(_row(date(2026, 4, 1), 1, Side.RIGHT, 10, "split_squat"))
    assert side_difference(model, left, other) is None


def test_asking_changes_nothing() -> None:
    """The model forecasts the same after it was asked about sides."""
    model, reader = StrengthModel.start(CATALOGUE), ExposureReader(CATALOGUE)
    for done in _lifter(0.1, seed=1, sessions=4):
        model.observe(reader.exposure(done), outcome_of(done))
    left, right = _asking(reader)
    before = model.forecast(left)
    side_difference(model, left, right)
    assert model.forecast(left) == before


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    """Empty records, told a Monday noon."""
    found = Book.open(tmp_path / "records", lambda: NOW, Random(1))
    yield found
    found.close()


def _take(book: Book, rows: list[PerformedSet], folder: Path) -> None:
    log = folder / "log.csv"
    log.write_text(write_log(History.of(rows)), encoding="utf-8")
    import_log(book.ledger, log, now=NOW, rng=book.rng)


def test_sides_come_from_the_records(book: Book, tmp_path: Path) -> None:
    """Sets of both sides, sessions, and a clear difference reach the audit."""
    later = timedelta(weeks=7)
    rows = [replace(one, when=one.day + later) for one in _lifter(0.15, seed=2, sessions=8)]
    _take(book, rows, tmp_path)
    [found] = sides_of(book)
    assert found.exercise == ROW
    assert found.left == found.right
    assert found.gap is not None
    assert found.gap.clear
    assert found.gap.ends[0] < math.expm1(0.15) < found.gap.ends[1]


# Pace


def test_no_sessions_leave_the_time_model() -> None:
    """Factor 1 and the registered spread, for none."""
    assert Pace.from_sessions([]) == Pace(1.0, TIME_SD_LOG, 0)


@pytest.mark.parametrize("count", [1, 4, 12, 100])
def test_the_factor_is_drawn_to_the_model_by_some_sessions(count: int) -> None:
    """N sessions a third longer give the factor (4/3)^(n / (n + prior)): a mean of logs."""
    pace = Pace.from_sessions([(45.0, 60.0)] * count)
    assert pace.factor == pytest.approx((4 / 3) ** (count / (count + PACE_PRIOR_SESSIONS)))
    assert pace.sessions == count


def test_sessions_that_say_nothing_are_left_out() -> None:
    """A session asked or done in no time has no ratio."""
    assert Pace.from_sessions([(0.0, 60.0), (45.0, 0.0), (45.0, -5.0)]) == Pace.from_sessions([])


@pytest.mark.parametrize(("factor", "spread"), [(1.25, 0.1), (0.8, 0.2), (1.0, 0.05)])
def test_the_interval_of_minutes_holds_nine_in_ten(factor: float, spread: float) -> None:
    """After 40 made-up sessions, the next 400 lie in the 90 % interval 80 to 99 % of the time."""
    rng = Random(11)
    planned = day("Monday", ("squat", sets(4)), ("curl", sets(3)))
    asked = day_minutes(planned, FLOOR).value

    def takes() -> float:
        return asked * factor * math.exp(rng.gauss(0, spread))

    pace = Pace.from_sessions([(asked, takes()) for _ in range(40)])
    minutes = day_minutes(planned, FLOOR, pace)
    inside = sum(minutes.low <= takes() <= minutes.high for _ in range(400)) / 400
    assert 0.8 <= inside <= 0.99
    assert minutes.value == pytest.approx(asked * factor, rel=0.06)
    assert math.log(minutes.high / minutes.value) == pytest.approx(Z_90 * pace.sd_log)


def _session(back_days: int, minutes: float, *, clock: bool = True) -> list[PerformedSet]:
    """Eight sets of curls spread evenly over so many minutes."""
    start = NOW - timedelta(days=back_days)
    return [
        PerformedSet(
            id="",
            when=start + timedelta(minutes=minutes * n / 7) if clock else start.date(),
            session=f"s{back_days}",
            number=n + 1,
            exercise="curl",
            reps=10,
            load=Fraction(10),
            unit=Unit.KG,
            effort=Effort.TWO,
        )
        for n in range(8)
    ]


def test_pace_comes_from_the_clock_of_her_sets(book: Book, tmp_path: Path) -> None:
    """Sessions twice as long give twice the ratio; the factor follows, drawn to the model."""
    short, long = 15.0, 30.0
    _take(book, [one for back in range(1, 41, 4) for one in _session(back, short)], tmp_path)
    first = pace_of(book)
    assert first.sessions == 10
    twice = Book.open(tmp_path / "other", lambda: NOW, Random(1))
    _take(twice, [one for back in range(1, 41, 4) for one in _session(back, long)], tmp_path)
    share = 10 / (10 + PACE_PRIOR_SESSIONS)
    assert pace_of(twice).factor / first.factor == pytest.approx(2**share)
    twice.close()


@pytest.mark.parametrize(
    "rows",
    [
        _session(3, 400),
        _session(3, 4),
        _session(3, 20, clock=False),
        _session(3, 20)[:4],
        _session(80, 20),
    ],
    ids=["a clock left running", "typed in afterwards", "no clock", "too few sets", "long ago"],
)
def test_clocks_that_cannot_be_believed_are_left_out(
    book: Book, tmp_path: Path, rows: list[PerformedSet]
) -> None:
    """Such a session teaches no pace."""
    _take(book, rows, tmp_path)
    assert pace_of(book) == Pace()
