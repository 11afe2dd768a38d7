"""From chosen loads to iron: the states of every item through the session, and what is likely."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pennate.app.choose import Choice, Chosen, expected_reps, exposure
from pennate.app.session_stop import SAME_LOAD_KG, Block, Stop
from pennate.app.slots import Slot
from pennate.app.stops import SHARED_KINDS
from pennate.core.card import Likely
from pennate.core.evidence.session import RAMP_SHARE
from pennate.core.forecast import QUANTILES, RepsForecast
from pennate.core.gym import AnyItem, Gym
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.core.prescribed import LoadFrom
from pennate.estimate import StrengthModel
from pennate.loading import Plan, RepsAt, Setting, Target, Turn, solve_superset

_TABLE = (0.25, 0.4, 0.55, 0.65, 0.72, 0.78, 0.84, 0.89, 0.94, 1.0, 1.06, 1.13, 1.2, 1.35)
"""Shares of the heaviest target at which reps are looked up; straight lines between."""


@dataclass(frozen=True, slots=True)
class Laid:
    """One set to come on its item, with what is likely."""

    load: Loaded | None
    moves: int
    forecast: RepsForecast | None
    likely: Likely | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """What loads are laid out on: the gym, the item of each stop, what is on it now."""

    gym: Gym | None
    items: Mapping[int, AnyItem | None]
    runs: tuple[tuple[int, ...], ...]
    """Stops done together share plates; the others have them to themselves."""
    now_on: Mapping[int, Loaded]


def lay_out(
    model: StrengthModel,
    floor: Floor,
    stops: Mapping[int, Stop],
    order: Sequence[tuple[int, Slot]],
    chosen: Mapping[Block, Chosen],
) -> dict[str, Laid]:
    """Loadable states for the open sets, solved run by run, then forecast in order."""
    states: dict[str, tuple[Loaded, int]] = {}
    for run in floor.runs:
        own = {
            index: slots
            for index in run
            if floor.items.get(index) is not None
            and stops[index].has_load
            and (slots := [slot for i, slot in order if i == index])
        }
        states.update(_solved(model, floor, stops, own, chosen))
    return _forecasts(model, stops, order, states)


def _solved(
    model: StrengthModel,
    floor: Floor,
    stops: Mapping[int, Stop],
    own: Mapping[int, list[Slot]],
    chosen: Mapping[Block, Chosen],
) -> dict[str, tuple[Loaded, int]]:
    """States and moves of stops that share plates, by key of the set."""
    if floor.gym is None or not own:
        return {}
    turns: list[Turn] = []
    for index, slots in own.items():
        item = floor.items[index]
        targets = tuple(_target(stops[index], slot, chosen) for slot in slots)
        table = _reps_table(model, stops[index], slots, targets)
        on, count = floor.now_on.get(index), stops[index].count
        setting = Setting(reps_at=table, start=on, count=count)
        if item is not None:
            turns.append(Turn(item=item, targets=targets, setting=setting))
    laid: dict[str, tuple[Loaded, int]] = {}
    for slots, plan in zip(own.values(), _plans(floor.gym, turns), strict=True):
        for slot, state, moves in zip(slots, plan.states, plan.moves, strict=True):
            laid[slot.key] = (state, moves)
    return laid


def _plans(gym: Gym, turns: list[Turn]) -> list[Plan]:
    """Plans in the order of the turns; what two can use at once is solved for each alone."""
    together = [turn for turn in turns if turn.item.kind not in SHARED_KINDS]
    solved = iter(solve_superset(gym, together)) if together else iter(())
    return [
        solve_superset(gym, [turn])[0] if turn.item.kind in SHARED_KINDS else next(solved)
        for turn in turns
    ]


def _target(stop: Stop, slot: Slot, chosen: Mapping[Block, Chosen]) -> Target:
    choice = chosen.get((stop.index, slot.block))
    if choice is not None:
        whys = {Choice.FIRST, Choice.SPARED, Choice.RAISED, Choice.EASED, Choice.FRESH}
        careful = choice.why in whys or stop.held_down or stop.spared
        room = SAME_LOAD_KG if careful else 0.0
        mass, made = slot.asked.load.mass, slot.block not in stop.unmade
        return Target(
            felt_kg=choice.felt_kg + room,
            kind=slot.asked.kind,
            ceiling=careful,
            unit=mass.unit if mass and made and choice.why is Choice.WRITTEN else None,
        )
    unknown = bool(slot.asked.note)
    return Target(felt_kg=_warm_up_kg(stop, slot, chosen), kind=slot.asked.kind, ceiling=unknown)


def _warm_up_kg(stop: Stop, slot: Slot, chosen: Mapping[Block, Chosen]) -> float:
    """Felt load of a ramp set: the empty bar, or a share of the first working load."""
    rule = slot.asked.load
    if rule.source is LoadFrom.EMPTY_BAR:
        return stop.lightest_kg
    first = min((block for block in chosen if block[0] == stop.index), default=None)
    if slot.block in stop.fixed:
        written = stop.fixed[slot.block]
        most = chosen[first].felt_kg if first is not None else written
        return min(stop.eased(written), most) if stop.spared else written
    if first is None:
        return stop.lightest_kg
    share = float(rule.share) if rule.share is not None else RAMP_SHARE
    return max(stop.lightest_kg, chosen[first].felt_kg * share)


def _reps_table(
    model: StrengthModel, stop: Stop, slots: Sequence[Slot], targets: Sequence[Target]
) -> RepsAt:
    """Mean reps to failure by added load, read off a table so that solving stays quick."""
    working = [slot for slot in slots if slot.asked.kind is not SetKind.WARM_UP] or list(slots)
    heaviest = max(target.felt_kg for target in targets) + stop.body_kg
    loads = [max(heaviest, 1.0) * share for share in _TABLE]
    reps = model.mean_reps(exposure(stop, working[0], None), loads)
    falling = [min(reps[: i + 1]) for i in range(len(reps))]

    def at(added_kg: float) -> float:
        return _between(loads, falling, added_kg + stop.body_kg)

    return at


def _between(xs: Sequence[float], ys: Sequence[float], x: float) -> float:
    """Straight lines through the points, carried on beyond both ends."""
    right = min(max(bisect_right(xs, x), 1), len(xs) - 1)
    x0, x1, y0, y1 = xs[right - 1], xs[right], ys[right - 1], ys[right]
    return y0 + (x - x0) * min(y1 - y0, -1e-9) / (x1 - x0)


def _forecasts(
    model: StrengthModel,
    stops: Mapping[int, Stop],
    order: Sequence[tuple[int, Slot]],
    states: Mapping[str, tuple[Loaded, int]],
) -> dict[str, Laid]:
    """Forecast every set in turn, each after what is likely to come before it."""
    playing = model.copy()
    laid: dict[str, Laid] = {}
    for index, slot in order:
        state, moves = states.get(slot.key, (None, 0))
        if slot.asked.kind is SetKind.WARM_UP or slot.asked.reps is None:
            laid[slot.key] = Laid(state, moves, None, None)
            continue
        doing = exposure(stops[index], slot, state.felt_kg if state else 0.0)
        forecast = playing.forecast(doing)
        laid[slot.key] = Laid(state, moves, forecast, likely(slot, forecast))
        playing.assume(doing, expected_reps(slot, forecast.median))
    return laid


def likely(slot: Slot, forecast: RepsForecast) -> Likely:
    """80 % interval of the reps she will do, stopped where the asked range and reserve say."""
    low, middle, high = (
        expected_reps(slot, forecast.quantiles[QUANTILES.index(q)]) for q in (0.10, 0.50, 0.90)
    )
    return Likely(low, middle, high)
