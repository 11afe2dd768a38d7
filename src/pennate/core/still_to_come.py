"""A day still to come, on what is recorded as done: most often the year is a slip."""

from __future__ import annotations

from datetime import date, timedelta

GRACE = timedelta(days=1)
"""Whoever wrote the day may be east of this clock."""
_LEAP_YEARS = 8
"""Years within which every day of the calendar comes round."""


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
