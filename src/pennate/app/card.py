"""The session card, assembled: outline, chosen loads, states on iron, what today changed."""

from __future__ import annotations

import math
from collections.abc import Mapping, Set
from dataclasses import replace
from fractions import Fraction

from pennate.app.card_facts import cautions_by_stop, day_cautions, minutes_of
from pennate.app.changes import change_of, remarks_of
from pennate.app.choose import (
    SAME_LOAD_KG,
    Anchors,
    Block,
    Choice,
    Chooser,
    Chosen,
    Stop,
    exposure,
    needed,
)
from pennate.app.ladders import Climb, helps, ladder_of
from pennate.app.lasttime import last_loads
from pennate.app.loads import Floor, lay_out
from pennate.app.outline import CARD_KEY, DayInputs, Outline, outline_of, with_ramps
from pennate.app.slots import Slot
from pennate.app.standing import Drawn, Standing, odds_of
from pennate.app.step_advice import step_words
from pennate.app.stops import StopPlan
from pennate.core.card import Card, CardSet, CardStop, OwnNotes, SetState
from pennate.core.evidence.session import (
    CLEARLY_SHORT,
    SURE_ENOUGH,
    SURE_ENOUGH_LATER,
    TOO_HEAVY,
    TOO_LIGHT,
)
from pennate.core.gym import carrier_of
from pennate.core.loaded import Loaded
from pennate.core.performed import Effort, PerformedSet, SetKind
from pennate.errors import InputError
from pennate.estimate import StrengthModel, exposure_of, outcome_of
from pennate.loading import Written, calibration, ladder, read_load

NEAR_FAILURE = {Effort.FAIL, Effort.NONE_LEFT, Effort.ONE}
"""Reports after which few reps mean too heavy a load, not a set broken off."""

Notes = Mapping[tuple[str, str], OwnNotes]
NO_NOTES = OwnNotes()


def make_card(inputs: DayInputs, notes: Notes) -> Card:
    """The card of a day. Pure: the same inputs give the same card."""
    return drawn(stand(inputs), inputs, notes)


def drawn(standing: Standing, inputs: DayInputs, notes: Notes) -> Card:
    """The card of a session as it stands."""
    outline = standing.outline
    minutes, starts = minutes_of(outline, standing.planned.laid, inputs)
    cautions = cautions_by_stop(outline, inputs)
    stops = tuple(
        replace(
            _stop(outline.plans[index], standing, inputs, notes),
            cautions=cautions[index],
            starts_at_min=starts[index][0],
            minutes=starts[index][1],
        )
        for run in outline.runs
        for index in run
    )
    state, planned = inputs.state, inputs.planned
    return Card(
        day=state.day,
        session=state.session,
        title=f"{planned.day} · {planned.focus}" if planned.focus else planned.day,
        gym_name=inputs.gym.name if inputs.gym else "",
        preparation=planned.preparation,
        stops=stops,
        order=tuple(slot.key for _, slot in outline.order),
        minutes=minutes.value,
        minutes_low=minutes.low,
        minutes_high=minutes.high,
        cautions=day_cautions(inputs),
        changes=remarks_of(inputs, standing.day, outline.remarks),
        readiness=state.readiness,
    )


def stand(inputs: DayInputs) -> Standing:
    """Plan the day from the morning's model, then once more from what today has shown."""
    bare = outline_of(inputs)
    anchors = Anchors(
        loads=last_loads(bare, inputs), word=Choice.LAST_TIME, lower_word=Choice.LOWERED
    )
    first = Chooser(inputs.model, bare.stops, anchors).choose(bare.order)
    outline = with_ramps(
        bare,
        _first_working(bare, first),
        _tests(bare, first, inputs),
        short=inputs.state.minutes is not None,
    )
    done = {one.extra[CARD_KEY]: one for one in inputs.done_today if CARD_KEY in one.extra}
    floor = _floor(outline, inputs, {})
    planned = Drawn(
        chosen=first,
        laid=lay_out(inputs.model, floor, outline.stops, outline.order, first),
        anchors=anchors.loads,
    )
    on = _states(outline, inputs, done)
    if not inputs.done_today:
        return Standing(
            outline=outline, done=done, on=on, planned=planned, now=planned, model=inputs.model
        )
    model = _after_today(inputs)
    opened = [pair for pair in outline.order if pair[1].key not in done]
    held = _held(outline, planned, done, on, inputs, model)
    chosen = {**first, **Chooser(model, outline.stops, held).choose(opened)}
    floor = _floor(outline, inputs, _last_on(outline, done, on))
    laid = lay_out(model, floor, outline.stops, opened, chosen)
    return Standing(
        outline=outline,
        done=done,
        on=on,
        planned=planned,
        now=Drawn(chosen=chosen, laid=laid, anchors=held.loads),
        model=model,
        day=_day_shift(inputs, model, outline),
    )


def _day_shift(inputs: DayInputs, model: StrengthModel, outline: Outline) -> tuple[float, float]:
    base = next(iter(outline.stops.values())).base
    now, sd = model.day_effect(base)
    return now - inputs.model.day_expected(base)[0], sd


def _first_working(outline: Outline, chosen: Mapping[Block, Chosen]) -> dict[int, float]:
    """Felt load of the first block of each stop, where it has one."""
    first: dict[int, float] = {}
    for (index, _), choice in sorted(chosen.items(), key=lambda pair: pair[0]):
        first.setdefault(index, choice.felt_kg)
    return {index: felt for index, felt in first.items() if outline.stops[index].has_load}


def _tests(outline: Outline, chosen: Mapping[Block, Chosen], inputs: DayInputs) -> dict[int, float]:
    """Felt load of the test set of every stop whose exercise is unknown on its item.

    About 60 % of the guessed one-rep load, and never more than is likely to go up often enough.
    """
    found: dict[int, float] = {}
    for index, stop in outline.stops.items():
        plan, asking = outline.plans[index], outline.stops[index].base
        fresh = any(c.why is Choice.FIRST for (i, _), c in chosen.items() if i == index)
        known = plan.exercise.id in inputs.remembered or inputs.model.sets_behind(asking) > 0
        if not fresh or known or not stop.has_load:
            continue
        guess = inputs.model.load_for(asking, 1, SURE_ENOUGH_LATER)
        test = calibration(guess, stop.body_kg)
        safe = inputs.model.load_for(asking, test.reps, SURE_ENOUGH) - stop.body_kg
        found[index] = max(stop.lightest_kg, min(test.target.felt_kg, safe))
    return found


def _after_today(inputs: DayInputs) -> StrengthModel:
    """The morning's model after every set of today, in the order they were done."""
    model = inputs.model.copy()
    carriers = {item.id: carrier_of(item) for item in inputs.gym.items} if inputs.gym else {}
    for done in inputs.history.since(inputs.state.day):
        seen = exposure_of(done, inputs.catalogue, model.person, carriers)
        model.observe(seen, outcome_of(done))
    return model


def _states(
    outline: Outline, inputs: DayInputs, done: Mapping[str, PerformedSet]
) -> dict[str, Loaded]:
    found = {}
    for index, slot in outline.order:
        one, item = done.get(slot.key), outline.plans[index].item
        if one is None or item is None or inputs.gym is None:
            continue
        if one.load is None or one.unit is None:
            continue
        written = Written(amount=one.load, unit=one.unit, reading=one.reading)
        try:
            found[slot.key] = read_load(inputs.gym, item, written)
        except InputError:
            continue  # a load from elsewhere: logged as it was, drawn as words only
    return found


def _last_on(
    outline: Outline, done: Mapping[str, PerformedSet], on: Mapping[str, Loaded]
) -> dict[int, Loaded]:
    """What is on each item now: the state of its last done set."""
    last: dict[int, tuple[int, Loaded]] = {}
    for index, slot in outline.order:
        if slot.key in on and done[slot.key].number >= last.get(index, (0, None))[0]:
            last[index] = (done[slot.key].number, on[slot.key])
    return {index: state for index, (_, state) in last.items()}


def _floor(outline: Outline, inputs: DayInputs, now_on: Mapping[int, Loaded]) -> Floor:
    items = {index: plan.item for index, plan in outline.plans.items()}
    return Floor(gym=inputs.gym, items=items, runs=outline.runs, now_on=now_on)


def _held(
    outline: Outline,
    planned: Drawn,
    done: Mapping[str, PerformedSet],
    on: Mapping[str, Loaded],
    inputs: DayInputs,
    model: StrengthModel,
) -> Anchors:
    """Hold the planned loads, or hers; what followed from a changed or too heavy one goes."""
    iron = _iron(outline, planned)
    begun = {(index, slot.block) for index, slot in outline.order if slot.key in done}
    guessed = {b for b, c in planned.chosen.items() if c.why is Choice.FIRST and b not in begun}
    loads = {block: kg for block, kg in iron.items() if block not in guessed}
    ordered = sorted(
        ((index, slot) for index, slot in outline.order if slot.key in on),
        key=lambda pair: done[pair[1].key].number,
    )
    for index, slot in ordered:
        block = (index, slot.block)
        if slot.asked.kind is SetKind.WARM_UP or block not in loads:
            continue
        right = _right_load(outline.stops[index], slot, done, model)
        loads[block] = min(on[slot.key].felt_kg, right)
        if abs(loads[block] - iron[block]) >= SAME_LOAD_KG:
            loads = {k: kg for k, kg in loads.items() if k[0] != index or k[1] <= slot.block}
    forced = frozenset(
        (index, slot.block) for index, slot in outline.order if slot.key in inputs.state.kept
    )
    kept = {block: iron[block] for block in forced if block in iron}
    held, odds = {**loads, **kept}, odds_of(outline, planned)
    return Anchors(loads=held, forced=forced, lower_at=TOO_HEAVY, raise_at=TOO_LIGHT, odds=odds)


def _right_load(
    stop: Stop, slot: Slot, done: Mapping[str, PerformedSet], model: StrengthModel
) -> float:
    """The load that would have been right today for a set that fell clearly short, else endless."""
    one, asked = done[slot.key], slot.asked.reps
    near = one.effort in NEAR_FAILURE and slot.asked.kind is not SetKind.DROP
    if asked is None or one.reps > asked.low - CLEARLY_SHORT or not near:
        return math.inf
    asking = exposure(stop, slot, None)
    return model.load_for(asking, needed(slot), SURE_ENOUGH_LATER) - stop.body_kg


def _iron(outline: Outline, planned: Drawn) -> dict[Block, float]:
    """The planned load of every block as it was laid out, felt without body mass."""
    found: dict[Block, float] = {}
    for index, slot in outline.order:
        block, load = (index, slot.block), planned.laid[slot.key].load
        if slot.asked.kind is not SetKind.WARM_UP and block in planned.chosen:
            felt = planned.chosen[block].felt_kg if load is None else load.felt_kg
            found.setdefault(block, felt)
    return found


def _stop(plan: StopPlan, standing: Standing, inputs: DayInputs, notes: Notes) -> CardStop:
    own = notes.get((plan.exercise.id, plan.item.id if plan.item else ""), NO_NOTES)
    slots = [slot for index, slot in standing.outline.order if index == plan.index]
    sets = tuple(_set(plan, slot, standing, inputs) for slot in slots)
    return CardStop(
        index=plan.index,
        exercise=plan.exercise.id,
        name=plan.exercise.name,
        asked=plan.asked,
        item=plan.item,
        notes=own,
        cue=own.cue or plan.exercise.cue,
        sets=_without_idle_ramp(sets),
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
        why=_why(drawn, block, laid.load),
        step=_step(plan, slot, standing, inputs, drawn, laid.load),
        change=change_of(plan.index, slot, standing) if changed else "",
        refusable=planned.load if changed else None,
        state=state,
        done=done,
    )


def _passed(plan: StopPlan, slot: Slot, standing: Standing) -> bool:
    """Whether a ramp set was left behind by a working set of the same exercise."""
    if slot.asked.kind is not SetKind.WARM_UP:
        return False
    return any(
        other.key in standing.done and other.asked.kind is not SetKind.WARM_UP
        for other in standing.outline.slots[plan.index]
    )


def _why(drawn: Drawn, block: Block, load: Loaded | None) -> str:
    """The rule behind a load; a raise or cut too small for the equipment is none."""
    choice = drawn.chosen.get(block)
    if choice is None:
        return ""
    if _held_back(drawn, block, load, {Choice.RAISED, Choice.LOWERED}):
        return f"the same load again: a step would be too much ({choice.why.value})"
    return choice.why.value


def _held_back(drawn: Drawn, block: Block, load: Loaded | None, whys: Set[Choice]) -> bool:
    """Whether a load was to change for one of these reasons, but no step is small enough."""
    choice, anchor = drawn.chosen.get(block), drawn.anchors.get(block)
    if choice is None or load is None or anchor is None:
        return False
    return choice.why in whys and abs(load.felt_kg - anchor) < SAME_LOAD_KG


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
