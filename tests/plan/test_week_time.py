"""Minutes of a planned day."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    Preparation,
    PrescribedExercise,
    PrescribedSets,
    Span,
)
from pennate.core.session_time import TimedSet
from pennate.core.week_time import (
    Pace,
    day_minutes,
    day_seconds,
    seconds_per_rep,
    stop_times,
    straight_seconds,
    superset_seconds,
)
from tests.plan.floor import FLOOR, day, sets


def test_one_side_at_a_time_doubles_the_work_not_the_rest() -> None:
    """A one-sided set of 10 at 3 s with 8 s set-up is 2 × 38 s; the rest stays."""
    both, one = TimedSet(reps=10, rest_s=90), TimedSet(reps=10, rest_s=90, sides=2)
    assert one.seconds - both.seconds == 38


def test_no_rest_inside_a_round_and_the_longest_after() -> None:
    """Two rounds of 38 s each with rests of 60 and 90: 4 × 38 + 2 steps of 15 + 90."""
    a, b = TimedSet(reps=10, rest_s=60), TimedSet(reps=10, rest_s=90)
    assert superset_seconds([[a, a], [b, b]]) == 4 * 38 + 2 * 15 + 90


def test_loaded_work_is_ramped() -> None:
    """Multi-joint work gets 6 and 4 ramp reps, isolation 4, body weight none (3 s a rep); then
    the first working set is rested for as the session asks it.
    """
    curl, crunch = (day_seconds(day("Monday", (one, sets(3))), FLOOR) for one in ("curl", "crunch"))
    press = day_seconds(day("Monday", ("leg_press", sets(3))), FLOOR)
    assert crunch == straight_seconds([TimedSet(reps=10, rest_s=120)] * 3) == 3 * 38 + 2 * 120
    assert curl - crunch == (4 * 3 + 8) + 120
    assert press - curl == (6 * 3 + 8) + 45 + 36


def test_written_ramps_are_not_doubled() -> None:
    """Where warm-up sets are written, no ramp is added."""
    written = PrescribedExercise(
        exercise="bench",
        sets=(PrescribedSets(kind=SetKind.WARM_UP, count=1, reps=Span(5, 5)), sets(3)),
    )
    first = stop_times(day("Monday", written), FLOOR)[0].seconds
    assert first == 36 + (5 * 3 + 8) + 3 * (120 + 38)


def test_tempo_is_read() -> None:
    """3-1-1 is five seconds a rep, X counts one; words are no tempo."""
    assert seconds_per_rep(FLOOR["curl"], "3-1-1") == 5
    assert seconds_per_rep(FLOOR["curl"], "4-0-X-1") == 6
    slow = replace(FLOOR["curl"], seconds_per_rep=Fraction(4))
    assert seconds_per_rep(slow, "smooth") == 4


def test_one_item_needs_no_changeover() -> None:
    """Two exercises on one named item: the usual rest stands for the changeover."""
    same = [
        PrescribedExercise(exercise=name, sets=(sets(2),), equipment="cable 1")
        for name in ("fly", "pushdown")
    ]
    assert stop_times(day("Monday", *same), FLOOR)[1].changeover_s == 120


def test_preparation_takes_time() -> None:
    """A walk of five minutes before the first exercise is five minutes."""
    base = day("Monday", ("curl", sets(2)))
    walk = replace(base, preparation=(Preparation("walk", seconds=300),))
    assert day_seconds(walk, FLOOR) - day_seconds(base, FLOOR) == 300


def test_minutes_learn_her_pace() -> None:
    """Twelve sessions a fifth longer than modelled move the factor most of the way."""
    pace = Pace.from_sessions([(50.0, 60.0)] * 12)
    assert 1.12 < pace.factor < 1.2
    assert pace.sd_log < Pace().sd_log
    assert Pace.from_sessions([]) == Pace()


@given(st.integers(1, 6), st.integers(1, 6))
def test_more_sets_take_longer(few: int, more: int) -> None:
    """Minutes rise with every set and the interval holds the value."""
    short = day_minutes(day("Monday", ("curl", sets(few))), FLOOR)
    long = day_minutes(day("Monday", ("curl", sets(few + more))), FLOOR)
    assert short.low < short.value < short.high
    assert long.value - short.value == pytest.approx(more * 158 / 60)
