"""The shape of a lifter's own exercise, in a week file or from a form.

Muscles may be named by part (`delt_side`), by the words people read (“side shoulder”), or
by group (“quads”), which stands for all of its parts.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from types import MappingProxyType
from typing import Annotated, Any, Self

from pydantic import BeforeValidator, Field, WithJsonSchema, model_validator
from pydantic_core import PydanticCustomError

from pennate.core.exercise import (
    BodyMassShare,
    Confidence,
    EquipmentKind,
    Exercise,
    FailureSafety,
    Fixture,
    Involvement,
    Sides,
)
from pennate.core.muscles import GROUP_SHARES, PART_NAMES, Group, Part
from pennate.core.near import did_you_mean
from pennate.errors import InputError, Where
from pennate.files.joint_keys import JOINT_KEYS
from pennate.files.toml import Entry, TomlFile, checked_part, said
from pennate.files.toml_lines import KeyPath

WEIGHTS = (Fraction(1), Fraction(1, 2), Fraction(1, 4))
"""The steps in which a set is credited: whole, half, slight."""
_KIND_WORDS = [kind.value for kind in EquipmentKind]
_FIXTURE_WORDS = [one.value for one in Fixture]
_NO_KIND = "not a kind of equipment"
_NO_FIXTURE = "nothing to hang from, lie on or step on"
LONGEST_NAME = 60
LONGEST_TEXT = 400


def part_words() -> dict[str, tuple[Part, ...]]:
    """Every word for a muscle, case folded, with the parts it stands for.

    A word that names both a group and a part (“hamstrings”) means the same either way.
    """
    words: dict[str, tuple[Part, ...]] = {}
    for group in Group:
        words[group.value] = tuple(GROUP_SHARES[group])
    for part, name in PART_NAMES.items():
        for word in (part.value, part.value.replace("_", " "), name.casefold()):
            words.setdefault(word, (part,))
    return words


def _muscles_of(value: Any) -> dict[str, Fraction]:
    if not isinstance(value, Mapping) or not value:
        raise InputError("no muscle is named", remedy="write it like { quads = 1, glutes = 0.5 }")
    words = part_words()
    for name in value:
        if str(name).casefold().strip() not in words:
            shown = ", ".join(group.value for group in Group)
            remedy = did_you_mean(str(name).casefold(), words, f"for example: {shown}")
            raise InputError(f"“{name}” is not a muscle", remedy=remedy)
    shares = {str(name): _weight_of(name, given) for name, given in value.items()}
    if 1 not in shares.values():
        raise InputError(
            "no muscle counts a whole set", remedy="give the main muscle of the exercise a 1"
        )
    return shares


def _weight_of(name: Any, given: Any) -> Fraction:
    if not isinstance(given, bool) and isinstance(given, int | float | Fraction):
        weight = Fraction(str(given))
        if weight in WEIGHTS:
            return weight
    raise InputError(
        f"“{given}” for {name} is not a share of a set",
        remedy="write 1 for a whole set, 0.5 for half, 0.25 for slight",
    )


def _joints_of(value: Any) -> dict[str, int]:
    if not isinstance(value, Mapping):
        raise InputError("joints must be a table", remedy="write it like { knee = 2 }")
    for name, load in value.items():
        if name not in JOINT_KEYS:
            remedy = did_you_mean(str(name), JOINT_KEYS, f"one of: {', '.join(JOINT_KEYS)}")
            raise InputError(f"“{name}” is not a joint", remedy=remedy)
        if isinstance(load, bool) or not isinstance(load, int) or not 0 <= load <= 3:
            raise InputError(
                f"“{load}” for {name} is not a joint load", remedy="write 0, 1, 2 or 3"
            )
    return dict(value)


def _equipment_of(value: Any) -> tuple[EquipmentKind, ...]:
    kinds = _kinds_of(value)
    if not kinds:
        raise InputError("no equipment is named", remedy='write it like ["cable"]')
    return kinds


def _kinds_of(value: Any) -> tuple[EquipmentKind, ...]:
    return tuple(EquipmentKind(_known(kind, _KIND_WORDS, _NO_KIND)) for kind in _listed(value))


def _needs_of(value: Any) -> dict[EquipmentKind, frozenset[Fixture]]:
    if not isinstance(value, Mapping):
        raise InputError("needs must be a table", remedy='write it like { dumbbells = ["bench"] }')
    return {
        EquipmentKind(_known(kind, _KIND_WORDS, _NO_KIND)): frozenset(
            Fixture(_known(word, _FIXTURE_WORDS, _NO_FIXTURE)) for word in _listed(words)
        )
        for kind, words in value.items()
    }


def _listed(value: Any) -> list[Any]:
    return list(value) if isinstance(value, list | tuple) else [value]


def _known(word: Any, known: Sequence[str], what: str) -> str:
    if word not in known:
        remedy = did_you_mean(str(word), known, f"one of: {', '.join(known)}")
        raise InputError(f"“{word}” is {what}", remedy=remedy)
    return str(word)


def _sides_of(value: Any) -> Sides:
    short = {"both": Sides.BOTH, "one": Sides.ONE, **{side.value: side for side in Sides}}
    if value not in short:
        raise InputError(f"“{value}” is not known", remedy='write "both" or "one"')
    return short[value]


def _safety_of(value: Any) -> FailureSafety:
    words = [safety.value for safety in FailureSafety]
    if value not in words:
        remedy = did_you_mean(str(value), words, f"one of: {', '.join(words)}")
        raise InputError(f"“{value}” is not known", remedy=remedy)
    return FailureSafety(value)


def _share_of(value: Any) -> Fraction:
    if not isinstance(value, bool) and isinstance(value, int | float | Fraction):
        share = Fraction(str(value))
        if 0 < share <= 1:
            return share
    raise InputError(
        f"“{value}” is not a share of body mass", remedy="write it like 0.7, at most 1"
    )


def _id_of(value: Any) -> str:
    if isinstance(value, str) and re.fullmatch(r"[a-z0-9_]{1,60}", value):
        return value
    raise InputError(
        f"“{value}” cannot be an id", remedy="use small letters, figures and underscores"
    )


def _name_of(value: Any) -> str:
    if isinstance(value, str) and 0 < len(value.strip()) <= LONGEST_NAME:
        return value.strip()
    raise InputError(
        f"“{value}” cannot be a name", remedy=f"write 1 to {LONGEST_NAME} letters in quotes"
    )


_KINDS = {"enum": _KIND_WORDS}
_NAME_SCHEMA = WithJsonSchema({"type": "string", "minLength": 1, "maxLength": LONGEST_NAME})
_MUSCLES_SCHEMA = WithJsonSchema(
    {
        "type": "object",
        "minProperties": 1,
        "propertyNames": {"enum": sorted(part_words())},
        "additionalProperties": {"enum": sorted(float(weight) for weight in WEIGHTS)},
    }
)
_EQUIPMENT_SCHEMA = WithJsonSchema(
    {"anyOf": [_KINDS, {"type": "array", "minItems": 1, "items": _KINDS}]}
)
_FIXTURES = {"enum": _FIXTURE_WORDS}
_NEEDS_SCHEMA = WithJsonSchema(
    {
        "type": "object",
        "propertyNames": _KINDS,
        "additionalProperties": {"anyOf": [_FIXTURES, {"type": "array", "items": _FIXTURES}]},
    }
)
_PINCH_SCHEMA = WithJsonSchema({"anyOf": [_KINDS, {"type": "array", "items": _KINDS}]})
_ID_SCHEMA = WithJsonSchema({"type": "string", "pattern": "^[a-z0-9_]{1,60}$"})
_SIDES_SCHEMA = WithJsonSchema({"enum": ["both", "one", *(side.value for side in Sides)]})
_JOINTS_SCHEMA = WithJsonSchema(
    {
        "type": "object",
        "propertyNames": {"enum": list(JOINT_KEYS)},
        "additionalProperties": {"type": "integer", "minimum": 0, "maximum": 3},
    }
)
_SHARE_SCHEMA = WithJsonSchema({"type": "number", "exclusiveMinimum": 0, "maximum": 1})


class OwnExercise(Entry):
    """An exercise of the lifter's own, with the muscles it trains."""

    name: Annotated[str, BeforeValidator(said(_name_of)), _NAME_SCHEMA] = Field(
        examples=["Cable Y raise"]
    )
    muscles: Annotated[dict[str, Any], BeforeValidator(said(_muscles_of)), _MUSCLES_SCHEMA] = Field(
        description="Muscle to share of a set: 1 whole, 0.5 half, 0.25 slight.",
        examples=[{"side shoulder": 1, "upper back": 0.5}],
    )
    equipment: Annotated[
        tuple[EquipmentKind, ...], BeforeValidator(said(_equipment_of)), _EQUIPMENT_SCHEMA
    ] = Field(description="Kinds of equipment, the usual one first.", examples=[["cable"]])
    also_on: Annotated[
        tuple[EquipmentKind, ...], BeforeValidator(said(_kinds_of)), _PINCH_SCHEMA
    ] = Field((), description="Kinds that do in a pinch, away from the gym.", examples=[["bands"]])
    needs: Annotated[
        dict[EquipmentKind, frozenset[Fixture]], BeforeValidator(said(_needs_of)), _NEEDS_SCHEMA
    ] = Field(
        default_factory=dict,
        description="What a kind needs there to hang from, lie on or step on.",
        examples=[{"dumbbells": ["bench"]}],
    )
    id: Annotated[str, BeforeValidator(said(_id_of)), _ID_SCHEMA] | None = Field(
        None, description="Left out, it is made from the name.", examples=["cable_y_raise"]
    )
    other_names: tuple[str, ...] = Field((), strict=False, examples=[["Y raise"]])
    pattern: str = Field("own", max_length=LONGEST_NAME, examples=["delt_isolation"])
    sides: Annotated[Sides, BeforeValidator(said(_sides_of)), _SIDES_SCHEMA] = Field(
        Sides.BOTH, description="Both sides at once, or one at a time.", examples=["one"]
    )
    joints: Annotated[dict[str, int], BeforeValidator(said(_joints_of)), _JOINTS_SCHEMA] = Field(
        default_factory=dict,
        description="Load on a joint, 0 none to 3 most.",
        examples=[{"shoulder": 2}],
    )
    parent: str | None = Field(
        None, description="The exercise it is a close variant of.", examples=["lateral_raise"]
    )
    body_share: Annotated[Fraction, BeforeValidator(said(_share_of)), _SHARE_SCHEMA] | None = Field(
        None, description="Fraction of body mass that it moves.", examples=[0.7]
    )
    grip_limited: bool = Field(
        default=False, description="Grip may end the set first.", examples=[True]
    )
    timed: bool = Field(default=False, description="Held for seconds.", examples=[True])
    failure_safety: Annotated[FailureSafety, BeforeValidator(said(_safety_of))] = Field(
        FailureSafety.NONE,
        description="What must be in place before a set to failure.",
        examples=["safeties or spotter"],
    )
    cue: str = Field("", max_length=LONGEST_TEXT, examples=["Thumbs up, arms in a Y."])
    seconds_per_rep: float = Field(3, gt=0, le=60, examples=[3])

    @model_validator(mode="after")
    def _no_muscle_twice(self) -> Self:
        words, seen = part_words(), set[Part]()
        for name in self.muscles:
            for part in words[name.casefold().strip()]:
                if part in seen:
                    raise PydanticCustomError(
                        "said",
                        "{what}",
                        {
                            "what": f"“{PART_NAMES[part]}” is named twice among the muscles",
                            "remedy": "name the group or its parts, not both",
                        },
                    )
                seen.add(part)
        return self

    @model_validator(mode="after")
    def _needs_of_its_kinds(self) -> Self:
        for kind in self.needs:
            if kind not in (*self.equipment, *self.also_on):
                what = f"“{kind.value}” needs something, but the exercise is not done on it"
                remedy = "name it in equipment too, or in also_on"
                raise PydanticCustomError("said", "{what}", {"what": what, "remedy": remedy})
        return self

    def exercise(self) -> Exercise:
        """The exercise this describes."""
        return Exercise(
            id=self.id or id_from(self.name),
            name=self.name,
            pattern=self.pattern,
            sides=self.sides,
            involvement=self._involvement(),
            joints={joint: self.joints.get(key, 0) for key, joint in JOINT_KEYS.items()},
            equipment=self.equipment,
            other_names=self.other_names,
            parent=self.parent,
            body_mass=self._body_mass(),
            grip_limited=self.grip_limited,
            timed=self.timed,
            failure_safety=self.failure_safety,
            cue=self.cue,
            seconds_per_rep=Fraction(str(self.seconds_per_rep)),
            evidence="your own exercise: the muscles are as you named them",
            own=True,
            needs=MappingProxyType(self.needs),
            also_on=self.also_on,
        )

    def _involvement(self) -> Mapping[Part, Involvement]:
        words = part_words()
        return MappingProxyType(
            {
                part: Involvement(weight, Confidence.ANATOMICAL)
                for name, weight in self.muscles.items()
                for part in words[name.casefold().strip()]
            }
        )

    def _body_mass(self) -> BodyMassShare | None:
        if self.body_share is None:
            return None
        return BodyMassShare(self.body_share, self.body_share, "as you named it")

    @classmethod
    def of(cls, exercise: Exercise) -> dict[str, Any]:
        """The exercise as plain values that `own_exercise` reads back; defaults left out."""
        values: dict[str, Any] = {
            "id": exercise.id,
            "name": exercise.name,
            "other_names": list(exercise.other_names),
            "pattern": exercise.pattern,
            "sides": exercise.sides.value,
            "muscles": {
                _word_for(part): _plain(item.weight) for part, item in exercise.involvement.items()
            },
            "joints": {
                key: load for key, joint in JOINT_KEYS.items() if (load := exercise.joints[joint])
            },
            "equipment": [kind.value for kind in exercise.equipment],
            "also_on": [kind.value for kind in exercise.also_on],
            "needs": {
                kind.value: [one.value for one in Fixture if one in needed]
                for kind, needed in exercise.needs.items()
            },
            "parent": exercise.parent,
            "body_share": _plain(exercise.body_mass.female) if exercise.body_mass else None,
            "grip_limited": exercise.grip_limited,
            "timed": exercise.timed,
            "failure_safety": exercise.failure_safety.value,
            "cue": exercise.cue,
            "seconds_per_rep": _plain(exercise.seconds_per_rep),
        }
        usual = {name: field.default for name, field in cls.model_fields.items()}
        return {
            key: value
            for key, value in values.items()
            if value not in (None, [], {}) and value != usual[key]
        }


def _word_for(part: Part) -> str:
    """The part's id, unless that word means a whole group to a lifter (“triceps”)."""
    return part.value if part_words()[part.value] == (part,) else PART_NAMES[part]


def _plain(value: Fraction) -> int | float:
    return int(value) if value.denominator == 1 else float(value)


def id_from(name: str) -> str:
    """An id made from a shown name: “Cable Y raise” gives `cable_y_raise`."""
    return re.sub(r"[^a-z0-9]+", "_", name.casefold()).strip("_")[:LONGEST_NAME] or "own_exercise"


def read_own_exercise(mapping: Mapping[str, Any], where: Where) -> Exercise:
    """Check plain values and make the exercise; raises InputError naming the field."""
    at = (where.field,) if where.field else ()
    lines: dict[KeyPath, int] = {at: where.line} if where.line is not None else {}
    file = TomlFile(where.file or "", mapping, lines)
    return checked_part(OwnExercise, file, dict(mapping), at).exercise()
