"""The shipped exercises, read from `data/exercises/*.toml`, and the lifter's own beside them."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from pennate.core.exercise import (
    BodyMassShare,
    Catalogue,
    Confidence,
    EquipmentKind,
    Exercise,
    FailureSafety,
    Fixture,
    Involvement,
    Sides,
    Variant,
)
from pennate.core.muscles import Joint, Part
from pennate.errors import Where
from pennate.files.joint_keys import JOINT_KEYS

MARKS: Mapping[str, Confidence] = MappingProxyType(
    {
        "M": Confidence.MEASURED,
        "X": Confidence.CARRIED_OVER,
        "E": Confidence.EMG,
        "A": Confidence.ANATOMICAL,
    }
)
"""The mark beside a weight in the files: how the weight is known."""

ONE_SIDED = ("one_arm", "one_leg")
"""How the ids of variants begin that are done one side at a time."""


def read_catalogue(extra: tuple[Exercise, ...] = ()) -> Catalogue:
    """All shipped exercises, with the lifter's own added or in the place of their namesakes."""
    shipped = _shipped_catalogue()
    return shipped.with_own(extra) if extra else shipped


def own_exercise(mapping: Mapping[str, Any], where: Where | None = None) -> Exercise:
    """An exercise of the lifter's own from a week file or a form.

    Raises InputError naming the field that is wrong.
    """
    from pennate.files.own_exercise import read_own_exercise  # keeps the shipped ones fast

    return read_own_exercise(mapping, where or Where())


def exercise_schema() -> dict[str, Any]:
    """JSON Schema of an own exercise."""
    from pennate.files.own_exercise import OwnExercise

    return OwnExercise.model_json_schema()


@cache
def _shipped_catalogue() -> Catalogue:
    return Catalogue.of(_shipped_exercises())


def _shipped_exercises() -> tuple[Exercise, ...]:
    folder = files("pennate") / "data" / "exercises"
    texts = sorted(
        (entry.name, entry.read_text(encoding="utf-8"))
        for entry in folder.iterdir()
        if entry.name.endswith(".toml")
    )
    return tuple(_exercise(table) for _, text in texts for table in tomllib.loads(text)["exercise"])


def _exercise(table: Mapping[str, Any]) -> Exercise:
    return Exercise(
        id=table["id"],
        name=table["name"],
        pattern=table["pattern"],
        sides=Sides(table.get("sides", Sides.BOTH)),
        involvement=_involvement(table["muscles"]),
        joints=_joints(table["joints"]),
        equipment=tuple(EquipmentKind(kind) for kind in table["equipment"]),
        other_names=tuple(table["other_names"]),
        parent=table.get("parent"),
        body_mass=_body_mass(table.get("body_mass")),
        grip_limited=table.get("grip_limited", False),
        timed=table.get("timed", False),
        failure_safety=FailureSafety(table.get("failure_safety", FailureSafety.NONE)),
        cue=table["cue"],
        seconds_per_rep=Fraction(table.get("seconds_per_rep", 3)),
        evidence=table["evidence"],
        variants=tuple(_variant(one) for one in table.get("variants", ())),
        needs=_needs(table.get("needs", {})),
        also_on=tuple(EquipmentKind(kind) for kind in table.get("also_on", ())),
    )


def _variant(table: Mapping[str, Any]) -> Variant:
    return Variant(
        table["id"],
        table["name"],
        table["shifts"],
        _involvement(table.get("muscles", {})),
        one_sided=table["id"].startswith(ONE_SIDED),
    )


def _involvement(table: Mapping[str, str]) -> Mapping[Part, Involvement]:
    weighed = {}
    for part, text in table.items():
        weight, mark = text.split()
        weighed[Part(part)] = Involvement(Fraction(weight), MARKS[mark])
    return MappingProxyType(weighed)


def _joints(table: Mapping[str, int]) -> Mapping[Joint, int]:
    return MappingProxyType({joint: table.get(key, 0) for key, joint in JOINT_KEYS.items()})


def _needs(table: Mapping[str, list[str]]) -> Mapping[EquipmentKind, frozenset[Fixture]]:
    return MappingProxyType(
        {EquipmentKind(kind): frozenset(map(Fixture, words)) for kind, words in table.items()}
    )


def _body_mass(table: Mapping[str, str] | None) -> BodyMassShare | None:
    if table is None:
        return None
    return BodyMassShare(Fraction(table["female"]), Fraction(table["male"]), table["source"])
