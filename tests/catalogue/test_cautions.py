"""Each caution of the growth evidence, section 11, and of the product page “Safety”."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.core import caution_texts as say
from pennate.core.cautions import (
    EVERY_CAUTION,
    BodyFacts,
    Caution,
    CautionFacts,
    alarming_joint_words,
    alarming_words,
    body_cautions,
    cautions_for,
    failure_safety_on,
    hard_new_work,
    limits_for,
    unseen,
)
from pennate.core.evidence.safety import PAIN_REDUCE_FROM, PAIN_STOP_ABOVE
from pennate.core.exercise import EquipmentKind as Kind
from pennate.core.exercise import FailureSafety
from pennate.core.readiness import Health, Ill, PainAction, pain_action
from pennate.files.catalogue import read_catalogue

SPOT, STOPS = FailureSafety.SAFETIES_OR_SPOTTER, FailureSafety.STOPS

APPLIES: list[tuple[Caution, dict[str, Any]]] = [
    (say.NEW_EXERCISE, {"first_time": True}),
    (say.NEW_EXERCISE, {"days_away": 28}),
    (say.NEW_EXERCISE, {"days_in": 13}),
    (say.SAFETIES_MISSING, {"to_failure": True, "safety": SPOT}),
    (say.SAFETIES_CHECK, {"to_failure": True, "safety": SPOT, "safeties": True}),
    (say.STOPS_MISSING, {"to_failure": True, "safety": STOPS}),
    (say.STOPS_CHECK, {"to_failure": True, "safety": STOPS, "safeties": True}),
    (say.BREATH, {"hard": True}),
    (say.BREATH, {"to_failure": True}),
    (say.BREATH_CLINICIAN, {"hard": True, "health": Health.AVOID_STRAIN}),
    (say.BREATH_CLINICIAN, {"health": Health.UNDER_18}),
    (say.BRACE, {"hard": True, "lumbar_load": 3}),
    (say.UNDER_18, {"health": Health.UNDER_18}),
    (say.PREGNANCY, {"health": Health.PREGNANCY}),
    (say.PREGNANCY_STOP, {"health": Health.PREGNANCY}),
    (say.AVOID_STRAIN, {"health": Health.AVOID_STRAIN}),
    (say.PAIN_REDUCE, {"pain": 3}),
    (say.PAIN_REDUCE, {"pain": 5}),
    (say.PAIN_STOP, {"pain": 6}),
    (say.PAIN_STOP, {"alarming_pain": True}),
    (say.PAIN_SLIGHT, {"slight_pain": True}),
    (say.PAIN_SLIGHT, {"slight_pain": True, "pain": 3}),
    (say.PAIN_SWAP, {"pain_unsettled": True}),
    (say.PAIN_CLINICIAN, {"pain_days": 15}),
    (say.SORE_KNEE, {"knee_sore": True, "knee_load": 2}),
    (say.ILL, {"ill": Ill.NOW}),
    (say.AFTER_ILLNESS, {"ill": Ill.BEFORE}),
    (say.BREAKDOWN, {"hard_new_days_ago": 0}),
    (say.BREAKDOWN, {"hard_new_days_ago": 5}),
    (say.RED_FLAGS, {"alarming_note": True}),
]

SILENT: list[tuple[Caution, dict[str, Any]]] = [
    (say.NEW_EXERCISE, {"days_away": 27, "days_in": 14}),
    (say.SAFETIES_MISSING, {"to_failure": True, "safety": SPOT, "safeties": True}),
    (say.SAFETIES_MISSING, {"to_failure": True}),
    (say.SAFETIES_CHECK, {"hard": True, "safety": SPOT, "safeties": True}),
    (say.STOPS_MISSING, {"hard": True, "safety": STOPS}),
    (say.STOPS_CHECK, {"to_failure": True, "safety": SPOT, "safeties": True}),
    (say.BREATH, {}),
    (say.BREATH, {"hard": True, "health": Health.AVOID_STRAIN}),
    (say.BREATH_CLINICIAN, {"hard": True, "health": Health.NOT_SAID}),
    (say.BRACE, {"hard": True, "lumbar_load": 1}),
    (say.PAIN_REDUCE, {"pain": 2}),
    (say.PAIN_STOP, {"pain": 5}),
    (say.PAIN_STOP, {"slight_pain": True}),
    (say.PAIN_SLIGHT, {"slight_pain": True, "pain": 6}),
    (say.PAIN_CLINICIAN, {"pain_days": 14}),
    (say.SORE_KNEE, {"knee_sore": True, "knee_load": 1}),
    (say.SORE_KNEE, {"knee_load": 3}),
    (say.BREAKDOWN, {"hard_new_days_ago": 6}),
    (say.BREAKDOWN, {}),
]

BODY_APPLIES: list[tuple[Caution, dict[str, Any]]] = [
    (say.NO_PERIOD, {"days_since_period": 90}),
    (say.NO_PERIOD, {"newly_irregular": True}),
    (say.NO_PERIOD, {"repeated_bone_stress": True}),
    (say.LOW_ENERGY, {"energy_left_kcal_kg": 29.9}),
    (say.UNDER_18_TARGETS, {"deficit": True, "health": Health.UNDER_18}),
    (say.BODY_NUMBERS, {"shows_change": True}),
    (say.EATING, {"shows_energy": True}),
]

BODY_SILENT: list[tuple[Caution, dict[str, Any]]] = [
    (say.NO_PERIOD, {"days_since_period": 89}),
    (say.NO_PERIOD, {}),
    (say.LOW_ENERGY, {"energy_left_kcal_kg": 30.0}),
    (say.UNDER_18_TARGETS, {"deficit": True, "health": Health.NONE}),
]


def _ids(cases: list[tuple[Caution, dict[str, Any]]]) -> list[str]:
    return [f"{one.id}-{'-'.join(facts) or 'nothing'}" for one, facts in cases]


@pytest.mark.parametrize(("caution", "facts"), APPLIES, ids=_ids(APPLIES))
def test_it_applies(caution: Caution, facts: dict[str, Any]) -> None:
    """Each trigger of the table brings its caution."""
    assert caution in cautions_for(CautionFacts(**facts))


@pytest.mark.parametrize(("caution", "facts"), SILENT, ids=_ids(SILENT))
def test_it_stays_away(caution: Caution, facts: dict[str, Any]) -> None:
    """Just short of the trigger the caution is not shown, or people stop reading."""
    assert caution not in cautions_for(CautionFacts(**facts))


@pytest.mark.parametrize(("caution", "facts"), BODY_APPLIES, ids=_ids(BODY_APPLIES))
def test_body_caution_applies(caution: Caution, facts: dict[str, Any]) -> None:
    """Check value 59 among others: 90 days without a period brings the clinician line."""
    assert caution in body_cautions(BodyFacts(**facts))


@pytest.mark.parametrize(("caution", "facts"), BODY_SILENT, ids=_ids(BODY_SILENT))
def test_body_caution_stays_away(caution: Caution, facts: dict[str, Any]) -> None:
    """Just short of the trigger the body pages stay calm."""
    assert caution not in body_cautions(BodyFacts(**facts))


def test_every_caution_has_a_case() -> None:
    """No caution is written that no test brings up; two stand on pages whatever is so."""
    always = {say.GENERAL.id, say.STRAIN_FIRST.id}
    tried = {one.id for one, _ in (*APPLIES, *BODY_APPLIES)} | always
    assert tried == {one.id for one in EVERY_CAUTION}


def test_cautions_are_short_and_sourced() -> None:
    """One or two plain sentences, each with its source; ids are unique."""
    assert len({one.id for one in EVERY_CAUTION}) == len(EVERY_CAUTION)
    for one in EVERY_CAUTION:
        assert one.source
        assert one.text.endswith(".")
        assert len(one.text) <= 260


def test_emergency_lines_come_back_the_rest_once_a_session() -> None:
    """Emergency lines every time, the others once a session."""
    facts = CautionFacts(hard_new_days_ago=1, first_time=True, to_failure=True)
    shown = cautions_for(facts)
    again = unseen(shown, {one.id for one in shown})
    assert say.BREAKDOWN in again
    assert {say.NEW_EXERCISE, say.BREATH}.isdisjoint(again)
    assert all(not one.once_a_session for one in EVERY_CAUTION if one.emergency)


def test_nothing_to_say_says_nothing() -> None:
    """An ordinary set of an ordinary exercise carries no caution."""
    assert cautions_for(CautionFacts()) == ()
    assert body_cautions(BodyFacts()) == ()


@given(
    st.builds(
        CautionFacts,
        health=st.sampled_from([None, *Health]),
        first_time=st.booleans(),
        to_failure=st.booleans(),
        hard=st.booleans(),
        safety=st.sampled_from(FailureSafety),
        safeties=st.booleans(),
        pain=st.integers(0, 10),
        lumbar_load=st.integers(0, 3),
        hard_new_days_ago=st.none() | st.integers(0, 30),
    )
)
def test_order_is_urgency_and_nothing_twice(facts: CautionFacts) -> None:
    """Emergencies stand first and no line is repeated, whatever the facts."""
    shown = cautions_for(facts)
    assert len(set(shown)) == len(shown)
    emergency = [one.emergency for one in shown]
    assert emergency == sorted(emergency, reverse=True)


@pytest.mark.parametrize("health", list(Health))
def test_careful_profiles_keep_four_in_reserve(health: Health) -> None:
    """Product page: the first three answers bring no failure sets and four or more in reserve."""
    limits = limits_for(health)
    careful = health in {Health.UNDER_18, Health.PREGNANCY, Health.AVOID_STRAIN}
    assert limits.failure is not careful
    assert limits.least_reserve == (4 if careful else 0)
    assert limits.deficit_targets is (health is not Health.UNDER_18)


def test_no_answer_limits_nothing() -> None:
    """The question may be skipped."""
    assert limits_for(None) == limits_for(Health.NONE)


@pytest.mark.parametrize("score", range(11))
def test_pain_cuts_are_those_of_the_register(score: int) -> None:
    """Check value 54: 0–2 go on, 3–5 reduce, above 5 stop; the register shows the same cuts."""
    expected = PainAction.GO_ON
    if score >= PAIN_REDUCE_FROM:
        expected = PainAction.REDUCE
    if score > PAIN_STOP_ABOVE:
        expected = PainAction.STOP
    assert pain_action(score) is expected


@pytest.mark.parametrize(
    ("sets", "usual", "off", "hard"),
    [
        (15, 10, 0, "hard"),
        (14.9, 10, 0, ""),
        (3, 10, 28, "hard"),
        (3, 10, 27, ""),
        (4, 0, 0, "hard"),
        (0, 0, 0, ""),
    ],
)
def test_hard_new_work(sets: float, usual: float, off: int, hard: str) -> None:
    """Half as many sets again, or a return after four weeks, opens the five watchful days."""
    assert hard_new_work(sets, usual, off) is bool(hard)


@pytest.mark.parametrize(
    ("exercise", "kind", "needs"),
    [
        ("guided_bar_squat", Kind.GUIDED_BAR, STOPS),
        ("leg_press", Kind.SLED, STOPS),
        ("hack_squat", Kind.PLATE_LOADED, STOPS),
        ("back_squat_free", Kind.BARBELL, SPOT),
        ("bench_press", Kind.BARBELL, SPOT),
        ("bench_press", Kind.GUIDED_BAR, STOPS),
        ("bench_press", Kind.DUMBBELLS, FailureSafety.EASY_TO_DROP),
        ("bench_press", Kind.STACK, FailureSafety.NONE),
        ("conventional_deadlift", Kind.BARBELL, FailureSafety.EASY_TO_DROP),
        ("leg_press", Kind.STACK, FailureSafety.NONE),
    ],
)
def test_safety_depends_on_the_equipment(exercise: str, kind: Kind, needs: FailureSafety) -> None:
    """Free bars need safeties or a spotter; guided bars, sleds and squat machines need stops."""
    assert failure_safety_on(read_catalogue()[exercise], kind) is needs


@pytest.mark.parametrize(
    "note",
    [
        "Chest pain on the second set",
        "felt faint after",
        "passed out",
        "numb left hand",
        "sudden bad headache",
        "dark urine this morning",
        "sudden weakness in one arm",
        "knee gave way on the way out",
        "shoulder pain at night",
        "hip aches at rest",
    ],
)
def test_warning_signs_are_found_in_notes(note: str) -> None:
    """Any log note that names a warning sign brings the emergency line."""
    assert alarming_words(note)


@pytest.mark.parametrize(
    "note", ["knee gave way", "elbow locks", "sharp pain in the hip", "ankle swollen"]
)
def test_joint_signs_are_found_in_notes(note: str) -> None:
    """Sharp, swelling, locking or giving way stops the exercise."""
    assert alarming_joint_words(note)


@pytest.mark.parametrize(
    "note",
    ["", "seat 4, chest pad high", "lock out at the top", "great pump, number 7 pin", "weak day"],
)
def test_ordinary_notes_alarm_nobody(note: str) -> None:
    """Everyday words of the gym are not warning signs."""
    assert alarming_words(note) == ()
    assert alarming_joint_words(note) == ()
