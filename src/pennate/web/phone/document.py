"""What the phone takes along: cards, sheets, words and drawings of the days to come.

All words and drawings are made here, by the same views as the pages; the script on the
phone only looks up, adds and shows.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from markupsafe import Markup

from pennate.app.book import Book
from pennate.app.card_text import effort_words, preparation_words
from pennate.app.changes import readiness_lines
from pennate.app.day import DayState, said_body
from pennate.app.illness import ASK
from pennate.app.minutes_told import card_minutes_facts
from pennate.app.record import Recorded, performed
from pennate.app.response_sheet import Substituted, prepare
from pennate.app.review import review
from pennate.app.sheet_rows import StopRow
from pennate.app.sheet_rules import nearest
from pennate.app.stops import loaded_joints, slightly_loaded_joints
from pennate.app.today import day_state, planned_for
from pennate.app.week_log import pace_of
from pennate.core.card import Card, CardSet, CardStop, SetState
from pennate.core.caution_texts import (
    AFTER_ILLNESS,
    BREAKDOWN,
    ILL,
    PAIN_REDUCE,
    PAIN_SLIGHT,
    PAIN_STOP,
    RED_FLAGS,
)
from pennate.core.cautions import JOINT_SIGNS, WARNING_SIGNS
from pennate.core.load_words import done_load_words
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.core.week_time import seconds_per_rep
from pennate.ledger.sets import set_body
from pennate.web.phone.drawings import Drawings
from pennate.web.views.floor import Around, FloorSet, floor_set, load_parts, offer_line
from pennate.web.views.line import marked_drawing, runs_of, together_words
from pennate.web.views.plates import plate_names
from pennate.web.views.review import review_view
from pennate.web.words import (
    amount_words,
    done_amount,
    done_words,
    load_words,
    on_item,
)

DAYS = 7
SAID_WHEN_CLOSED = {"load", "unit", "load_is", "rest_s", "exercise", "equipment", "extra"}
SAID_WHEN_CLOSED |= {"date", "set"}
"""Of a set's entry what the phone knows from elsewhere when the set is closed."""
DRAWN_STEPS, DRAWN_INSTEAD = 2, 1
"""Steps above and below the loads asked for that are drawn, the second of a substitute."""
PAIN = {"stop": PAIN_STOP, "slight": PAIN_SLIGHT, "reduce": PAIN_REDUCE}
"""What pain asks before the sets of an exercise; the script says it itself once she tells more."""
_PAIN = {caution.id: asked for asked, caution in PAIN.items()}
HEED = {
    "signs": WARNING_SIGNS,
    "joint_signs": JOINT_SIGNS,
    "help": RED_FLAGS.text,
    **{asked: caution.text for asked, caution in PAIN.items()},
    "named": {asked: caution.named for asked, caution in PAIN.items()},
}
"""What is searched for in notes written on the phone, and what pain or a sign then asks."""
Json = dict[str, Any]


def days_ahead(book: Book, count: int = DAYS) -> Iterator[tuple[date, str]]:
    """Dates from today on that have a session, with the planned day done on each."""
    for ahead in range(count):
        day = book.today + timedelta(days=ahead)
        planned = planned_for(book, day)
        if planned is not None and planned.exercises:
            yield day, planned.day


def last_trained(book: Book) -> str:
    """The day of the last set in the records; empty where there is none."""
    sets = book.history().sets
    return sets[-1].day.isoformat() if sets else ""


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
        "changes": _changes(card),
        "asked": next((line for line in card.changes if ASK in line), ""),
        "trained": last_trained(book),
        "cautions": [one.text for one in card.cautions if one not in _BY_THE_SCRIPT],
        "preparation": [preparation_words(one) for one in card.preparation],
        "minutes": round(card.minutes),
        "minutes_facts": card_minutes_facts(card, runs_of(card), pace_of(book)),
        "state": _state(state, card),
        "stops": [
            _stop(book, card, stop, prepared.steps[stop.index], drawings) for stop in card.stops
        ],
        "runs": [[s.index for s in run] for run in runs_of(card)],
        "line": [_line(run) for run in runs_of(card)],
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
        "heed": HEED,
        "after": _after(book, card),
    }


def _changes(card: Card) -> list[str]:
    """What today changes, without what the script says of her answers itself."""
    said = readiness_lines(card.readiness)
    return [line for line in card.changes if line not in said and ASK not in line]


_BY_THE_SCRIPT = (BREAKDOWN, ILL, AFTER_ILLNESS)


def _after(book: Book, card: Card) -> Json:
    """What the sets known here taught and change, by exercise, as the review says it."""
    if not any(one.done for stop in card.stops for one in stop.sets):
        return {"learned": {}, "next": {}}
    seen = review_view(review(book, card.day, weekday=card.session.capitalize()))
    return {
        "learned": {exercise: words for exercise, _, words in seen.learned},
        "next": {one.exercise: [one.words, one.reason] for one in seen.changes},
    }


def _state(state: DayState, card: Card) -> Json:
    """Her decisions so far, as the script folds further ones onto them."""
    return {
        "finished": state.finished,
        "note": state.note,
        "skipped": sorted(state.skipped),
        "held": dict(state.held),
        "told": dict(state.told),
        "left_out": sorted(state.left_out),
        "kept": sorted(state.kept),
        "opened": state.opened,
        "minutes": state.minutes,
        "said": said_body(state.readiness) if state.readiness else {},
        "number": max(
            (s.done.number for stop in card.stops for s in stop.sets if s.done), default=0
        ),
    }


def _line(run: Sequence[CardStop]) -> Json:
    """A stop of the session line; its drawing names sets where it is to say how far they are."""
    return {
        "drawing": marked_drawing(run),
        "together": together_words(run) if len(run) > 1 else "",
    }


def _stop(
    book: Book,
    card: Card,
    stop: CardStop,
    steps: Sequence[Loaded],
    drawings: Drawings,
    near: int = DRAWN_STEPS,
) -> Json:
    """An exercise in its place, with its sets and the words of every step of its item."""
    plain = replace(card, cautions=())  # those of the day are told once, with the session
    views = {
        one.key: floor_set(
            plain, one.key, Around(one.load), picture=Markup(), chosen="", now=book.now()
        )
        for one in stop.sets
    }
    first, drawn = next(iter(views.values())), _near(stop, steps, near)
    plated = any(step.plates for step in steps)
    return {
        "index": stop.index,
        "exercise": stop.exercise,
        "name": stop.name,
        "item": stop.item.id if stop.item else "",
        "on": stop.item.name if stop.item else "",
        "together": first.together,
        "settings": [list(pair) for pair in first.settings],
        "cue": first.cue,
        "own_cue": stop.notes.cue,
        "next_time": first.next_time,
        "replaced": "" if stop.replaced.startswith("left out") else stop.replaced,
        "joints": loaded_joints(book.catalogue[stop.exercise]),
        "slight": slightly_loaded_joints(book.catalogue[stop.exercise]),
        "sets": {
            one.key: _set(book, card, stop, one, views[one.key], drawings) for one in stop.sets
        },
        "each_side": any(step.each_side for step in steps),
        "steps": [
            {
                **_load(step),
                "picture": drawings.add(step, stop.item) if step in drawn else "",
                **({"plates": plate_names(step)} if plated else {}),
            }
            for step in steps
        ],
    }


def _near(stop: CardStop, steps: Sequence[Loaded], count: int) -> Sequence[Loaded]:
    """Steps a few places around those the card asks for: the others go without a drawing."""
    asked = [one.load.felt_kg for one in stop.sets if one.load and one.kind is not SetKind.WARM_UP]
    places = [nearest([step.felt_kg for step in steps], kg) for kg in asked] if steps else []
    low, high = min(places, default=0), max(places, default=0)
    return steps[max(0, low - count) : high + count + 1]


def _row(row: StopRow) -> Json:
    return row.model_dump(mode="json", exclude_defaults=True)


def _load(load: Loaded | None) -> Json:
    parts = load_parts(load)
    return {
        "number": parts.number,
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
    keep_to = None if one.refusable is None else {**_load(one.refusable), "picture": ""}
    pain = {_PAIN[c.id]: c.text for c in stop.cautions if c.id in _PAIN and c.text in view.set_up}
    seldom = {
        "pain": pain,
        "test": one.test,
        "side": one.side.value if one.side else "",
        "extra": view.extra,
        "tempo": one.asked.tempo,
        "why": view.why,
        "offer": {off: offer_line(words) for off, words in one.offers},
        "change": view.change,
        "keep": view.keep,
        "keep_to": keep_to,
        "moves": view.moves,
        "done": _done(one),
    }
    return {
        **{name: value for name, value in seldom.items() if value},
        "kind": one.kind.value,
        "place": view.place,
        "amount": view.amount,
        "amount_unit": view.amount_unit,
        "asked": amount_words(one),
        "effort": effort_words(one.asked),
        "set_up": [text for text in view.set_up if text not in pain.values()],
        "cautions": list(view.cautions),
        "closing": {
            "middle": view.closing.middle,
            "unit": view.closing.unit,
            "done": view.closing.done,
        },
        "rest_s": one.rest_s,
        "rep_s": seconds_per_rep(book.catalogue[stop.exercise], one.asked.tempo),
        "load": {**_load(one.load), "picture": drawings.add(one.load, stop.item)},
        "entry": {key: entry[key] for key in entry if key not in SAID_WHEN_CLOSED},
    }


def _done(one: CardSet) -> Json | None:
    if one.state is not SetState.DONE or one.done is None:
        return None
    return {
        "id": one.done.id,
        "number": one.done.number,
        "at": one.done.when.isoformat(),
        "words": done_words(one.done),
        "load": done_load_words(one.done),
        "amount": done_amount(one.done),
    }


def _with_stop(card: Card, stop: CardStop) -> Card:
    """The card with another stop in the place of one."""
    return replace(card, stops=tuple(stop if s.index == stop.index else s for s in card.stops))


def _instead(book: Book, card: Card, one: Substituted, drawings: Drawings) -> Json:
    swapped, sets = _with_stop(card, one.stop), one.stop.sets
    first = next((s for s in sets if s.kind is not SetKind.WARM_UP), None)
    words = "" if first is None else f"{amount_words(first)} at {load_words(first.load)}"
    return {
        "exercise": one.stop.exercise,
        "item": one.item,
        "name": on_item(one.stop.name, one.stop.item.name if one.stop.item else ""),
        "words": "; ".join(filter(None, (words, one.caveat))),
        "stop": _stop(book, swapped, one.stop, one.steps, drawings, DRAWN_INSTEAD),
        "line": _line(next(run for run in runs_of(swapped) if one.stop in run)),
        "order": [s.key for s in sets],
        "row": _row(one.row),
    }
