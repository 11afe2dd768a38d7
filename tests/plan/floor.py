"""A small made-up training floor for tests: exercises by hand, weeks in a line."""

from __future__ import annotations

from fractions import Fraction

from pennate.core.exercise import (
    Catalogue,
    Confidence,
    EquipmentKind,
    Exercise,
    FailureSafety,
    Involvement,
    Sides,
)
from pennate.core.muscles import Joint, Part
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    PlannedDay,
    PrescribedExercise,
    PrescribedSets,
    Span,
    Week,
)

K = EquipmentKind
ALL_KINDS = frozenset(EquipmentKind)


def exercise(
    id_: str,
    pattern: str,
    parts: str,
    kinds: tuple[EquipmentKind, ...] = (K.STACK,),
    joints: str = "",
    *,
    one_side: bool = False,
    timed: bool = False,
    safety: FailureSafety = FailureSafety.NONE,
    grip: bool = False,
    parent: str | None = None,
) -> Exercise:
    """An exercise from `part:weight` and `joint:level` pairs."""
    weights = dict(pair.split(":") for pair in parts.split())
    levels = dict(pair.split(":") for pair in joints.split())
    return Exercise(
        id=id_,
        name=id_.replace("_", " ").capitalize(),
        pattern=pattern,
        sides=Sides.ONE if one_side else Sides.BOTH,
        involvement={
            Part(part): Involvement(Fraction(weight), Confidence.ANATOMICAL)
            for part, weight in weights.items()
        },
        joints={Joint[name.upper()]: int(level) for name, level in levels.items()},
        equipment=kinds,
        timed=timed,
        failure_safety=safety,
        grip_limited=grip,
        parent=parent,
    )


FREE = FailureSafety.SAFETIES_OR_SPOTTER
FLOOR = Catalogue.of(
    (
        exercise("squat", "knee_dominant", "quads_vasti:1 rectus_femoris:1/4 glute_max:1",
                 (K.BARBELL,), "knee:2 hip:2 lumbar:3", safety=FREE),
        exercise("leg_press", "knee_dominant", "quads_vasti:1 rectus_femoris:1/4 glute_max:1/2",
                 (K.SLED,), "knee:2 hip:2 lumbar:1", safety=FailureSafety.STOPS),
        exercise("leg_extension", "knee_isolation", "quads_vasti:1 rectus_femoris:1",
                 joints="knee:2"),
        exercise("split_squat", "knee_dominant", "quads_vasti:1 glute_max:1 glute_med:1/2",
                 (K.DUMBBELLS,), "knee:2 hip:2", one_side=True),
        exercise("hip_thrust", "hip_dominant", "glute_max:1 hamstrings:1/4", (K.BARBELL,),
                 "hip:2"),
        exercise("leg_curl", "knee_flexion", "hamstrings:1"),
        exercise("romanian", "hip_dominant", "hamstrings:1 glute_max:1/2 erectors:1/2",
                 (K.BARBELL, K.DUMBBELLS), "hip:2 lumbar:3 grip:3", grip=True),
        exercise("hip_abduction", "hip_abduction", "glute_med:1 glute_max:1/4"),
        exercise("calf_standing", "calf", "gastrocnemius:1 soleus:1"),
        exercise("calf_seated", "calf", "soleus:1"),
        exercise("bench", "horizontal_push",
                 "chest_stern:1 chest_clav:1/2 delt_front:1/2 triceps:1/2 triceps_long:1/4",
                 (K.BARBELL, K.DUMBBELLS), "shoulder:2 elbow_wrist:2", safety=FREE),
        exercise("press", "vertical_push", "delt_front:1 delt_side:1/2 triceps:1/2 "
                 "triceps_long:1/4 delt_rear:1/4", (K.DUMBBELLS,), "shoulder:2 elbow_wrist:2"),
        exercise("fly", "chest_isolation", "chest_stern:1 chest_clav:1/2", (K.CABLE,),
                 "shoulder:2"),
        exercise("side_raise", "delt_isolation", "delt_side:1 delt_front:1/4",
                 (K.DUMBBELLS, K.CABLE), "shoulder:2"),
        exercise("rear_raise", "delt_isolation", "delt_rear:1 upper_back:1/2",
                 (K.DUMBBELLS, K.STACK), "shoulder:1"),
        exercise("row", "horizontal_pull", "lats:1 upper_back:1 delt_rear:1/2 elbow_flexors:1/2",
                 (K.CABLE,), "lumbar:1 shoulder:1 grip:2"),
        exercise("pulldown", "vertical_pull", "lats:1 upper_back:1/2 elbow_flexors:1/2",
                 joints="shoulder:2 grip:2"),
        exercise("pull_up", "vertical_pull", "lats:1 upper_back:1/2 elbow_flexors:1/2",
                 (K.BODY_WEIGHT,), "shoulder:2 grip:3", grip=True, parent="pulldown"),
        exercise("curl", "elbow_flexion", "elbow_flexors:1", (K.DUMBBELLS,), "elbow_wrist:2"),
        exercise("pushdown", "elbow_extension", "triceps:1 triceps_long:1", (K.CABLE,),
                 "elbow_wrist:2"),
        exercise("crunch", "trunk_flexion", "abs:1", (K.BODY_WEIGHT, K.CABLE), "lumbar:1"),
        exercise("plank", "trunk_antiextension", "abs:1", (K.BODY_WEIGHT,), timed=True),
    )
)  # fmt: skip


def sets(count: int, reserve: int = 1, **more: object) -> PrescribedSets:
    """Alike working sets of 8 to 12."""
    base = PrescribedSets(count=count, reps=Span(8, 12), reserve=Span(reserve, reserve))
    return _replaced(base, more)


def to_failure(count: int, kind: SetKind = SetKind.WORKING) -> PrescribedSets:
    """Sets taken to failure."""
    return PrescribedSets(count=count, kind=kind, reps=Span(8, 12), to_failure=True)


def _replaced(base: PrescribedSets, more: dict[str, object]) -> PrescribedSets:
    from dataclasses import replace

    return replace(base, **more)  # type: ignore[arg-type] # keywords of the dataclass


def day(name: str, *asked: tuple[str, PrescribedSets] | PrescribedExercise) -> PlannedDay:
    """A day from exercise and sets pairs."""
    return PlannedDay(
        day=name,
        exercises=tuple(
            one
            if isinstance(one, PrescribedExercise)
            else PrescribedExercise(exercise=one[0], sets=(one[1],))
            for one in asked
        ),
    )


def week(*days: PlannedDay, **more: object) -> Week:
    """A week of these days."""
    return Week(name="test", days=days, **more)  # type: ignore[arg-type] # keywords of the dataclass
