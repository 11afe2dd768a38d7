"""What is asked for: sets, exercises in order, days, and the week they make."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from pennate.core.exercise import Exercise
from pennate.core.muscles import Group
from pennate.core.performed import SetKind
from pennate.core.quantities import LoadReading, Mass

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


@dataclass(frozen=True, slots=True)
class Span:
    """A range of whole numbers; `high` None means open-ended."""

    low: int
    high: int | None

    def __str__(self) -> str:
        if self.high is None:
            return f"{self.low} or more"
        return str(self.low) if self.low == self.high else f"{self.low}–{self.high}"


class LoadFrom(StrEnum):
    """Where the load of a set comes from."""

    MODEL = "the forecast"
    """Chosen so that the asked reps and reserve are likely."""
    FIXED = "as written"
    OF_TOP = "share of the top set"
    OF_PREVIOUS = "share of the set before"
    BODY_WEIGHT = "body weight alone"
    EMPTY_BAR = "the empty bar"


@dataclass(frozen=True, slots=True)
class LoadRule:
    """How the load of a set is found. `share` for the relative rules, `mass` for FIXED."""

    source: LoadFrom = LoadFrom.MODEL
    share: Fraction | None = None
    mass: Mass | None = None
    """Negative for assistance."""
    reading: LoadReading = LoadReading.TOTAL


@dataclass(frozen=True, slots=True, kw_only=True)
class PrescribedSets:
    """One or more alike sets. A hold has `seconds`; a counted set has `reps`."""

    kind: SetKind = SetKind.WORKING
    count: int = 1
    reps: Span | None = None
    seconds: Span | None = None
    reserve: Span | None = None
    """Reps in reserve asked for; None leaves it open."""
    to_failure: bool = False
    load: LoadRule = LoadRule()
    rest_s: int | None = None
    """Rest before each of these sets; None takes the usual rest."""
    style: str = ""
    tempo: str = ""
    partials: int = 0
    """Partial reps added after the last full rep."""
    note: str = ""
    """Said with the set, for example what to check before it."""


class Reason(StrEnum):
    """Why an exercise stands in for another."""

    SORE_JOINT = "sore joint"
    GIVES_OUT = "something else gives out first"
    TASTE = "taste"
    TAKEN = "taken"
    """The equipment was not free, or is not there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LadderStep:
    """One rung toward an exercise: an easier one, less assistance, more load."""

    exercise: str = ""
    """Another exercise; empty means the one the ladder leads to."""
    load: LoadRule = LoadRule()
    style: str = ""
    until: Span | None = None
    """Reps in every set from which the next rung is due; None on the last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PrescribedExercise:
    """An exercise in its place in the session."""

    exercise: str
    sets: tuple[PrescribedSets, ...]
    equipment: str = ""
    variant: str = ""
    aids: tuple[str, ...] = ()
    """What helps or protects: straps, cuff, sleeves, belt, block, safeties, spotter, stops."""
    superset: str = ""
    """Exercises next to each other with the same mark alternate, round by round."""
    ladder: tuple[LadderStep, ...] = ()
    """Easier to harder steps leading to this exercise and on."""
    replaces: str = ""
    """The exercise it stands in for, if any."""
    reason: Reason | None = None
    because: str = ""
    """Why it is here, in her words."""
    note: str = ""

    @property
    def working_sets(self) -> int:
        """Sets asked for, written warm-ups not among them."""
        return sum(sets.count for sets in self.sets if sets.kind is not SetKind.WARM_UP)


@dataclass(frozen=True, slots=True)
class Preparation:
    """An item without load before the first exercise: mobility, bands, a walk."""

    what: str
    reps: int | None = None
    seconds: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedDay:
    """One day of the split; without exercises it is a rest day."""

    day: str
    focus: str = ""
    minutes: int | None = None
    preparation: tuple[Preparation, ...] = ()
    exercises: tuple[PrescribedExercise, ...] = ()

    @property
    def rest(self) -> bool:
        """Whether nothing is asked for."""
        return not self.exercises


@dataclass(frozen=True, slots=True, kw_only=True)
class Preferences:
    """What she likes, will not do, or must have; exercise ids, with a reason where given."""

    liked: Mapping[str, str] = field(default_factory=dict)
    barred: Mapping[str, str] = field(default_factory=dict)
    required: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Week:
    """A week of training: the split, its priorities and her preferences."""

    name: str
    days: tuple[PlannedDay, ...]
    gym: str = ""
    priorities: tuple[Group, ...] = ()
    """Most important first."""
    targets: Mapping[Group, Span] = field(default_factory=dict)
    """Fractional sets a week asked for, by group."""
    preferences: Preferences = Preferences()
    own_exercises: tuple[Exercise, ...] = ()
    note: str = ""

    def day(self, name: str) -> PlannedDay | None:
        """The planned day of this weekday, if any."""
        return next((day for day in self.days if day.day == name), None)
