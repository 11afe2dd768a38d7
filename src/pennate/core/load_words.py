"""A load as it is said: the number with its unit, and what the number counts."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

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


def done_load_words(done: PerformedSet) -> str:
    """The load of a done set as it was written; empty for body weight alone."""
    if done.load is None or not done.load:
        return ""
    number = format_number(abs(done.load))
    suffix = "of help" if done.load < 0 else READING_WORDS[done.reading]
    return f"{number} {done.unit or ''} {suffix}".rstrip()
