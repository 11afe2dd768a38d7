"""The shipped exercises against the evidence table and against rules of their own."""

from __future__ import annotations

import csv
import hashlib
import re
import tomllib
from fractions import Fraction
from importlib.resources import files
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from pennate.core.exercise import Confidence, EquipmentKind, Exercise, Sides
from pennate.core.muscles import Joint, Part
from pennate.files.catalogue import MARKS, read_catalogue

TABLE = Path(__file__).parent.parent / "reference" / "involvement.csv"
"""A copy of the project's evidence table of 59 exercises and 22 muscle parts."""

ROWS = list(csv.DictReader(TABLE.read_text(encoding="utf-8").splitlines()))
CATALOGUE = read_catalogue()
ALL = tuple(CATALOGUE.exercises.values())
STEPS = {Fraction(0), Fraction(1, 4), Fraction(1, 2), Fraction(1)}
JOINT_COLUMNS = {
    "j_knee_pf": Joint.KNEE,
    "j_hip": Joint.HIP,
    "j_lumbar": Joint.LUMBAR,
    "j_shoulder": Joint.SHOULDER,
    "j_elbow_wrist": Joint.ELBOW_WRIST,
    "j_grip": Joint.GRIP,
}

each_row = pytest.mark.parametrize("row", ROWS, ids=lambda row: str(row["exercise_id"]))
each_exercise = pytest.mark.parametrize("exercise", ALL, ids=lambda one: one.id)


def test_the_table_has_59_rows_of_steps_each_with_a_whole_set() -> None:
    """Check value 57 of the growth evidence, on the committed copy of the table."""
    assert len({row["exercise_id"] for row in ROWS}) == len(ROWS) == 59
    for row in ROWS:
        weights = {Fraction(row[part]) for part in Part}
        assert weights <= STEPS
        assert 1 in weights


@each_row
def test_weights_are_those_of_the_table(row: dict[str, str]) -> None:
    """No weight drifts from the evidence table."""
    shipped = CATALOGUE[row["exercise_id"]].weights()
    assert {part: shipped.get(part, Fraction(0)) for part in Part} == {
        part: Fraction(row[part]) for part in Part
    }


@each_row
def test_confidence_is_that_of_the_table(row: dict[str, str]) -> None:
    """Every mark of the table, zeros that were measured included, is kept."""
    marks = dict(mark.split(":") for mark in row["cell_marks"].split(";"))
    shipped = CATALOGUE[row["exercise_id"]].involvement
    assert {part.value: item.confidence for part, item in shipped.items()} == {
        part: MARKS[mark] for part, mark in marks.items()
    }


@each_row
def test_joints_pattern_and_sides_are_those_of_the_table(row: dict[str, str]) -> None:
    """Joint loads, movement pattern and one- or two-sidedness come from the table."""
    shipped = CATALOGUE[row["exercise_id"]]
    assert shipped.joints == {joint: int(row[name]) for name, joint in JOINT_COLUMNS.items()}
    assert shipped.pattern == row["group"]
    assert (shipped.sides is Sides.ONE) == (row["limb"] == "uni")


def test_exercises_beyond_the_table_claim_no_measured_growth_of_their_own() -> None:
    """What we added rests on anatomy, activity or a sibling; one trial is named."""
    added = [one for one in ALL if one.id not in {row["exercise_id"] for row in ROWS}]
    measured = {
        one.id
        for one in added
        for item in one.involvement.values()
        if item.confidence is Confidence.MEASURED
    }
    assert 1 <= len(added) <= 12
    assert measured == {"front_squat"}  # Enes 2024, lateral thigh, trained women


@each_exercise
def test_a_row_has_a_whole_set_in_steps(exercise: Exercise) -> None:
    """Weights are 0, ¼, ½ or 1, and something is trained in full, in every variant."""
    for variant in ("", *(one.id for one in exercise.variants)):
        weights = set(exercise.weights(variant).values())
        assert weights <= STEPS
        assert 1 in weights


@each_exercise
def test_texts_are_present_and_short(exercise: Exercise) -> None:
    """A cue that fits above the load, a source, and at least two other names."""
    assert 10 <= len(exercise.cue) <= 140
    assert exercise.evidence
    assert len(exercise.name) <= 34
    assert len(exercise.other_names) >= 2


@each_exercise
def test_equipment_is_named_once_and_body_weight_moves_the_body(exercise: Exercise) -> None:
    """A set with nothing in the hands must still have a load for the strength model."""
    assert len(set(exercise.equipment)) == len(exercise.equipment) >= 1
    if EquipmentKind.BODY_WEIGHT in exercise.equipment:
        assert exercise.body_mass is not None


@each_exercise
def test_parents_exist_and_no_family_runs_in_a_circle(exercise: Exercise) -> None:
    """The chain of parents ends."""
    seen: set[str] = set()
    one: Exercise | None = exercise
    while one is not None:
        assert one.id not in seen
        seen.add(one.id)
        one = CATALOGUE[one.parent] if one.parent else None


@each_exercise
def test_variants_have_own_ids_and_say_what_shifts(exercise: Exercise) -> None:
    """A variant that changes a weight changes it, and says so in words."""
    ids = [one.id for one in exercise.variants]
    assert len(set(ids)) == len(ids)
    for variant in exercise.variants:
        assert variant.what_shifts
        for part, item in variant.involvement.items():
            usual = exercise.involvement.get(part)
            assert item.weight != (usual.weight if usual else 0)


@each_exercise
def test_a_variant_without_changed_weights_says_why(exercise: Exercise) -> None:
    """Where nothing is counted differently the words do not promise more of a muscle."""
    for variant in exercise.variants:
        if not variant.involvement:
            assert not variant.what_shifts.startswith("more glute")
            assert not variant.what_shifts.startswith("less ")


def test_every_name_leads_to_one_exercise() -> None:
    """Each id, shown name and other name is found, and none is claimed twice."""
    owners: dict[str, str] = {}
    for exercise in ALL:
        for name in {n.casefold() for n in (exercise.id, exercise.name, *exercise.other_names)}:
            assert owners.setdefault(name, exercise.id) == exercise.id
            found = CATALOGUE.find(name.upper())
            assert found is not None
            assert found.id == exercise.id


def _raw_tables() -> list[dict[str, Any]]:
    folder = files("pennate") / "data" / "exercises"
    return [
        table
        for entry in folder.iterdir()
        for table in tomllib.loads(entry.read_text(encoding="utf-8"))["exercise"]
    ]


def test_files_hold_no_key_that_nobody_reads() -> None:
    """A mistyped key in a data file would be ignored silently; none is there."""
    known = {
        "id", "name", "other_names", "pattern", "sides", "muscles", "joints", "equipment",
        "parent", "body_mass", "grip_limited", "timed", "failure_safety", "seconds_per_rep",
        "cue", "evidence", "variants", "needs", "also_on",
    }  # fmt: skip
    for table in _raw_tables():
        assert set(table) <= known
        for variant in table.get("variants", []):
            assert set(variant) <= {"id", "name", "shifts", "muscles"}


MAKERS = """
009dba7e5404 04376635d0ce 099d5fb8967d 15c6d6111939 1dc5ee01c334 223545aad905 23bed0fd22ba
248f86224ea6 27d6f59691db 2e981bc7a6a4 348fad122abe 36cc894de45e 3791c27bbdd5 459090e9ac2f
54fc35365d32 675d497d1586 68d565c4dec2 6a5cd181ce91 714aeaf91782 71e7951e05bd 7ccab45bf9f5
963c5efab130 9f60305eb272 a207bdf74e5a a48b70b3766c a81e41086153 acc5e191e39a b4add9e209a8
b97171789e8e c4a417644614 cb0d32ac41b3 cbfc0a766750 ce161186def0 d1b1edb61bee d20bcf177b60
dc058f85f568 e4da91e77190 e67cd1b0b02e ec41b8d1bb42 f0bdbf00b2c5
"""
"""First twelve figures of SHA-256 of makers' names, so that the test names none either."""


def _marks_of_maker(text: str) -> set[str]:
    """Hashes of every word and every two neighbouring words of a text."""
    words = re.findall(r"\w+", text.casefold())
    pairs = [first + second for first, second in pairwise(words)]
    return {hashlib.sha256(word.encode()).hexdigest()[:12] for word in [*words, *pairs]}


@each_exercise
def test_no_maker_is_named(exercise: Exercise) -> None:
    """Names are those of the trade; eponyms are fine, makers are not."""
    texts = [exercise.name, *exercise.other_names, exercise.cue, exercise.evidence]
    texts += [f"{one.name} {one.what_shifts}" for one in exercise.variants]
    assert _marks_of_maker(" . ".join(texts)).isdisjoint(MAKERS.split())
