"""The brief: TOML that tells the planner the time, the place and the wishes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Annotated, Any

from pydantic import Field, PlainValidator, WithJsonSchema

from pennate.core.brief import Brief, FreeDay, JointLimit
from pennate.core.exercise import Catalogue, EquipmentKind, Exercise
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

_FIRST_DAY = 'add [[day]] with day = "Monday" and minutes = 75, or name the week you train now'
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
    minutes: int | None = Field(
        None,
        ge=10,
        le=300,
        examples=[75],
        description="Left out, what the day takes in the week she trains now.",
    )
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
    near: bool = Field(
        default=True, description="Whether staying near the week she trains now is worth something."
    )
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
        default_factory=list,
        alias="day",
        max_length=7,
        examples=[[{"day": "Monday", "minutes": 75}]],
        description="Days she can train; left out, those of the week she trains now.",
    )


@dataclass(frozen=True, slots=True)
class Present:
    """What the week she trains now gives to a brief that leaves it open."""

    minutes: Mapping[str, int] = field(default_factory=dict)
    """Minutes by day."""
    own_exercises: tuple[Exercise, ...] = ()


def read_brief(
    source: Path | str,
    catalogue: Catalogue,
    *,
    name: str = "",
    present: Callable[[str], Present] = lambda _current: Present(),
) -> Brief:
    """The brief in a file, or in text; `name` is what complaints call it.

    `present` tells of the week she trains now, from the path that the brief gives it.
    Raises InputError naming file, line, field, slip and remedy.
    """
    file = read_toml(source, name=name, when_empty=WHEN_EMPTY)
    table, top = checked(BriefTable, file), At(file)
    now = present(table.current)
    own = own_of(table.own_exercises, top)
    named = {one.id for one in own}
    own = (*own, *(one for one in now.own_exercises if one.id not in named))
    known = catalogue.with_own(own) if own else catalogue
    return Brief(
        name=table.name,
        days=_days(table, top, now.minutes),
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
        near=table.near,
        own_exercises=own,
    )


def _reserve(table: BriefTable) -> Span | None:
    """To failure is asked for as none in reserve."""
    return (table.reserve.span or Span(0, 0)) if table.reserve else None


def _days(table: BriefTable, top: At, present: Mapping[str, int]) -> tuple[FreeDay, ...]:
    seen: set[str] = set()
    found = []
    for index, free in enumerate(table.days):
        if free.day in seen:
            at = top.down("day", index, "day")
            raise at.error(f"{free.day} is there twice", "give the minutes of a day once")
        seen.add(free.day)
        minutes = present.get(free.day) if free.minutes is None else free.minutes
        if minutes is None:
            at = top.down("day", index, "minutes")
            raise at.error("“minutes” is missing", "add minutes = 75")
        found.append(FreeDay(free.day, minutes, free.focus, given=free.minutes is not None))
    if not table.days:
        found = [FreeDay(day, minutes, given=False) for day, minutes in present.items()]
    if not found:
        raise top.down("day").error("“day” is missing", _FIRST_DAY)
    return tuple(sorted(found, key=lambda free: WEEKDAYS.index(free.day)))


def _priorities(table: BriefTable, top: At) -> tuple[Group | Part, ...]:
    for index, one in enumerate(table.priorities):
        if one in table.priorities[:index]:
            raise top.down("priorities", index).error(f"“{one}” is listed twice", "keep the first")
    return tuple(table.priorities)
