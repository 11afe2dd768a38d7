"""A day still to come, on what is recorded as done: most often the year is a slip."""

from __future__ import annotations

from datetime import date, timedelta

from pennate.errors import InputError

GRACE = timedelta(days=1)
"""Whoever wrote the day may be east of this clock."""
_LEAP_YEARS = 8
"""Years within which every day of the calendar comes round."""

_LAST_YEAR = 9900
"""The calendar ends with 9999, and what follows from a reading lies some time after it."""


def dated(day: date) -> date:
    """The day; raises InputError for one at the end of the calendar, a filler for none."""
    if day.year > _LAST_YEAR:
        raise InputError(
            f"the year {day.year} is no year to count from",
            remedy="does it stand for a day not known? Write the day it was done",
        )
    return day


def slip_of(day: date, today: date) -> str:
    """What to ask about a day still to come, and which was likely meant; empty if it has been."""
    if day <= today + GRACE:
        return ""
    meant = _last(day, today)
    return f"{day} is still to come, as today is {today}; is the year wrong, and {meant} meant?"


def _last(day: date, today: date) -> date:
    """The last time that day of the calendar was."""
    for year in range(today.year, today.year - _LEAP_YEARS - 1, -1):
        try:
            found = day.replace(year=year)
        except ValueError:
            continue  # no 29 February in that year
        if found <= today:
            return found
    return today
