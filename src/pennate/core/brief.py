"""What the planner is asked: the time there is, the place, and her wishes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction

from pennate.core.exercise import EquipmentKind, Exercise
from pennate.core.muscles import Group, Joint, Part
from pennate.core.prescribed import Preferences, Span


class JointLimit(StrEnum):
    """The most an exercise may load a joint; the order is from least to most."""

    NONE = "none"
    LIGHT = "light"
    MODERATE = "moderate"

    @property
    def highest(self) -> int:
        """The limit on the scale of joint load, 0 to 3."""
        return tuple(JointLimit).index(self)


@dataclass(frozen=True, slots=True)
class FreeDay:
    """A day on which she can train, the minutes she has, and its focus if it has one."""

    day: str
    minutes: int
    focus: str = ""
    given: bool = True
    """Whether she gave these minutes; else they are what the day takes now, and the week that
    comes of it keeps its own.
    """


@dataclass(frozen=True, slots=True, kw_only=True)
class Brief:
    """Everything the planner may take into account."""

    name: str
    days: tuple[FreeDay, ...]
    sessions: int | None = None
    """Days to use at most; None allows all."""
    gym: str = ""
    """Id of the gym, or path of a gym file."""
    equipment: tuple[EquipmentKind, ...] = ()
    """Kinds of equipment at hand where no gym is named; empty means all."""
    priorities: tuple[Group | Part, ...] = ()
    """Most important first. Parts in no group may be asked for by name."""
    targets: Mapping[Group, Span] = field(default_factory=dict)
    """Fractional sets a week by group; the lower end is a wish that must be met."""
    ceilings: Mapping[Group, float] = field(default_factory=dict)
    """Most fractional sets a week of groups she left open, so that time goes to the others."""
    preferences: Preferences = Preferences()
    joint_limits: Mapping[Joint, JointLimit] = field(default_factory=dict)
    pain: Mapping[Joint, int] = field(default_factory=dict)
    """Pain by joint, 0 to 10, as she reports it now."""
    years: Fraction | None = None
    """Years of training behind her."""
    reserve: Span | None = None
    """Reps in reserve she usually stops at."""
    supersets: bool = True
    """Whether supersets are welcome."""
    most_exercises: int | None = None
    """Exercises a day at most."""
    current: str = ""
    """Path of the week she trains now, from the brief's folder."""
    near: bool = True
    """Whether staying near the week she trains now is worth something."""
    own_exercises: tuple[Exercise, ...] = ()
    unloaded: Mapping[str, EquipmentKind] = field(default_factory=dict)
    """Exercises whose load cannot be set where she trains, and what they are done on there."""

    @property
    def training_days(self) -> int:
        """Days that can be used at most."""
        return len(self.days) if self.sessions is None else min(self.sessions, len(self.days))
