"""Dates as spreadsheets write them, 31/03/2026 or 3/31/2026: read once it is said which."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date, datetime, time
from enum import StrEnum
from functools import lru_cache

from pennate.core.still_to_come import dated
from pennate.errors import InputError
from pennate.files.log_cells import CACHED, read_when
from pennate.files.ways import COMMAND_LINE, Ways

_CLOCK = r"(?:(?:T|,? +)(\d{1,2}):(\d{2})(?::(\d{2}))?(?: *([ap])\.?m\.?)?)?"
_HOW = re.ASCII | re.IGNORECASE
_DAY_OR_MONTH = re.compile(
    rf"(\d{{1,2}})[./-](\d{{1,2}})[./-](\d{{4}}|\d\d){_CLOCK}", re.ASCII | re.IGNORECASE
)
_YEAR_FIRST = re.compile(
    rf"(\d{{4}})[./-](\d{{1,2}})[./-](\d{{1,2}}){_CLOCK}", re.ASCII | re.IGNORECASE
)
_CENTURY = 2000  # number: nobody's training log of two-digit years is older
_MONTHS = 12  # number: of a year
_NOON = 12  # number: hours; where the clock of two halves begins anew


class DateOrder(StrEnum):
    """What stands first in a date that does not begin with its year."""

    DAY_FIRST = "day-first"
    MONTH_FIRST = "month-first"


@lru_cache(CACHED)
def read_ordered(text: str, order: DateOrder) -> date | datetime:
    """A date or date-time of that order; ISO 8601 is read as ever. Raises InputError."""
    found = _YEAR_FIRST.fullmatch(text)
    if found is not None:
        year, month, day = (int(found[n]) for n in (1, 2, 3))
    else:
        found = _DAY_OR_MONTH.fullmatch(text)
        if found is None:
            return read_when(text)
        day, month, year = int(found[1]), int(found[2]), int(found[3])
        year += _CENTURY if len(found[3]) == len("26") else 0
        day, month = (day, month) if order is DateOrder.DAY_FIRST else (month, day)
    try:
        return _at(dated(date(year, month, day)), found.groups()[3:])
    except ValueError:
        raise InputError(
            f"“{text}” is no date {order}", remedy="is the other order meant, or is it a slip?"
        ) from None


def _at(day: date, clock: tuple[str | None, ...]) -> date | datetime:
    """The day, or the moment where a clock stands behind it."""
    hours, minutes, seconds, half = clock
    if hours is None or minutes is None:
        return day
    hour = int(hours)
    if half:
        hour = hour % _NOON + (_NOON if half.casefold() == "p" else 0)
    return datetime.combine(day, time(hour, int(minutes), int(seconds or 0)))


def order_shown(cells: Iterable[str]) -> DateOrder | None:
    """The order that a whole column proves by numbers no month has; None where it does not."""
    found = [match for cell in cells if (match := _DAY_OR_MONTH.fullmatch(cell.strip()))]
    day_first = any(int(match[1]) > _MONTHS for match in found)
    month_first = any(int(match[2]) > _MONTHS for match in found)
    if day_first is month_first:
        return None
    return DateOrder.DAY_FIRST if day_first else DateOrder.MONTH_FIRST


def way_to_read(text: str, shown: DateOrder | None, ways: Ways = COMMAND_LINE) -> str:
    """How a date in another order than ISO 8601 is read; empty where it is no such date."""
    if _DAY_OR_MONTH.fullmatch(text) is None:
        return ""
    write = "write it like 2026-03-31"
    if not ways.dates:
        return write
    if shown is None:
        return f"day and month can be read in two ways; {ways.dates}, or {write}"
    first, way = (
        ("day", ways.day_first) if shown is DateOrder.DAY_FIRST else ("month", ways.month_first)
    )
    return f"the {first} stands first throughout this file: {way}"
