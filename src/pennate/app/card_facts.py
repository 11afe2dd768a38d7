"""Plain facts about a session: its minutes, and which cautions apply where."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass

from pennate.app.loads import Laid
from pennate.app.new_work import days_ago, working_days
from pennate.app.outline import DayInputs, Outline, timed
from pennate.app.slots import Slot
from pennate.app.standing import Standing
from pennate.app.stops import StopPlan, loaded_joints, slightly_loaded_joints
from pennate.body.pain import PainReport, sore_days, sore_now, stopping_now, unsettled
from pennate.core.caution_texts import PAIN_REDUCE, PAIN_SLIGHT, PAIN_STOP
from pennate.core.cautions import (
    Caution,
    CautionFacts,
    alarming_joint_words,
    alarming_words,
    cautions_for,
    failure_safety_on,
    unseen,
)
from pennate.core.evidence.dose import CHANGEOVER_S, PLATE_MOVE_S
from pennate.core.evidence.plan import SUPERSET_STEP_S, Z_90
from pennate.core.evidence.safety import (
    NEW_AGAIN_DAYS,
)
from pennate.core.exercise import FailureSafety
from pennate.core.muscles import Joint
from pennate.core.performed import PerformedSet, SetKind
from pennate.core.readiness import Ill, PainAction, pain_action
from pennate.core.week_time import Minutes, preparation_seconds, seconds_per_rep

IN_PLACE = {"safeties", "spotter", "stops"}


def minutes_of(
    standing: Standing, inputs: DayInputs, *, done: Set[str] = frozenset()
) -> tuple[Minutes, dict[int, tuple[float, float]]]:
    """Minutes of the session at her pace, with a 90 % interval; start and length of every stop.

    With keys of sets that are `done`, what is left from now: the rest before the next set counts,
    what was passed does not.
    """
    outline, laid, pace = standing.outline, standing.planned.laid, standing.pace
    clock = 0.0 if done else preparation_seconds(inputs.planned)
    under_way = bool(done)
    starts: dict[int, tuple[float, float]] = {}
    for run in outline.runs:
        own = _counted(run, outline, inputs, done)
        begun = any(int(key.split(".")[0]) in run for key in done)
        clock += CHANGEOVER_S if own and under_way and not begun else 0.0
        start = clock
        clock += sum(
            set_seconds(
                outline.plans[index],
                slot,
                laid,
                first=place == 0 and not begun,
                shared=len(run) > 1,
            )
            for place, (index, slot) in enumerate(own)
        )
        under_way = under_way or bool(own)
        starts.update(
            dict.fromkeys(run, (start / 60 * pace.factor, (clock - start) / 60 * pace.factor))
        )
    spread = math.exp(Z_90 * pace.sd_log)
    value = clock / 60 * pace.factor
    return Minutes(value, value / spread, value * spread), starts


def _counted(
    run: Sequence[int], outline: Outline, inputs: DayInputs, done: Set[str]
) -> list[tuple[int, Slot]]:
    """Sets of these stops that take time from now: asked, not done, and no ramp to nothing."""
    own = [pair for pair in outline.order if pair[0] in run]
    open_ = [
        (index, slot)
        for index, slot in own
        if not outline.plans[index].left_out
        and slot.key not in inputs.state.left_out
        and slot.key not in done
    ]
    hard = {index for index, slot in open_ if slot.asked.kind is not SetKind.WARM_UP}
    begun = {i for i, slot in own if slot.key in done and slot.asked.kind is not SetKind.WARM_UP}
    return [
        (index, slot)
        for index, slot in open_
        if index in hard and (slot.asked.kind is not SetKind.WARM_UP or index not in begun)
    ]


def set_seconds(
    plan: StopPlan, slot: Slot, laid: Mapping[str, Laid], *, first: bool, shared: bool
) -> float:
    """Seconds of one set with its rest, plate moves beyond the rest, and the step to a partner."""
    found = laid.get(slot.key)
    reps = slot.asked.reps
    likely = found.likely if found else None
    count = likely.middle if likely else reps.low if reps else 0
    moves = found.moves if found else 0
    pace = seconds_per_rep(plan.exercise, slot.asked.tempo)
    one = timed(slot, count, pace, 2 * moves * PLATE_MOVE_S)
    step = SUPERSET_STEP_S if shared and slot.rest_s == 0 else 0.0
    return one.seconds - (one.rest_s if first else 0.0) + step


def cautions_by_stop(outline: Outline, inputs: DayInputs) -> dict[int, tuple[Caution, ...]]:
    """Cautions of each stop; one that is due once a session stands where it first applies."""
    seen: set[str] = set()
    found: dict[int, tuple[Caution, ...]] = {}
    for index in (i for run in outline.runs for i in run):
        plan = outline.plans[index]
        sore = _soreness(plan, inputs)
        facts = _facts(plan, outline.slots[index], sore, inputs)
        applies = tuple(one.of(sore.joints.get(one.id, ())) for one in cautions_for(facts))
        found[index] = unseen(applies, seen)
        seen |= {caution.id for caution in applies}
    return found


def day_cautions(inputs: DayInputs) -> tuple[Caution, ...]:
    """Cautions of the whole day: warning signs named, days after new work, an illness."""
    today = inputs.state.day
    sets = (done for done in inputs.history.since(today) if done.day == today)
    notes = (inputs.state.note, *(done.note for done in sets))
    facts = CautionFacts(
        alarming_note=any(alarming_words(note) for note in notes),
        hard_new_days_ago=hard_new_days_ago(inputs),
        ill=inputs.state.readiness.ill if inputs.state.readiness else Ill.NO,
    )
    return cautions_for(facts)


def hard_new_days_ago(inputs: DayInputs) -> int | None:
    """Days since a jump in sets, a return after four weeks, or a beginner's first sessions."""
    trained = inputs.profile.trained is True
    return days_ago(working_days(inputs.history), inputs.state.day, trained=trained)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Soreness:
    """What her log says of the joints an exercise loads."""

    worst: int
    """Pain of today, 0 to 10, in a joint it loads clearly."""
    days: int
    unsettled: bool
    alarming: bool
    """Of today, in a joint it loads clearly."""
    slight: bool
    """A joint it loads slightly is one whose pain stops what loads it clearly."""
    joints: Mapping[str, Sequence[str]]
    """The joints that a caution speaks of, by its id."""


def _soreness(plan: StopPlan, inputs: DayInputs) -> _Soreness:
    today, loads = inputs.state.day, plan.exercise.joints
    joints = {
        joint.value: [r for r in inputs.pain if r.joint == joint] for joint in loads if loads[joint]
    }
    clear = loaded_joints(plan.exercise)
    now = [one for joint in clear for one in joints.get(joint, ()) if one.day == today]
    slight = [
        joint
        for joint in slightly_loaded_joints(plan.exercise)
        if stopping_now(joints.get(joint, ()), today)
    ]
    notes = [
        d.note for d in inputs.done_today if d.exercise == plan.exercise.id and _holds(d, inputs)
    ]
    return _Soreness(
        worst=max([plan.pain, *(one.score for one in now)]),
        days=max((sore_days(own, today) for own in joints.values()), default=0),
        unsettled=any(unsettled(own, today) for own in joints.values()),
        alarming=any(one.alarming for one in now)
        or any(alarming_joint_words(note) for note in notes),
        slight=bool(slight),
        joints={
            PAIN_STOP.id: _named(now, PainAction.STOP),
            PAIN_REDUCE.id: _named(now, PainAction.REDUCE),
            PAIN_SLIGHT.id: slight,
        },
    )


def _named(reports: Sequence[PainReport], action: PainAction) -> list[str]:
    """The joints whose pain asks for this, each once, in the order they are loaded."""
    asked = (
        one.joint for one in reports if pain_action(one.score, alarming=one.alarming) is action
    )
    return list(dict.fromkeys(asked))


def _holds(done: PerformedSet, inputs: DayInputs) -> bool:
    """Whether a sign noted at a set still holds: she has not corrected all that hurt at it."""
    said = inputs.state.readiness
    return not done.pain or said is None or not said.corrected >= done.pain.keys()


def _knee_sore(inputs: DayInputs) -> bool:
    """Whether her knee is sore: named today, or a spell of pain that still counts."""
    today, knee = inputs.state.day, Joint.KNEE
    if inputs.state.readiness and inputs.state.readiness.pain.get(knee, 0) > 0:
        return True
    own = [one for one in inputs.pain if one.joint == knee]
    return any(one.day == today and one.score > 0 for one in own) or sore_now(own, today)


def _facts(
    plan: StopPlan, slots: tuple[Slot, ...], sore: _Soreness, inputs: DayInputs
) -> CautionFacts:
    working = [slot for slot in slots if slot.asked.kind is not SetKind.WARM_UP]
    to_failure = any(_to_failure(slot) for slot in working)
    away, taken_up = _familiarity(plan.exercise.id, inputs)
    known = plan.exercise.id in inputs.remembered
    kind = plan.item.kind if plan.item else plan.exercise.equipment[0]
    joints = plan.exercise.joints
    return CautionFacts(
        health=inputs.profile.health,
        first_time=away is None and not known,
        days_away=away or 0,
        days_in=taken_up,
        to_failure=to_failure,
        hard=to_failure or any(_hard(slot) for slot in working),
        safety=failure_safety_on(plan.exercise, kind) if to_failure else FailureSafety.NONE,
        safeties=_in_place(plan),
        lumbar_load=joints.get(Joint.LUMBAR, 0),
        knee_load=joints.get(Joint.KNEE, 0),
        knee_sore=_knee_sore(inputs),
        pain=sore.worst,
        alarming_pain=sore.alarming,
        slight_pain=sore.slight,
        pain_unsettled=sore.unsettled,
        pain_days=sore.days,
    )


def _in_place(plan: StopPlan) -> bool:
    return bool(IN_PLACE & set(plan.asked.aids)) or (plan.item is not None and plan.item.safeties)


def _to_failure(slot: Slot) -> bool:
    reserve = slot.asked.reserve
    return slot.asked.to_failure or (reserve is not None and reserve.low == 0)


def _hard(slot: Slot) -> bool:
    reserve = slot.asked.reserve
    return reserve is not None and reserve.low <= 1


def _familiarity(exercise: str, inputs: DayInputs) -> tuple[int | None, int | None]:
    """Days since it was last done, and since it was taken up (again); None where never."""
    days = sorted({d.day for d in inputs.history.of_exercise(exercise) if d.day < inputs.state.day})
    if not days:
        return None, None
    taken_up = days[0]
    for before, after in itertools.pairwise(days):
        if (after - before).days >= NEW_AGAIN_DAYS:
            taken_up = after
    return (inputs.state.day - days[-1]).days, (inputs.state.day - taken_up).days
