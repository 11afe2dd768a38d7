"""Drawings as they travel: many of one item differ in a few strokes, so strokes are shared."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from pennate.core.gym import AnyItem
from pennate.core.loaded import Loaded
from pennate.sheets.pictures import picture

_ELEMENT = re.compile(r"(?<=>)")
_DIGITS = re.compile(r"(\d\.\d)\d+")
"""A tenth of a unit of a drawing is as fine as any screen shows."""


@dataclass(frozen=True, slots=True)
class Drawings:
    """Drawings by a short name, each kept once."""

    by_name: dict[str, str] = field(default_factory=dict)
    _names: dict[str, str] = field(default_factory=dict)

    def add(self, load: Loaded | None, item: AnyItem | None) -> str:
        """The name of the drawing of a load on an item; empty where there is none."""
        if load is None or item is None:
            return ""
        svg = _DIGITS.sub(r"\1", picture(load, item))
        name = self._names.setdefault(svg, f"p{len(self._names)}")
        self.by_name[name] = svg
        return name

    def packed(self) -> dict[str, Any]:
        """Elements, each once, and stretches of them for each drawing: place, count, and again."""
        parts: dict[str, int] = {}
        runs = {name: _stretches(svg, parts) for name, svg in self.by_name.items()}
        return {"parts": list(parts), "runs": runs}


def _stretches(svg: str, parts: dict[str, int]) -> list[int]:
    found: list[int] = []
    for part in filter(None, _ELEMENT.split(svg)):
        place = parts.setdefault(part, len(parts))
        if found and found[-2] + found[-1] == place:
            found[-1] += 1
        else:
            found += [place, 1]
    return found


def unpacked(packed: Mapping[str, Any], name: str) -> str:
    """The drawing again; what the script on the phone does too."""
    parts, runs = packed["parts"], packed["runs"][name]
    pairs = zip(runs[::2], runs[1::2], strict=True)
    return "".join("".join(parts[place : place + count]) for place, count in pairs)
