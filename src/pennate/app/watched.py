"""Long replays can be watched: whoever asks is told how many sets of how many are taken in."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

T = TypeVar("T")

Watch = Callable[[int, int], None]
"""Told how many are done, of how many."""

EVERY = 50
"""Sets between two tellings, about a thirtieth of a second."""


def unwatched(_done: int, _total: int) -> None:
    """Nobody looks."""


def watched(items: Iterable[T], total: int, watch: Watch) -> Iterator[T]:
    """The same items; whoever watches is told on the way, and once at the end."""
    for place, item in enumerate(items):
        if place % EVERY == 0:
            watch(place, total)
        yield item
    watch(total, total)
