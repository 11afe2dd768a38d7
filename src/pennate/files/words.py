"""How lifters write the small things: ranges, loads, rests, reserve, days.

Each `…_of` reads one value as people type it and raises InputError with the likely slip;
each `…_text` writes it canonically, so that reading it back gives the same value.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from pennate.core.near import did_you_mean
from pennate.core.prescribed import WEEKDAYS, LoadFrom, LoadRule, Span
from pennate.core.quantities import UNIT_SPELLINGS, LoadReading, Mass, exact_text, parse_number
from pennate.errors import InputError

MOST_IN_RANGE = 3600
MOST_REST_S = 3600
MOST_LOAD = 5000
_NUMBER = r"[-+\N{MINUS SIGN}]?\s*\d{1,9}(?:[.,]\d{1,9}|/[1-9]\d{0,8})?"
_RANGE = re.compile(r"(\d{1,4})\s*(?:([-\N{EN DASH}]|to)\s*(\d{0,4})|(\+|or more))?")
_LOAD = re.compile(rf"({_NUMBER})\s*([^\W\d_]*)\s*(.*)")
_SHARE = re.compile(rf"({_NUMBER})\s*%\s*(?:of\s+)?(.*)")
_READINGS = {
    "": LoadReading.TOTAL,
    "total": LoadReading.TOTAL,
    "each": LoadReading.EACH,
    "side": LoadReading.SIDE,
    "a side": LoadReading.SIDE,
    "per side": LoadReading.SIDE,
    "plates": LoadReading.PLATES,
    "of plates": LoadReading.PLATES,
    "label": LoadReading.LABEL,
    "on the label": LoadReading.LABEL,
}
_SHARE_OF = {
    "top": LoadFrom.OF_TOP,
    "the top": LoadFrom.OF_TOP,
    "the top set": LoadFrom.OF_TOP,
    "top set": LoadFrom.OF_TOP,
    "the set before": LoadFrom.OF_PREVIOUS,
    "set before": LoadFrom.OF_PREVIOUS,
    "before": LoadFrom.OF_PREVIOUS,
}
_WITHOUT_NUMBER = {
    "body weight": LoadRule(LoadFrom.BODY_WEIGHT),
    "bodyweight": LoadRule(LoadFrom.BODY_WEIGHT),
    "no load": LoadRule(LoadFrom.BODY_WEIGHT),
    "none": LoadRule(LoadFrom.BODY_WEIGHT),
    "empty bar": LoadRule(LoadFrom.EMPTY_BAR),
    "bar": LoadRule(LoadFrom.EMPTY_BAR),
    "forecast": LoadRule(),
}


@dataclass(frozen=True, slots=True)
class Reserve:
    """Reps in reserve as written; without a span a set goes to failure."""

    span: Span | None


def _plain(value: Any, what: str, example: str) -> str:
    """Text as typed, or a whole number written without quotes."""
    if isinstance(value, bool) or not isinstance(value, str | int):
        raise InputError(f"{what} must be text", remedy=f"write it like {example}")
    return str(value).strip()


def span_of(value: Any) -> Span:
    """A range of whole numbers: 8, "8-12", "8 to 12", "8+" or "8 or more"."""
    text = _plain(value, "a range", '"8-12"')
    found = _RANGE.fullmatch(text.casefold())
    if text.casefold() in {"amrap", "max"}:
        raise InputError(f"“{text}” is a kind of set", remedy='write kind = "amrap", reps = "8+"')
    if not found:
        raise InputError(f"“{text}” is not a range", remedy='write it like "8-12", "8" or "8+"')
    low, dash, end, more = found.groups()
    if dash and not end:
        remedy = f'write "{low}-{int(low) + 2}", or "{low}+" for open-ended'
        raise InputError(f"“{text}” has no upper end", remedy=remedy)
    high = None if more else int(end or low)
    return _ordered(text, int(low), high)


def _ordered(text: str, low: int, high: int | None) -> Span:
    if high is not None and high < low:
        raise InputError(f"“{text}” runs backwards", remedy=f'write "{high}-{low}"')
    if max(low, high or 0) > MOST_IN_RANGE:
        raise InputError(
            f"“{text}” is too many", remedy=f"at most {MOST_IN_RANGE} can be asked for"
        )
    return Span(low, high)


def count_of(value: Any) -> Span:
    """A range that asks for at least one."""
    span = span_of(value)
    if span.low < 1:
        raise InputError(f"“{value}” asks for nothing", remedy="start the range at 1 or more")
    return span


def span_text(span: Span) -> str:
    """The range as `span_of` reads it."""
    if span.high is None:
        return f"{span.low}+"
    return str(span.low) if span.low == span.high else f"{span.low}-{span.high}"


def reserve_of(value: Any) -> Reserve:
    """Reps in reserve: "1", "0-2", "6+", or "fail", which asks for failure."""
    text = _plain(value, "reserve", '"1-2" or "fail"')
    if text.casefold() in {"fail", "failure", "to failure"}:
        return Reserve(None)
    try:
        span = span_of(text)
    except InputError as problem:
        remedy = problem.remedy if "backwards" in problem.what else 'write "1", "0-2" or "fail"'
        raise InputError(problem.what, remedy=remedy) from None
    if span.low > 10:
        raise InputError(
            f"“{text}” reps in reserve is a warm-up",
            remedy='write at most "6+", or kind = "warm-up"',
        )
    return Reserve(span)


def rest_of(value: Any) -> int:
    """Seconds of rest from 90, "90 s", "2 min", "1.5 min" or "2:30"."""
    text = _plain(value, "rest", '"2:30"').casefold()
    clock = re.fullmatch(r"(\d{1,3}):([0-5]\d)", text)
    plain = re.fullmatch(r"(\d+(?:[.,]\d+)?)\s*(s|sec|seconds?|m|min|minutes?|)", text)
    if clock:
        seconds = Fraction(int(clock.group(1)) * 60 + int(clock.group(2)))
    elif plain:
        seconds = parse_number(plain.group(1)) * (60 if plain.group(2).startswith("m") else 1)
    else:
        raise InputError(
            f"“{text}” is not a time", remedy='write it like "2:30", "90 s" or "2 min"'
        )
    if seconds > MOST_REST_S:
        raise InputError(f"“{text}” is more than an hour", remedy='write it like "2:30"')
    return int(seconds)


def rest_text(seconds: int) -> str:
    """Minutes and seconds as `rest_of` reads them."""
    return f"{seconds // 60}:{seconds % 60:02d}"


def load_of(value: Any) -> LoadRule:
    """The rule that gives a load: "57.5 kg", "-20 kg", "20 kg each", "80 % of top" and so on."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        value = str(value)
    text = " ".join(_plain(value, "a load", '"57.5 kg"').casefold().split())
    if text in _WITHOUT_NUMBER:
        return _WITHOUT_NUMBER[text]
    share, load = _SHARE.fullmatch(text), _LOAD.fullmatch(text)
    if share:
        return _share(text, *share.groups())
    if not load:
        remedy = did_you_mean(
            text, _WITHOUT_NUMBER, 'write it like "57.5 kg", "80 % of top" or "body weight"'
        )
        raise InputError(f"“{text}” is not a load", remedy=remedy)
    number, unit, reading = load.groups()
    return _fixed(text, number, unit, reading)


def _share(text: str, number: str, of: str) -> LoadRule:
    if of not in _SHARE_OF:
        raise InputError(
            f"“{text}” does not say of what", remedy='end it with "of top" or "of the set before"'
        )
    share = _number(number) / 100
    if not 0 < share <= 2:
        raise InputError(f"“{text}” cannot be a share", remedy='write it like "80 % of top"')
    return LoadRule(_SHARE_OF[of], share=share)


def _fixed(text: str, number: str, unit: str, reading: str) -> LoadRule:
    if unit not in UNIT_SPELLINGS:
        if not unit or unit in _READINGS:
            raise InputError(
                f"“{text}” has no unit", remedy=f'write "{number} kg" or "{number} lb"'
            )
        raise InputError(f"“{unit}” is not a unit of load", remedy="write kg or lb")
    if reading not in _READINGS:
        words = sorted(word.value for word in LoadReading)
        raise InputError(
            f"“{reading}” after a load is not understood",
            remedy=did_you_mean(reading, _READINGS, f"write one of {', '.join(words)}"),
        )
    mass = Mass(_number(number), UNIT_SPELLINGS[unit])
    if abs(mass.amount) > MOST_LOAD:
        raise InputError(f"“{text}” is more than anyone lifts", remedy="check the number")
    return LoadRule(LoadFrom.FIXED, mass=mass, reading=_READINGS[reading])


def _number(text: str) -> Fraction:
    """An exact number; a fraction `a/b` stands for what has no finite decimals."""
    above, _, below = text.replace(" ", "").partition("/")
    return parse_number(above) / int(below or 1)


def load_text(rule: LoadRule) -> str:
    """The rule as `load_of` reads it."""
    if rule.mass is not None:
        reading = "" if rule.reading is LoadReading.TOTAL else f" {rule.reading}"
        return f"{exact_text(rule.mass.amount)} {rule.mass.unit}{reading}"
    if rule.share is not None:
        of = "top" if rule.source is LoadFrom.OF_TOP else "the set before"
        return f"{exact_text(rule.share * 100)} % of {of}"
    return next(word for word, known in _WITHOUT_NUMBER.items() if known == rule)


def day_of(value: Any) -> str:
    """A weekday from its name or its first letters, case ignored."""
    text = _plain(value, "a day", '"Monday"')
    matches = [day for day in WEEKDAYS if day.casefold().startswith(text.casefold())]
    if len(matches) != 1 or len(text) < 2:
        raise InputError(
            f"“{text}” is not a day of the week",
            remedy=did_you_mean(text, WEEKDAYS, "write Monday"),
        )
    return matches[0]


def tempo_of(value: Any) -> str:
    """Seconds down, held, up and held again: "3-1-1" or "3-1-x-0" (x: as fast as it goes)."""
    text = _plain(value, "tempo", '"3-1-1"').casefold()
    if not re.fullmatch(r"\d{1,2}-\d{1,2}-(\d{1,2}|x)(-\d{1,2})?", text):
        raise InputError(
            f"“{text}” is not a tempo", remedy='write seconds down, held, up, like "3-1-1"'
        )
    return text
