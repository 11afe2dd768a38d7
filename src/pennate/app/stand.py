"""A session stood up: loads planned in the morning, then what holds after today's sets."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence, Set
from dataclasses import replace
from types import MappingProxyType

from pennate.app.choose import (
    Anchors,
    Choice,
    Chooser,
    Chosen,
    by_forecast,
    expected_reps,
    exposure,
    needed,
)
from pennate.app.first_load import known_sets, tested_load
from pennate.app.lasttime import last_loads
from pennate.app.loads import Floor, lay_out
from pennate.app.outline import CARD_KEY, DayInputs, Outline, outline_of, with_ramps
from pennate.app.session_pace import session_pace
from pennate.app.session_stop import SAME_LOAD_KG, Block, Stop
from pennate.app.slots import Slot
from pennate.app.standing import Drawn, Standing, light_of, odds_of
from pennate.core.evidence.session import (
    CLEARLY_SHORT,
    SURE_ENOUGH_LATER,
    TOO_HEAVY,
    TOO_LIGHT,
)
from pennate.core.gym import carrier_of
from pennate.core.loaded import Loaded
from pennate.core.performed import Effort, PerformedSet, SetKind
from pennate.errors import InputError
from pennate.estimate import StrengthModel, exposure_of, outcome_of
from pennate.loading import Written, read_load, restacked

NEAR_FAILURE = {Effort.FAIL, Effort.NONE_LEFT, Effort.ONE}
"""Reports after which few reps mean too heavy a load, not a set broken off."""


def stand(inputs: DayInputs) -> Standing:
    """Plan the day from the morning's model, then once more from what today has shown."""
    bare = outline_of(inputs)
    anchors = _last_time(bare, inputs)
    first = Chooser(inputs.model, bare.stops, anchors).choose(bare.order)
    outline = _with_ramps(bare, first, inputs)
    done = {one.extra[CARD_KEY]: one for one in inputs.done_today if CARD_KEY in one.extra}
    floor = _floor(outline, inputs, {})
    planned = Drawn(
        chosen=first,
        laid=lay_out(inputs.model, floor, outline.stops, outline.order, first),
        anchors=anchors.loads,
    )
    on = _states(outline, inputs, done, planned)
    morning = Standing(
        outline=outline,
        done=done,
        on=on,
        planned=planned,
        now=planned,
        model=inputs.model,
        pace=session_pace(_in_full(bare, first, inputs), planned.laid, inputs),
    )
    if not inputs.done_today:
        return morning
    model = _after_today(inputs)
    opened = _open(outline.order, done)
    now = _drawn_now(morning, inputs, model, opened)
    return replace(morning, now=now, model=model, day=_day_shift(inputs, model, outline))


def stand_swapped(base: Standing, inputs: DayInputs, index: int) -> Standing:
    """The session with another exercise at one stop; the other stops stay as they stood.

    Gives what `stand` gives for that stop, since what comes after it cannot touch it.
    """
    bare = outline_of(inputs, base.outline)
    own = set(next(run for run in bare.runs if index in run))
    anchors = _last_time(bare, inputs, own)
    early = [pair for pair in bare.order if pair[0] in own]
    morning = _before(base.planned, base.outline, inputs.model, own)
    for one, slot in early:
        morning.meet(exposure(bare.stops[one], slot, None))
    first = {
        **base.planned.chosen,
        **Chooser(morning, bare.stops, anchors).choose(early),
    }
    outline = _with_ramps(bare, first, inputs)
    order = [pair for pair in outline.order if pair[0] in own]
    part = replace(outline, runs=tuple(run for run in outline.runs if index in run))
    laid = lay_out(morning, _floor(part, inputs, {}), outline.stops, order, first)
    others = {block: kg for block, kg in base.planned.anchors.items() if block[0] not in own}
    planned = Drawn(
        chosen=first, laid={**base.planned.laid, **laid}, anchors={**others, **anchors.loads}
    )
    part = replace(part, order=tuple(order))
    found = replace(base, outline=part, planned=planned, now=planned, model=morning)
    if not inputs.done_today:
        return found
    done = {key: one for key, one in base.done.items() if int(key.split(".")[0]) in own}
    found = replace(found, done=done, on=_states(part, inputs, done, planned))
    model = _before(base.now, base.outline, base.model, own, done=base.done)
    opened = _open(order, done)
    return replace(found, now=_drawn_now(found, inputs, model, opened), model=model)


def _open(
    order: Sequence[tuple[int, Slot]], done: Mapping[str, PerformedSet]
) -> list[tuple[int, Slot]]:
    """Sets still to do; a ramp that a working set has left behind needs no plates any more."""
    begun = {i for i, slot in order if slot.key in done and slot.asked.kind is not SetKind.WARM_UP}
    return [
        (index, slot)
        for index, slot in order
        if slot.key not in done and (slot.asked.kind is not SetKind.WARM_UP or index not in begun)
    ]


def _before(
    drawn: Drawn,
    outline: Outline,
    model: StrengthModel,
    own: Set[int],
    done: Mapping[str, PerformedSet] = MappingProxyType({}),
) -> StrengthModel:
    """The model after what is likely to be done before these stops."""
    playing = model.copy()
    for index, slot in outline.order:
        if index in own:
            break
        laid = drawn.laid.get(slot.key)
        if slot.key in done or laid is None or laid.forecast is None:
            continue
        doing = exposure(outline.stops[index], slot, laid.load.felt_kg if laid.load else 0.0)
        playing.assume(doing, expected_reps(slot, laid.forecast.median))
    return playing


def _last_time(bare: Outline, inputs: DayInputs, own: Collection[int] | None = None) -> Anchors:
    """Loads of last time of these stops, else of all."""
    loads = last_loads(bare, inputs, bare.plans if own is None else own)
    return Anchors(loads=loads, word=Choice.LAST_TIME, lower_word=Choice.LOWERED)


def _with_ramps(bare: Outline, first: Mapping[Block, Chosen], inputs: DayInputs) -> Outline:
    working, tests = _first_working(bare, first), _tests(bare, first, inputs)
    return with_ramps(bare, working, tests, short=inputs.state.minutes is not None)


def _in_full(bare: Outline, first: Mapping[Block, Chosen], inputs: DayInputs) -> Outline:
    """The outline with every ramp set, as if she had not named her minutes."""
    state = replace(inputs.state, minutes=None)
    return _with_ramps(bare, first, replace(inputs, state=state))


def short_ramps(standing: Standing, inputs: DayInputs) -> set[str]:
    """Keys of the ramp sets that this session would go without if she named her minutes."""
    state = replace(inputs.state, minutes=inputs.state.minutes or 0)
    outline = outline_of(inputs, standing.outline)
    brief = _with_ramps(outline, standing.planned.chosen, replace(inputs, state=state))
    kept = {slot.key for _, slot in brief.order}
    return {slot.key for _, slot in standing.outline.order} - kept


def _drawn_now(
    morning: Standing,
    inputs: DayInputs,
    model: StrengthModel,
    opened: Sequence[tuple[int, Slot]],
) -> Drawn:
    """Loads of the open sets after what today has shown."""
    outline, done, on = morning.outline, morning.done, morning.on
    held = _held(outline, morning.planned, done, on, inputs, model)
    chosen = {**morning.planned.chosen, **Chooser(model, outline.stops, held).choose(opened)}
    floor = _floor(outline, inputs, _last_on(outline, done, on))
    laid = lay_out(model, floor, outline.stops, opened, chosen)
    return Drawn(chosen=chosen, laid=laid, anchors=held.loads)


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
    """Felt load of the test set of every stop whose exercise is unknown on its item."""
    found: dict[int, float] = {}
    forecast = {(i, slot.block) for i, slot in outline.order if by_forecast(outline.stops[i], slot)}
    for index, stop in outline.stops.items():
        plan, asking = outline.plans[index], outline.stops[index].base
        # a first load that a joint has eased is a first load all the same
        guesses = {Choice.FIRST, Choice.SPARED} if stop.spared else {Choice.FIRST}
        fresh = any(
            block in forecast and choice.why in guesses
            for block, choice in chosen.items()
            if block[0] == index
        )
        known = plan.exercise.id in inputs.remembered or known_sets(inputs.model, asking) > 0
        if not fresh or known or not stop.has_load:
            continue
        test = tested_load(inputs.model, asking) - stop.body_kg
        found[index] = max(stop.lightest_kg, stop.eased(test) if stop.spared else test)
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
    outline: Outline, inputs: DayInputs, done: Mapping[str, PerformedSet], planned: Drawn
) -> dict[str, Loaded]:
    """What was on for every done set: the planned plates, else the fewest moves from before."""
    found: dict[str, Loaded] = {}
    before: dict[int, Loaded] = {}
    moved: set[int] = set()
    for index, slot in outline.order:
        one, item = done.get(slot.key), outline.plans[index].item
        if one is None or item is None or inputs.gym is None:
            continue
        if one.load is None or one.unit is None:
            continue
        written = Written(amount=one.load, unit=one.unit, reading=one.reading)
        try:
            state = read_load(inputs.gym, item, written, outline.stops[index].count)
        except InputError:
            continue  # a load from elsewhere: logged as it was, drawn as words only
        laid = planned.laid[slot.key].load
        if laid is not None and laid.felt == state.felt and index not in moved:
            state = laid
        else:
            moved.add(index)
            on = before.get(index) or laid
            state = restacked(inputs.gym, item, state, on.plates if on else ())
        before[index] = found[slot.key] = state
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
        if slot.asked.kind is SetKind.WARM_UP or block not in iron:
            continue
        right = _right_load(outline.stops[index], slot, done, model)
        loads[block] = min(on[slot.key].felt_kg, right)
        stop = outline.stops[index]
        if stop.held_down or stop.spared:  # the loads as planned are the most
            loads[block] = min(loads[block], iron[block])
        if not stop.held_down and abs(loads[block] - iron[block]) >= SAME_LOAD_KG:
            loads = {k: kg for k, kg in loads.items() if k[0] != index or k[1] <= slot.block}
    forced = frozenset(
        (index, slot.block) for index, slot in outline.order if slot.key in inputs.state.kept
    )
    kept = {block: iron[block] for block in forced if block in iron}
    held, odds = {**loads, **kept}, odds_of(outline, planned)
    shown = {
        i
        for i, slot in outline.order
        if slot.key in done and slot.asked.kind is not SetKind.WARM_UP
    }
    return Anchors(
        loads=held,
        forced=forced,
        lower_at=TOO_HEAVY,
        raise_at=TOO_LIGHT,
        morning=iron,
        odds=odds,
        light=frozenset(block for block in light_of(outline, planned) if block[0] not in shown),
    )


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
