"""Columns of a training log under other headings: which there are, and what they were said to hold.

A log without a column of loads, with one that is called weight, would come in without its loads:
that is asked before anything is taken in.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from pennate.core.quantities import UNIT_SPELLINGS, Unit
from pennate.errors import InputError, Where
from pennate.files.csv_text import Table, read_table
from pennate.files.log_cells import COLUMNS, RPE, meant_by
from pennate.files.ways import Ways

LOAD = "load"
UNREAD = "+unread"
"""The answer that a column is kept beside the sets and not read; no column can be called so."""
MOST_SHOWN = 3
"""Cells shown of a column."""


@dataclass(frozen=True, slots=True)
class Heading:
    """A column that is not read, and the column of the contract it likely is."""

    written: str
    meant: str
    cells: tuple[str, ...]
    """The first different cells of it, so that she knows which column it is."""


def log_table(
    source: Path | bytes, name: str, columns: Mapping[str, str]
) -> tuple[Table, Unit | None]:
    """A log as a table, its columns called as they were said to be, and the unit they name.

    A column that the file itself has under its name stays that. Raises InputError as
    `read_table` does, and where two columns are said to be one.
    """
    table = read_table(source, name, COLUMNS)
    own = set(table.header) & set(COLUMNS)
    called = {
        heading: meant
        for heading in table.header
        if (meant := columns.get(heading, UNREAD)) in COLUMNS
        and heading not in own
        and meant not in own
    }
    for meant in set(called.values()):
        two = [heading for heading, one in called.items() if one == meant]
        if len(two) > 1:
            raise InputError(
                f"“{two[0]}” and “{two[1]}” cannot both be {meant}",
                Where(name, 1),
                "leave one of them unread",
            )
    header = tuple(called.get(one, one) for one in table.header)
    return replace(table, header=header), _unit_in(called)


def _unit_in(called: Mapping[str, str]) -> Unit | None:
    """The unit that the heading of the loads names, as “Weight (kg)” does."""
    named = {
        UNIT_SPELLINGS[word]
        for heading, meant in called.items()
        if meant == LOAD
        for word in re.findall("[a-z]+", heading.casefold())
        if word in UNIT_SPELLINGS
    }
    return named.pop() if len(named) == 1 else None


def headings_of(table: Table) -> tuple[Heading, ...]:
    """What is to be asked of the columns before a log is taken in, the loads first.

    Nothing is, where loads have their column or none seems to hold them.
    """
    missing = {
        heading: meant
        for heading in table.header
        if heading not in COLUMNS
        and (meant := meant_by(heading)) in COLUMNS
        and meant not in table.header
        and heading.casefold().partition("(")[0].strip() != RPE  # read as it is
    }
    found = [_heading(table, one, meant) for one, meant in missing.items() if meant != "set"]
    full = [one for one in found if one.cells]
    loads = [one for one in full if one.meant == LOAD and _has_numbers(table, one.written)]
    return (*loads, *(one for one in full if one.meant != LOAD)) if loads else ()


def _heading(table: Table, written: str, meant: str) -> Heading:
    cells = dict.fromkeys(cell.strip() for cell in table.column(written))
    return Heading(written, meant, tuple(filter(None, cells))[:MOST_SHOWN])


def _has_numbers(table: Table, heading: str) -> bool:
    return any(character.isdigit() for cell in table.column(heading) for character in cell)


def not_said(table: Table, said: Mapping[str, str], ways: Ways) -> InputError | None:
    """What to refuse a log with while it is not said whether a column holds the loads."""
    headings = headings_of(table)
    loads = [one for one in headings if one.meant == LOAD and one.written not in said]
    if not loads:
        return None
    units = [one for one in headings if one.meant == "unit" and one.written not in said]
    told = " ".join(f'--column "{one.written}={one.meant}"' for one in (*loads[:1], *units))
    return InputError(
        f"the column “{loads[0].written}” probably holds the loads, and no column is called {LOAD}",
        Where(table.name, 1),
        ways.columns.format(written=loads[0].written, told=told),
    )
