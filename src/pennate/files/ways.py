"""How she says what a log leaves open: each complaint has the words of the place it appears in."""

from __future__ import annotations

from dataclasses import dataclass

DAY_FIRST, MONTH_FIRST = "day-first", "month-first"


@dataclass(frozen=True, slots=True)
class Ways:
    """What a place offers; empty where it offers nothing, and then the file is to be mended."""

    in_order: str = ""
    """How rows are counted as they stand."""
    unit: str = ""
    """How one unit is said for all loads without one."""
    dates: str = ""
    """How it is said which of day and month stands first, where the file does not prove it."""
    day_first: str = ""
    """How it is said that the day does."""
    month_first: str = ""
    """How it is said that the month does."""
    names: str = ""
    """How a name is said what it is, with `{written}` and the exercise `{meant}`."""
    columns: str = ""
    """How it is said what a column holds, with the heading `{written}` and all of it `{told}`."""
    load_is: str = ""
    """How it is said what bare loads count, with an exercise `{name}` and the word `{word}`."""
    apart: str = ""
    """Where it is said what a name kept apart is."""


COMMAND_LINE = Ways(
    in_order="take them in order (--in-order)",
    unit="give --unit kg or --unit lb",
    dates=f"say which stands first: --dates {DAY_FIRST} or --dates {MONTH_FIRST}",
    day_first=f"--dates {DAY_FIRST} reads it so",
    month_first=f"--dates {MONTH_FIRST} reads it so",
    names='--as "{written}={meant}" says what it is, --new "{written}" keeps it apart',
    columns='{told} reads it so, --column "{written}=" leaves it unread',
    load_is='give --load-is "{name}={word}"',
    apart='Say what it is on the Data page, or with pennate import --as "NAME=EXERCISE".',
)
"""Every command that reads a log."""

PAGE = Ways(
    in_order="take them in order (“rows in order”, below)",
    unit="choose “are kg” or “are lb” below",
    dates="choose “day first” or “month first” below",
    day_first="choose “day first” below",
    month_first="choose “month first” below",
    apart="Say below what it is.",
)
"""The form of the Data page, which asks for names by itself."""
