"""Names of exercises in a training log: which are known, what the others could mean."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from types import MappingProxyType

from pennate.core.exercise import Catalogue
from pennate.core.near import did_you_mean, likeness, nearest
from pennate.errors import InputError
from pennate.files.dates import DateOrder, read_ordered
from pennate.files.log_cells import read_when
from pennate.files.log_columns import log_table

MOST_NEAR = 3
"""Exercises offered for a name."""
_FIRST_NAME = 0.05  # number: of likeness; the name an exercise goes by comes before its others


@dataclass(frozen=True, slots=True)
class UnknownName:
    """A name that the catalogue does not have, and what the log says of it."""

    written: str
    sets: int
    first: date | None
    last: date | None
    near: tuple[str, ...]
    """Ids of the exercises whose names are nearest, best first."""


def known_id(catalogue: Catalogue, written: str) -> str | None:
    """The exercise that goes by this id or name."""
    if written in catalogue:
        return written
    found = catalogue.find(written)
    return found.id if found else None


def meanings(catalogue: Catalogue, names: Mapping[str, str]) -> dict[str, str]:
    """Ids of the exercises that names of hers mean. Raises InputError where there is none such."""
    found = {}
    for written, meant in names.items():
        exercise = catalogue.find(meant)
        if exercise is None:
            remedy = did_you_mean(meant, catalogue.names(), "see: pennate exercises")
            raise InputError(f"there is no exercise “{meant}”", remedy=remedy)
        found[written] = exercise.id
    return found


def unknown_names(
    source: Path | bytes,
    catalogue: Catalogue,
    order: DateOrder | None = None,
    columns: Mapping[str, str] = MappingProxyType({}),
) -> tuple[UnknownName, ...]:
    """The names of a log that no exercise has, those with most sets first.

    Raises InputError as `read_table` does; other problems of the log are for `read_log`.
    """
    table, _ = log_table(source, "log.csv", columns)
    if "exercise" not in table.header:
        return ()
    days: dict[str, list[date | None]] = {}
    for _, cells in table.rows:
        row = dict(zip(table.header, cells, strict=True))
        written = row["exercise"].strip()
        if written and known_id(catalogue, written) is None:
            days.setdefault(written, []).append(_day(row, order))
    found = (_unknown(catalogue, written, dates) for written, dates in days.items())
    return tuple(sorted(found, key=lambda one: (-one.sets, one.written.casefold())))


def _unknown(catalogue: Catalogue, written: str, dates: list[date | None]) -> UnknownName:
    told = [day for day in dates if day]
    near = tuple(nearest_ids(written, catalogue))
    return UnknownName(written, len(dates), min(told, default=None), max(told, default=None), near)


def _day(row: Mapping[str, str], order: DateOrder | None) -> date | None:
    """The day of a row, where it can be read; a wrong one is told when the log is read."""
    try:
        written = row.get("date", "").strip()
        when = read_when(written) if order is None else read_ordered(written, order)
    except InputError:
        return None
    return when.date() if isinstance(when, datetime) else when


def nearest_ids(written: str, catalogue: Catalogue) -> list[str]:
    """Ids of the three exercises one of whose names is nearest."""
    found: dict[str, float] = {}
    for name in nearest(written, catalogue.names(), most=4 * MOST_NEAR):
        exercise = catalogue.find(name)
        if exercise is not None:
            called = name in {exercise.id, exercise.name.casefold()}
            score = likeness(written, name) + _FIRST_NAME * called
            found[exercise.id] = max(score, found.get(exercise.id, 0.0))
    return sorted(found, key=lambda one: -found[one])[:MOST_NEAR]
