"""Choosing the load of every set to come: the forecast decides, habit holds, noise is not chased.

Working loads follow one rule. A load that was planned (or done last time) is held as long as
the low end of the range stays as likely as not in every set of the block and the top is not
clearly passed; else the heaviest load is taken at which the low end is likely enough.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum

from pennate.app.first_load import known_sets, sure_load
from pennate.app.session_stop import SAME_LOAD_KG, Block, Stop
from pennate.app.slots import Slot
from pennate.core.evidence.session import (
    DROP_SHARE,
    FAMILIAR_SETS,
    REPS_OVER_TOP,
    SURE_ENOUGH_LATER,
    TOO_HEAVY,
)
from pennate.core.performed import SetKind
from pennate.core.prescribed import LoadFrom
from pennate.estimate import Exposure, StrengthModel

LIGHTEST_SHARE = 0.6
"""No block is sought below this share of its first set's load."""
BISECTIONS = 6
"""Trial loads; six halve the span to less than a step of any equipment."""


class Choice(StrEnum):
    """Why a load was taken; the value is shown."""

    HELD = "same load as planned: no set so far speaks clearly against it"
    LAST_TIME = "same load as last time: the range is likely in every set"
    RAISED = "raised: the top of the range was likely at the load before"
    LOWERED = "lowered: the low end of the range was unlikely at the load before"
    EASED = "lighter than planned: the low end of the range has become unlikely today"
    FRESH = "the heaviest load at which the low end of the range is likely"
    FIRST = "first time here: on the safe side, until some sets have told more"
    BACK = "back after a pause: on the safe side, no more than last time"
    RELATIVE = "the written share of an earlier set, as near as the steps here allow"
    WRITTEN = "as written"
    ALONE = "body weight alone"
    SPARED = "a fifth less: the joint asks for it"
    REFUSED = "kept because you chose to"


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchors:
    """Loads to hold unless the forecast speaks against them."""

    loads: Mapping[Block, float] = field(default_factory=dict)
    """Felt load without body mass."""
    forced: frozenset[Block] = frozenset()
    """Blocks whose load she chose to keep."""
    lower_at: float = SURE_ENOUGH_LATER
    """Probability of the low end below which a load is lowered."""
    raise_at: float = SURE_ENOUGH_LATER
    """Probability of passing the top from which a load is raised."""
    word: Choice = Choice.HELD
    odds: Mapping[Block, float] = field(default_factory=dict)
    """How likely the low end was in the worst set of a block when its load was planned."""
    light: frozenset[Block] = frozenset()
    """Blocks that were too light already as planned; they stay until a working set has spoken."""
    morning: Mapping[Block, float] = field(default_factory=dict)
    """Loads as they were planned today; a sore joint takes none heavier."""
    lower_word: Choice = Choice.EASED
    """Why a load is lowered: by what today showed, or already in the morning."""

    @property
    def of_last_time(self) -> bool:
        """Whether they are the loads of last time, not those planned this morning."""
        return self.word is Choice.LAST_TIME

    def lower_below(self, block: Block) -> float:
        """A load is lowered below these odds; what was a stretch when planned may stay one."""
        return min(self.lower_at, self.odds.get(block, 1.0) / 2)


@dataclass(frozen=True, slots=True)
class Chosen:
    """Load and reason of a block; felt load in kilograms without body mass."""

    felt_kg: float
    why: Choice


@dataclass(slots=True)
class _Seen:
    """What one pass over the sets showed for a block."""

    low: float = 1.0
    top: float = 1.0
    before: StrengthModel | None = None
    """The model as it meets the first set of the block."""


def needed(slot: Slot) -> int:
    """Reps to failure that the low end of what is asked needs."""
    reserve = slot.asked.reserve.low if slot.asked.reserve else 0
    return (slot.asked.reps.low if slot.asked.reps else 1) + reserve


def passing(slot: Slot) -> int | None:
    """Reps to failure at which a heavier load is due; None where the top is open."""
    reps = slot.asked.reps
    if reps is None or reps.high is None:
        return None
    reserve = slot.asked.reserve.low if slot.asked.reserve else 0
    over = int(REPS_OVER_TOP) if reps.low == reps.high else 0
    return reps.high + reserve + over


def exposure(stop: Stop, slot: Slot, added_kg: float | None) -> Exposure:
    """The exposure of one set; `added_kg` is the felt load without body mass."""
    felt = None if added_kg is None else added_kg + stop.body_kg
    return replace(
        stop.base,
        kind=slot.asked.kind,
        side=slot.side,
        rest_s=float(slot.rest_s),
        style=slot.asked.style,
        felt_kg=felt,
        hold=slot.asked.seconds is not None and slot.asked.reps is None,
        group=stop.base.group if slot.round is None else stop.base.group or "superset",
        round=slot.round,
    )


def expected_reps(slot: Slot, capacity: float) -> int:
    """Reps done with this capacity: to failure, or stopped where range and reserve say."""
    most = max(0, round(capacity))
    asked = slot.asked
    if asked.to_failure or asked.kind is SetKind.AMRAP or asked.reps is None:
        return most
    done = most - (asked.reserve.low if asked.reserve else 0)
    return max(0, done if asked.reps.high is None else min(done, asked.reps.high))


class Chooser:
    """Chooses loads for the open sets of one session."""

    def __init__(self, model: StrengthModel, stops: Mapping[int, Stop], anchors: Anchors) -> None:
        self._model = model
        self._stops = stops
        self._anchors = anchors

    def choose(self, order: Sequence[tuple[int, Slot]]) -> dict[Block, Chosen]:
        """Load and reason for every block of the open sets, in their order."""
        working = [pair for pair in order if pair[1].asked.kind is not SetKind.WARM_UP]
        fresh, seen = self._look(working, dict(self._anchors.loads))
        loads: dict[Block, Chosen] = {}
        for block, slots in _blocks(working).items():
            loads[block] = self._decide(slots, fresh.get(block, 0.0), seen[block], loads, block)
        return loads

    def _look(
        self, order: Sequence[tuple[int, Slot]], loads: dict[Block, float]
    ) -> tuple[dict[Block, float], dict[Block, _Seen]]:
        """Play the sets through at the anchored loads, or fresh ones; note how each block fares."""
        model = self._model.copy()
        seen: dict[Block, _Seen] = {}
        fresh: dict[Block, float] = {}
        for index, slot in order:
            stop, block = self._stops[index], (index, slot.block)
            forecast_rules = by_forecast(stop, slot)
            if forecast_rules and block not in fresh:
                fresh[block] = self._fresh(model, stop, slot)
            if block not in loads:
                loads[block] = self._start(stop, slot, fresh, loads)
            done = exposure(stop, slot, loads[block])
            forecast = model.forecast(done)
            judged = stop.has_load and slot.asked.reps is not None
            note = seen.setdefault(block, _Seen(before=model.copy() if judged else None))
            note.low = min(note.low, forecast.at_least(needed(slot)))
            top = passing(slot)
            note.top = min(note.top, forecast.at_least(top) if top is not None else 0.0)
            model.assume(done, expected_reps(slot, forecast.median))
        return fresh, seen

    def _fresh(self, model: StrengthModel, stop: Stop, slot: Slot) -> float:
        asking = exposure(stop, slot, None)
        known = known_sets(model, asking) >= FAMILIAR_SETS and not stop.held_down
        return sure_load(model, asking, needed(slot), familiar=known) - stop.body_kg

    def _start(
        self,
        stop: Stop,
        slot: Slot,
        fresh: Mapping[Block, float],
        loads: Mapping[Block, float],
    ) -> float:
        """A load to play with where nothing is anchored."""
        block = (stop.index, slot.block)
        if block in fresh:
            return fresh[block]
        return _by_rule(stop, slot, loads).felt_kg

    def _decide(
        self,
        slots: Sequence[Slot],
        fresh: float,
        seen: _Seen,
        loads: Mapping[Block, Chosen],
        block: Block,
    ) -> Chosen:
        stop = self._stops[block[0]]
        anchor = self._anchors.loads.get(block)
        if anchor is not None and block in self._anchors.forced:
            return Chosen(anchor, Choice.REFUSED)
        if not by_forecast(stop, slots[0]):
            felt = {key: value.felt_kg for key, value in loads.items()}
            felt = {**self._anchors.loads, **felt}  # blocks already done stand as they were done
            ruled = _by_rule(stop, slots[0], felt)
            if anchor is not None and stop.held_down:
                under = max((kg for kg in stop.rungs if kg < anchor - SAME_LOAD_KG), default=0.0)
                rounded = not self._anchors.of_last_time and ruled.felt_kg > under
                ruled = Chosen(anchor if rounded else min(anchor, ruled.felt_kg), ruled.why)
            elif anchor is not None and self._untouched(block, loads):
                ruled = Chosen(anchor, ruled.why)
            chosen = self._within_reach(stop, slots, ruled, seen)
        else:
            chosen = self._by_odds(stop, slots, anchor, fresh, seen)
        return self._spared(stop, slots[0], chosen, loads) if stop.spared else chosen

    def _spared(
        self, stop: Stop, slot: Slot, chosen: Chosen, loads: Mapping[Block, Chosen]
    ) -> Chosen:
        """A fifth less once, and for the rest of the day nothing goes back up from what she took.

        A share of an eased set is eased already; body weight and an empty bar are as they are.
        """
        if slot.asked.load.source in {LoadFrom.BODY_WEIGHT, LoadFrom.EMPTY_BAR}:
            return chosen
        block, most = (stop.index, slot.block), self._anchors.loads
        planned = None if self._anchors.of_last_time else self._anchors.morning.get(block)
        eased_by_now = chosen.why is Choice.RELATIVE or (planned is not None and block in most)
        kg = chosen.felt_kg if eased_by_now else stop.eased(chosen.felt_kg)
        if planned is not None:
            before = {key: most[key] for key in most if key[0] == stop.index}
            before |= {key: one.felt_kg for key, one in loads.items() if key[0] == stop.index}
            under = [
                now
                for key, now in before.items()
                if key[1] < slot.block
                and planned <= self._anchors.morning.get(key, 0.0) + SAME_LOAD_KG
            ]
            kg = min(kg, planned, most.get(block, planned), *under)
        kg = max(kg, stop.lightest_kg)
        followed = chosen.why is Choice.RELATIVE and kg >= chosen.felt_kg
        return Chosen(kg, Choice.RELATIVE if followed else Choice.SPARED)

    def _within_reach(
        self, stop: Stop, slots: Sequence[Slot], ruled: Chosen, seen: _Seen
    ) -> Chosen:
        """A share of an earlier set, or less where its range has become clearly unlikely."""
        below = min(TOO_HEAVY, self._anchors.lower_below((stop.index, slots[0].block)))
        clear = seen.low < below and slots[0].asked.kind is not SetKind.DROP
        if ruled.why is not Choice.RELATIVE or not clear or seen.before is None:
            return ruled
        best = _steady(seen.before, stop, slots, ruled.felt_kg)
        return Chosen(best, self._anchors.lower_word)

    def _untouched(self, block: Block, loads: Mapping[Block, Chosen]) -> bool:
        """Whether every earlier block of the stop keeps its anchored load."""
        held = self._anchors.loads
        return all(
            abs(choice.felt_kg - held.get(key, choice.felt_kg)) < SAME_LOAD_KG
            for key, choice in loads.items()
            if key[0] == block[0] and key[1] < block[1]
        )

    def _by_odds(
        self, stop: Stop, slots: Sequence[Slot], anchor: float | None, fresh: float, seen: _Seen
    ) -> Chosen:
        if stop.held_down and (anchor is None or self._anchors.of_last_time):
            best = _steady(seen.before or self._model, stop, slots, fresh)
            return Chosen(best if anchor is None else min(best, anchor), Choice.BACK)
        below = self._anchors.lower_below((stop.index, slots[0].block))
        light = (stop.index, slots[0].block) in self._anchors.light
        if (
            anchor is not None
            and seen.low >= below
            and (light or seen.top < self._anchors.raise_at)
        ):
            return Chosen(anchor, self._anchors.word)
        best = _steady(seen.before or self._model, stop, slots, fresh)
        if anchor is None:
            return Chosen(best, Choice.FRESH if self._known(stop, slots[0]) else Choice.FIRST)
        if seen.low < below:
            return Chosen(min(best, anchor), self._anchors.lower_word)
        known = stop.held_down or self._known(stop, slots[0])
        most = stop.most_after(anchor) if known else max(best, anchor)
        return Chosen(min(max(best, anchor), most), Choice.RAISED)

    def _known(self, stop: Stop, slot: Slot) -> bool:
        """Whether the exercise has been done here often enough to trust its loads."""
        return known_sets(self._model, exposure(stop, slot, None)) >= FAMILIAR_SETS


def _steady(model: StrengthModel, stop: Stop, slots: Sequence[Slot], fresh: float) -> float:
    """The heaviest load up to `fresh` at which the low end stays likely in every set.

    Lighter sets also tire less, so the sets are played through at each trial load.
    """
    if _worst_odds(model, stop, slots, fresh) >= SURE_ENOUGH_LATER:
        return fresh
    heavy, light = fresh + stop.body_kg, (fresh + stop.body_kg) * LIGHTEST_SHARE
    for _ in range(BISECTIONS):
        middle = math.sqrt(heavy * light)
        if _worst_odds(model, stop, slots, middle - stop.body_kg) >= SURE_ENOUGH_LATER:
            light = middle
        else:
            heavy = middle
    return light - stop.body_kg


def _worst_odds(model: StrengthModel, stop: Stop, slots: Sequence[Slot], added: float) -> float:
    """Least probability of the low end over the sets of a block, one after another."""
    playing, worst = model.copy(), 1.0
    for slot in slots:
        doing = exposure(stop, slot, added)
        forecast = playing.forecast(doing)
        worst = min(worst, forecast.at_least(needed(slot)))
        playing.assume(doing, expected_reps(slot, forecast.median))
    return worst


def by_forecast(stop: Stop, slot: Slot) -> bool:
    """Whether the load of a set is chosen by the forecast rather than by a written rule."""
    model_rule = slot.asked.load.source is LoadFrom.MODEL
    is_drop = slot.asked.kind is SetKind.DROP
    return stop.has_load and model_rule and not is_drop and slot.asked.reps is not None


def _by_rule(stop: Stop, slot: Slot, loads: Mapping[Block, float]) -> Chosen:
    """Loads that follow from the text of the week rather than from the forecast."""
    rule = slot.asked.load
    if not stop.has_load or rule.source is LoadFrom.BODY_WEIGHT:
        return Chosen(0.0, Choice.ALONE)
    if slot.block in stop.fixed:
        return Chosen(stop.fixed[slot.block], Choice.WRITTEN)
    if rule.source is LoadFrom.EMPTY_BAR:
        return Chosen(stop.lightest_kg, Choice.WRITTEN)
    earlier = sorted(key for key in loads if key[0] == stop.index and key[1] < slot.block)
    before = [loads[key] for key in earlier]
    if not before:
        return Chosen(stop.lightest_kg, Choice.FRESH)
    top = before[0] if rule.source is LoadFrom.OF_TOP else before[-1]
    share = float(rule.share) if rule.share is not None else DROP_SHARE
    return Chosen(top * share, Choice.RELATIVE)


def _blocks(order: Sequence[tuple[int, Slot]]) -> dict[Block, list[Slot]]:
    """The slots of every block in order of appearance, each with the rest it really gets.

    The second of a superset is asked without rest, but its own sets lie a round apart.
    """
    round_rest: dict[tuple[int, int | None], int] = {}
    found: dict[Block, list[Slot]] = {}
    resting = 0
    for index, slot in order:
        resting = slot.rest_s or resting
        own = slot
        if slot.round is not None and slot.rest_s == 0 and (index, slot.round) not in round_rest:
            own = replace(slot, rest_s=resting)
        round_rest[index, slot.round] = resting
        found.setdefault((index, slot.block), []).append(own)
    return found
