"""An item that an exercise is not known on: that this is so, and those that it is known on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from pennate.app.known_items import KnownItem
from pennate.core.exercise import Exercise

MOST_LETTERS = 40
"""Of a wrong address that are said again."""


@dataclass(frozen=True, slots=True)
class UnknownItem:
    """What is wrong with the address, and where to go instead."""

    id: str
    name: str
    words: str
    known: tuple[tuple[str, str, str], ...]
    """Address, name, and when the exercise was last done there."""


def unknown_item(exercise: Exercise, item: str, known: Sequence[KnownItem]) -> UnknownItem:
    """The page of an exercise on an item that it is not known on."""
    asked = item if len(item) <= MOST_LETTERS else f"{item[:MOST_LETTERS]}…"
    return UnknownItem(
        exercise.id,
        exercise.name,
        f"“{asked}” is not among the items that it is known on here.",
        tuple((_address(exercise, one), one.name, _about(one)) for one in known),
    )


def _address(exercise: Exercise, one: KnownItem) -> str:
    return f"/exercises/{exercise.id}?{urlencode({'item': one.id})}"


def _about(one: KnownItem) -> str:
    return f"last {one.last:%-d %B %Y}" if one.last else "in your gym, not done on it yet"
