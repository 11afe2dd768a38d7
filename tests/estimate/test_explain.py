"""Why an estimate is what it is: exact influence, the day, the prior's part, in words."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from datetime import timedelta
from fractions import Fraction

import pytest

from pennate.core.history import History
from pennate.core.performed import Effort, PerformedSet, SetKind, Side
from pennate.core.quantities import LoadReading
from pennate.estimate import (
    Exposure,
    ExposureReader,
    Person,
    StrengthModel,
    explain,
    fit,
    outcome_of,
)
from pennate.estimate.explain import Influence, Replayed, day_words
from pennate.files.catalogue import read_catalogue
from tests.estimate.logs import START, asked, one_set, steady

CATALOGUE = read_catalogue()
PERSON = Person(female=True, body_mass_kg=60.0, trained=True)
CHIN_UPS = asked("chin_up", None, days=60)


def _chin_ups(days: int = 20) -> History:
    """Chin-ups after curls; she weighs in now and then, and that changes what later sets mean."""
    rows = []
    for visit in range(days):
        day = START + timedelta(days=3 * visit)
        mass = Fraction(60 + visit, 1) if visit % 4 == 0 else None
        rows.append(replace(one_set(day, 1, "curl", 18, 10), body_mass_kg=mass))
        bare = replace(one_set(day, 2, "chin_up", 0, 8 - visit % 3), load=None, unit=None)
        rows += [bare, replace(bare, number=3, reps=6 - visit % 2, effort=Effort.ONE)]
    return History.of(rows)


def _refitted(
    history: History,
    question: Exposure,
    remembered: PerformedSet | None = None,
    *,
    unseen: PerformedSet | None = None,
) -> float:
    """The whole log through a new model, as the records are read at the start of a day.

    One set may be done but not seen: it takes its time and tires, and tells nothing.
    """
    model = StrengthModel.start(CATALOGUE, PERSON)
    reader = ExposureReader(CATALOGUE, PERSON)
    if remembered is not None:
        model.remembered(reader.exposure(remembered), remembered.reps)
    for done in history:
        exposure = reader.exposure(done)
        if done is unseen:
            model.assume(replace(exposure, chosen=False), done.reps)
        else:
            model.observe(exposure, outcome_of(done))
    return model.estimate(question).one_rep_kg


@pytest.mark.parametrize(
    ("history", "question"),
    [(steady(sessions=10), asked(days=32)), (_chin_ups(), CHIN_UPS)],
    ids=["bench press", "chin-up"],
)
def test_stated_influence_is_a_refit_without_what_it_showed(
    history: History, question: Exposure
) -> None:
    """What a set is said to have moved equals fitting again with it done but not seen, for all."""
    told = explain(history, question, CATALOGUE, PERSON)
    whole = fit(history, CATALOGUE, PERSON).estimate(question)
    assert told.one_rep_kg == whole.one_rep_kg
    assert len(told.influences) == 10
    for one in told.influences:
        without = _refitted(history, question, unseen=one.done)
        moved = whole.one_rep_kg / without - 1
        near = max(0.1 * abs(moved), 0.02 * whole.sd_log)
        assert one.moved == pytest.approx(moved, abs=near)
        assert one.moved == pytest.approx(moved, abs=1e-12)


def test_a_side_s_set_is_no_feat_of_the_other_side() -> None:
    """Left and right in turn, 20 s between them and 90 s a round, the same reps on either side.

    Were a left set gone from the log with its time, the right set after it would follow the
    right set before within 20 s, and seem a feat: left sets would move the right side's 1RM
    twice as much as its own sets do.
    """
    rows = []
    for visit in range(8):
        day = START + timedelta(days=round(3.5 * visit))
        for place in range(6):
            reps = 12 - place // 2 + (visit + place // 2) % 3 - 1
            rest = 90 if place % 2 == 0 else 20
            done = one_set(day, place + 1, "hip_abduction_kickback", 10, reps, rest_s=rest)
            rows.append(replace(done, side=(Side.LEFT, Side.RIGHT)[place % 2]))
    right = replace(asked("hip_abduction_kickback", days=30), side=Side.RIGHT)
    told = explain(History.of(rows), right, CATALOGUE, PERSON, sets=24)
    moved = {
        side: sum(abs(one.moved) for one in told.influences if one.done.side is side)
        for side in Side
    }
    assert moved[Side.LEFT] < 1.5 * moved[Side.RIGHT]


def test_what_she_remembered_is_in_the_refits_too() -> None:
    """A remembered set moves the estimate explained and every refit, as it moves the page's."""
    history = steady(sessions=3)
    question = asked(days=12)
    remembered = replace(one_set(START, 1, "bench_press", 60, 10), session="remembered")
    told = Replayed(CATALOGUE, PERSON, None, [remembered]).explain(history, question)
    assert told.one_rep_kg == _refitted(history, question, remembered)
    assert told.one_rep_kg > explain(history, question, CATALOGUE, PERSON).one_rep_kg
    one = told.influences[0]
    without = _refitted(history, question, remembered, unseen=one.done)
    assert one.moved == pytest.approx(told.one_rep_kg / without - 1, abs=1e-12)


def test_a_kept_replay_answers_as_a_new_one() -> None:
    """After sets were added, corrected and taken out, it gives the same bits as from nothing."""
    history = steady(("bench_press", "back_squat_free", "curl"), sessions=150)
    kept = Replayed(CATALOGUE, PERSON)
    changed = list(history.sets)
    changed[600] = replace(changed[600], reps=changed[600].reps + 3)
    logs = (history, history.before(START + timedelta(days=400)), History.of(changed), history)
    for log in logs:
        for exercise in ("curl", "bench_press"):
            question = asked(exercise, days=460)
            assert kept.explain(log, question) == explain(log, question, CATALOGUE, PERSON)


def test_a_second_question_does_not_replay_the_log(observed: list[Exposure]) -> None:
    """A kept replay goes on from a copy near the sets asked about, and each refit from its set."""
    history = steady(("bench_press", "back_squat_free", "curl"), sessions=200)
    kept, question = Replayed(CATALOGUE), asked("curl", days=610)
    kept.explain(history, question)
    observed.clear()
    kept.explain(history, question)
    assert len(history) == 1200
    assert len(observed) < 500


def test_an_exercise_long_left_is_explained_by_fewer_sets() -> None:
    """Each refit costs what was logged since: an exercise long past has some sets told, not ten."""
    old = [one_set(START, number, "curl", 18, 10 - number) for number in range(1, 9)]
    later = [
        one_set(START + timedelta(days=1 + place // 10), 1 + place % 10, "bench_press", 40, 10)
        for place in range(2500)
    ]
    told = explain(History.of((*old, *later)), asked("curl", days=300), CATALOGUE)
    assert [one.done.number for one in sorted(told.influences, key=_number)] == [6, 7, 8]


def _number(one: Influence) -> int:
    return one.done.number


def test_an_explanation_speaks_of_prior_and_day() -> None:
    """The prior's share falls from one toward zero, and the last day is told with its date."""
    told = explain(steady(sessions=10), asked(days=32), CATALOGUE)
    nothing = explain(History.of(()), asked(days=32), CATALOGUE)
    assert 0 < told.prior_share < 0.5 < nothing.prior_share <= 1
    assert told.day is not None
    assert "The exercise's last session, 2 February 2025: " in told.words
    assert "No set" in nothing.words
    assert math.isfinite(told.sd_log)


def test_what_is_left_of_the_range_is_a_width() -> None:
    """A quarter of the variance is half of the range, which is what she sees of it."""
    told = replace(explain(steady(), asked(), CATALOGUE), prior_share=0.25)
    assert "Its range is 50 % as wide as at the start" in told.words
    assert "uncertainty" not in told.words


def test_other_exercises_speak_for_one_not_done_yet() -> None:
    """Without a set of its own an exercise is not said to rest on what is usual alone."""
    told = explain(steady(), asked("incline_press", days=40), CATALOGUE)
    assert told.prior_share < 0.9
    assert "moved by the rest of what you logged or remembered" in told.words


@pytest.mark.parametrize(
    ("kg", "reading", "words"),
    [
        (80, LoadReading.TOTAL, "8 reps at 80 kg, none left,"),
        (20, LoadReading.EACH, "8 reps at 20 kg each, none left,"),
        (-15, LoadReading.LABEL, "8 reps with 15 kg of help, none left,"),
        (0, LoadReading.TOTAL, "8 reps at body weight, none left,"),
    ],
)
def test_a_set_is_told_with_its_load(kg: float, reading: LoadReading, words: str) -> None:
    """The sentence of a set has its load as she wrote it, and what was left."""
    done = one_set(START, 4, "bench_press", kg, 8, Effort.NONE_LEFT, reading=reading)
    told = Influence(done, -0.0123, -0.4).words
    assert told == f"6 January 2025, set 4: {words} lowered it by 1.2 %"


def test_a_side_is_not_read_as_reps_left() -> None:
    """The side stands before the reps, so that “12 reps left” is never said of a left leg."""
    done = replace(one_set(START, 4, "curl", 10, 12, Effort.ONE), side=Side.LEFT)
    told = Influence(done, 0.01, 0.3).words
    assert told == "6 January 2025, set 4, left side: 12 reps at 10 kg, 1 left, raised it by 1.0 %"


@pytest.mark.parametrize("moved", [0.0, -0.0, 0.0004, -0.0004])
def test_what_hardly_moved_is_not_told_as_nought(moved: float) -> None:
    """A set that moved it by next to nothing says so, without a 0.0 % and without a direction."""
    done = one_set(START, 4, "bench_press", 80, 8, None)
    told = Influence(done, moved, 0.0).words
    assert told.endswith("effort not noted, moved it by less than 0.1 %")
    assert "0.0" not in told
    sleepy = replace(explain(steady(), asked(), CATALOGUE), influences=(Influence(done, moved, 0),))
    assert "0.0 %" not in sleepy.words.split("hundred). ")[1]


def test_holds_and_warm_ups_are_not_asked_what_they_moved() -> None:
    """Seconds teach nothing of strength, so no hold stands among the sets that moved it."""
    day = START + timedelta(days=40)
    hold = replace(one_set(day, 1, "bench_press", 40, 1), seconds=Fraction(30))
    ramp = one_set(day, 2, "bench_press", 20, 5, kind=SetKind.WARM_UP)
    told = explain(History.of((*steady(), hold, ramp)), asked(days=41), CATALOGUE)
    assert {hold.identity, ramp.identity}.isdisjoint(one.done.identity for one in told.influences)


@pytest.mark.parametrize(
    ("effect", "start"),
    [
        ((-0.019, 0.01), "an ordinary day, as far as the sets can tell: −1.9 % (± 2.0 %,"),
        ((0.021, 0.01), "the day ran about 2.1 % over your usual (± 2.0 %,"),
        ((-0.0001, 0.01), "an ordinary day, as far as the sets can tell: 0.0 % (± 2.0 %,"),
    ],
)
def test_a_day_is_out_of_the_ordinary_beyond_its_95_per_cent(
    effect: tuple[float, float], start: str
) -> None:
    """1.96 standard deviations (standard tables) decide, and the ± says that it is those."""
    told = day_words(effect)
    assert told.startswith(start)
    assert re.search(r"± 2\.0 %, 95 times in a hundred\)", told)
