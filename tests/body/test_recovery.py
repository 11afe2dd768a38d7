"""Sleep, layoffs, lighter weeks and joint pain."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.body.pain import PainCourse, PainReport, courses
from pennate.body.recovery import Form, cycle_effect, layoff_return, lighter_week, sleep_effect
from pennate.core.readiness import PainAction, pain_action
from tests.body.rows import on


def forms(marked: Sequence[float], others: Sequence[float]) -> list[Form]:
    """Sessions with and without a mark, a surprise each."""
    pairs = [(s, True) for s in marked] + [(s, False) for s in others]
    return [Form(on(i), surprise, mark) for i, (surprise, mark) in enumerate(pairs)]


def test_sleep_starts_at_the_prior() -> None:
    """Without a log the relation is −1 ± 2 % (from memory) and not shown."""
    effect = sleep_effect([])
    assert effect.mean == pytest.approx(-0.01)
    assert not effect.shown


def test_two_bad_nights_prove_nothing() -> None:
    """Two sessions 8 % down after short sleep are shrunk and not spoken of as shown."""
    effect = sleep_effect(forms([-0.08, -0.08], [0.0] * 10))
    assert -0.08 < effect.mean < -0.01
    assert not effect.shown


def test_many_bad_nights_are_believed() -> None:
    """Forty against eighty sessions 5 % apart: near 5 %, and shown."""
    rng = np.random.default_rng(1)
    effect = sleep_effect(forms(list(rng.normal(-0.05, 0.02, 40)), list(rng.normal(0, 0.02, 80))))
    assert effect.mean == pytest.approx(-0.05, abs=0.01)
    assert effect.shown


def test_cycle_effect_is_shrunk_hard() -> None:
    """Four weak sessions in a marked stretch leave her effect at nought for all purposes."""
    effect = cycle_effect(forms([-0.04] * 4, [0.0] * 12))
    assert -0.02 < effect.mean < 0
    assert not effect.shown


@pytest.mark.parametrize("days", [0, 7, 14])
def test_two_weeks_off_cost_nothing(days: int) -> None:
    """No loss up to two weeks (from memory)."""
    assert layoff_return(days) is None


def test_six_weeks_off() -> None:
    """Four weeks beyond two at 0–2 % a week: 92 to 100 % of strength, half of the sets."""
    back = layoff_return(42)
    assert back is not None
    assert back.load_low == pytest.approx(0.923, abs=0.001)
    assert (back.load_high, back.sets) == (1.0, 0.5)
    assert "some fall by more than that" in back.say  # loads: two left, rounded down


@pytest.mark.parametrize(
    ("off", "days_in", "share"),
    [(63, 0, 0.5), (63, 6, 0.5), (63, 7, 0.75), (63, 13, 0.75), (63, 14, None), (21, 3, None)],
)
def test_the_weeks_after_a_pause(off: int, days_in: int, share: float | None) -> None:
    """Half of the sets in the first week back, three quarters in the second, then all."""
    back = layoff_return(off, days_in)
    assert (back.sets if back else None) == share
    assert back is None or "soreness" in back.say


@given(st.integers(15, 4000))
def test_longer_off_is_never_stronger(days: int) -> None:
    """Strength expected after a longer layoff is not higher, and never absurd."""
    shorter, longer = layoff_return(days), layoff_return(days + 7)
    assert shorter is not None
    assert longer is not None
    assert 0.7 <= longer.load_low <= shorter.load_low <= shorter.load_high


def weak_fortnight(drop: float) -> list[Form]:
    """Six weeks as expected, then two weeks weaker, three sessions a week."""
    days = [day for day in range(56) if day % 7 in {0, 2, 4}]
    return [Form(on(day), -drop if day > 41 else 0.0) for day in days]


def test_lighter_week_needs_a_drop_and_a_complaint() -> None:
    """Only a sure fall of her own strength with a complaint suggests one; neither alone does."""
    assert lighter_week(weak_fortnight(0.07), on(55), complaint=True) is not None
    assert lighter_week(weak_fortnight(0.07), on(55), complaint=False) is None
    assert lighter_week(weak_fortnight(0.0), on(55), complaint=True) is None


def test_lighter_week_needs_sessions() -> None:
    """Too few sessions say nothing."""
    assert lighter_week(weak_fortnight(0.07)[-3:], on(55), complaint=True) is None


@pytest.mark.parametrize(
    ("score", "action"),
    [
        (0, PainAction.GO_ON),
        (2, PainAction.GO_ON),
        (3, PainAction.REDUCE),
        (5, PainAction.REDUCE),
        (6, PainAction.STOP),
    ],
)
def test_pain_rule(score: int, action: PainAction) -> None:
    """0–2 go on, 3–5 reduce, above stop (Thomeé 1997, Silbernagel 2007, the stricter cut)."""
    assert pain_action(score) is action


def course(*reports: PainReport, today: int) -> PainCourse:
    """What a record of one joint asks for."""
    found = courses(reports, on(today))
    return found[0].course if found else PainCourse.QUIET


def knee(
    day: int, score: int, next_morning: int | None = None, *, alarming: bool = False
) -> PainReport:
    """A report of the knee."""
    return PainReport(on(day), "knee", score, next_morning, alarming)


def test_slight_pain_asks_nothing() -> None:
    """Twos for weeks are no spell of pain."""
    assert course(*[knee(day, 2) for day in range(0, 30, 3)], today=30) is PainCourse.QUIET


def test_pain_of_four_is_watched() -> None:
    """One report of 4 that settles: less load now, and watch."""
    assert course(knee(0, 4, 1), today=2) is PainCourse.WATCH


def test_unsettled_by_morning_swaps() -> None:
    """Still 3 the next morning: swap."""
    assert course(knee(0, 4, 3), today=2) is PainCourse.SWAP


def test_rising_week_on_week_swaps() -> None:
    """3 last week and 5 this week: swap."""
    assert course(knee(0, 3), knee(7, 5), today=8) is PainCourse.SWAP


def test_above_five_swaps() -> None:
    """7: stop what brought it on."""
    assert course(knee(0, 7), today=1) is PainCourse.SWAP


def test_lingering_pain_names_a_clinician() -> None:
    """3 or more for over two weeks."""
    assert course(*[knee(day, 3) for day in range(0, 19, 4)], today=17) is PainCourse.CLINICIAN


def test_alarming_pain_names_a_clinician_at_once() -> None:
    """Locking or giving way, whatever the score."""
    assert course(knee(0, 1, alarming=True), today=1) is PainCourse.CLINICIAN


def test_old_pain_is_over() -> None:
    """Two weeks without pain end the spell."""
    assert course(knee(0, 6), today=14) is PainCourse.QUIET
