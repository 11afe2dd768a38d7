"""The session card, assembled: outline, chosen loads, states on iron, what today changed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import replace
from fractions import Fraction

from pennate.app.card_facts import cautions_by_stop, day_cautions, minutes_of
from pennate.app.card_text import effort_words
from pennate.app.changes import back_of, change_of, remarks_of
from pennate.app.choose import Choice, exposure
from pennate.app.ladders import Climb, ladder_of
from pennate.app.loads import Laid
from pennate.app.outline import DayInputs, Outline
from pennate.app.session_stop import SAME_LOAD_KG, Block
from pennate.app.slots import Slot
from pennate.app.stand import stand
from pennate.app.standing import Drawn, Standing
from pennate.app.step_advice import MEETS, below_words, offer_words, offers_off, step_words
from pennate.app.stops import StopPlan, helps
from pennate.core.card import Card, CardSet, CardStop, OwnNotes, SetState
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.core.prescribed import Span
from pennate.loading import RepsAt, ladder

Notes = Mapping[tuple[str, str], OwnNotes]
Offers = tuple[tuple[int, str], ...]
NO_NOTES = OwnNotes()
STILL_HEAVY = "the same load again, though the low end in every set is unlikely"
NEAR_IT = "close to the load before: the nearest there is here, or few plates to change"
TOO_BIG_A_STEP = "the same load again, more reps first: the next one up is too big a step yet"


def make_card(inputs: DayInputs, notes: Notes) -> Card:
    """The card of a day. Pure: the same inputs give the same card."""
    return drawn(stand(inputs), inputs, notes)


def drawn(standing: Standing, inputs: DayInputs, notes: Notes) -> Card:
    """The card of a session as it stands."""
    outline, state, planned = standing.outline, inputs.state, inputs.planned
    minutes, _ = minutes_of(standing, inputs)
    return Card(
        day=state.day,
        session=state.session,
        title=f"{planned.day} · {planned.focus}" if planned.focus else planned.day,
        gym_name=inputs.gym.name if inputs.gym else "",
        preparation=planned.preparation,
        stops=stops_drawn(standing, inputs, notes),
        order=tuple(slot.key for _, slot in outline.order),
        minutes=minutes.value,
        minutes_low=minutes.low,
        minutes_high=minutes.high,
        cautions=day_cautions(inputs),
        changes=remarks_of(inputs, standing),
        readiness=state.readiness,
    )


def stops_drawn(standing: Standing, inputs: DayInputs, notes: Notes) -> tuple[CardStop, ...]:
    """The stops of a session as it stands, or of the part of one that is told."""
    outline = standing.outline
    _, starts = minutes_of(standing, inputs)
    cautions = cautions_by_stop(outline, inputs)
    return tuple(
        replace(
            _stop(outline.plans[index], standing, inputs, notes),
            cautions=cautions[index],
            starts_at_min=starts[index][0],
            minutes=starts[index][1],
        )
        for run in outline.runs
        for index in run
    )


def sets_drawn(standing: Standing, inputs: DayInputs, index: int) -> tuple[CardSet, ...]:
    """The sets of one stop of a session as it stands."""
    plan = standing.outline.plans[index]
    slots = [slot for i, slot in standing.outline.order if i == index]
    return _without_idle_ramp(tuple(_set(plan, slot, standing, inputs) for slot in slots))


def _stop(plan: StopPlan, standing: Standing, inputs: DayInputs, notes: Notes) -> CardStop:
    own = notes.get((plan.exercise.id, plan.item.id if plan.item else ""), NO_NOTES)
    return CardStop(
        index=plan.index,
        exercise=plan.exercise.id,
        name=plan.exercise.name,
        asked=plan.asked,
        item=plan.item,
        notes=own,
        cue=own.cue or plan.exercise.cue,
        sets=sets_drawn(standing, inputs, plan.index),
        superset=plan.asked.superset if len(_run_of(standing.outline, plan.index)) > 1 else "",
        replaced=plan.replaced or plan.left_out,
        ladder=_ladder(plan, inputs),
    )


def _ladder(plan: StopPlan, inputs: DayInputs) -> str:
    """Where she stood this morning on the way to the unassisted rep."""
    if not plan.asked.ladder and (plan.item is None or not helps(plan.item)):
        return ""
    climb = Climb(
        catalogue=inputs.catalogue,
        gym=inputs.gym,
        profile=inputs.profile,
        done=inputs.history.before(inputs.state.day).sets,
    )
    found = ladder_of(plan.asked, plan.item, climb)
    return found.brief if found else ""


def _without_idle_ramp(sets: tuple[CardSet, ...]) -> tuple[CardSet, ...]:
    """A ramp to nothing is left out with the sets it was for."""
    if any(s.kind is not SetKind.WARM_UP and s.state is not SetState.SKIPPED for s in sets):
        return sets
    return tuple(
        one if one.state is SetState.DONE else replace(one, state=SetState.SKIPPED) for one in sets
    )


def _run_of(outline: Outline, index: int) -> tuple[int, ...]:
    return next(run for run in outline.runs if index in run)


def _set(plan: StopPlan, slot: Slot, standing: Standing, inputs: DayInputs) -> CardSet:
    done = standing.done.get(slot.key)
    planned = standing.planned.laid[slot.key]
    laid = planned if done else standing.now.laid.get(slot.key, planned)
    block = (plan.index, slot.block)
    drawn = standing.planned if done else standing.now
    left_out = slot.key in inputs.state.left_out or bool(plan.left_out)
    state = SetState.DONE if done else SetState.SKIPPED if left_out else SetState.OPEN
    if state is SetState.OPEN and _passed(plan, slot, standing):
        state = SetState.SKIPPED
    working = slot.asked.kind is not SetKind.WARM_UP
    changed = working and state is SetState.OPEN and _differs(planned.load, laid.load)
    below, offers = _below(plan, slot, standing, inputs, drawn, laid)
    why = _why(drawn, block, laid.load, standing)
    return CardSet(
        key=slot.key,
        kind=slot.asked.kind,
        asked=slot.asked,
        round=slot.round,
        side=slot.side,
        load=standing.on.get(slot.key) if done else laid.load,
        reps=slot.asked.reps,
        seconds=slot.asked.seconds,
        rest_s=slot.rest_s,
        forecast=laid.forecast,
        likely=laid.likely,
        moves=laid.moves,
        why=why + _too_light(slot, laid) + (below and f": {below}"),
        below=below,
        offer=dict(offers).get(0, ""),
        offers=offers,
        step=_step(plan, slot, standing, inputs, drawn, laid.load),
        change=change_of(plan.index, slot, standing)
        if changed
        else _back(plan, slot, standing, state),
        refusable=planned.load if changed else None,
        state=state,
        done=done,
    )


def _back(plan: StopPlan, slot: Slot, standing: Standing, state: SetState) -> str:
    """Why the load of the first working set after a pause is another than she is used to."""
    own = standing.outline.slots[plan.index]
    first = next((one.key for one in own if one.asked.kind is not SetKind.WARM_UP), "")
    is_first = slot.key == first and state is SetState.OPEN
    return back_of(plan.index, standing) if is_first else ""


def _passed(plan: StopPlan, slot: Slot, standing: Standing) -> bool:
    """Whether a ramp set was left behind by a working set of the same exercise."""
    if slot.asked.kind is not SetKind.WARM_UP:
        return False
    return any(
        other.key in standing.done and other.asked.kind is not SetKind.WARM_UP
        for other in standing.outline.slots[plan.index]
    )


def _why(drawn: Drawn, block: Block, load: Loaded | None, standing: Standing) -> str:
    """The rule behind a load; a raise or cut too small for the equipment is none."""
    choice = drawn.chosen.get(block)
    if choice is None:
        return ""
    if _held_back(drawn, block, load, {Choice.RAISED}):
        return TOO_BIG_A_STEP
    if _held_back(drawn, block, load, {Choice.LOWERED}):
        return STILL_HEAVY
    if _otherwise(choice.why, load, drawn.anchors.get(block)):
        return NEAR_IT
    if choice.why is Choice.WRITTEN:
        return standing.outline.stops[block[0]].unmade.get(block[1], choice.why.value)
    return choice.why.value


def _otherwise(why: Choice, load: Loaded | None, anchor: float | None) -> bool:
    """Whether the plates come to a load that these words would contradict."""
    if load is None or anchor is None:
        return False
    more = load.felt_kg - anchor
    if why in {Choice.HELD, Choice.LAST_TIME}:
        return abs(more) >= SAME_LOAD_KG
    raised, lowered = why is Choice.RAISED, why in {Choice.LOWERED, Choice.EASED}
    return (raised and more <= -SAME_LOAD_KG) or (lowered and more >= SAME_LOAD_KG)


def _too_light(slot: Slot, laid: Laid) -> str:
    """Said of a drop whose written share is so light that she will pass the range."""
    reps, likely = slot.asked.reps, laid.likely
    if slot.asked.kind is not SetKind.DROP or reps is None or likely is None:
        return ""
    if reps.high is None or likely.low <= reps.high:
        return ""
    return "; more reps than asked are likely, a smaller drop would meet the range"


def _held_back(drawn: Drawn, block: Block, load: Loaded | None, whys: Set[Choice]) -> bool:
    """Whether a load was to change for one of these reasons, but no step is small enough."""
    choice, anchor = drawn.chosen.get(block), drawn.anchors.get(block)
    if choice is None or load is None or anchor is None:
        return False
    return choice.why in whys and abs(load.felt_kg - anchor) < SAME_LOAD_KG


def _below(
    plan: StopPlan,
    slot: Slot,
    standing: Standing,
    inputs: DayInputs,
    drawn: Drawn,
    laid: Laid,
) -> tuple[str, Offers]:
    """What to expect at a load held though too heavy and at the next one down; and that offered."""
    load, reps = laid.load, slot.asked.reps
    if inputs.gym is None or plan.item is None or load is None or laid.forecast is None:
        return "", ()
    block_of = (plan.index, slot.block)
    held = _held_back(drawn, block_of, load, {Choice.LOWERED})
    if reps is None or not (held or _held_back(standing.planned, block_of, load, {Choice.LOWERED})):
        return "", ()
    loads = ladder(inputs.gym, plan.item, load.count)
    block = [one for one in standing.outline.slots[plan.index] if one.block == slot.block]
    first = next((i for i, one in enumerate(block) if one.key == slot.key), 0)
    offers = _offers(plan, block[first:], standing, drawn, loads, load)
    if not held:
        return "", offers
    left = f", {effort}" if (effort := effort_words(slot.asked)) else ""
    where = "the first set" if slot.key == block[0].key else "this set"
    told = below_words(loads, load, _reps_at(plan, slot, standing, laid), where)
    meets = "; the next load down likely meets that" if MEETS in dict(offers).get(0, "") else ""
    return f"{told}; {reps} are asked{left}{meets}", offers


def _offers(
    plan: StopPlan,
    slots: Sequence[Slot],
    standing: Standing,
    drawn: Drawn,
    loads: Sequence[Loaded],
    load: Loaded,
) -> Offers:
    """The next load down offered for these sets of a block: made now, or before and standing."""
    asked = slots[0].asked
    reserve = Span(0, 0) if asked.to_failure else asked.reserve or Span(0, None)

    def coming(of: Drawn) -> list[RepsAt]:
        return [
            _reps_at(plan, one, standing, found)
            for one in slots
            if one.key not in standing.done and (found := of.laid.get(one.key)) and found.load
        ]

    reps = asked.reps or Span(0, None)
    now = coming(drawn)
    made = any(
        offer_words(loads, load, of, reps, reserve) for of in (now, coming(standing.planned))
    )
    return offers_off(loads, load, now, reps, reserve) if made else ()


def _reps_at(plan: StopPlan, slot: Slot, standing: Standing, laid: Laid) -> RepsAt:
    """Reps to failure of a set: as it is forecast, and as many more as a lighter load gives."""
    stop, load, forecast = standing.outline.stops[plan.index], laid.load, laid.forecast

    def reps_at(added_kg: float) -> float:
        if load is None or forecast is None:
            return 0.0
        at, held = (
            standing.model.forecast(exposure(stop, slot, kg)).median
            for kg in (added_kg, load.felt_kg)
        )
        return forecast.median + at - held

    return reps_at


def _step(
    plan: StopPlan,
    slot: Slot,
    standing: Standing,
    inputs: DayInputs,
    drawn: Drawn,
    load: Loaded | None,
) -> tuple[str, ...]:
    """What the step up costs that was due and not taken."""
    block, stop = (plan.index, slot.block), standing.outline.stops[plan.index]
    if inputs.gym is None or plan.item is None or load is None:
        return ()
    if not _held_back(drawn, block, load, {Choice.RAISED}):
        return ()

    def reps_at(added_kg: float) -> float:
        return standing.model.forecast(exposure(stop, slot, added_kg)).mean

    rungs = ladder(inputs.gym, plan.item, load.count)
    return step_words(plan.item, rungs, load.felt_kg, reps_at, stop.body_kg).lines


def _differs(planned: Loaded | None, now: Loaded | None) -> bool:
    zero = Fraction(0)
    return (planned.felt if planned else zero) != (now.felt if now else zero)
