"""The planned day a word means; what is none is told with what was probably meant."""

from __future__ import annotations

from pennate.app.book import Book
from pennate.core.near import nearest, offered
from pennate.core.prescribed import WEEKDAYS
from pennate.core.week_names import nearest_exercises, weekday_meant
from pennate.errors import InputError

NEAR = 0.7
"""Likeness of a mistyped day; any two days share their ending."""


def day_to_look_back_on(book: Book, text: str) -> str:
    """A weekday, long or short. Raises InputError that offers the nearest day or exercise."""
    if (weekday := weekday_meant(text)) in WEEKDAYS:
        return weekday
    week = book.week()
    planned = [day.day for day in week.days if not day.rest] if week else []
    exercise = nearest_exercises(text, book.catalogue, most=1)
    remedy = f"one of: {', '.join(planned or WEEKDAYS)}"
    if near := nearest(text, planned, most=1, least=NEAR):
        remedy = offered(near, "")
    elif exercise:
        remedy = f'is the exercise meant? pennate review --why "{exercise[0]}"'
    raise InputError(f"nothing is planned on “{text}”", remedy=remedy)
