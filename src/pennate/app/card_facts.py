"""Plain facts about a session: its minutes, and which cautions apply where."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping

from pennate.app.loads import Laid
from pennate.app.outline import DayInputs, Outline, timed
from pennate.app.slots import Slot
from pennate.app.stops import StopPlan
from pennate.core.cautions import (
    Caution,
    CautionFacts,
    cautions_for,
    failure_safety_on,
    unseen,
)
from pennate.core.evidence.dose import CHANGEOVER_S, PLATE_MOVE_S
from pennate.core.evidence.plan import SUPERSET_STEP_S, Z_90
from pennate.core.evidence.safety import NEW_AGAIN_DAYS
from pennate.core.exercise import FailureSafety
from pennate.core.muscles import Joint
from pennate.core.performed import SetKind
from pennate.core.week_time import Minutes, Pace, preparation_seconds, seconds_per_rep

IN_PLACE = {"safeties", "spotter", "stops"}


def minutes_of(
    outline: Outline, laid: Mapping[str, Laid], inputs: DayInputs
) -> tuple[Minutes, dict[int, tuple[float, float]]]:
    """Minutes of the session with a 90 % interval; start and length of every stop."""
    clock = preparation_seconds(inputs.planned)
    starts: dict[int, tuple[float, float]] = {}
    for run in outline.runs:
        own = [
            pair for pair in outline.order if pair[0] in run and _is_asked(*pair, outline, inputs)
        ]
        busy = any(slot.asked.kind is not SetKind.WARM_UP for _, slot in own)
        clock += CHANGEOVER_S if busy and any(length for _, length in starts.values()) else 0.0
        begun = clock
        clock += sum(
            set_seconds(outline.plans[index], slot, laid, first=place == 0, shared=len(run) > 1)
            for place, (index, slot) in enumerate(own if busy else ())
        )
        starts.update(dict.fromkeys(run, (begun / 60, (clock - begun) / 60)))
    pace = Pace()
    spread = math.exp(Z_90 * pace.sd_log)
    value = clock / 60
    return Minutes(value, value / spread, value * spread), starts


def _is_asked(index: int, slot: Slot, outline: Outline, inputs: DayInputs) -> bool:
    return not outline.plans[index].left_out and slot.key not in inputs.state.left_out


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
        applies = cautions_for(_facts(plan, outline.slots[index], inputs))
        found[index] = unseen(applies, seen)
        seen |= {caution.id for caution in applies}
    return found


def _facts(plan: StopPlan, slots: tuple[Slot, ...], inputs: DayInputs) -> CautionFacts:
    working = [slot for slot in slots if slot.asked.kind is not SetKind.WARM_UP]
    to_failure = any(_to_failure(slot) for slot in working)
    away, taken_up = _familiarity(plan.exercise.id, inputs)
    known = plan.exercise.id in inputs.remembered
    kind = plan.item.kind if plan.item else plan.exercise.equipment[0]
    joints = plan.exercise.joints
    knee = inputs.state.readiness.pain.get(Joint.KNEE, 0) if inputs.state.readiness else 0
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
        knee_sore=knee > 0,
        pain=plan.pain,
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
