"""The passed-on routine as a calendar: one event a day, each week again (RFC 5545)."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from hashlib import sha256

from pennate.core.caution_texts import RED_FLAGS
from pennate.core.passed_on import Passed, PassedDay
from pennate.core.prescribed import WEEKDAYS

MOST_OCTETS = 75
"""Of a line, its end not counted (RFC 5545, 3.1)."""
ENDS = "First time on an exercise: begin light. Emergency: "


def calendar(routine: Passed, since: date) -> str:
    """The calendar from a date on; the same bytes for the same routine and date.

    Days have no time of day: nobody but the follower knows when they train.
    """
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//pennate//passed-on routine//EN",
        *(line for day in routine.days if not day.rest for line in _event(routine, day, since)),
        "END:VCALENDAR",
    ]
    return "".join(f"{part}\r\n" for line in lines for part in _folded(line))


def _event(routine: Passed, day: PassedDay, since: date) -> Iterator[str]:
    first = since + timedelta(days=(WEEKDAYS.index(day.day) - since.weekday()) % len(WEEKDAYS))
    title = f"{routine.name}: {day.focus or day.day}"
    told = "\n".join(_told(day))
    named = sha256("\n".join((title, told, first.isoformat())).encode()).hexdigest()[:24]
    yield "BEGIN:VEVENT"
    yield f"UID:{named}@pennate.invalid"
    yield f"DTSTAMP:{since:%Y%m%d}T000000Z"
    yield f"DTSTART;VALUE=DATE:{first:%Y%m%d}"
    yield "RRULE:FREQ=WEEKLY"
    yield "TRANSP:TRANSPARENT"
    yield f"SUMMARY:{_escaped(title)}"
    yield f"DESCRIPTION:{_escaped(told)}"
    yield "END:VEVENT"


def _told(day: PassedDay) -> Iterator[str]:
    """The day in lines: minutes, then each exercise with its sets in shorthand."""
    if day.minutes is not None:
        low, high = day.minutes[1:]
        yield f"About {day.minutes[0]} minutes ({low}–{high})"
    if day.preparation:
        yield f"First: {'; '.join(day.preparation)}"
    for stop in day.stops:
        for one in stop.exercises:
            mark = f"{one.mark} " if one.mark else ""
            side = ", each side" if one.asked.each_side else ""
            sets = "; ".join(group.short for group in one.asked.told)
            yield f"{mark}{one.asked.name} ({one.asked.on}): {sets}{side}"
    yield ENDS + RED_FLAGS.text


def _escaped(text: str) -> str:
    """A text value (RFC 5545, 3.3.11)."""
    for sign in "\\;,":
        text = text.replace(sign, f"\\{sign}")
    return text.replace("\r\n", "\n").replace("\n", "\\n")


def _folded(line: str) -> Iterator[str]:
    """A content line in pieces of at most 75 octets, never within a character."""
    piece, room = "", MOST_OCTETS
    for sign in line:
        size = len(sign.encode())
        if size > room:
            yield piece
            piece, room = " ", MOST_OCTETS - 1
        piece, room = piece + sign, room - size
    yield piece
