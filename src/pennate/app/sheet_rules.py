"""The steps of an item around the planned loads, and from where on a load is changed."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import replace

from pennate.app.choose import Choice, by_forecast, exposure, needed, passing
from pennate.app.first_load import sure_load
from pennate.app.responses import THOUSANDTHS, Played, Turn, log_load, strength
from pennate.app.session_stop import SAME_LOAD_KG, Block, Stop
from pennate.app.sheet_rows import BlockRow, Limits
from pennate.app.slots import Slot
from pennate.app.standing import Standing
from pennate.core.evidence.session import (
    FAMILIAR_SETS,
    SURE_ENOUGH_LATER,
    TOO_HEAVY,
    TOO_LIGHT,
)
from pennate.core.gym import Gym
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.core.prescribed import LoadFrom
from pennate.estimate import Outcome, StrengthModel
from pennate.loading import restacked, steps_beside

LIGHTEST, HEAVIEST = 0.66, 1.16
"""Shares of the planned loads between which the steps of an item are on the sheet."""
MOST_BELOW, MOST_ABOVE = 14, 8
SAME_LIMIT = 3
"""Limits closer than this many thousandths are the same."""
PROBES = (0.4, 0.5, 0.6, 0.67, 0.73, 0.79, 0.84, 0.88, 0.92, 0.96, 1.0, 1.04, 1.09, 1.15, 1.25, 1.4)
"""Loads, as shares of strength, at which reps are given: close where most sets are done."""


def rungs_around(gym: Gym | None, standing: Standing, index: int) -> tuple[Loaded, ...]:
    """Loadable loads of a stop's item around the planned ones, ascending; none without load.

    Plates are stacked as they are reached from the first working set with the fewest moves.
    """
    plan, stop = standing.outline.plans[index], standing.outline.stops[index]
    keys = [slot.key for i, slot in standing.outline.order if i == index]
    planned = [laid.load for key in keys if (laid := standing.now.laid.get(key)) and laid.load]
    if gym is None or plan.item is None or not planned or not stop.has_load:
        return ()
    steps = steps_beside(gym, plan.item, max(planned, key=lambda load: load.felt_kg))
    felt = [step.felt_kg for step in steps]
    low, high = min(load.felt_kg for load in planned), max(load.felt_kg for load in planned)
    first = bisect_left(felt, (low + stop.body_kg) * LIGHTEST - stop.body_kg)
    last = bisect_left(felt, (high + stop.body_kg) * HEAVIEST - stop.body_kg) + 1
    at_low, at_high = nearest(felt, low), nearest(felt, high)
    near = steps[max(first, at_low - MOST_BELOW) : max(min(last, at_high + MOST_ABOVE), 1)]
    if any(index in run and len(run) > 1 for run in standing.outline.runs):
        return tuple(near)  # the plates are shared out with a partner
    on = max(planned, key=lambda load: load.felt_kg).plates
    return tuple(restacked(gym, plan.item, step, on) for step in near)


def nearest(felt: Sequence[float], kg: float) -> int:
    """Place of the load nearest to this one."""
    return min(range(len(felt)), key=lambda i: abs(felt[i] - kg))


def floor_of(felt: Sequence[float], kg: float) -> int:
    """Place of the heaviest load that is not above this one; the lightest if none."""
    return max(0, sum(one <= kg + SAME_LOAD_KG for one in felt) - 1)


def gaps() -> list[int]:
    """Loads against strength at which the reps of a stop are asked for."""
    return [round(THOUSANDTHS * math.log(share)) for share in PROBES]


def reps_at(one: Played, stop: Stop) -> list[float]:
    """Mean reps to failure of a set at each of those loads, after what is likely before it."""
    loads = [math.exp(one.strength) * share for share in PROBES]
    means = one.before.mean_reps(exposure(stop, one.turn.slot, None), loads)
    return [round(mean, 1) for mean in means]


def limits(model: StrengthModel, turn: Turn, block_odds: float, own: float | None = None) -> Limits:
    """Loads, against strength, at which the odds of a set cross what the rules ask for.

    `block_odds` are those of the low end when the block was planned: what was a stretch
    then may stay one. `own` is the strength, where it is known.
    """
    low, top = needed(turn.slot), passing(turn.slot)
    own = strength(model, turn) if own is None else own
    known = model.sets_behind(turn.exposure) >= FAMILIAR_SETS

    def at(reps: int, odds: float) -> int:
        return round(THOUSANDTHS * (log_load(model, turn, reps, odds) - own))

    return Limits(
        heavy=at(low, min(TOO_HEAVY, block_odds / 2)),
        enough=0,  # as likely as not: what strength is, by its definition
        sure=_against(sure_load(model, turn.asking, low, familiar=known), own),
        light=None if top is None else at(top, TOO_LIGHT),
        passed=None if top is None else at(top, SURE_ENOUGH_LATER),
    )


def _against(felt_kg: float, own: float) -> int:
    """A load against strength, in thousandths."""
    return round(THOUSANDTHS * (math.log(felt_kg) - own))


def learned_limits(played: Sequence[Played], odds: Mapping[Block, float]) -> dict[str, Limits]:
    """Limits of the sets of one exercise when those before them went as expected."""
    found: dict[str, Limits] = {}
    model: StrengthModel | None = None
    for one in played:
        turn = one.turn
        if model is not None:
            found[turn.slot.key] = limits(model, turn, odds.get((turn.index, turn.slot.block), 1.0))
        model = (model or one.before).copy()
        model.observe(replace(turn.exposure, chosen=True), Outcome(one.reps))
    return found


def changed(limits: Limits, learned: Limits | None) -> Limits | None:
    """The limits once the exercise is known, where they are others."""
    if learned is None:
        return None
    pairs = zip(limits.model_dump().values(), learned.model_dump().values(), strict=True)
    apart = any(abs((a or 0) - (b or 0)) > SAME_LIMIT for a, b in pairs)
    return learned if apart else None


def block_rows(
    standing: Standing, index: int, slots: Sequence[Slot], felt: Sequence[float]
) -> list[BlockRow]:
    """How the load of every block of a stop is found; nothing where there is no load."""
    if not felt:
        return []
    stop = standing.outline.stops[index]
    asked = {slot.block: slot for slot in slots if slot.asked.kind is not SetKind.WARM_UP}
    held = {b: rung for b, rung in _held(standing, slots, felt).items() if b in asked}
    rows = []
    for block, slot in sorted(asked.items()):
        kg = felt[held[block]]
        choice = standing.now.chosen.get((index, block))
        guessed = choice is not None and choice.why is Choice.FIRST
        forced = choice is not None and choice.why is Choice.REFUSED
        row = _following(stop, slot, held, felt)
        if by_forecast(stop, slot):
            most = len(felt) - 1 if guessed else floor_of(felt, stop.most_after(kg))
            fixed = forced or stop.spared
            row = BlockRow(block=block, held=held[block], most=most, fixed=fixed, guessed=guessed)
        as_it_is = slot.asked.load.source in {LoadFrom.BODY_WEIGHT, LoadFrom.EMPTY_BAR}
        row.spare = held[block] if as_it_is else spared_rung(stop, felt, kg)
        rows.append(row)
    return rows


def spared_rung(stop: Stop, felt: Sequence[float], kg: float) -> int:
    """Place of the load to go to from this one when a joint hurts: a fifth of the whole less."""
    return floor_of(felt, stop.eased(kg))


def _held(standing: Standing, slots: Sequence[Slot], felt: Sequence[float]) -> dict[int, int]:
    held: dict[int, int] = {}
    for slot in slots:
        laid = standing.now.laid.get(slot.key) or standing.planned.laid.get(slot.key)
        if laid is not None and laid.load is not None:
            held.setdefault(slot.block, nearest(felt, laid.load.felt_kg))
        held.setdefault(slot.block, 0)
    return held


def _following(stop: Stop, slot: Slot, held: Mapping[int, int], felt: Sequence[float]) -> BlockRow:
    """A block whose load is written, or a share of an earlier block's."""
    earlier = sorted(block for block in held if block < slot.block)
    written = slot.block in stop.fixed or slot.asked.load.source in {
        LoadFrom.BODY_WEIGHT,
        LoadFrom.EMPTY_BAR,
    }
    own = held[slot.block]
    if written or not earlier:
        return BlockRow(block=slot.block, held=own, most=own, fixed=True)
    of = earlier[0] if slot.asked.load.source is LoadFrom.OF_TOP else earlier[-1]
    share = felt[own] / felt[held[of]] if felt[held[of]] > 0 else 1.0
    follows = [own if i == held[of] else nearest(felt, kg * share) for i, kg in enumerate(felt)]
    return BlockRow(block=slot.block, held=own, most=own, of=of, follows=follows)
