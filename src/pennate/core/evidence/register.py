"""How a constant is declared once, and how all of them are listed."""

from __future__ import annotations

import importlib
import pkgutil
from dataclasses import dataclass
from enum import StrEnum


class Status(StrEnum):
    """How well a number is known."""

    PUBLISHED = "published"
    STANDARD = "standard or definition"
    OPEN_DATA = "computed from open data"
    COMMON_PRACTICE = "common practice"
    FROM_MEMORY = "from memory"
    FITTED = "fitted by our benchmark"
    OUR_CHOICE = "our choice"


@dataclass(frozen=True, slots=True)
class Constant:
    """One number with its unit, plausible range, source and where it is used."""

    name: str
    value: float
    unit: str
    low: float
    high: float
    status: Status
    source: str
    used_for: str
    contested: str = ""
    """What is disputed about it, if anything."""

    def __float__(self) -> float:
        return self.value


_REGISTER: dict[str, Constant] = {}


def constant(  # noqa: PLR0913 - one keyword for each column of the register
    name: str,
    value: float,
    unit: str,
    *,
    low: float | None = None,
    high: float | None = None,
    status: Status,
    source: str,
    used_for: str,
    contested: str = "",
) -> float:
    """Declare a constant in the register and return its plain value.

    Raises ValueError for a second declaration of the name or a value outside its range.
    """
    if name in _REGISTER:
        raise ValueError(f"constant {name} is declared twice")
    entry = Constant(
        name,
        value,
        unit,
        value if low is None else low,
        value if high is None else high,
        status,
        source,
        used_for,
        contested,
    )
    if not entry.low <= value <= entry.high:
        raise ValueError(f"constant {name} = {value} lies outside {entry.low} to {entry.high}")
    _REGISTER[name] = entry
    return value


def constant_named(name: str) -> Constant:
    """The constant of this name; KeyError without one."""
    every_constant()
    return _REGISTER[name]


def every_constant() -> tuple[Constant, ...]:
    """All constants, by name; imports each module of the register first."""
    package = importlib.import_module("pennate.core.evidence")
    for module in pkgutil.iter_modules(package.__path__):
        importlib.import_module(f"{package.__name__}.{module.name}")
    return tuple(_REGISTER[name] for name in sorted(_REGISTER))
