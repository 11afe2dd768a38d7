"""What can go wrong, as one small tree.

PennateError
├── InputError       the caller's file, field or argument is wrong     exit status 2
├── NoAnswerError    the question was fine but has no answer           exit status 1
├── StateError       the data folder cannot be used as it is           exit status 2
└── MissingPartError an optional part (a solver, a browser) is absent  exit status 2
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Where:
    """The place a complaint is about; any part may be unknown."""

    file: str | None = None
    line: int | None = None
    field: str | None = None

    def __str__(self) -> str:
        place = self.file or ""
        if self.line is not None:
            place = f"{place}, line {self.line}" if place else f"line {self.line}"
        if self.field is not None:
            place = f"{place}, {self.field}" if place else self.field
        return place


class PennateError(Exception):
    """Any failure that can be told to a person in one sentence."""

    exit_status = 2


class InputError(PennateError):
    """Wrong input: says what, where, the likely slip and the remedy in one sentence."""

    def __init__(self, what: str, where: Where | None = None, remedy: str = "") -> None:
        self.what = what
        self.where = where or Where()
        self.remedy = remedy
        place = str(self.where)
        sentence = f"{place}: {what}" if place else what
        super().__init__(f"{sentence}; {remedy}" if remedy else sentence)


class NoAnswerError(PennateError):
    """The question has no answer: an infeasible week, or not enough data."""

    exit_status = 1

    def __init__(self, reason: str, nearest: Mapping[str, object] | None = None) -> None:
        self.reason = reason
        self.nearest = dict(nearest or {})
        super().__init__(reason)


class StateError(PennateError):
    """The data folder is missing, damaged, or of a newer version."""


class MissingPartError(PennateError):
    """An optional part is not installed; the sentence says how to get it."""
