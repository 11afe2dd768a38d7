"""What a pause in a log means to an audit of it, in words."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise

from pennate.app.back_again import WEEK
from pennate.app.body_recovery import coming_back
from pennate.app.book import Book
from pennate.app.week_log import PACE_WEEKS
from pennate.body.recovery import layoff_return
from pennate.core.evidence.safety import NEW_AGAIN_DAYS
from pennate.core.plural import plural

USUAL = "The week above is the usual one."


def pause_lines(book: Book, today: date) -> tuple[str, ...]:
    """The pause she is in or comes back from, and one that her pace and sides still rest on.

    `book` may be a log taken as of its last set, which `today` may be long after.
    """
    if (off := (today - book.today).days) >= NEW_AGAIN_DAYS and (back := layoff_return(off)):
        return (f"The log ends on {_day(book.today)} and is taken as of then. {back.say} {USUAL}",)
    coming = coming_back(book)
    if coming is not None and coming.sets < 1:
        return (f"{coming.say} {USUAL}",)
    return tuple(_lately(book))


def _lately(book: Book) -> Iterator[str]:
    """A pause within the weeks that her pace and her sides are judged by, and over since."""
    since = book.today - timedelta(weeks=PACE_WEEKS)
    days = [done.day for done in book.history()]
    for last, first in pairwise(days):
        if first > since and (first - last).days >= NEW_AGAIN_DAYS:
            weeks = plural((first - last).days // WEEK, "week")
            yield (
                f"{weeks} without a session until {_day(first)}: pace, left and right rest on the "
                f"other sessions of {PACE_WEEKS} weeks."
            )


def _day(day: date) -> str:
    return f"{day:%-d %B %Y}"
