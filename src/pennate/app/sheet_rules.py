"""The steps of an item around the planned loads, and from where on a load is changed."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from itertools import pairwise

from pennate.app.choose import (
    SAME_LOAD_KG,
    Choice,
    Stop,
    by_forecast,
    exposure,
    needed,
    passing,
)
from pennate.app.responses import Played
from pennate.app.sheet_rows import BlockRow, Rung
from pennate.app.slots import Slot
from pennate.app.standing import Standing
from pennate.core.evidence.session import (
    PAIN_LOAD_SHARE,
    SURE_ENOUGH,
    SURE_ENOUGH_LATER,
    TOO_HEAVY,
    TOO_LIGHT,
)
from pennate.core.forecast import RepsForecast
from pennate.core.gym import Gym
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.core.prescribed import LoadFrom
from pennate.core.quantities import exact_text
from pennate.loading import ladder

LIGHTEST, HEAVIEST = 0.66, 1.16
"""Shares of the planned loads between which the steps of an item are on the sheet."""
MOST_BELOW, MOST_ABOVE = 14, 8
PROBES = (0.55, 0.65, 0.72, 0.79, 0.85, 0.9, 0.95, 1.0, 1.05, 1.1, 1.17, 1.25, 1.4)
"""Shares of a load at which the odds are asked for."""


def rungs_around(gym: Gym | None, standing: Standing, index: int) -> tuple[Loaded, ...]:
    """Loadable loads of a stop's item around the planned ones, ascending; none without load."""
    plan, stop = standing.outline.plans[index], standing.outline.stops[index]
    keys = [slot.key for i, slot in standing.outline.order if i == index]
    planned = [laid.load for key in keys if (laid := standing.now.laid.get(key)) and laid.load]
    if gym is None or plan.item is None or not planned or not stop.has_load:
        return ()
    steps = ladder(gym, plan.item, planned[0].count)
    felt = [step.felt_kg for step in steps]
    low, high = min(load.felt_kg for load in planned), max(load.felt_kg for load in planned)
    first = bisect_left(felt, (low + stop.body_kg) * LIGHTEST - stop.body_kg)
    last = bisect_left(felt, (high + stop.body_kg) * HEAVIEST - stop.body_kg) + 1
    at_low, at_high = nearest(felt, low), nearest(felt, high)
    return tuple(steps[max(first, at_low - MOST_BELOW) : max(min(last, at_high + MOST_ABOVE), 1)])


def nearest(felt: Sequence[float], kg: float) -> int:
    """Place of the load nearest to this one."""
    return min(range(len(felt)), key=lambda i: abs(felt[i] - kg))


def floor_of(felt: Sequence[float], kg: float) -> int:
    """Place of the heaviest load that is not above this one; the lightest if none."""
    return max(0, sum(one <= kg + SAME_LOAD_KG for one in felt) - 1)


def rung_row(step: Loaded) -> Rung:
    """A step as it travels."""
    return Rung(
        felt=round(step.felt_kg, 4),
        amount=exact_text(step.load.amount),
        unit=str(step.load.unit),
        reading=str(step.reading),
    )


def curve_at(played: Played, stop: Stop, felt: Sequence[float]) -> list[RepsForecast]:
    """The forecast of a set at other loads, after what is likely before it."""
    return [played.before.forecast(exposure(stop, played.turn.slot, kg)) for kg in felt]


def limits(played: Played, stop: Stop) -> dict[str, float]:
    """Expected reps at which the odds of a set cross what the rules of a load ask for."""
    slot = played.turn.slot
    whole = (played.turn.exposure.felt_kg or 0.0) or stop.body_kg
    probes = curve_at(played, stop, [whole * share - stop.body_kg for share in PROBES])
    low, top = needed(slot), passing(slot)
    found = {
        "lower_below": crossing(probes, low, TOO_HEAVY),
        "enough": crossing(probes, low, SURE_ENOUGH_LATER),
        "sure": crossing(probes, low, SURE_ENOUGH),
    }
    if top is not None:
        found["raise_from"] = crossing(probes, top, TOO_LIGHT)
    return {name: round(value, 2) for name, value in found.items()}


def crossing(probes: Sequence[RepsForecast], reps: int, odds: float) -> float:
    """Mean at which this many reps have these odds: straight lines between the probes."""
    points = sorted((one.mean, one.at_least(reps)) for one in probes)
    for (m0, p0), (m1, p1) in pairwise(points):
        if p0 <= odds <= p1:
            return m0 if p1 == p0 else m0 + (m1 - m0) * (odds - p0) / (p1 - p0)
    return points[0][0] if points[0][1] > odds else float(reps) + 1


def block_rows(
    standing: Standing, index: int, slots: Sequence[Slot], felt: Sequence[float]
) -> list[BlockRow]:
    """How the load of every block of a stop is found; nothing where there is no load."""
    if not felt:
        return []
    stop = standing.outline.stops[index]
    held = _held(standing, slots, felt)
    asked = {slot.block: slot for slot in slots if slot.asked.kind is not SetKind.WARM_UP}
    rows = []
    for block, slot in sorted(asked.items()):
        kg = felt[held[block]]
        choice = standing.now.chosen.get((index, block))
        forced = choice is not None and choice.why is Choice.REFUSED
        row = _following(stop, slot, held, felt)
        if by_forecast(stop, slot):
            most = floor_of(felt, stop.most_after(kg))
            row = BlockRow(block=block, held=held[block], most=most, fixed=forced or stop.spared)
        row.spare = floor_of(felt, (kg + stop.body_kg) * PAIN_LOAD_SHARE - stop.body_kg)
        rows.append(row)
    return rows


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
    earlier = sorted(block for block in held if 0 <= block < slot.block)
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
