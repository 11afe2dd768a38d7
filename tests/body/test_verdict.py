"""The word and the numbers beside it."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.app.body import growth
from pennate.body.change import Change
from pennate.body.support import Support, expected
from pennate.body.verdict import SiteVerdict, Verdict, long_enough, word
from pennate.core.performed import Side
from tests.body.rows import row, taped


def normal(mean: float, sd: float) -> Change:
    """A change known up to a normal error."""
    return Change(np.ones(1), np.array([mean]), np.array([sd]))


def verdict_of(*rows_of_girths: tuple[float, ...], days: tuple[int, ...]) -> SiteVerdict:
    """The verdict on a left thigh measured on these days."""
    rows = [row(day, *girths) for day, girths in zip(days, rows_of_girths, strict=True)]
    return growth(rows).sites[0]


@pytest.mark.parametrize(
    ("mean", "sd", "enough", "said"),
    [
        (1.0, 0.5, True, Verdict.GROWING),
        (-1.0, 0.5, False, Verdict.LOSING),
        (0.1, 0.25, True, Verdict.HOLDING),
        (0.1, 0.25, False, Verdict.OPEN),
        (0.9, 0.5, True, Verdict.OPEN),
        (0.3, 0.25, True, Verdict.OPEN),
    ],
)
def test_the_word(mean: float, sd: float, enough: bool, said: Verdict) -> None:  # noqa: FBT001 - a table
    """95 % interval without nought, else 90 % within ±1 % of 55 cm and time enough, else open."""
    assert word(normal(mean, sd), 55.0, enough=enough) is said


@given(st.floats(-3, 3), st.floats(0.05, 1.5))
def test_a_change_below_the_detectable_is_never_called(mean: float, sd: float) -> None:
    """|change| < 1.96·SE is neither growing nor losing (reliable change, Jacobson & Truax)."""
    said = word(normal(mean, sd), 55.0, enough=True)
    assert (said in {Verdict.GROWING, Verdict.LOSING}) == (abs(mean) > 1.95996 * sd)


def test_reliable_change_index() -> None:
    """+1.4 with SEM 0.5 is 1.98 standard errors: just called (RCI 1.98 > 1.96)."""
    assert 1.4 / (np.sqrt(2) * 0.5) == pytest.approx(1.98, abs=0.005)
    assert word(normal(1.4, np.sqrt(2) * 0.5), 55.0, enough=True) is Verdict.GROWING


@pytest.mark.parametrize(
    ("weeks", "sessions", "enough"),
    [(7.9, None, False), (8, None, True), (20, 17, False), (6, 18, True)],
)
def test_holding_needs_time(weeks: float, sessions: int | None, enough: bool) -> None:  # noqa: FBT001 - a table
    """Eight weeks, or eighteen sessions where a log is given (Damas 2018)."""
    assert long_enough(weeks, sessions) is enough


def test_clear_growth_is_said_with_its_interval() -> None:
    """Three centimetres on three readings each: growing, interval above nought, a sentence."""
    verdict = verdict_of((55, 55.1, 54.9), (58, 58.1, 57.9), days=(0, 84))
    assert verdict.verdict is Verdict.GROWING
    assert 0 < verdict.low95 < verdict.change_cm < verdict.high95
    assert "growing" in verdict.say
    assert "Left thigh" in verdict.say


def test_growth_follows_the_sign() -> None:
    """The same pair the other way round is losing by as much."""
    up = verdict_of((55, 55.1, 54.9), (58, 58.1, 57.9), days=(0, 84))
    down = verdict_of((58, 58.1, 57.9), (55, 55.1, 54.9), days=(0, 84))
    assert down.verdict is Verdict.LOSING
    assert down.change_cm == pytest.approx(-up.change_cm)


def test_too_early_to_hold() -> None:
    """Two weeks of equal readings are no holding, and the next reading is named."""
    verdict = verdict_of((55, 55, 55), (55, 55, 55), days=(0, 14))
    assert verdict.verdict is Verdict.OPEN
    assert verdict.next_reading.date > verdict.end


def test_many_equal_dates_hold() -> None:
    """Weekly readings that agree for twelve weeks are holding."""
    days = tuple(range(0, 91, 7))
    verdict = verdict_of(*[(55.0, 55.1, 54.9)] * len(days), days=days)
    assert verdict.verdict is Verdict.HOLDING
    assert verdict.p_same > 0.9


@settings(max_examples=25, deadline=None)
@given(st.floats(52, 60), st.integers(7, 200))
def test_probabilities_are_one(girth: float, days: int) -> None:
    """The three chances sum to one, and the estimate lies inside its interval."""
    verdict = verdict_of((55.0, 55.2), (round(girth, 1),), days=(0, days))
    assert verdict.p_more + verdict.p_same + verdict.p_less == pytest.approx(1)
    assert verdict.low95 <= verdict.change_cm <= verdict.high95
    assert verdict.detectable_cm == pytest.approx(verdict.high95 - verdict.change_cm)


def test_same_input_same_answer() -> None:
    """Nothing in a verdict is left to chance."""
    rows = taped(np.random.default_rng(5), [0, 30, 60], [55, 55.5, 56])
    assert growth(rows) == growth(rows)


def test_support_never_decides() -> None:
    """Strength up by half shifts the chances a little, and the word rests on the tape alone."""
    strong = expected(Support(12, strength_log_gain=0.5))
    plain = expected(Support(12))
    assert 0 < strong.mean - plain.mean < 0.5
    assert strong.sd > 0.95 * plain.sd


def test_dose_supports_by_little() -> None:
    """Twice the usual sets shift the expected girth by less than a quarter of a per cent."""
    shift = expected(Support(12, sets_per_week=20)).mean - expected(Support(12)).mean
    assert 0 < shift < 0.25


def test_left_and_right_with_error() -> None:
    """A difference within error is not called one; two centimetres are."""
    near = [row(0, 55.0, 55.1), row(0, 55.3, 55.2, side=Side.RIGHT)]
    far = [row(0, 55.0, 55.1), row(0, 58.3, 58.2, side=Side.RIGHT)]
    assert "no difference" in growth(near).left_right[0].say
    assert "right is larger" in growth(far).left_right[0].say


def test_side_difference_over_time() -> None:
    """The change of the difference is stated once two dates are common."""
    rows = [row(d, 55.0) for d in (0, 56)]
    rows += [row(0, 55.0, side=Side.RIGHT), row(56, 57.0, side=Side.RIGHT)]
    difference = growth(rows).left_right[0]
    assert difference.change_cm == pytest.approx(2.0)


def called(rng: np.random.Generator, change: float, count: int) -> float:
    """Share of pairs of dates called growing or losing."""
    days, truth = [0, 56], [55.0, 55.0 + change]
    words = [growth(taped(rng, days, truth)).sites[0].verdict for _ in range(count)]
    return sum(one in {Verdict.GROWING, Verdict.LOSING} for one in words) / count


def test_false_alarms_and_power() -> None:
    """Published error (0.85 and 0.5 % of 55 cm): alarms not above 5 % by the binomial tail,
    called at 1 × and 2 × the detectable change; long versions in bench/body.
    """
    detectable = 1.96 * np.sqrt(2 * (0.48**2 / 3 + 0.28**2))
    assert called(np.random.default_rng(7), 0.0, 150) <= 13 / 150
    assert called(np.random.default_rng(8), detectable, 100) >= 0.35
    assert called(np.random.default_rng(9), 2 * detectable, 60) >= 0.90
