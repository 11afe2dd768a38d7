"""The session card as lines to read and as a JSON document."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pennate.core.card import Card, CardSet, CardStop, SetState
from pennate.core.caution_texts import Caution
from pennate.core.forecast import QUANTILES
from pennate.core.load_words import READING_WORDS
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.core.prescribed import Preparation, PrescribedSets
from pennate.core.quantities import exact_text, format_number
from pennate.estimate.curve import MOST_REPS


def effort_words(asked: PrescribedSets) -> str:
    """What effort is asked for, in words: “to failure”, “one left”, “1–2 left”."""
    if asked.kind is SetKind.WARM_UP:
        return ""
    if asked.to_failure:
        return "to failure"
    if asked.kind is SetKind.AMRAP:
        return "as many as possible"
    if asked.reserve is None:
        return ""
    names = {"0": "none left", "1": "one left"}
    return names.get(str(asked.reserve), f"{asked.reserve} left")


def ask_words(one: CardSet) -> str:
    """Reps or seconds and effort: “5–7, one left”."""
    held = one.seconds is not None and one.reps is None
    count = f"{one.seconds} s" if held else str(one.reps) if one.reps else ""
    parts = [count] if count else []
    if one.asked.partials:
        parts.append(f"then {one.asked.partials} partial")
    if effort := effort_words(one.asked):
        parts.append(effort)
    return ", ".join(parts)


def load_words(load: Loaded | None) -> str:
    """The load as she says it: “57.5 kg”, “20 kg each”, “15 kg of help”, “body weight”."""
    if load is None:
        return "no load"
    if not load.felt and not load.load:
        return "body weight"
    counted = "" if load.bands else READING_WORDS[load.reading]
    counted = "of help" if load.load.amount < 0 else counted
    return f"{format_number(abs(load.load.amount))} {load.load.unit} {counted}".rstrip()


def preparation_words(item: Preparation) -> str:
    """One item without load: “hip circles × 8”, “easy walk, 4 min”."""
    if item.reps:
        return f"{item.what} × {item.reps}"
    if not item.seconds:
        return item.what
    long = item.seconds >= 120 and item.seconds % 60 == 0
    return f"{item.what}, {item.seconds // 60} min" if long else f"{item.what}, {item.seconds} s"


HOLDS = (
    "Minutes end within their range nine times in ten, reps eight times in ten. Why a load:"
    " pennate review --why EXERCISE; constants: pennate evidence session, pennate evidence minutes"
)
"""How often the ranges of a card hold, and where the rest opens."""


def card_lines(card: Card) -> Iterator[str]:
    """The card for a terminal or a page to print."""
    yield f"{card.title}, {card.day}"
    low, high = round(card.minutes_low), round(card.minutes_high)
    yield f"about {card.minutes:.0f} min ({low}–{high}), {card.gym_name or 'no gym yet'}"
    yield from (f"  Caution: {caution.text}" for caution in card.cautions)
    yield from (f"  {line}" for line in card.changes)
    if card.preparation:
        yield "First: " + "; ".join(preparation_words(item) for item in card.preparation)
    for stop in card.stops:
        yield ""
        yield from _stop_lines(stop)
    yield ""
    yield HOLDS


def _stop_lines(stop: CardStop) -> Iterator[str]:
    where = f", {stop.item.name}" if stop.item else ""
    mark = f" [superset {stop.superset}]" if stop.superset else ""
    yield f"{stop.starts_at_min:3.0f} min  {stop.name}{where}{mark}"
    if stop.replaced:
        yield f"         {stop.replaced}"
    if stop.notes.settings:
        yield "         " + ", ".join(f"{k} {v}" for k, v in stop.notes.settings.items())
    yield from (f"         “{text}”" for text in (stop.cue, stop.notes.next_time) if text)
    yield from (f"         Caution: {caution.text}" for caution in stop.cautions)
    if stop.ladder:
        yield f"         {stop.ladder}"
    for one in stop.sets:
        yield _set_line(one)
        if one.test and one.state is SetState.OPEN:
            yield "         What follows is a careful guess until this test set is done"
    told = next((one.step for one in stop.sets if one.step), ())
    yield from (f"         {line}" for line in told[:1])


def reps_or_more(reps: int) -> str:
    """Reps in words; beyond the most that is ever forecast nothing is said."""
    return f"{MOST_REPS} or more" if reps >= MOST_REPS else str(reps)


def _set_line(one: CardSet) -> str:
    side = f" {one.side}" if one.side else ""
    words = one.load.words if one.load and one.load.words else ""
    head = f"  {one.key:<12} {one.kind}{side}: {load_words(one.load)}"
    head += f" ({words})" if words and words != "body weight" else ""
    asked = ask_words(one)
    line = f"{head} × {asked}" if asked else head
    if one.state is SetState.DONE and one.done is not None:
        return f"{line}   done: {one.done.reps}"
    if one.state is SetState.SKIPPED:
        return f"{line}   left out"
    if one.likely is not None:
        low, middle, high = one.likely.low, one.likely.middle, one.likely.high
        line += f"; likely {reps_or_more(middle)} ({low}–{reps_or_more(high)})"
    if one.asked.note:
        line += f"; {one.asked.note}"
    if one.rest_s:
        line += f"; rest {one.rest_s // 60}:{one.rest_s % 60:02d}"
    return f"{line}; {one.change}" if one.change else line


def card_document(card: Card) -> dict[str, Any]:
    """The card as JSON values, versioned by its keys."""
    return {
        "day": card.day.isoformat(),
        "session": card.session,
        "title": card.title,
        "gym": card.gym_name,
        "minutes": round(card.minutes, 1),
        "minutes_low": round(card.minutes_low, 1),
        "minutes_high": round(card.minutes_high, 1),
        "cautions": [caution_document(one) for one in card.cautions],
        "changes": list(card.changes),
        "preparation": [preparation_words(item) for item in card.preparation],
        "order": list(card.order),
        "next": card.next_key,
        "stops": [_stop_document(stop) for stop in card.stops],
    }


def caution_document(one: Caution) -> dict[str, Any]:
    """A caution as JSON values."""
    return {"id": one.id, "text": one.text, "source": one.source, "emergency": one.emergency}


def _stop_document(stop: CardStop) -> dict[str, Any]:
    return {
        "stop": stop.index,
        "exercise": stop.exercise,
        "name": stop.name,
        "equipment": stop.item.id if stop.item else None,
        "superset": stop.superset or None,
        "starts_at_min": round(stop.starts_at_min, 1),
        "minutes": round(stop.minutes, 1),
        "settings": dict(stop.notes.settings),
        "cue": stop.cue,
        "note": stop.notes.next_time,
        "instead": stop.replaced or None,
        "ladder": stop.ladder or None,
        "cautions": [caution_document(one) for one in stop.cautions],
        "sets": [_set_document(one) for one in stop.sets],
    }


def _set_document(one: CardSet) -> dict[str, Any]:
    load = one.load
    found: dict[str, Any] = {
        "key": one.key,
        "kind": one.kind.value,
        "side": one.side.value if one.side else None,
        "round": one.round,
        "load": exact_text(load.load.amount) if load else None,
        "unit": load.load.unit.value if load else None,
        "load_is": load.reading.value if load else None,
        "put_on": load.words if load else None,
        "moves": one.moves,
        "reps": str(one.reps) if one.reps else None,
        "seconds": str(one.seconds) if one.seconds else None,
        "rir": str(one.asked.reserve) if one.asked.reserve else None,
        "to_failure": one.asked.to_failure,
        "rest_s": one.rest_s,
        "why": one.why,
        "step": list(one.step),
        "change": one.change or None,
        "note": one.asked.note or None,
        "state": one.state.value,
    }
    if one.likely is not None and one.forecast is not None:
        found["likely"] = {
            "low": one.likely.low,
            "middle": one.likely.middle,
            "high": one.likely.high,
        }
        names = (f"p{100 * q:g}" for q in QUANTILES)
        pairs = zip(names, one.forecast.quantiles, strict=True)
        found["to_failure_reps"] = {name: round(value, 2) for name, value in pairs}
    if one.done is not None:
        found["done"] = {
            "reps": one.done.reps,
            "rir": one.done.effort.value if one.done.effort else None,
            "as_asked": one.done.as_asked,
        }
    return found
