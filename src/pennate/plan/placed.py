"""A stop of the old week, or a substitute for one, as a re-plan may place it: time and dose."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.core.exercise import Catalogue
from pennate.core.performed import SetKind
from pennate.core.prescribed import PlannedDay, PrescribedExercise
from pennate.core.week_dose import day_joint_load, day_parts
from pennate.core.week_time import exercise_sets, straight_seconds, superset_seconds
from pennate.plan.mend import resized
from pennate.plan.problem import JOINTS, PARTS, Option, Scheme


@dataclass(frozen=True, slots=True)
class Placed:
    """What is done together at a stop, and where it stood."""

    home: str
    members: tuple[PrescribedExercise, ...]
    family: str
    """Of stops of one family at most one is placed."""
    instead_of: tuple[str, ...] = ()
    choice: int = 0
    """Place among the substitutes, the best first."""


def option_of(stop: Placed, known: Catalogue) -> Option:
    """The stop with its largest block from one set to all; other blocks come along."""
    full = [block(one) for one in stop.members]
    most = min(full)
    seconds = [_seconds(stop, known, fewer) for fewer in (0, most - 1)]
    per_set = (seconds[0] - seconds[1]) / (most - 1) if most > 1 else 0.0
    whole, one = _doses(stop, known, 0), _doses(stop, known, most - 1)
    step = {part: (dose - one.get(part, 0.0)) / (most - 1) if most > 1 else 0.0
            for part, dose in whole.items()}  # fmt: skip
    return Option(
        exercises=tuple(member.exercise for member in stop.members),
        scheme=Scheme.SUPERSET if len(stop.members) > 1 else Scheme.STRAIGHT,
        least=1,
        most=most,
        fixed_s=seconds[1] - per_set,
        set_s=per_set,
        per_set=tuple(step.items()),
        fixed=tuple((part, one.get(part, 0.0) - step[part]) for part in whole),
    )


def block(asked: PrescribedExercise) -> int:
    """Sets of its largest block."""
    return max((s.count for s in asked.sets if s.kind is not SetKind.WARM_UP), default=1)


def cut(stop: Placed, fewer: int) -> tuple[PrescribedExercise, ...]:
    """Its exercises with so many sets fewer each."""
    return tuple((resized(one, -fewer) or one) if fewer else one for one in stop.members)


def _seconds(stop: Placed, known: Catalogue, fewer: int) -> float:
    sets = [exercise_sets(known[one.exercise], one) for one in cut(stop, fewer)]
    return superset_seconds(sets) if len(sets) > 1 else straight_seconds(sets[0])


def _doses(stop: Placed, known: Catalogue, fewer: int) -> dict[int, float]:
    """Dose by part and load by joint, by index."""
    day = PlannedDay(day=stop.home, exercises=cut(stop, fewer))
    parts = {PARTS.index(part): dose.value for part, dose in day_parts(day, known).items()}
    joints = day_joint_load(day, known).items()
    return parts | {len(PARTS) + JOINTS.index(j): load for j, load in joints if j in JOINTS}
