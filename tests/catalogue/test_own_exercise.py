"""The lifter's own exercises: read, refused with a remedy, and written back."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import jsonschema  # type: ignore[import-untyped]  # ships no stubs; used for two calls
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.app.gyms import starter_gym
from pennate.app.stops import items_for
from pennate.core.exercise import Confidence, EquipmentKind, FailureSafety, Fixture, Sides
from pennate.core.muscles import PART_NAMES, Group, Joint, Part
from pennate.errors import InputError, Where
from pennate.files.catalogue import exercise_schema, own_exercise, read_catalogue
from pennate.files.own_exercise import OwnExercise, id_from, part_words

RAISE: dict[str, Any] = {
    "name": "Cable Y raise",
    "muscles": {"side shoulder": 1, "upper back": 0.5},
    "equipment": ["cable"],
}


def test_the_shortest_own_exercise() -> None:
    """Name, muscles and equipment are enough; the rest has defaults."""
    made = own_exercise(RAISE)
    assert made.id == "cable_y_raise"
    assert made.weights() == {Part.DELT_SIDE: 1, Part.UPPER_BACK: Fraction(1, 2)}
    assert {item.confidence for item in made.involvement.values()} == {Confidence.ANATOMICAL}
    assert made.sides is Sides.BOTH
    assert made.own
    assert made.joints[Joint.KNEE] == 0


def test_a_group_stands_for_its_parts() -> None:
    """“quads” is both parts; “triceps” is the whole muscle, as people say it."""
    made = own_exercise({**RAISE, "muscles": {"quads": 1, "Triceps": 0.5}})
    assert made.weights() == {
        Part.QUADS_VASTI: 1,
        Part.RECTUS_FEMORIS: 1,
        Part.TRICEPS: Fraction(1, 2),
        Part.TRICEPS_LONG: Fraction(1, 2),
    }


def test_every_part_and_group_can_be_named() -> None:
    """Ids, shown names and groups are all understood."""
    words = part_words()
    assert set(words) >= {part.value for part in Part} | {group.value for group in Group}
    assert set(words) >= {name.casefold() for name in PART_NAMES.values()}


REFUSED: list[tuple[dict[str, Any], str, str]] = [
    ({"muscles": {"side shoulde": 1}}, "muscles", "side shoulder"),
    ({"muscles": {"quads": 0.3}}, "muscles", "0.5 for half"),
    ({"muscles": {"quads": True}}, "muscles", "1 for a whole set"),
    ({"muscles": {"quads": 0.5}}, "muscles", "main muscle"),
    ({"muscles": {}}, "muscles", "quads = 1"),
    ({"muscles": "quads"}, "muscles", "quads = 1"),
    ({"muscles": {"triceps": 1, "triceps_long": 1}}, "exercise 1", "not both"),
    ({"equipment": ["cabel"]}, "equipment", "cable"),
    ({"equipment": []}, "equipment", "cable"),
    ({"equipment": [3]}, "equipment", "one of"),
    ({"name": ""}, "name", "1 to 60"),
    ({"name": "x" * 61}, "name", "1 to 60"),
    ({"sides": "left"}, "sides", "both"),
    ({"joints": {"nee": 1}}, "joints", "knee"),
    ({"joints": {"knee": 4}}, "joints", "0, 1, 2 or 3"),
    ({"joints": [1]}, "joints", "knee = 2"),
    ({"body_share": 70}, "body_share", "0.7"),
    ({"failure_safety": "spotter"}, "failure_safety", "safeties or spotter"),
    ({"id": "Y raise"}, "id", "underscores"),
    ({"cue": 3}, "cue", "Thumbs up"),
    ({"timed": "yes"}, "timed", "true"),
    ({"seconds_per_rep": 0}, "seconds_per_rep", "3"),
    ({"musles": {}}, "musles", "muscles"),
    ({"parent": 4}, "parent", "lateral_raise"),
    ({"needs": ["bench"]}, "needs", 'dumbbells = ["bench"]'),
    ({"needs": {"cable": ["bensh"]}}, "needs", "bench"),
    ({"needs": {"cable": 3}}, "needs", "chin-up bar"),
    ({"needs": {"cabel": ["bench"]}}, "needs", "cable"),
    ({"needs": {"bands": ["band anchor"]}}, "exercise 1", "also_on"),
    ({"also_on": ["band"]}, "also_on", "bands"),
]


@pytest.mark.parametrize(("change", "field", "remedy"), REFUSED, ids=lambda v: str(v)[:30])
def test_a_wrong_field_is_named_with_its_remedy(
    change: dict[str, Any], field: str, remedy: str
) -> None:
    """One sentence: file, line, field, what is wrong, what to do."""
    with pytest.raises(InputError) as problem:
        own_exercise({**RAISE, **change}, Where("week.toml", 12, "exercise 1"))
    sentence = str(problem.value)
    assert sentence.startswith("week.toml, line 12, exercise 1")
    assert field in str(problem.value.where)
    assert remedy in sentence


@pytest.mark.parametrize("field", ["name", "muscles", "equipment"])
def test_what_must_be_there(field: str) -> None:
    """A missing field is named."""
    with pytest.raises(InputError, match=f"“{field}” is missing"):
        own_exercise({key: value for key, value in RAISE.items() if key != field})


def _needing(own: dict[Any, Any]) -> dict[Any, Any]:
    """The same where the needs, if there are any, are those of its first kind."""
    return {**own, "needs": {own["equipment"][0]: own["needs"]}} if "needs" in own else own


OWN = st.fixed_dictionaries(
    {
        "name": st.text("abc éß-1", min_size=1, max_size=20).filter(str.strip),
        "muscles": st.dictionaries(
            st.sampled_from([part for part in Part if part is not Part.TRICEPS]),
            st.sampled_from([0.25, 0.5, 1]),
            min_size=1,
        ).map(lambda shares: {**shares, "triceps": 1} if Part.TRICEPS_LONG not in shares else
              {**shares, PART_NAMES[Part.TRICEPS]: 1}),
        "equipment": st.lists(st.sampled_from([k.value for k in EquipmentKind]), min_size=1),
    },
    optional={
        "sides": st.sampled_from(["both", "one", "one at a time"]),
        "joints": st.dictionaries(st.sampled_from(["knee", "lower_back"]), st.integers(0, 3)),
        "body_share": st.sampled_from([0.5, 0.677, 1]),
        "grip_limited": st.booleans(),
        "timed": st.booleans(),
        "failure_safety": st.sampled_from([one.value for one in FailureSafety]),
        "cue": st.text(max_size=30),
        "seconds_per_rep": st.sampled_from([2, 2.5, 5]),
        "other_names": st.lists(st.text("xyz", min_size=1), max_size=3),
        "parent": st.sampled_from(["curl", "dip"]),
        "also_on": st.lists(st.sampled_from([k.value for k in EquipmentKind]), max_size=2),
        "needs": st.lists(st.sampled_from([one.value for one in Fixture])),
    },
).map(_needing)  # fmt: skip


@given(OWN)
def test_written_and_read_again_is_the_same(values: dict[str, Any]) -> None:
    """`OwnExercise.of` and `own_exercise` undo each other."""
    made = own_exercise({str(key): value for key, value in values.items()})
    assert own_exercise(OwnExercise.of(made)) == made


def test_what_it_needs_must_be_there() -> None:
    """In a gym without a bench it is done on what needs none, or not at all."""
    needs = {"needs": {"dumbbells": "bench"}, "equipment": ["dumbbells"], "also_on": ["bands"]}
    mine, kinds = own_exercise({**RAISE, **needs}), {EquipmentKind.DUMBBELLS}
    assert mine.kinds_in(kinds, {Fixture.BENCH}) == (EquipmentKind.DUMBBELLS,)
    assert mine.kinds_in(kinds, set()) == ()
    assert mine.kinds_in({*kinds, EquipmentKind.BANDS}, set()) == (EquipmentKind.BANDS,)
    bare = replace(starter_gym("home"), fixtures=())
    there = {item.kind for item in items_for(bare, mine)}
    assert EquipmentKind.DUMBBELLS not in there
    assert EquipmentKind.DUMBBELLS in {i.kind for i in items_for(starter_gym("home"), mine)}


def test_ids_are_made_from_names() -> None:
    """Only small letters, figures and underscores; never empty."""
    assert id_from("Cable Y raise (low)") == "cable_y_raise_low"
    assert id_from("???") == "own_exercise"


def test_own_exercises_stand_beside_the_shipped_ones() -> None:
    """They are found by name, and one with a shipped id takes its place."""
    mine = own_exercise(RAISE)
    catalogue = read_catalogue((mine,))
    assert catalogue.find("cable y raise") == mine
    assert len(catalogue) == len(read_catalogue()) + 1
    instead = own_exercise({**RAISE, "id": "curl"})
    replaced = read_catalogue((instead,))
    assert replaced["curl"] == instead
    assert len(replaced) == len(read_catalogue())


def test_the_schema_says_what_is_required() -> None:
    """The published JSON Schema names the required fields and forbids others."""
    schema = exercise_schema()
    assert schema["required"] == ["name", "muscles", "equipment"]
    assert schema["additionalProperties"] is False
    assert schema["properties"]["muscles"]["examples"]


SCHEMA = jsonschema.Draft202012Validator(exercise_schema())
BETWEEN_FIELDS = ("main muscle", "not both", "also_on")
"""Rules about several entries at once, which the schema cannot say."""


@given(OWN)
def test_what_the_schema_allows_is_read(values: dict[str, Any]) -> None:
    """The schema, checked by an independent library, accepts what the reader accepts."""
    plain = {str(key): value for key, value in values.items()}
    plain["muscles"] = {str(part): weight for part, weight in plain["muscles"].items()}
    SCHEMA.validate(plain)
    assert own_exercise(plain)


@pytest.mark.parametrize(("change", "field", "remedy"), REFUSED, ids=lambda v: str(v)[:30])
def test_the_schema_refuses_what_the_reader_refuses(
    change: dict[str, Any], field: str, remedy: str
) -> None:
    """All but the rules between fields are in the schema too."""
    assert SCHEMA.is_valid({**RAISE, **change}) is (remedy in BETWEEN_FIELDS)
