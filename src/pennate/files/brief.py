"""The brief: TOML that tells the planner the time, the place and the wishes."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Annotated, Any

from pydantic import Field, PlainValidator, WithJsonSchema

from pennate.core.brief import Brief, FreeDay, JointLimit
from pennate.core.exercise import Catalogue, EquipmentKind
from pennate.core.muscles import GROUP_SHARES, PART_NAMES, Group, Joint, Part
from pennate.core.near import did_you_mean
from pennate.core.prescribed import WEEKDAYS, Span
from pennate.errors import InputError
from pennate.files.own_exercise import OwnExercise
from pennate.files.toml import At, Entry, checked, read_toml, said
from pennate.files.week import own_of, preferences_of
from pennate.files.week_tables import (
    Day,
    GroupWord,
    Line,
    Range,
    Wishes,
    WrittenReserve,
    words,
)

WHEN_EMPTY = 'begin with a [[day]]: day = "Monday", minutes = 75'

LONE_PARTS = tuple(
    part for part in Part if not any(part in shares for shares in GROUP_SHARES.values())
)
"""Parts in no group, which count only when she asks for them."""
_PRIORITY_WORDS: dict[str, Group | Part] = {
    **{group.value: group for group in Group},
    **{part.value: part for part in LONE_PARTS},
    **{PART_NAMES[part]: part for part in LONE_PARTS},
}


def _priority_of(value: Any) -> Group | Part:
    found = _PRIORITY_WORDS.get(str(value).casefold().strip())
    if found is None:
        listed = f"write one of: {', '.join(_PRIORITY_WORDS)}"
        remedy = did_you_mean(str(value), _PRIORITY_WORDS, listed)
        raise InputError(f"“{value}” is not known here", remedy=remedy)
    return found


def _years_of(value: Any) -> Fraction:
    plain = not isinstance(value, bool) and isinstance(value, int | float)
    if not plain or not 0 <= value <= 80:
        raise InputError(f"“{value}” is not a number of years", remedy="write it like years = 3.5")
    return Fraction(str(value))


_KIND = words(EquipmentKind)
_JOINT = words(Joint)
_LIMIT = words(JointLimit)
EquipmentWord = Annotated[EquipmentKind, _KIND[0], _KIND[1]]
JointWord = Annotated[Joint, _JOINT[0], _JOINT[1]]
LimitWord = Annotated[JointLimit, _LIMIT[0], _LIMIT[1]]
Priority = Annotated[
    Group | Part,
    PlainValidator(said(_priority_of)),
    WithJsonSchema({"type": "string", "enum": [*_PRIORITY_WORDS]}),
]
Years = Annotated[
    Fraction,
    PlainValidator(said(_years_of)),
    WithJsonSchema({"type": "number", "minimum": 0, "maximum": 80}),
]


class FreeDayTable(Entry):
    """A day on which she can train."""

    day: Day = Field(examples=["Monday"])
    minutes: int = Field(ge=10, le=300, examples=[75])
    focus: Line = Field("", examples=["lower body"])


class BriefTable(Wishes):
    """What the planner is asked."""

    name: Line = Field("", examples=["My brief"])
    sessions: int | None = Field(
        None, ge=1, le=7, examples=[5], description="Days to use at most; left out, all."
    )
    gym: Line = Field("", examples=["gym.toml"], description="Id of a gym, or path of its file.")
    equipment: list[EquipmentWord] = Field(
        default_factory=list,
        examples=[["dumbbells", "bands"]],
        description="Kinds of equipment at hand where no gym is named; left out, all.",
    )
    priorities: list[Priority] = Field(
        default_factory=list, examples=[["glutes"]], description="What matters most, first."
    )
    years: Years | None = Field(None, examples=[3], description="Years of training behind her.")
    reserve: WrittenReserve | None = Field(
        None, examples=["1-2"], description="Reps in reserve she usually stops at."
    )
    supersets: bool = Field(default=True, description="Whether supersets are welcome.")
    most_exercises: int | None = Field(None, ge=1, le=30, examples=[8])
    current: Line = Field("", examples=["week.toml"], description="The week she trains now.")
    targets: dict[GroupWord, Range] = Field(default_factory=dict, examples=[{"glutes": "14-18"}])
    joints: dict[JointWord, LimitWord] = Field(
        default_factory=dict,
        examples=[{"knee": "light"}],
        description="The most an exercise may load a joint: none, light or moderate.",
    )
    pain: dict[JointWord, Annotated[int, Field(ge=0, le=10)]] = Field(
        default_factory=dict, examples=[{"knee": 4}], description="Pain now, 0 to 10."
    )
    own_exercises: list[OwnExercise] = Field(
        default_factory=list, alias="exercise", description="Exercises of her own."
    )
    days: list[FreeDayTable] = Field(
        alias="day", min_length=1, max_length=7, examples=[[{"day": "Monday", "minutes": 75}]]
    )


def read_brief(source: Path | str, catalogue: Catalogue, *, name: str = "") -> Brief:
    """The brief in a file, or in text; `name` is what complaints call it.

    Raises InputError naming file, line, field, slip and remedy.
    """
    file = read_toml(source, name=name, when_empty=WHEN_EMPTY)
    table, top = checked(BriefTable, file), At(file)
    own = own_of(table.own_exercises, top)
    known = catalogue.with_own(own) if own else catalogue
    return Brief(
        name=table.name,
        days=_days(table, top),
        sessions=table.sessions,
        gym=table.gym,
        equipment=tuple(table.equipment),
        priorities=_priorities(table, top),
        targets=dict(table.targets),
        preferences=preferences_of(table, top, known),
        joint_limits=dict(table.joints),
        pain=dict(table.pain),
        years=table.years,
        reserve=_reserve(table),
        supersets=table.supersets,
        most_exercises=table.most_exercises,
        current=table.current,
        own_exercises=own,
    )


def _reserve(table: BriefTable) -> Span | None:
    """To failure is asked for as none in reserve."""
    return (table.reserve.span or Span(0, 0)) if table.reserve else None


def _days(table: BriefTable, top: At) -> tuple[FreeDay, ...]:
    seen: set[str] = set()
    for index, free in enumerate(table.days):
        if free.day in seen:
            at = top.down("day", index, "day")
            raise at.error(f"{free.day} is there twice", "give the minutes of a day once")
        seen.add(free.day)
    days = (FreeDay(free.day, free.minutes, free.focus) for free in table.days)
    return tuple(sorted(days, key=lambda free: WEEKDAYS.index(free.day)))


def _priorities(table: BriefTable, top: At) -> tuple[Group | Part, ...]:
    for index, one in enumerate(table.priorities):
        if one in table.priorities[:index]:
            raise top.down("priorities", index).error(f"“{one}” is listed twice", "keep the first")
    return tuple(table.priorities)
