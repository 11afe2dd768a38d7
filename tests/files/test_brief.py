"""The brief for the planner: all it can say, and what it refuses."""

from __future__ import annotations

from fractions import Fraction
from importlib.resources import files

import jsonschema_rs
import pytest
import tomlkit

from pennate.core.brief import Brief, FreeDay, JointLimit
from pennate.core.exercise import EquipmentKind
from pennate.core.muscles import Group, Joint, Part
from pennate.core.prescribed import Span
from pennate.errors import InputError
from pennate.files.brief import LONE_PARTS, read_brief
from pennate.files.catalogue import read_catalogue
from pennate.files.schema import SCHEMAS

EXAMPLE = (files("pennate") / "data" / "examples" / "brief.toml").read_text(encoding="utf-8")
DAY = '[[day]]\nday = "Monday"\nminutes = 60\n'


def _brief(text: str) -> Brief:
    return read_brief(text, read_catalogue(), name="brief.toml")


def test_the_example_says_everything() -> None:
    """The shipped example uses every key, and each arrives where the planner looks."""
    brief = _brief(EXAMPLE)
    assert brief.days[0] == FreeDay("Monday", 75, "lower body")
    assert (len(brief.days), brief.training_days) == (6, 5)
    assert brief.priorities == (Group.GLUTES, Group.SHOULDERS, Part.ADDUCTORS)
    assert brief.targets[Group.SHOULDERS] == Span(12, None)
    assert brief.preferences.barred == {"sissy_squat": "my left knee"}
    assert brief.joint_limits[Joint.LUMBAR] is JointLimit.MODERATE
    assert (brief.pain, brief.years) == ({Joint.KNEE: 2}, Fraction(9, 2))
    assert [own.id for own in brief.own_exercises] == ["cable_y_raise"]
    assert set(tomlkit.parse(EXAMPLE)) | {"equipment"} == set(SCHEMAS["brief"]()["properties"])


def test_days_alone_are_enough() -> None:
    """Everything but the days is left to the planner."""
    brief = _brief(DAY)
    assert brief == Brief(name="", days=(FreeDay("Monday", 60),))
    assert brief.supersets


def test_equipment_and_failure() -> None:
    """Kinds of equipment where there is no gym file; training to failure is none in reserve."""
    brief = _brief(f'equipment = ["bands", "Dumbbells"]\nreserve = "fail"\n{DAY}')
    assert brief.equipment == (EquipmentKind.BANDS, EquipmentKind.DUMBBELLS)
    assert brief.reserve == Span(0, 0)


def test_limits_stand_on_the_joint_scale() -> None:
    """The words are steps of the joint load 0 to 3; the top step needs no limit."""
    assert [limit.highest for limit in JointLimit] == [0, 1, 2]


def test_parts_without_a_group_can_be_asked_for() -> None:
    """Adductors, hip flexors and grip count only where she says so."""
    assert set(LONE_PARTS) == {Part.ADDUCTORS, Part.HIP_FLEXORS, Part.FOREARM_GRIP}
    assert _brief(f'priorities = ["hip flexors"]\n{DAY}').priorities == (Part.HIP_FLEXORS,)


def test_the_published_schema_accepts_the_example() -> None:
    """An independent JSON Schema validator accepts the example."""
    jsonschema_rs.validate(SCHEMAS["brief"](), tomlkit.parse(EXAMPLE).unwrap())


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", 'brief.toml: the file is empty; begin with a [[day]]: day = "Monday"'),
        ("years = 3\n", "brief.toml, line 1, day: “day” is missing"),
        (
            '[[day]]\nday = "Monday"\n',
            "line 1, day 1, minutes: “minutes” is missing; add minutes = 75",
        ),
        (
            f"{DAY}{DAY}",
            "line 5, day 2, day: Monday is there twice; give the minutes of a day once",
        ),
        (f"{DAY}[joints]\nkne = 'light'\n", "line 5, joints, kne: “kne” is not known here"),
        (f"{DAY}[joints]\nknee = 'ligt'\n", "line 5, joints, knee: “ligt” is not known here"),
        (f"{DAY}[pain]\nknee = 11\n", "line 5, pain, knee: 11 is more than 10"),
        (f"years = '3'\n{DAY}", "line 1, years: “3” is not a number of years"),
        (f"priorities = ['glutes', 'glutes']\n{DAY}", "priorities 2: “glutes” is listed twice"),
        (f"priorities = ['glues']\n{DAY}", "priorities 1: “glues” is not known here; did you mean"),
        (
            f"{DAY}[required]\nchin_ups = ''\n",
            "required, chin_ups: there is no exercise “chin_ups”; did you",
        ),
        (f"sesions = 4\n{DAY}", "line 1, sesions: unknown key “sesions”; did you mean “sessions”"),
        (
            f"equipment = ['band']\n{DAY}",
            "equipment 1: “band” is not known here; did you mean “bands”",
        ),
    ],
)
def test_slips_bring_a_sentence(text: str, sentence: str) -> None:
    """File, line, field, slip and remedy, as for the week."""
    with pytest.raises(InputError) as caught:
        _brief(text)
    assert sentence in str(caught.value)
