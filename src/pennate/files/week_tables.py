"""The week file as tables: its keys, their types, examples and words.

These models are the published JSON Schema; `files.week` turns them into a `Week`.
"""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from typing import Annotated, Any, TypeVar

from pydantic import BeforeValidator, Field, PlainValidator, StringConstraints, WithJsonSchema

from pennate.core.muscles import Group
from pennate.core.near import did_you_mean
from pennate.core.performed import SetKind
from pennate.core.prescribed import WEEKDAYS, LoadRule, Reason, Span
from pennate.core.week_check import LONGEST_LINE, MOST_SETS
from pennate.errors import InputError
from pennate.files.own_exercise import OwnExercise
from pennate.files.toml import Entry, said
from pennate.files.words import (
    Reserve,
    count_of,
    day_of,
    load_of,
    reserve_of,
    rest_of,
    span_of,
    tempo_of,
)

E = TypeVar("E", bound=StrEnum)


def _typed(read: Callable[[Any], Any], *, number: bool = False) -> tuple[Any, ...]:
    """The validator and the schema of a value that people write as text, or as a number."""
    kinds = [{"type": "string"}, *([{"type": "integer"}] if number else [])]
    schema = {"anyOf": kinds} if number else kinds[0]
    return PlainValidator(said(read)), WithJsonSchema(schema)


def word_of(fixed: type[E]) -> Callable[[Any], E]:
    """A reader of one word of a fixed list, which offers the nearest for a mistyped one."""
    known = [word.value for word in fixed]

    def reader(value: Any) -> E:
        try:
            return fixed(value.casefold().strip() if isinstance(value, str) else value)
        except ValueError:
            listed = f"write one of: {', '.join(known)}"
            raise InputError(
                f"“{value}” is not known here", remedy=did_you_mean(str(value), known, listed)
            ) from None

    return reader


def words(known: type[E]) -> tuple[Any, ...]:
    """The validator and the schema of one word of a fixed list."""
    schema = {"type": "string", "enum": [word.value for word in known]}
    return PlainValidator(said(word_of(known))), WithJsonSchema(schema)


_RANGE = _typed(span_of, number=True)
_COUNT = _typed(count_of, number=True)
_RESERVE = _typed(reserve_of, number=True)
_REST = _typed(rest_of, number=True)
_LOAD = _typed(load_of)
_DAY = (PlainValidator(said(day_of)), WithJsonSchema({"type": "string", "enum": [*WEEKDAYS]}))
_GROUP = words(Group)
_KIND = words(SetKind)
_REASON = words(Reason)

Range = Annotated[Span, _RANGE[0], _RANGE[1]]
Count = Annotated[Span, _COUNT[0], _COUNT[1]]
WrittenReserve = Annotated[Reserve, _RESERVE[0], _RESERVE[1]]
Rest = Annotated[int, _REST[0], _REST[1]]
Load = Annotated[LoadRule, _LOAD[0], _LOAD[1]]
Tempo = Annotated[str, BeforeValidator(said(tempo_of))]
Day = Annotated[str, _DAY[0], _DAY[1]]
GroupWord = Annotated[Group, _GROUP[0], _GROUP[1]]
Kind = Annotated[SetKind, _KIND[0], _KIND[1]]
ReasonWord = Annotated[Reason, _REASON[0], _REASON[1]]
Line = Annotated[str, StringConstraints(max_length=LONGEST_LINE)]
Text = Annotated[str, StringConstraints(max_length=5000)]


class SetsTable(Entry):
    """One or more alike sets of an exercise."""

    kind: Kind = Field(
        SetKind.WORKING, examples=["top"], description="The place of the sets in the exercise."
    )
    sets: int = Field(1, ge=1, le=MOST_SETS, examples=[3], description="How many such sets.")
    reps: Count | None = Field(
        None, examples=["8-12"], description="Reps asked for; “12+” is open-ended."
    )
    seconds: Count | None = Field(None, examples=["30-45"], description="Seconds of a hold.")
    reserve: WrittenReserve | None = Field(
        None, examples=["1-2"], description="Reps in reserve, or “fail” for failure."
    )
    load: Load = Field(
        default_factory=LoadRule,
        examples=["80 % of top"],
        description="“57.5 kg”, “45 lb”, “-20 kg” (assistance), “20 kg each”, “80 % of top”, "
        "“80 % of the set before”, “body weight”, “empty bar”; left out, the forecast chooses.",
    )
    rest: Rest | None = Field(
        None,
        examples=["2:30"],
        description="Rest before each set; in a superset, of its first exercise: after a round.",
    )
    style: Line = Field("", examples=["slow lowering"], description="How the reps are done.")
    tempo: Tempo = Field(
        "", examples=["3-1-1"], description="Seconds down, held, up and, if wanted, held again."
    )
    partials: int = Field(
        0, ge=0, le=50, examples=[5], description="Partial reps after the last full one."
    )
    note: Line = Field("", examples=["set the safeties at hip height"])


class LadderTable(Entry):
    """One rung toward an exercise."""

    exercise: Line = Field("", examples=["lat_pulldown"], description="Left out: this exercise.")
    load: Load = Field(default_factory=LoadRule, examples=["-20 kg"])
    style: Line = Field("", examples=["slow lowering"])
    until: Count | None = Field(
        None, examples=["8"], description="Reps in every set from which the next rung is due."
    )


class ExerciseTable(Entry):
    """An exercise in its place in the session."""

    exercise: Line = Field(examples=["back_squat_free"], description="Id or shown name.")
    equipment: Line = Field("", examples=["rack"], description="Id of the item in the gym file.")
    variant: Line = Field("", examples=["feet_high"], description="Id or shown name of a variant.")
    aids: list[Line] = Field(
        default_factory=list,
        examples=[["straps", "safeties"]],
        description="What helps or protects: straps, cuff, sleeves, belt, block, safeties, "
        "spotter, stops.",
    )
    superset: Line = Field(
        "", examples=["A"], description="Neighbours with the same mark alternate, round by round."
    )
    replaces: Line = Field("", examples=["leg_press"], description="What it stands in for.")
    reason: ReasonWord | None = Field(None, examples=["sore joint"])
    because: Line = Field("", examples=["my knee likes it better"])
    note: Line = Field("", examples=["elbows in"])
    sets: list[SetsTable] = Field(
        min_length=1, max_length=MOST_SETS, examples=[[{"sets": 3, "reps": "8-12"}]]
    )
    ladder: list[LadderTable] = Field(
        default_factory=list, max_length=20, description="Easier to harder rungs, in order."
    )


class PreparationTable(Entry):
    """An item without load before the first exercise."""

    what: Line = Field(examples=["band pull-apart"])
    reps: int | None = Field(None, ge=1, le=999, examples=[15])
    seconds: int | None = Field(None, ge=1, le=3600, examples=[60])


class DayTable(Entry):
    """One day of the split; without exercises it is a rest day."""

    day: Day = Field(examples=["Monday"])
    focus: Line = Field("", examples=["lower body"])
    minutes: int | None = Field(None, ge=5, le=300, examples=[75])
    preparation: list[PreparationTable] = Field(default_factory=list, max_length=30)
    exercises: list[ExerciseTable] = Field(
        default_factory=list,
        alias="exercise",
        examples=[[{"exercise": "curl", "sets": [{"sets": 3, "reps": "8-12"}]}]],
    )


Reasons = Annotated[
    dict[str, Line], Field(default_factory=dict, description="Exercise = why, in her words.")
]


class Wishes(Entry):
    """What she likes, will not do, or must have."""

    liked: Reasons
    barred: Reasons
    required: Reasons


class WeekTable(Wishes):
    """A week of training: the split, its priorities and preferences."""

    name: Line = Field("", examples=["My week"])
    gym: Line = Field("", examples=["home"], description="Id of the gym file.")
    priorities: list[GroupWord] = Field(
        default_factory=list,
        examples=[["glutes", "quads"]],
        description="Muscle groups, what matters most first.",
    )
    note: Text = Field("", examples=["started in spring"])
    targets: dict[GroupWord, Range] = Field(
        default_factory=dict,
        examples=[{"glutes": "14-18"}],
        description="Fractional sets a week by group.",
    )
    own_exercises: list[OwnExercise] = Field(
        default_factory=list, alias="exercise", description="Exercises of her own."
    )
    days: list[DayTable] = Field(
        alias="day", min_length=1, max_length=7, examples=[[{"day": "Monday"}]]
    )
