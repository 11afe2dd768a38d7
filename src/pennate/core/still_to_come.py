"""What is recorded has happened: a day still to come is a slip, most often of the year."""

from __future__ import annotations

from datetime import date, timedelta

from pennate.errors import InputError

GRACE = timedelta(days=1)
"""Whoever wrote the day may be east of this clock."""
_LEAP_YEARS = 8
"""Years within which every day of the calendar comes round."""


def happened(day: date, today: date | None) -> date:
    """The day, if it can have been; raises InputError with the likely slip otherwise.

    Without `today`, days are not judged.
    """
    if today is None or day <= today + GRACE:
        return day
    raise InputError(
        f"{day} is still to come, as today is {today}",
        remedy=f"is the year wrong, and {_last(day, today)} meant? Write the day it was done",
    )


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
