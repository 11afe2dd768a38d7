"""A count with its noun."""

from __future__ import annotations


def plural(count: int, one: str, many: str = "") -> str:
    """A count with its noun: 1 set, 2 sets."""
    return f"{count} {one}" if count == 1 else f"{count} {many or one + 's'}"
