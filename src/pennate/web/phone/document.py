"""What the phone takes along: cards, sheets, words and drawings of the days to come.

All words and drawings are made here, by the same views as the pages; the script on the
phone only looks up, adds and shows.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import groupby
from typing import Any

from markupsafe import Markup

from pennate.app.book import Book
from pennate.app.card_text import effort_words, preparation_words
from pennate.app.day import DayState
from pennate.app.record import Recorded, performed
from pennate.app.response_sheet import Substituted, prepare
from pennate.app.sheet_rows import StopRow
from pennate.app.sheet_rules import nearest
from pennate.app.today import day_state, planned_for
from pennate.core.card import Card, CardSet, CardStop, SetState
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.ledger.sets import set_body
from pennate.web.phone.drawings import Drawings
from pennate.web.views.floor import Around, FloorSet, floor_set, load_parts
from pennate.web.words import amount_words, done_words, load_words

DAYS = 7
DRAWN_STEPS = 6
"""Steps above and below the loads asked for that are drawn."""
Json = dict[str, Any]


def days_ahead(book: Book, count: int = DAYS) -> Iterator[tuple[date, str]]:
    """Dates from today on that have a session, with the planned day done on each."""
    for ahead in range(count):
        day = book.today + timedelta(days=ahead)
        planned = planned_for(book, day)
        if planned is not None and planned.exercises:
            yield day, planned.day


def day_document(book: Book, day: date, weekday: str) -> Json:
    """One session as the phone takes it along."""
    prepared = prepare(book, day, weekday)
    drawings = Drawings()
    card, state = prepared.card, day_state(book, day, weekday)
    rows = {row.index: row for row in prepared.sheet.stops}
    return {
        "day": day.isoformat(),
        "weekday": weekday,
        "session": card.session,
        "title": card.title,
        "gym": card.gym_name,
        "changes": list(card.changes),
        "preparation": [preparation_words(one) for one in card.preparation],
        "minutes": round(card.minutes),
        "state": _state(state, card),
        "stops": [
            _stop(book, card, stop, prepared.steps[stop.index], drawings) for stop in card.stops
        ],
        "runs": [[s.index for s in run] for run in _runs(card)],
        "order": list(card.order),
        "sheet": prepared.sheet.model_dump(
            mode="json", exclude={"instead", "stops", "day", "weekday"}
        ),
        "rows": {index: _row(row) for index, row in rows.items()},
        "instead": {
            index: [_instead(book, card, one, drawings) for one in found]
            for index, found in prepared.instead.items()
        },
        "pictures": drawings.packed(),
    }


def _state(state: DayState, card: Card) -> Json:
    """Her decisions so far, as the script folds further ones onto them."""
    return {
        "finished": state.finished,
        "skipped": sorted(state.skipped),
        "left_out": sorted(state.left_out),
        "kept": sorted(state.kept),
        "opened": state.opened,
        "number": max(
            (s.done.number for stop in card.stops for s in stop.sets if s.done), default=0
        ),
    }


def _runs(card: Card) -> list[list[CardStop]]:
    runs: list[list[CardStop]] = []
    for mark, group in groupby(card.stops, key=lambda stop: stop.superset):
        members = list(group)
        runs.extend([members] if mark else [[stop] for stop in members])
    return runs


def _stop(
    book: Book, card: Card, stop: CardStop, steps: Sequence[Loaded], drawings: Drawings
) -> Json:
    """An exercise in its place, with its sets and the words of every step of its item."""
    views = {
        one.key: floor_set(
            card, one.key, Around(one.load), picture=Markup(), chosen="", now=book.now()
        )
        for one in stop.sets
    }
    first, drawn = next(iter(views.values())), _near(stop, steps)
    return {
        "index": stop.index,
        "exercise": stop.exercise,
        "name": stop.name,
        "item": stop.item.id if stop.item else "",
        "together": first.together,
        "settings": [list(pair) for pair in first.settings],
        "cue": first.cue,
        "own_cue": stop.notes.cue,
        "next_time": first.next_time,
        "replaced": stop.replaced,
        "out": _out(stop),
        "sets": {
            one.key: _set(book, card, stop, one, views[one.key], drawings) for one in stop.sets
        },
        "steps": [
            {**_load(step), "picture": drawings.add(step, stop.item) if step in drawn else ""}
            for step in steps
        ],
    }


def _out(stop: CardStop) -> bool:
    """Whether the day has no open set of it for a reason of its own, pain for example."""
    return stop.replaced.startswith("left out: ")


def _near(stop: CardStop, steps: Sequence[Loaded]) -> Sequence[Loaded]:
    """Steps a few places around those the card asks for: the others go without a drawing."""
    asked = [one.load.felt_kg for one in stop.sets if one.load and one.kind is not SetKind.WARM_UP]
    places = [nearest([step.felt_kg for step in steps], kg) for kg in asked] if steps else []
    low, high = min(places, default=0), max(places, default=0)
    return steps[max(0, low - DRAWN_STEPS) : high + DRAWN_STEPS + 1]


def _row(row: StopRow) -> Json:
    return row.model_dump(mode="json", exclude_defaults=True)


def _load(load: Loaded | None) -> Json:
    parts = load_parts(load)
    return {
        "number": parts.number,
        "unit": parts.unit,
        "suffix": parts.suffix,
        "words": parts.words,
        "line": load_words(load),
        "amount": parts.amount,
        "form_unit": parts.form_unit,
        "load_is": parts.reading,
    }


def _set(
    book: Book, card: Card, stop: CardStop, one: CardSet, view: FloorSet, drawings: Drawings
) -> Json:
    entry = set_body(performed(book, card, stop, one, Recorded()))
    return {
        "kind": one.kind.value,
        "place": view.place,
        "side": one.side.value if one.side else "",
        "round": one.round,
        "amount": view.amount,
        "amount_unit": view.amount_unit,
        "asked": amount_words(one),
        "effort": effort_words(one.asked),
        "extra": view.extra,
        "tempo": one.asked.tempo,
        "why": view.why,
        "change": view.change,
        "keep": view.keep,
        "keep_to": None if one.refusable is None else {**_load(one.refusable), "picture": ""},
        "set_up": list(view.set_up),
        "cautions": list(view.cautions),
        "moves": view.moves,
        "pull": _pull(stop, one),
        "closing": {
            "numbers": list(view.closing.numbers),
            "middle": view.closing.middle,
            "unit": view.closing.unit,
            "done": view.closing.done,
            "question": view.closing.question,
        },
        "rest_s": one.rest_s,
        "load": {**_load(one.load), "picture": drawings.add(one.load, stop.item)},
        "done": _done(one),
        "entry": {key: entry[key] for key in entry if key not in {"date", "set"}},
    }


def _done(one: CardSet) -> Json | None:
    if one.state is not SetState.DONE or one.done is None:
        return None
    at = one.done.when.isoformat()
    return {"id": one.done.id, "words": done_words(one.done), "number": one.done.number, "at": at}


def _pull(stop: CardStop, one: CardSet) -> str:
    """Which plates come off each side before a drop: those on now and not wanted then."""
    if one.kind is not SetKind.DROP or one.load is None:
        return ""
    before = _before(stop, one)
    if before is None or not before.plates:
        return ""
    kept = list(one.load.plates)
    off = []
    for plate in before.plates:
        if plate in kept:
            kept.remove(plate)
        else:
            off.append(str(plate.mass))
    side = " from each side" if before.each_side else ""
    return f"take {', '.join(reversed(off))} off{side}" if off and not kept else ""


def _before(stop: CardStop, one: CardSet) -> Loaded | None:
    same = [s for s in stop.sets if s.side is one.side]
    place = next(i for i, s in enumerate(same) if s.key == one.key)
    return same[place - 1].load if place else None


def _with_stop(card: Card, stop: CardStop) -> Card:
    """The card with another stop in the place of one."""
    return replace(card, stops=tuple(stop if s.index == stop.index else s for s in card.stops))


def _instead(book: Book, card: Card, one: Substituted, drawings: Drawings) -> Json:
    swapped, sets = _with_stop(card, one.stop), one.stop.sets
    first = next((s for s in sets if s.kind is not SetKind.WARM_UP), None)
    words = "" if first is None else f"{amount_words(first)} at {load_words(first.load)}, "
    on = one.stop.item.name if one.stop.item else ""
    return {
        "exercise": one.stop.exercise,
        "item": one.item,
        "words": f"{words}on {on}",
        "stop": _stop(book, swapped, one.stop, one.steps, drawings),
        "order": [s.key for s in sets],
        "row": _row(one.row),
    }
