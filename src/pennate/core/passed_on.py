"""A routine as it is passed on: plain words and tables, with nothing in it of who wrote it."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.core.cautions import Caution
from pennate.core.exercise import EquipmentKind
from pennate.core.follow import Curves, Option
from pennate.core.performed import SetKind


@dataclass(frozen=True, slots=True, kw_only=True)
class PassedGroup:
    """Alike sets in words."""

    kind: SetKind
    count: int
    title: str
    """“2 top sets”."""
    amount: str
    """“5–7 reps”."""
    effort: str
    """“stopping 1 before failure”."""
    manner: tuple[str, ...]
    """Rest, tempo, style, partial reps."""
    rule: str
    """How to find the load without arithmetic."""
    short: str
    """All of it in trade shorthand, for paper; empty for a set told there with those before it."""
    number: int
    """Of its group among those that loads are found for."""
    shares: tuple[int, ...] = ()
    """Thousandths by remembered reps to failure, for the printed table; empty for none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PassedOption:
    """An exercise on a kind of equipment, with its sets."""

    name: str
    kind: EquipmentKind
    each_side: bool
    variant: str
    cue: str
    aids: tuple[str, ...]
    ramp: tuple[tuple[str, int], ...]
    """The warm-up scheme where none is written as sets: in words, and the number of its group."""
    groups: tuple[PassedGroup, ...]
    follow: Option | None
    """How its loads are found; None where no number can be (bands, holds)."""

    @property
    def told(self) -> tuple[PassedGroup, ...]:
        """Its groups as paper tells them: those that fall from set to set once."""
        return tuple(group for group in self.groups if group.short)

    @property
    def on(self) -> str:
        """What it is done on."""
        return self.kind.value


@dataclass(frozen=True, slots=True)
class PassedExercise:
    """An exercise in its place, and what can stand in where the equipment is missing."""

    asked: PassedOption
    instead: tuple[PassedOption, ...]
    mark: str = ""
    """Of the superset it is in, numbered: A1."""

    @property
    def options(self) -> tuple[PassedOption, ...]:
        """What can be done in its place, as asked first."""
        return (self.asked, *self.instead)


@dataclass(frozen=True, slots=True)
class PassedStop:
    """One exercise, or several done in turn."""

    exercises: tuple[PassedExercise, ...]
    turns: str = ""
    """How a superset is done, in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PassedDay:
    """One day of the split."""

    day: str
    focus: str
    minutes: tuple[int, int, int] | None
    """Likely, and a 90 % interval; None on a day of rest."""
    preparation: tuple[str, ...]
    stops: tuple[PassedStop, ...]

    @property
    def rest(self) -> bool:
        """Whether nothing is asked for."""
        return not self.stops


@dataclass(frozen=True, slots=True)
class Steps:
    """What stands in the fields of a kind of equipment before the reader corrects it."""

    kind: EquipmentKind
    start: str
    """The word for its lightest load: “empty bar”, “lightest”; empty where there is none."""
    kg: tuple[float, float]
    lb: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """The whole routine, ready to be drawn."""

    name: str
    days: tuple[PassedDay, ...]
    steps: tuple[Steps, ...]
    curves: Curves
    emergencies: tuple[Caution, ...]
    cautions: tuple[Caution, ...]
    weighs: bool
    """Whether some exercise moves body weight beside a load that is found here."""
    left_out: tuple[str, ...] = ()
    """What was not passed on, and why; for her who passes on, not for the page."""
