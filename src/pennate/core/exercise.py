"""What an exercise is: muscles, joints, equipment, sides, body mass and safety."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType

from pennate.core.muscles import Joint, Part


class EquipmentKind(StrEnum):
    """A kind of equipment; the value is what people read and write."""

    BARBELL = "barbell"
    GUIDED_BAR = "guided bar"
    DUMBBELLS = "dumbbells"
    FIXED_BARBELLS = "fixed barbells"
    KETTLEBELLS = "kettlebells"
    STACK = "stack"
    CABLE = "cable"
    SLED = "sled"
    PLATE_LOADED = "plate-loaded machine"
    BANDS = "bands"
    ASSISTED = "assisted machine"
    BODY_WEIGHT = "body weight"


OWN_NUMBERS = frozenset(
    {
        EquipmentKind.GUIDED_BAR,
        EquipmentKind.STACK,
        EquipmentKind.CABLE,
        EquipmentKind.SLED,
        EquipmentKind.PLATE_LOADED,
        EquipmentKind.ASSISTED,
    }
)
"""Kinds of which the same number is another load on another one, even of the same name."""

UNLOADED = frozenset({EquipmentKind.BODY_WEIGHT, EquipmentKind.BANDS})
"""Kinds whose load is not set in steps: as heavy as she is, or as the band pulls."""


class Fixture(StrEnum):
    """What an exercise needs beside its load: to hang from, lie on, step on, hook under."""

    CHIN_UP_BAR = "chin-up bar"
    LOW_BAR = "low bar"
    """A bar, rings or a table's edge at the height of the hip."""
    DIP_BARS = "dip bars"
    BENCH = "bench"
    """A bench, or a chair or bed edge that carries her."""
    BOX = "box"
    """A box, a stair or a firm chair to step on."""
    FOOT_ANCHOR = "foot anchor"
    """Something that holds the heels down: a pad, a loaded bar, a partner."""
    BACK_BENCH = "back-extension bench"
    AB_WHEEL = "ab wheel"
    BAND_ANCHOR = "band anchor"
    """Something a band is tied to: a post, a door anchor."""


EVERY_FIXTURE: frozenset[Fixture] = frozenset(Fixture)
NO_NEEDS: Mapping[EquipmentKind, frozenset[Fixture]] = MappingProxyType({})
WHOLE_SET_LOAD = 2
"""The least a joint is loaded by an exercise that gives its own muscles a whole set."""
MOVED_BY: Mapping[Joint, Part] = MappingProxyType({Joint.KNEE: Part.QUADS_VASTI})
"""Joints that hurt most where their own muscle works hard: the kneecap under the quads."""


class Sides(StrEnum):
    """Whether the two sides work at once or one after the other."""

    BOTH = "both at once"
    ONE = "one at a time"


class FailureSafety(StrEnum):
    """What must be in place before a set is taken to failure."""

    NONE = "none"
    SAFETIES_OR_SPOTTER = "safeties or spotter"
    STOPS = "stops"
    EASY_TO_DROP = "can be put down"


class Confidence(StrEnum):
    """How an involvement weight is known."""

    MEASURED = "growth measured"
    CARRIED_OVER = "carried over from a measured sibling"
    EMG = "muscle activity or moment"
    ANATOMICAL = "anatomy"


@dataclass(frozen=True, slots=True)
class Involvement:
    """How much of a set a part is credited with, and how that is known."""

    weight: Fraction
    confidence: Confidence


@dataclass(frozen=True, slots=True)
class Variant:
    """A way of doing an exercise that shifts emphasis (foot height, grip, bench angle …)."""

    id: str
    name: str
    what_shifts: str
    involvement: Mapping[Part, Involvement]
    """The parts whose weight differs from the parent's; the rest is the parent's."""
    one_sided: bool = False
    """Done one side at a time, whatever the parent is."""


@dataclass(frozen=True, slots=True)
class BodyMassShare:
    """Fraction of body mass that the exercise moves, by sex, with its source."""

    female: Fraction
    male: Fraction
    source: str


@dataclass(frozen=True, slots=True)
class Exercise:
    """One exercise of the catalogue or of the lifter's own."""

    id: str
    name: str
    pattern: str
    """Movement pattern, for example `knee_dominant`."""
    sides: Sides
    involvement: Mapping[Part, Involvement]
    joints: Mapping[Joint, int]
    """Relative joint load 0 to 3; the scale is ours."""
    equipment: tuple[EquipmentKind, ...]
    """Kinds it can be done on, the usual one first."""
    other_names: tuple[str, ...] = ()
    parent: str | None = None
    """The exercise it is a close variant of (same path of the load), if any."""
    body_mass: BodyMassShare | None = None
    grip_limited: bool = False
    timed: bool = False
    """Held for seconds instead of counted in reps."""
    failure_safety: FailureSafety = FailureSafety.NONE
    cue: str = ""
    seconds_per_rep: Fraction = Fraction(3)
    evidence: str = ""
    variants: tuple[Variant, ...] = ()
    own: bool = False
    """Made by the lifter."""
    needs: Mapping[EquipmentKind, frozenset[Fixture]] = field(default_factory=lambda: NO_NEEDS)
    """What it needs there beside the load, by kind; a machine brings its own."""
    also_on: tuple[EquipmentKind, ...] = ()
    """Kinds that do in a pinch, away from the gym."""

    def kinds_in(
        self, kinds: Set[EquipmentKind], fixtures: Set[Fixture] = EVERY_FIXTURE
    ) -> tuple[EquipmentKind, ...]:
        """Kinds it can be done on where these are there: the usual ones first."""
        return tuple(
            kind
            for kind in (*self.equipment, *self.also_on)
            if kind in kinds and self.needs.get(kind, frozenset()) <= fixtures
        )

    def sore_load(self, joint: Joint) -> int:
        """Load of a joint that is sore: what works its own muscle in full is never light."""
        marked = self.joints.get(joint, 0)
        own = self.involvement.get(MOVED_BY[joint]) if joint in MOVED_BY else None
        return max(marked, WHOLE_SET_LOAD) if own and own.weight >= 1 else marked

    def sides_in(self, variant: str = "") -> Sides:
        """Whether the sides work at once when it is done this way."""
        one = any(v.one_sided for v in self.variants if v.id == variant)
        return Sides.ONE if one else self.sides

    def weights(self, variant: str = "") -> dict[Part, Fraction]:
        """Involvement weight by part, with the variant's shifts applied; zeros left out."""
        merged = dict(self.involvement)
        for candidate in self.variants:
            if candidate.id == variant:
                merged.update(candidate.involvement)
        return {part: item.weight for part, item in merged.items() if item.weight > 0}


@dataclass(frozen=True, slots=True)
class Catalogue:
    """All exercises that may be named, by id, with their searchable other names."""

    exercises: Mapping[str, Exercise]
    _by_name: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)

    @classmethod
    def of(cls, exercises: tuple[Exercise, ...]) -> Catalogue:
        """Index exercises by id and by every name, case ignored."""
        by_id = {exercise.id: exercise for exercise in exercises}
        names: dict[str, str] = {}
        for exercise in exercises:
            for name in (exercise.id, exercise.name, *exercise.other_names):
                names.setdefault(name.casefold(), exercise.id)
        return cls(by_id, names)

    def __contains__(self, exercise_id: object) -> bool:
        return exercise_id in self.exercises

    def __getitem__(self, exercise_id: str) -> Exercise:
        return self.exercises[exercise_id]

    def __len__(self) -> int:
        return len(self.exercises)

    def find(self, name: str) -> Exercise | None:
        """The exercise with exactly this id or name, case ignored."""
        exercise_id = self._by_name.get(name.casefold().strip())
        return self.exercises[exercise_id] if exercise_id else None

    def names(self) -> tuple[str, ...]:
        """Every id and name that `find` answers to, case folded, sorted."""
        return tuple(sorted(self._by_name))

    def with_own(self, own: tuple[Exercise, ...]) -> Catalogue:
        """This catalogue with the lifter's own exercises added or replaced."""
        return Catalogue.of(
            (*(e for e in self.exercises.values() if e.id not in {o.id for o in own}), *own)
        )
