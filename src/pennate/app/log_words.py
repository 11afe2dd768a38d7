"""Words typed or tapped become a recorded set, an undo or the end of a session."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from fractions import Fraction
from typing import Any, TypeVar

from pennate.app.book import Book
from pennate.app.card_text import ask_words, load_words
from pennate.app.log_told import Told, told_by, told_document
from pennate.app.record import Recorded, finish, record, undo
from pennate.app.review import last_session_of
from pennate.app.today import card_for, planned_for
from pennate.core.card import Card
from pennate.core.muscles import Joint
from pennate.core.performed import Effort
from pennate.core.quantities import LoadReading, Unit, parse_number
from pennate.errors import InputError, NoAnswerError, Where

E = TypeVar("E", bound=StrEnum)


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What was said of one set, as text; empty or None stands as asked."""

    key: str | None = None
    reps: int | None = None
    seconds: str | None = None
    load: str | None = None
    unit: str = "kg"
    load_is: str = "total"
    effort: str | None = None
    pain: str | None = None
    note: str = ""
    undo: bool = False
    finish: bool = False


@dataclass(frozen=True, slots=True)
class Said:
    """What came of it, as lines and as JSON values."""

    line: str
    document: Mapping[str, Any]


def log_words(book: Book, day: date, weekday: str | None, words: Words) -> Said:
    """Do what the words say on a day's session."""
    name = weekday.capitalize() if weekday else last_session_of(book, day)
    if planned_for(book, day, name if weekday else None) is None:
        raise NoAnswerError(f"nothing is planned for {day}; name the day to do instead")
    if words.undo:
        key = undo(book, day, weekday=name)
        line = f"Taken back: set {key}" if key else "There is nothing to take back."
        return Said(line, {"undone": key})
    if words.finish:
        finish(book, day, weekday=name, note=words.note)
        on = "" if day == book.today else f" --date {day}"
        return Said(f"Session closed. See: pennate review {name}{on}", {"finished": True})
    return _log_set(book, day, name, words)


def _log_set(book: Book, day: date, weekday: str, words: Words) -> Said:
    card = card_for(book, day, weekday=weekday)
    key = words.key or (card.next_key if isinstance(card, Card) else None)
    if key is None:
        raise NoAnswerError("every set of this session is done")
    set_id = record(book, day, key, recorded_from(words), weekday=weekday)
    after = card_for(book, day, weekday=weekday)
    told, upcoming, coming = Told(), None, ""
    if isinstance(card, Card) and isinstance(after, Card):
        told = told_by(card, after, said=bool(words.pain or words.note))
        upcoming, coming = after.next_key, _coming(after)
    first, *more = (
        (f"Logged {key}.", *told.lines, coming)
        if told.changes or told.cautions
        else (f"Logged {key}. {coming}".rstrip(),)
    )
    document = {"id": set_id, "key": key, "next": upcoming, **told_document(told)}
    return Said("\n".join(filter(None, (first, *more))), document)


def _coming(card: Card) -> str:
    """The next set in a few words; empty where every set is done."""
    found = card.find(card.next_key) if card.next_key else None
    if found is None:
        return ""
    stop, one = found
    change = f"; {one.change}" if one.change else ""
    return f"Next: {stop.name}, {load_words(one.load)} × {ask_words(one)}{change}"


def recorded_from(words: Words) -> Recorded:
    """The set meant by the words. Raises InputError naming the field."""
    load = None if words.load in {None, ""} else _number(str(words.load), "load")
    return Recorded(
        reps=words.reps,
        seconds=None if not words.seconds else _number(words.seconds, "seconds"),
        load=load,
        unit=_word(Unit, words.unit, "unit") if load is not None else None,
        reading=_word(LoadReading, words.load_is, "load-is"),
        effort=_word(Effort, words.effort, "effort") if words.effort else None,
        pain=pain_from(words.pain or ""),
        note=words.note,
    )


def _number(text: str, field: str) -> Fraction:
    try:
        return parse_number(text)
    except InputError as error:
        raise InputError(error.what, Where(field=field), error.remedy) from None


def _word(kind: type[E], text: str, field: str) -> E:
    try:
        return kind(text.strip().lower())
    except ValueError:
        choices = ", ".join(one.value for one in kind)
        raise InputError(
            f"“{text}” is not known", Where(field=field), f"one of: {choices}"
        ) from None


def pain_from(text: str) -> dict[str, int]:
    """Pairs like `knee:3; shoulder:2`. Raises InputError naming the joints there are."""
    found: dict[str, int] = {}
    for pair in filter(None, (part.strip() for part in text.split(";"))):
        joint, _, score = pair.partition(":")
        name = _word(Joint, joint, "pain").value
        if not score.strip().isdigit() or not 0 <= int(score) <= 10:
            raise InputError(f"“{pair}” has no number from 0 to 10", Where(field="pain"))
        found[name] = int(score)
    return found
