"""What happened: one performed set, and sets gathered into sessions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum
from fractions import Fraction

from pennate.core.quantities import LoadReading, Unit


class SetKind(StrEnum):
    """The place of a set in its exercise."""

    WARM_UP = "warm-up"
    WORKING = "working"
    TOP = "top"
    BACK_OFF = "back-off"
    DROP = "drop"
    AMRAP = "amrap"


class Effort(StrEnum):
    """Reps in reserve as reported; `fail` means a further rep was tried and missed."""

    FAIL = "fail"
    NONE_LEFT = "0"
    ONE = "1"
    TWO = "2"
    THREE = "3"
    FOUR_FIVE = "4-5"
    SIX_UP = "6+"


class Side(StrEnum):
    """One side of the body."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class PerformedSet:
    """One set as logged: every column of the training log, typed.

    `load` is exactly what was written (`reading` says what it counts), negative for
    assistance, None for body weight alone. `reps` are full reps per side; a hold has
    `seconds` and one rep.
    """

    id: str
    when: datetime | date
    session: str
    number: int
    exercise: str
    reps: int
    kind: SetKind = SetKind.WORKING
    load: Fraction | None = None
    unit: Unit | None = None
    reading: LoadReading = LoadReading.TOTAL
    effort: Effort | None = None
    rest_s: Fraction | None = None
    seconds: Fraction | None = None
    side: Side | None = None
    group: str = ""
    round: int | None = None
    equipment: str = ""
    variant: str = ""
    style: str = ""
    aids: tuple[str, ...] = ()
    pain: Mapping[str, int] = field(default_factory=dict)
    as_asked: bool = False
    body_mass_kg: Fraction | None = None
    settings: str = ""
    note: str = ""
    extra: Mapping[str, str] = field(default_factory=dict)
    """Unknown columns of an imported log, kept as they were."""

    @property
    def day(self) -> date:
        """The local day the set was done."""
        return self.when.date() if isinstance(self.when, datetime) else self.when

    @property
    def order(self) -> tuple[date, str, int]:
        """Sort key: day, session, set."""
        return (self.day, self.session, self.number)

    @property
    def identity(self) -> str:
        """The id where present, else day, session and set number."""
        return self.id or f"{self.day.isoformat()}/{self.session}/{self.number}"


@dataclass(frozen=True, slots=True)
class Session:
    """The sets of one visit, in the order they were done."""

    day: date
    name: str
    sets: tuple[PerformedSet, ...]
