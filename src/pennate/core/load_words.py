"""A load as it is said: the number with its unit, and what the number counts."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

from pennate.core.exercise import Exercise
from pennate.core.performed import PerformedSet
from pennate.core.quantities import LoadReading, format_number

READING_WORDS: Mapping[LoadReading, str] = MappingProxyType(
    {
        LoadReading.TOTAL: "",
        LoadReading.EACH: "each",
        LoadReading.SIDE: "a side",
        LoadReading.PLATES: "in plates",
        LoadReading.LABEL: "on the pin",
    }
)
"""How a load was counted, said after it; “all together” needs no word."""


_BANDS = re.compile(r"(^|_)bands?(_|$)")


def on_bands(item: str) -> bool:
    """Whether an item is a set of bands, by its name in the gym: what it pulls is no pin's mark."""
    return _BANDS.search(item) is not None


def done_load_words(done: PerformedSet) -> str:
    """The load of a done set as it was written; empty for body weight alone."""
    if done.load is None or not done.load:
        return ""
    number = format_number(abs(done.load))
    banded = done.reading is LoadReading.LABEL and on_bands(done.equipment)
    suffix = "of help" if done.load < 0 else "of band" if banded else READING_WORDS[done.reading]
    return f"{number} {done.unit or ''} {suffix}".rstrip()


NO_LOAD = "no load noted"
_BY_NUMBER = frozenset({LoadReading.TOTAL, LoadReading.EACH})
"""Readings by which a nought is no load; beside a bar or a sled it leaves that."""


def lacks_load(done: PerformedSet, exercise: Exercise | None) -> bool:
    """Whether a set that cannot be done with body weight alone says no load.

    Nobody knows that of an exercise of her own, and a hold is told by its seconds. On a band
    too the pull must be told: left out, it would be read as next to no strength.
    """
    if done.load or exercise is None or exercise.own or done.seconds is not None:
        return False
    if done.load is not None and done.reading not in _BY_NUMBER:
        return False
    return exercise.body_mass is None and not exercise.timed


def told_load_words(done: PerformedSet, exercise: Exercise | None) -> str:
    """The same where nothing may stay unsaid: “body weight”, or that no load is noted."""
    bare = NO_LOAD if lacks_load(done, exercise) else "body weight"
    return done_load_words(done) or bare
