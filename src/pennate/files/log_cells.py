"""One cell of the training log at a time: text to value, value to text."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import date, datetime
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType
from typing import Any, TypeVar

from pennate.core.near import nearest, offered
from pennate.core.performed import Effort, PerformedSet, SetKind, Side
from pennate.core.quantities import LoadReading, Unit, exact_text, parse_number
from pennate.core.rep_equations import reserve_from_rpe
from pennate.core.still_to_come import dated
from pennate.errors import InputError

SIX_OR_MORE, FOUR = 6, 4  # number: reps left from which reserve is told no nearer
CACHED = 8192
"""Cells repeat: a year of dates, a few hundred loads."""

_WHOLE = re.compile(r"\d{1,6}(?:[.,]0+)?", re.ASCII)
_WITH_UNIT = re.compile(r"([\d.,]+) *(?:kgs?|lbs?)", re.ASCII | re.IGNORECASE)
_SETS_IN_ONE = re.compile(r"\d+(?: *[x×*/;, -] *\d+)+", re.IGNORECASE)
_BODY_WEIGHT = {"bw", "body weight", "bodyweight"}

_E = TypeVar("_E", bound=StrEnum)


@lru_cache(CACHED)
def read_when(text: str) -> date | datetime:
    """A date or date-time of ISO 8601."""
    try:
        return dated(date.fromisoformat(text))
    except ValueError:
        pass  # then it must be a date-time
    try:
        when = datetime.fromisoformat(text)
    except ValueError:
        raise InputError(f"“{text}” is not a date", remedy="write it like 2026-03-31") from None
    dated(when)
    return when


@lru_cache(CACHED)
def read_number(text: str) -> Fraction:
    """An exact number: a decimal, or a fraction as our own exports write it."""
    if "/" not in text:
        return parse_number(text)
    try:
        return Fraction(text.strip())
    except (ValueError, ZeroDivisionError):
        raise InputError(f"“{text}” is not a number", remedy="write it like 42.5") from None


def read_positive(text: str) -> Fraction:
    """A number that is not below zero."""
    value = read_number(text)
    if value < 0:
        raise InputError(f"“{text}” is below zero")
    return value


@lru_cache(CACHED)
def read_load(text: str) -> Fraction:
    """A load; its unit, and body weight alone, are said elsewhere."""
    try:
        return read_number(text)
    except InputError as error:
        written = _WITH_UNIT.fullmatch(text)
        remedy = error.remedy
        if written:
            remedy = f"the unit has a column of its own: {written[1]} under load, the unit in unit"
        elif text.casefold() in _BODY_WEIGHT:
            remedy = "leave it empty for body weight alone"
        raise InputError(error.what, remedy=remedy) from None


@lru_cache(CACHED)
def read_reps(text: str) -> int:
    """Full reps of one set."""
    try:
        return read_whole(text)
    except InputError as error:
        many = _SETS_IN_ONE.fullmatch(text)
        remedy = "a row is one set: write a row for each" if many else error.remedy
        raise InputError(error.what, remedy=remedy) from None


@lru_cache(CACHED)
def read_whole(text: str) -> int:
    """A whole number that is not below zero, of at most six digits."""
    if _WHOLE.fullmatch(text) is None:
        raise InputError(f"“{text}” is not a whole number", remedy="write it like 8")
    return int(re.split("[.,]", text)[0])


def read_count(text: str) -> int:
    """A whole number from 1."""
    value = read_whole(text)
    if value < 1:
        raise InputError("sets are counted from 1")
    return value


def word_of(words: type[_E]) -> Callable[[str], _E]:
    """A reader for one of a few words, case and kind of dash ignored."""

    @lru_cache(CACHED)
    def read(text: str) -> _E:
        tidy = text.casefold().replace("–", "-")
        try:
            return words(tidy)
        except ValueError:
            every = f"it is one of {', '.join(words)}"
            near = nearest(tidy, words, most=1)
            remedy = f"{offered(near, '')} {every}" if near else every
            raise InputError(f"“{text}” is not known here", remedy=remedy) from None

    return read


read_unit = word_of(Unit)


@lru_cache(CACHED)
def read_effort(text: str) -> Effort:
    """Reps in reserve as one of the agreed words."""
    slips = {"4": "4-5", "5": "4-5", "failure": "fail", "f": "fail"}
    slips |= {str(n): "6+" for n in range(6, 31)}
    if text.casefold() in slips:
        raise InputError(
            f"“{text}” is not an effort here", remedy=f"write {slips[text.casefold()]}"
        )
    if text.casefold().startswith("rpe"):
        raise InputError(f"“{text}” is not an effort here", remedy="reserve is 10 less an RPE")
    return _effort_word(text)


_effort_word = word_of(Effort)

RPE = "rpe"
"""A column of effort from 1 to 10; read where there is no column of reserve."""


@lru_cache(CACHED)
def read_rpe(text: str) -> Effort:
    """Reserve of an RPE: 10 less it; of a half point what was surely left, so 8.5 is 1."""
    remedy = "write a number from 1 to 10, or leave it empty"
    try:
        left = int(reserve_from_rpe(float(parse_number(text))))
    except InputError:
        raise InputError(f"“{text}” is not an RPE", remedy=remedy) from None
    if left >= SIX_OR_MORE:
        return Effort.SIX_UP
    return Effort.FOUR_FIVE if left >= FOUR else Effort(str(left))


def read_flag(text: str) -> bool:
    """`1` is yes, `0` is no."""
    if text not in {"0", "1"}:
        raise InputError(f"“{text}” is neither 1 nor empty")
    return text == "1"


def read_words(text: str) -> tuple[str, ...]:
    """Words separated by `;`."""
    return tuple(word.strip() for word in text.split(";") if word.strip())


def read_pain(text: str) -> Mapping[str, int]:
    """Pairs `joint:0-10` separated by `;`."""
    pairs: dict[str, int] = {}
    for pair in read_words(text):
        joint, _, score = (part.strip() for part in pair.rpartition(":"))
        if not joint or not re.fullmatch(r"\d|10", score, re.ASCII):
            raise InputError(
                f"“{pair}” is not a joint and a number from 0 to 10", remedy="write it like knee:2"
            )
        if joint in pairs:
            raise InputError(f"{joint} is there twice")
        pairs[joint] = int(score)
    return pairs


def _same(text: str) -> str:
    return text


READERS: Mapping[str, tuple[str, Callable[[str], Any]]] = MappingProxyType(
    {
        "id": ("id", _same),
        "date": ("when", read_when),
        "session": ("session", _same),
        "set": ("number", read_count),
        "exercise": ("exercise", _same),
        "kind": ("kind", word_of(SetKind)),
        "load": ("load", read_load),
        "unit": ("unit", read_unit),
        "reps": ("reps", read_reps),
        "rir": ("effort", read_effort),
        "rest_s": ("rest_s", read_positive),
        "seconds": ("seconds", read_positive),
        "side": ("side", word_of(Side)),
        "load_is": ("reading", word_of(LoadReading)),
        "group": ("group", _same),
        "round": ("round", read_whole),
        "equipment": ("equipment", _same),
        "variant": ("variant", _same),
        "style": ("style", _same),
        "aids": ("aids", read_words),
        "pain": ("pain", read_pain),
        "as_asked": ("as_asked", read_flag),
        "body_mass_kg": ("body_mass_kg", read_positive),
        "settings": ("settings", _same),
        "note": ("note", _same),
    }
)
"""Every column of the contract: the field of a set and how its cell is read."""

COLUMNS = tuple(READERS)
REQUIRED = ("date", "session", "set", "exercise", "reps")

_OTHER_WORDS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "date": ("day", "when"),
        "exercise": ("movement", "lift", "name"),
        "kind": ("type", "set type"),
        "load": ("weight", "mass", "kg", "lb", "lbs", "kilos", "pounds"),
        "unit": ("units",),
        "reps": ("rep", "repetitions"),
        "rir": ("rpe", "effort", "reserve", "in reserve", "reps in reserve", "left"),
        "rest_s": ("rest", "pause"),
        "seconds": ("time", "duration", "sec", "s"),
        "equipment": ("machine", "item", "bar", "gear"),
        "body_mass_kg": ("body weight", "bodyweight", "body mass"),
        "note": ("notes", "comment", "comments", "remarks"),
    }
)


def meant_by(column: str) -> str:
    """The column of the contract that an unknown one likely is; empty where none is near."""
    tidy = column.casefold().replace("_", " ").strip()
    words = re.sub(r" ?[(\[].*| (?:kgs?|lbs?)$", "", tidy)
    for known, others in _OTHER_WORDS.items():
        if words in others:
            return known
    return next(iter(nearest(words, COLUMNS, most=1)), "")


@lru_cache(CACHED)
def write_number(value: Fraction) -> str:
    """Exact text of a number."""
    return exact_text(value)


def _number(value: Fraction | None) -> str:
    return "" if value is None else write_number(value)


def _word(value: StrEnum | None) -> str:
    return "" if value is None else value.value


def cells_of(done: PerformedSet) -> tuple[str, ...]:
    """A set as the cells of its row, in the order of `COLUMNS`."""
    return (
        done.id,
        done.when.isoformat(),
        done.session,
        str(done.number),
        done.exercise,
        done.kind.value,
        _number(done.load),
        _word(done.unit),
        str(done.reps),
        _word(done.effort),
        _number(done.rest_s),
        _number(done.seconds),
        _word(done.side),
        done.reading.value,
        done.group,
        "" if done.round is None else str(done.round),
        done.equipment,
        done.variant,
        done.style,
        ";".join(done.aids),
        ";".join(f"{joint}:{score}" for joint, score in sorted(done.pain.items())),
        "1" if done.as_asked else "",
        _number(done.body_mass_kg),
        done.settings,
        done.note,
    )
