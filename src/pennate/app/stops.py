"""The stops of a day: the planned exercises after swaps, skips and a new order, each on an item."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from pennate.app.day import DayState
from pennate.core.exercise import Catalogue, EquipmentKind, Exercise
from pennate.core.gym import AnyItem, BandSet, Gym
from pennate.core.muscles import Joint
from pennate.core.prescribed import PlannedDay, PrescribedExercise
from pennate.core.quantities import Mass
from pennate.core.readiness import ALARM, PainAction, pain_action
from pennate.plan.fitting import fitting_aids, fitting_set
from pennate.plan.substitute import carry_over

MACHINES = {
    EquipmentKind.STACK,
    EquipmentKind.SLED,
    EquipmentKind.PLATE_LOADED,
    EquipmentKind.ASSISTED,
}
"""Kinds made for one exercise or few: the name of the item tells which."""

SHARED_KINDS = {
    EquipmentKind.BODY_WEIGHT,
    EquipmentKind.DUMBBELLS,
    EquipmentKind.KETTLEBELLS,
    EquipmentKind.BANDS,
}
"""Kinds of which two can be used at once: two pairs of dumbbells, two places on the floor."""

LOADED_JOINT = 2
"""Relative joint load (0 to 3, ours) from which a sore joint counts for an exercise."""

WITHOUT_HELP = "as many as you can without, or swap to something easier"

_COMMON = {"machine", "the", "and", "on", "with", "bar", "seated", "standing", "lying", "press"}


@dataclass(frozen=True, slots=True, kw_only=True)
class StopPlan:
    """One exercise of today in its place."""

    index: int
    """Its place in the written day; keys of sets start with it."""
    asked: PrescribedExercise
    exercise: Exercise
    item: AnyItem | None
    replaced: str = ""
    left_out: str = ""
    """Why none of its open sets are asked for, if so."""
    spared: bool = False
    pain: int = 0


def stop_plans(
    planned: PlannedDay, state: DayState, catalogue: Catalogue, gym: Gym | None
) -> tuple[StopPlan, ...]:
    """The stops in the order she wants them today."""
    order = [*state.order, *(i for i in range(len(planned.exercises)) if i not in state.order)]
    return tuple(
        _plan(index, planned.exercises[index], state, catalogue, gym)
        for index in order
        if index < len(planned.exercises)
    )


def _plan(
    index: int,
    asked: PrescribedExercise,
    state: DayState,
    catalogue: Catalogue,
    gym: Gym | None,
) -> StopPlan:
    swap = state.swaps.get(index)
    replaced = ""
    if swap is not None and (swap.item or swap.exercise != asked.exercise):
        because = f": {swap.reason}" if swap.reason else ""
        instead = f"instead of {catalogue[asked.exercise].name.lower()}"
        replaced = (
            f"{instead if swap.exercise != asked.exercise else 'on other equipment'}{because}"
        )
        carried = carry_over(catalogue[asked.exercise], asked, catalogue[swap.exercise])
        asked = _on_item(replace(carried, equipment=swap.item), catalogue, gym)
    exercise = catalogue[asked.exercise]
    item = item_asked(gym, exercise, asked) if gym else None
    replaced = replaced or _help_words(asked, item)
    pain = joint_pain(exercise, state)
    alarming = _alarming(exercise, state)
    action = pain_action(pain, alarming=alarming)
    left_out = ""
    if index in state.skipped:
        left_out = _skipped_words(state, index)
    elif action is PainAction.STOP:
        alarm = f", {ALARM}" if alarming else ""
        left_out = f"left out: pain {pain} of 10 where it loads{alarm}"
    return StopPlan(
        index=index,
        asked=asked,
        exercise=exercise,
        item=item,
        replaced=replaced,
        left_out=left_out,
        spared=action is PainAction.REDUCE,
        pain=pain,
    )


def _on_item(
    asked: PrescribedExercise, catalogue: Catalogue, gym: Gym | None
) -> PrescribedExercise:
    """What is asked as it makes sense on the item; each set keeps its place, done ones too."""
    exercise = catalogue[asked.exercise]
    item = item_for(gym, exercise, asked.equipment) if gym else None
    if item is None:
        return asked
    sets = tuple(fitting_set(one, exercise, item.kind) for one in asked.sets)
    return replace(asked, sets=sets, aids=fitting_aids(asked.aids, exercise, item.kind))


def joint_pain(exercise: Exercise, state: DayState) -> int:
    """Worst pain she reports today in a joint this exercise loads, 0 to 10."""
    if state.readiness is None:
        return 0
    loaded = loaded_joints(exercise)
    return max((s for joint, s in state.readiness.pain.items() if joint in loaded), default=0)


def _alarming(exercise: Exercise, state: DayState) -> bool:
    """Whether a joint this exercise loads was told as sharp or giving way today."""
    said = state.readiness
    return said is not None and not said.alarming.isdisjoint(loaded_joints(exercise))


def _skipped_words(state: DayState, index: int) -> str:
    if index in state.held:
        return f"left out until it has settled: {state.held[index]}"
    return f"left out today: {state.told[index]}" if index in state.told else "left out today"


def loaded_joints(exercise: Exercise) -> list[str]:
    """Joints that, where they are sore, an exercise loads enough to count."""
    return [one.value for one in exercise.joints if exercise.sore_load(one) >= LOADED_JOINT]


def slightly_loaded_joints(exercise: Exercise) -> list[str]:
    """Joints that an exercise loads, but too little to be left out when they are sore."""
    return [one.value for one in exercise.joints if 0 < exercise.sore_load(one) < LOADED_JOINT]


def pain_joints() -> tuple[str, ...]:
    """The joints she can name at the check-in."""
    return tuple(joint.value for joint in Joint if joint is not Joint.GRIP)


def item_for(gym: Gym, exercise: Exercise, wanted: str = "") -> AnyItem | None:
    """The item of this gym for an exercise: the one named, else the best of its usual kinds."""
    named = gym.item(wanted) if wanted else None
    return named or next(iter(items_for(gym, exercise)), None)


def item_asked(gym: Gym, exercise: Exercise, asked: PrescribedExercise) -> AnyItem | None:
    """The item for what is asked: help that is written comes from something that gives it."""
    own = item_for(gym, exercise, asked.equipment)
    if help_asked(asked) is None or (own is not None and helps(own)):
        return own
    return next((one for one in items_for(gym, exercise) if helps(one)), own)


def helps(item: AnyItem) -> bool:
    """Whether an item takes load off."""
    return item.kind is EquipmentKind.ASSISTED or (isinstance(item, BandSet) and item.assists)


def help_asked(asked: PrescribedExercise) -> Mass | None:
    """The most help that is written for a set; None where none is."""
    written = (one.load.mass for one in asked.sets if one.load.mass is not None)
    return max((-mass for mass in written if mass.amount < 0), default=None)


def _help_words(asked: PrescribedExercise, item: AnyItem | None) -> str:
    """What is said where the written help comes from elsewhere than named, or from nowhere."""
    mass = help_asked(asked)
    if mass is None or item is None:
        return ""
    if not helps(item):
        return f"{mass} of help is written, but nothing here gives it: {WITHOUT_HELP}"
    elsewhere = asked.equipment and asked.equipment != item.id
    return f"on {item.name}, for the help that is written" if elsewhere else ""


def items_for(gym: Gym, exercise: Exercise) -> tuple[AnyItem, ...]:
    """Every item of this gym an exercise can be done on: usual kinds first, best fit first.

    What it needs beside the load must be there too, unless the item is made for it.
    """
    found: list[AnyItem] = []
    for kind in (*exercise.equipment, *exercise.also_on):
        there = exercise.needs.get(kind, frozenset()) <= gym.has
        fitting = [
            (fit, item)
            for item in gym.of_kind(kind)
            if (fit := fit_of(exercise, item)) and (there or item.serves)
        ]
        found.extend(item for _, item in sorted(fitting, key=lambda pair: -pair[0]))
    return tuple(found)


def fit_of(exercise: Exercise, item: AnyItem) -> int:
    """How well an item suits an exercise of its kind; 0 is not at all.

    Made for it 100; open to all of its kind 1. A machine that does not say what it is for is
    known by the words its name shares with the exercise's.
    """
    if isinstance(item, BandSet) and item.assists and exercise.body_mass is None:
        return 0  # they take load off, and there is none but hers to take
    if item.serves:
        return 100 if exercise.id in item.serves else 0
    return likeness(exercise, item) if item.kind in MACHINES else 1


def likeness(exercise: Exercise, item: AnyItem) -> int:
    """How many telling words the name of an item shares with those of an exercise."""
    own = _words(" ".join((exercise.id, exercise.name, *exercise.other_names)))
    return len(own & _words(f"{item.id} {item.name}"))


def _words(text: str) -> set[str]:
    return {word.rstrip("s") for word in re.findall(r"[a-z]+", text.lower())} - _COMMON
