"""Writing TOML that people read: pairs in a given order, lists of rows one row a line."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """An inline table, already written."""

    text: str


Value = str | int | float | bool | Row | Mapping[str, "Value"] | Sequence["Value"]
Pairs = Iterable[tuple[str, Value]]

_ESCAPES = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}


def text_value(text: str) -> str:
    """A basic string with everything escaped that TOML wants escaped."""
    return '"' + "".join(_escaped(char) for char in text) + '"'


def _escaped(char: str) -> str:
    if char in _ESCAPES:
        return _ESCAPES[char]
    return f"\\u{ord(char):04x}" if ord(char) < 0x20 or ord(char) == 0x7F else char


def key_text(key: str) -> str:
    """A key, bare where TOML allows it."""
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else text_value(key)


def inline(pairs: Pairs) -> Row:
    """Pairs as an inline table on one line."""
    inner = ", ".join(f"{key_text(key)} = {value_text(value)}" for key, value in pairs)
    return Row(f"{{ {inner} }}" if inner else "{}")


def value_text(value: Value) -> str:
    """Any value; a list of rows takes a line for each row."""
    if isinstance(value, Row):
        return value.text
    if isinstance(value, bool | int | float):
        return json.dumps(value)
    if isinstance(value, str):
        return text_value(value)
    if isinstance(value, Mapping):
        return inline(value.items()).text
    parts = [value_text(one) for one in value]
    if any(isinstance(one, Row) for one in value):
        return "[\n" + "".join(f"  {part},\n" for part in parts) + "]"
    return f"[{', '.join(parts)}]"


def pair_lines(pairs: Pairs) -> list[str]:
    """Pairs as lines of a table."""
    return [f"{key_text(key)} = {value_text(value)}" for key, value in pairs]
