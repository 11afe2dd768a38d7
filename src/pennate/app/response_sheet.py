"""The response sheet of a session: what the phone looks up when nobody can be asked.

Everything in it is computed here from the one strength model: expected reps at each load,
how the result of one set shifts the sets after it, from where on a load is changed and to
which, in what order sets are given up for lack of time. The page reads tables, rounds down
to a step and adds minutes; see `docs/decisions/offline-page.md`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass, replace
from datetime import date
from itertools import permutations

from pennate.app.book import Book
from pennate.app.card import Notes, drawn, stops_drawn
from pennate.app.card_facts import set_seconds
from pennate.app.day import Swap
from pennate.app.notes import notes_for
from pennate.app.outline import DayInputs
from pennate.app.responses import (
    KNOTS,
    THOUSANDTHS,
    Played,
    Shifts,
    Turn,
    fall_after,
    learned_forecasts,
    play,
    rested,
    shifts_of,
    short_sleep,
    turns_of,
)
from pennate.app.session_stop import Stop
from pennate.app.sheet_rows import Between, GivenUp, ResponseSheet, SetRow, StopRow
from pennate.app.sheet_rules import (
    block_rows,
    changed,
    gaps,
    learned_limits,
    limits,
    nearest,
    reps_at,
    rungs_around,
    spared_rung,
)
from pennate.app.shorten import give_up
from pennate.app.slots import Slot
from pennate.app.stand import short_ramps, stand, stand_swapped
from pennate.app.standing import Standing, light_of, odds_of
from pennate.app.swaps import best_today
from pennate.app.today import inputs_for, planned_for, the_week
from pennate.core.card import Card, CardStop
from pennate.core.evidence.dose import CHANGEOVER_S
from pennate.core.evidence.session import CLEARLY_SHORT
from pennate.core.forecast import QUANTILES, RepsForecast
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.core.prescribed import Week
from pennate.core.week_time import preparation_seconds
from pennate.errors import InputError
from pennate.estimate import outcome_of

LEAST_KG = 0.5
"""Felt loads below this are taken as this, so that every load has a logarithm."""
SAME_REPS = 0.5
"""Spreads of reps closer than this are the same."""
SUBSTITUTES = 2
MOST_CAPACITY = 100.0


@dataclass(frozen=True, slots=True)
class Substituted:
    """A substitute at a stop: its card and its rows."""

    stop: CardStop
    item: str
    steps: tuple[Loaded, ...]
    row: StopRow
    caveat: str = ""
    """Why it is no full substitute, if so."""


@dataclass(frozen=True, slots=True)
class Prepared:
    """A session ready to be taken along: card, sheet, steps of the items, substitutes."""

    weekday: str
    card: Card
    sheet: ResponseSheet
    steps: Mapping[int, tuple[Loaded, ...]]
    instead: Mapping[int, tuple[Substituted, ...]]


def response_sheet(
    book: Book, day: date, weekday: str, *, substitutes: bool = True
) -> ResponseSheet:
    """The sheet of a planned day done on a date; raises InputError where nothing is planned."""
    return prepare(book, day, weekday, substitutes=substitutes).sheet


def prepare(book: Book, day: date, weekday: str, *, substitutes: bool = True) -> Prepared:
    """Card and sheet of a planned day done on a date, today or to come."""
    inputs, week, notes = _inputs(book, day, weekday), the_week(book), notes_for(book)
    standing = stand(inputs)
    turns = _turns(standing)
    played = {one.turn.slot.key: one for one in play(standing.model, turns)}
    steps = {i: rungs_around(inputs.gym, standing, i) for i in standing.outline.plans}
    short = short_ramps(standing, inputs)
    rows = {i: _stop_row(standing, i, played, steps[i], short) for i in standing.outline.plans}
    instead = {
        i: _substitutes(standing, i, inputs, week, notes) for i in (rows if substitutes else ())
    }
    sheet = ResponseSheet(
        day=day,
        weekday=weekday,
        knots=list(KNOTS),
        changeover_s=CHANGEOVER_S,
        prepare_s=preparation_seconds(inputs.planned),
        pace=round(standing.pace.factor, 4),
        short_sleep=short_sleep(standing.model, turns),
        stops=list(rows.values()),
        instead={i: [one.row for one in found] for i, found in instead.items()},
        give_up=_give_up(inputs, week),
        order=_order(standing, turns),
    )
    return Prepared(weekday, drawn(standing, inputs, notes), sheet, steps, instead)


def _inputs(book: Book, day: date, weekday: str) -> DayInputs:
    """What a card of that day is made from; for a day to come, as far as is known today."""
    planned = planned_for(book, day, weekday)
    if planned is None:
        raise InputError(f"nothing is planned on “{weekday}”")
    if day <= book.today:
        return inputs_for(book, day, planned)
    model = book.model_before(book.today)
    reader = book.reader_on(book.today)
    for done in book.history().since(book.today):
        model.observe(reader.exposure(done), outcome_of(done))
    inputs = inputs_for(book, day, planned, model=model)
    return replace(inputs, now=inputs.now + (day - book.today))


def _turns(standing: Standing) -> list[Turn]:
    """The open sets in their order at the loads that hold now."""
    laid = {**standing.planned.laid, **standing.now.laid}
    felt = {key: one.load.felt_kg for key, one in laid.items() if one.load is not None}
    order = [(i, slot) for i, slot in standing.outline.order if slot.key not in standing.done]
    return turns_of(standing.outline, order, felt)


def _stop_row(
    standing: Standing,
    index: int,
    played: Mapping[str, Played],
    steps: Sequence[Loaded],
    short: Set[str],
    *,
    next_too: bool = True,
) -> StopRow:
    felt, stop = [step.felt_kg for step in steps], standing.outline.stops[index]
    slots = [slot for i, slot in standing.outline.order if i == index]
    places = {key: place for place, key in enumerate(played)}
    order = list(played.values())
    own = [one for one in order if one.turn.index == index]
    odds = odds_of(standing.outline, standing.planned)
    light = light_of(standing.outline, standing.planned)
    learned = learned_limits(own, odds) if felt else {}
    spreads = {key: _spread(forecast) for key, forecast in learned_forecasts(own).items()}
    sets = []
    for slot in slots:
        row = _plain_row(standing, index, slot, felt)
        if slot.key in played:
            one = played[slot.key]
            row = _full_row(row, stop, one, shifts_of(order, places[slot.key], next_too=next_too))
            row.learned_spread = _apart(row.spread, spreads.get(slot.key))
            if felt:
                odds_then = odds.get((index, slot.block), 1.0)
                row.limits = limits(one.before, one.turn, odds_then, one.strength)
                if (one.turn.index, one.turn.slot.block) in light:
                    row.limits = row.limits.model_copy(update={"light": None})
                row.learned = changed(row.limits, learned.get(slot.key))
        sets.append(row)
    loads = [round(THOUSANDTHS * math.log(max(kg + stop.body_kg, LEAST_KG))) for kg in felt]
    return StopRow(
        index=index,
        loads=loads,
        gaps=gaps() if own else [],
        reps=reps_at(own[0], stop) if own else [],
        blocks=block_rows(standing, index, slots, felt),
        sets=sets,
        short=[slot.key for slot in slots if slot.key in short],
    )


def _plain_row(standing: Standing, index: int, slot: Slot, felt: Sequence[float]) -> SetRow:
    laid = standing.now.laid.get(slot.key) or standing.planned.laid[slot.key]
    plan = standing.outline.plans[index]
    shared = slot.round is not None
    seconds = set_seconds(plan, slot, standing.planned.laid, first=False, shared=shared)
    rung = nearest(felt, laid.load.felt_kg) if felt and laid.load is not None else None
    row = SetRow(key=slot.key, block=slot.block, rung=rung, seconds=round(seconds, 1))
    if rung is not None and slot.asked.kind is SetKind.WARM_UP:
        row.spare = spared_rung(standing.outline.stops[index], felt, felt[rung])
    return row


def _full_row(row: SetRow, stop: Stop, one: Played, shifts: Shifts) -> SetRow:
    whole = max(one.turn.exposure.felt_kg or stop.body_kg, LEAST_KG)
    return row.model_copy(
        update={
            "expected": round(one.forecast.mean, 2),
            "gap": round(THOUSANDTHS * (math.log(whole) - one.strength)),
            "spread": _spread(one.forecast),
            "stops_at": _stops_at(one.turn.slot),
            "short": _short(one.turn.slot),
            "silent": {key: list(values) for key, values in shifts.silent.items()},
            "said": {key: list(values) for key, values in shifts.said.items()},
            "as_asked": dict(shifts.as_asked),
            "missed": shifts.missed,
        }
    )


def _short(slot: Slot) -> int | None:
    asked = slot.asked.reps
    if asked is None or slot.asked.kind is SetKind.DROP:
        return None
    return int(asked.low - CLEARLY_SHORT)


def _spread(forecast: RepsForecast) -> tuple[float, float, float]:
    low, middle, high = (
        round(forecast.quantiles[QUANTILES.index(q)] - forecast.mean, 2) for q in (0.10, 0.50, 0.90)
    )
    return low, middle, high


def _apart(
    spread: tuple[float, float, float], learned: tuple[float, float, float] | None
) -> tuple[float, float, float] | None:
    """The spread once the exercise is known, where it is another by half a rep or more."""
    if learned is None or all(abs(a - b) < SAME_REPS for a, b in zip(spread, learned, strict=True)):
        return None
    return learned


def _stops_at(slot: Slot) -> list[tuple[float, float]]:
    """Capacity to reps done, as `expected_reps` says: corners of a broken line."""
    asked = slot.asked
    if asked.to_failure or asked.kind is SetKind.AMRAP or asked.reps is None:
        return [(0.0, 0.0), (MOST_CAPACITY, MOST_CAPACITY)]
    reserve = float(asked.reserve.low if asked.reserve else 0)
    most = MOST_CAPACITY - reserve if asked.reps.high is None else float(asked.reps.high)
    return [(0.0, 0.0), (reserve, 0.0), (reserve + most, most), (2 * MOST_CAPACITY, most)]


def _substitutes(
    standing: Standing, index: int, inputs: DayInputs, week: Week, notes: Notes
) -> tuple[Substituted, ...]:
    """The two best substitutes that do not need the same item, each as if it were planned."""
    item = standing.outline.plans[index].item
    ranked = best_today(inputs, week, index, taken=item.id if item else "", most=SUBSTITUTES)
    return tuple(
        replace(
            _substituted(standing, Swap(one.exercise, found.id, ""), inputs, notes, index),
            caveat=one.caveat,
        )
        for one, found in ranked
    )


def _substituted(
    base: Standing, to: Swap, inputs: DayInputs, notes: Notes, index: int
) -> Substituted:
    swaps = {**inputs.state.swaps, index: to}
    swapped = replace(inputs, state=replace(inputs.state, swaps=swaps))
    standing = stand_swapped(base, swapped, index)
    played = {one.turn.slot.key: one for one in play(standing.model, _turns(standing))}
    own = {key: one for key, one in played.items() if one.turn.index == index}
    steps = rungs_around(inputs.gym, standing, index)
    stops = stops_drawn(standing, swapped, notes)
    return Substituted(
        stop=next(stop for stop in stops if stop.index == index),
        item=to.item,
        steps=steps,
        row=_stop_row(standing, index, own, steps, short_ramps(standing, swapped), next_too=False),
    )


def _give_up(inputs: DayInputs, week: Week) -> list[list[GivenUp]]:
    """The orders in which `shorten` leaves sets out of a session short of time."""
    minutes = inputs.state.minutes or 0
    brief = replace(inputs, state=replace(inputs.state, minutes=minutes, left_out=frozenset()))
    return [
        [GivenUp(keys=list(one.keys), worth=round(one.worth, 4)) for one in order]
        for order in give_up(stand(brief), brief, week)
    ]


def _order(standing: Standing, turns: Sequence[Turn]) -> list[Between]:
    """For every pair of stops, how far the one's sets fall with the other before it."""
    own = {i: [turn for turn in turns if turn.index == i] for i in standing.outline.plans}
    first = {i: [rested(turn) for turn in sets[:1]] + sets[1:] for i, sets in own.items()}
    found = []
    for stop, before in permutations(own, 2):
        shift = fall_after(standing.model, first[stop], own[before])
        if shift:
            found.append(Between(stop=stop, before=before, shift=shift))
    return found
