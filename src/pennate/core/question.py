"""A readable but improbable value: kept as written, and asked about."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.errors import Where


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One thing to ask the lifter; `text` is a sentence with the likely slip."""

    about: str
    """Identity of the set, or id of the entry, that the value belongs to."""
    field: str
    """The column, or key, of the file."""
    value: str
    text: str
    where: Where = Where()
    """The place in an imported file, where there is one."""

    def __str__(self) -> str:
        return f"{self.where}: {self.text}" if str(self.where) else self.text
