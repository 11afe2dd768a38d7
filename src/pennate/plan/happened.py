"""What is different from the week as planned."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, field

from pennate.core.exercise import EVERY_FIXTURE, EquipmentKind, Fixture
from pennate.core.muscles import Joint
from pennate.core.week_time import Pace


@dataclass(frozen=True, slots=True, kw_only=True)
class Happened:
    """What is different from the week as planned."""

    missed: Set[str] = frozenset()
    """Days missed; their work may move to days still ahead."""
    done: Set[str] = frozenset()
    """Days already trained; they stay, and their dose counts."""
    lost: Set[str] = frozenset()
    """Exercises that cannot be done, or ids of items that are gone."""
    kinds: Set[EquipmentKind] = frozenset(EquipmentKind)
    """Kinds of equipment at hand from now on."""
    fixtures: Set[Fixture] = EVERY_FIXTURE
    """What there is to hang from, lie on and step on from now on."""
    on: Mapping[str, EquipmentKind] = field(default_factory=dict)
    """What each exercise would be done on where she trains; empty where no gym is known."""
    away: bool = False
    """Whether she trains elsewhere: the items that her week names are not there."""
    gym: str = ""
    """Id of the gym she trains in from now on; empty for that of her week."""
    joint_limits: Mapping[Joint, int] = field(default_factory=dict)
    minutes: Mapping[str, int] = field(default_factory=dict)
    """Minutes there are on a day, where they changed."""
    misfits: Mapping[str, float] = field(default_factory=dict)
    """Exercises at body weight far from the effort asked, with how likely they miss it."""
    pace: Pace = Pace()
