"""One exercise for another: ranked by the muscle dose it keeps, joints, and equipment free."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass, replace
from math import inf

from pennate.core.edit_week import usual_sets
from pennate.core.evidence.plan import (
    NO_GROUP_SHARE,
    SWAP_EXTRA_COST,
    SWAP_JOINT_COST,
    SWAP_KIN_BONUS,
    SWAP_LIKED_BONUS,
    USUAL_HOLD_HIGH_S,
    USUAL_HOLD_LOW_S,
    USUAL_REPS_HIGH,
    USUAL_REPS_LOW,
)
from pennate.core.exercise import (
    EVERY_FIXTURE,
    UNLOADED,
    Catalogue,
    EquipmentKind,
    Exercise,
    FailureSafety,
    Fixture,
)
from pennate.core.muscles import GROUP_SHARES, PART_NAMES, Joint, Part
from pennate.core.prescribed import (
    LoadFrom,
    LoadRule,
    PlannedDay,
    PrescribedExercise,
    PrescribedSets,
    Reason,
    Span,
    Week,
)
from pennate.core.week_time import exercise_sets, straight_seconds
from pennate.plan.fitting import fitting

PART_SHARE: Mapping[Part, float] = {
    part: next(
        (float(parts[part]) for parts in GROUP_SHARES.values() if part in parts), NO_GROUP_SHARE
    )
    for part in Part
}
"""Share of a part in its group; a small one for parts in no group."""
ALIKE_KEEPS = 0.5
"""Share of the dose from which the same movement stands before others."""
ALIKE = 0.8  # number: share of the dose kept both ways from which two are one exercise twice
LOADED = frozenset(EquipmentKind) - UNLOADED
"""Kinds whose load is set in steps."""


@dataclass(frozen=True, slots=True)
class Substitute:
    """An exercise that can stand in, best first in a ranking."""

    exercise: str
    name: str
    keeps: float
    """Share of the old exercise's muscle dose that stays, 0 to 1."""
    lost: tuple[Part, ...]
    """Parts that get less than half of what they had."""
    joints: Mapping[Joint, int]
    """Change of relative joint load a set, where it changes."""
    kind: EquipmentKind
    minutes: float
    """Change of the stop's minutes."""
    score: float
    because: str
    """Why it ranks here, in her words."""
    asked: PrescribedExercise
    """The asked sets carried over; the load comes from the strength model."""
    direct: bool = True
    """Whether a prime mover of the old exercise is one of this too."""
    kin: bool = True
    """Whether the movement is the same."""
    loadable: bool = True
    """Whether it can be loaded, where the old exercise is."""
    instead_of: str = ""
    """The old exercise."""
    caveat: str = ""
    """Why it comes late, where the effort asked is out of its reach."""

    @property
    def rank(self) -> tuple[bool, bool, bool, float, str]:
        """What sorts it, best first: direct work, a load, the movement, then the score."""
        alike = self.kin and self.keeps >= ALIKE_KEEPS
        return (not self.direct, not self.loadable, not alike, -self.score, self.exercise)


def substitutes(
    exercise: str,
    day: PlannedDay,
    week: Week,
    catalogue: Catalogue,
    available_kinds: Set[EquipmentKind],
    joint_limits: Mapping[Joint, int],
    *,
    lost_equipment: Set[str] = frozenset(),
    fixtures: Set[Fixture] = EVERY_FIXTURE,
) -> tuple[Substitute, ...]:
    """Rank what could replace an exercise of a day, best first.

    What works a prime mover of the old one directly comes before what only helps it; what
    can be loaded before body weight alone, where the old one is loaded; then the same
    movement, then what is kept. Left out: what she bars, what the day already has, what
    needs equipment that is not there, and what loads a joint beyond its limit.
    `lost_equipment` names catalogue ids that cannot be done although their kind is there;
    `fixtures` is what there is to hang from, lie on and step on.
    """
    known = catalogue.with_own(week.own_exercises) if week.own_exercises else catalogue
    old = known[exercise]
    asked = _asked(old, day, week)
    taken = {item.exercise for item in day.exercises} | set(week.preferences.barred)
    found = []
    for new in known.exercises.values():
        kind = _kind(old, new, available_kinds, fixtures)
        if kind is None or new.id in taken or new.id in lost_equipment or new.id == exercise:
            continue
        if not within_limits(new, joint_limits) or not (kept := _keeps(old, asked.variant, new)):
            continue
        found.append(_judge(old, asked, new, kind, kept, week))
    return tuple(sorted(found, key=lambda one: one.rank))


def other_kinds(
    exercise: Exercise, day: PlannedDay, week: Week, kinds: Sequence[EquipmentKind]
) -> tuple[Substitute, ...]:
    """The exercise itself on other equipment, usual kinds first: nothing new to learn.

    The first stands before every other exercise; the next ones after those of its movement.
    """
    asked = _asked(exercise, day, week)
    on = [kind for kind in kinds if kind in LOADED or not _loaded(exercise)]
    each = [_judge(exercise, asked, exercise, kind, 1.0, week) for kind in on]
    return tuple(
        replace(
            itself,
            score=0.0 if place else inf,
            because="the same exercise on other equipment; keeps 100 % of the muscle dose",
        )
        for place, itself in enumerate(each)
    )


def on_kind(one: Substitute, kind: EquipmentKind, known: Catalogue) -> Substitute:
    """A substitute as it is done on what there really is for it: its sets fit, its place too."""
    if kind is one.kind:
        return one
    return replace(
        one,
        kind=kind,
        asked=fitting(one.asked, known[one.exercise], kind),
        loadable=kind in LOADED or not _loaded(known[one.instead_of]),
    )


def _loaded(exercise: Exercise) -> bool:
    """Whether its usual way is with a load."""
    return exercise.equipment[0] in LOADED


def _kind(
    old: Exercise, new: Exercise, available: Set[EquipmentKind], fixtures: Set[Fixture]
) -> EquipmentKind | None:
    """The usual kind of those there; one that takes a load where the old exercise has one."""
    there = new.kinds_in(available, fixtures)
    loaded = [kind for kind in there if kind in LOADED] if _loaded(old) else []
    return next(iter(loaded or there), None)


def one_twice(a: Exercise, b: Exercise) -> bool:
    """Whether two exercises are so alike that one day has no use for both.

    One a close variant of the other, or the same movement for the same muscles.
    """
    if {a.id, a.parent} & {b.id, b.parent} - {None}:
        return True
    return a.pattern == b.pattern and min(_keeps(a, "", b), _keeps(b, "", a)) >= ALIKE


def _prime(exercise: Exercise, variant: str = "") -> set[Part]:
    """The parts it works most: those credited with a whole set, or with the most there is."""
    weights = _weights(exercise, variant)
    most = max(weights.values(), default=0.0)
    return {part for part, weight in weights.items() if weight >= min(1.0, most)}


def within_limits(exercise: Exercise, limits: Mapping[Joint, int]) -> bool:
    """Whether no joint that is sore or limited is loaded beyond its limit."""
    return all(exercise.sore_load(joint) <= limit for joint, limit in limits.items())


def _asked(exercise: Exercise, day: PlannedDay, week: Week) -> PrescribedExercise:
    """The sets asked of an exercise; the usual ones where the week does not have it."""
    days = (day, *week.days)
    found = (item for one in days for item in one.exercises if item.exercise == exercise.id)
    return next(found, PrescribedExercise(exercise=exercise.id, sets=usual_sets(exercise)))


def _weights(exercise: Exercise, variant: str = "") -> dict[Part, float]:
    return {part: float(weight) for part, weight in exercise.weights(variant).items()}


def _keeps(old: Exercise, variant: str, new: Exercise) -> float:
    before, after = _weights(old, variant), _weights(new)
    whole = sum(PART_SHARE[part] * weight for part, weight in before.items())
    kept = sum(PART_SHARE[p] * min(weight, after.get(p, 0.0)) for p, weight in before.items())
    return kept / whole if whole else 0.0


def _judge(
    old: Exercise,
    asked: PrescribedExercise,
    new: Exercise,
    kind: EquipmentKind,
    kept: float,
    week: Week,
) -> Substitute:
    before, after = _weights(old, asked.variant), _weights(new)
    extra = sum(PART_SHARE[p] * max(0.0, w - before.get(p, 0.0)) for p, w in after.items())
    joints = {
        joint: change
        for joint in Joint
        if (change := new.joints.get(joint, 0) - old.joints.get(joint, 0))
    }
    kin = _kinship(old, new)
    liked = new.id in week.preferences.liked
    carried = carry_over(old, asked, new, kind=kind)
    return Substitute(
        exercise=new.id,
        name=new.name,
        keeps=kept,
        lost=tuple(p for p, weight in before.items() if after.get(p, 0.0) < weight / 2),
        joints=joints,
        kind=kind,
        minutes=_minutes(new, carried) - _minutes(old, asked),
        score=kept
        - SWAP_EXTRA_COST * extra
        - SWAP_JOINT_COST * sum(joints.values())
        + SWAP_KIN_BONUS * kin
        + SWAP_LIKED_BONUS * liked,
        because=_reason(kept, joints, before, after, liked=liked),
        asked=carried,
        instead_of=old.id,
        direct=bool(_prime(old, asked.variant) & _prime(new)),
        kin=kin > 0,
        loadable=kind in LOADED or not _loaded(old),
    )


def _kinship(old: Exercise, new: Exercise) -> float:
    family = {old.id, old.parent} - {None}
    if family & {new.id, new.parent}:
        return 1.0
    if old.pattern != new.pattern:
        return 0.0
    return 0.5 if old.sides is new.sides else 0.25  # number: a half, and half of it


def _minutes(exercise: Exercise, asked: PrescribedExercise) -> float:
    return straight_seconds(exercise_sets(exercise, asked)) / 60


def _reason(
    kept: float,
    joints: Mapping[Joint, int],
    before: Mapping[Part, float],
    after: Mapping[Part, float],
    *,
    liked: bool,
) -> str:
    words = [f"keeps {round(100 * kept)} % of the muscle dose"]
    lost = [PART_NAMES[p] for p, weight in before.items() if after.get(p, 0.0) < weight / 2]
    if lost:
        words.append(f"less {', '.join(lost)}")
    eased = [joint.value for joint, change in joints.items() if change < 0]
    if eased:
        words.append(f"easier on {', '.join(eased)}")
    if liked:
        words.append("you like it")
    return "; ".join(words)


def carry_over(
    old: Exercise,
    asked: PrescribedExercise,
    new: Exercise,
    *,
    kind: EquipmentKind | None = None,
    reason: Reason | None = None,
) -> PrescribedExercise:
    """The asked sets for the new exercise: reps or seconds as it needs, load from the model.

    It remembers what it stands in for, and why; going back ends that, as on the Week page.
    A set to failure keeps one rep in reserve where the new exercise needs safeties or stops.
    On a known kind of equipment the sets are made to fit it. What she wrote beside the old
    exercise goes with it, except to a close variant.
    """
    sets = tuple(_carry_set(one, old, new) for one in asked.sets)
    back = new.id in {old.id, asked.replaces}
    note = asked.note if back or _kinship(old, new) >= 1 else ""
    carried = replace(
        asked,
        exercise=new.id,
        sets=sets,
        equipment="",
        variant="",
        ladder=(),
        replaces="" if back else old.id,
        reason=None if back else reason,
        because="",
        note=note,
    )
    return fitting(carried, new, kind) if kind else carried


def _carry_set(one: PrescribedSets, old: Exercise, new: Exercise) -> PrescribedSets:
    if new.timed and one.seconds is None:
        hold = Span(int(USUAL_HOLD_LOW_S), int(USUAL_HOLD_HIGH_S))
        one = replace(one, reps=None, seconds=hold)
    elif old.timed and not new.timed:
        one = replace(one, seconds=None, reps=Span(int(USUAL_REPS_LOW), int(USUAL_REPS_HIGH)))
    if one.load.source in {LoadFrom.FIXED, LoadFrom.BODY_WEIGHT}:
        one = replace(one, load=LoadRule())
    guarded = new.failure_safety in {FailureSafety.SAFETIES_OR_SPOTTER, FailureSafety.STOPS}
    if one.to_failure and guarded:
        one = replace(one, to_failure=False, reserve=Span(1, 1))
    return one
