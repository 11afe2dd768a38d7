"""The training log as CSV: read whole or refused whole, and written so that it reads back."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from types import MappingProxyType
from typing import Any

from pennate.core.check import Asked, questions_about
from pennate.core.exercise import Catalogue
from pennate.core.history import History
from pennate.core.near import offered
from pennate.core.performed import PerformedSet
from pennate.core.quantities import Unit
from pennate.core.question import Question
from pennate.errors import InputError, Where
from pennate.files.csv_text import Table, several, write_table
from pennate.files.dates import DateOrder, order_shown, read_ordered, way_to_read
from pennate.files.log_cells import (
    COLUMNS,
    READERS,
    REQUIRED,
    RPE,
    cells_of,
    meant_by,
    read_rpe,
)
from pennate.files.log_columns import log_table
from pennate.files.log_names import known_id, nearest_ids
from pennate.files.ways import COMMAND_LINE, Ways

ONE_SENTENCE_EACH = 3
"""Problems told in full; the rest are counted."""
COUNTED = frozenset({"session", "set"})
"""Columns that the order of the rows can stand in for."""
ONE_SESSION = "1"
"""Name of the one session of a day whose file names none."""


@dataclass(frozen=True, slots=True)
class LogFile:
    """What a log file says, in the order of the file."""

    rows: tuple[PerformedSet, ...]
    questions: tuple[Question, ...]
    columns: frozenset[str]
    """Columns of the contract that the file has, or that were given for the whole of it."""
    others: tuple[str, ...]
    """Its other columns: kept with the sets, and not understood."""
    lines: Mapping[str, int]
    """Line of each row, by the set's identity."""
    rpe: str = ""
    """Its column of RPE, where reserve was read from that."""
    counted: frozenset[str] = frozenset()
    """Exercises of which it was said, with this reading, what their loads count."""


@dataclass(slots=True)
class _Reading:
    """A file on its way in, and what is wrong with it so far."""

    table: Table
    catalogue: Catalogue
    new: frozenset[str]
    names: Mapping[str, str]
    unit: Unit | None
    unknown_ok: bool
    in_order: bool
    dates: DateOrder | None
    ways: Ways
    errors: list[InputError]
    count: int = 0
    done: dict[tuple[date, str], int] = field(default_factory=lambda: defaultdict(int))
    """Sets of each session so far, where they are counted as they stand."""
    shown: DateOrder | None = None
    """The order of day and month that the whole file proves."""
    rpe: str = ""
    """The column of RPE that reserve is read from."""

    def complain(self, error: InputError, line: int, field: str) -> None:
        """Note a problem; only the first few are kept in words."""
        self.count += 1
        if len(self.errors) < ONE_SENTENCE_EACH:
            where = Where(self.table.name, line, field)
            self.errors.append(InputError(error.what, where, error.remedy))


def read_log(  # noqa: PLR0913 - one keyword for each choice of a caller
    source: Path | bytes,
    catalogue: Catalogue,
    *,
    new: frozenset[str] = frozenset(),
    names: Mapping[str, str] = MappingProxyType({}),
    unit: Unit | None = None,
    unknown_ok: bool = False,
    in_order: bool = False,
    dates: DateOrder | None = None,
    columns: Mapping[str, str] = MappingProxyType({}),
    ways: Ways = COMMAND_LINE,
    today: date | None = None,
    ask: bool = True,
    name: str = "",
) -> LogFile:
    """Read a training log.

    `new` are exercise names to accept although the catalogue lacks them, `names` says which
    exercise is meant by names of her own, `unit` is for loads without one, `today` lets days to
    come be asked about. Exercises may be written by any name of the catalogue; the rows carry
    its id. With `in_order` the sets of a session are counted as they stand, and a day without a
    session's name is one; `dates` says what stands first in dates that are not of ISO 8601;
    `columns` are columns of the contract by headings of her own; `ways` are the words in which
    the place that reads the log offers all of these. Without `ask`, only the order of the rows
    is asked about, for a caller who knows more sets to compare with.

    Raises InputError with the first three problems and their count; never reads in part.
    """
    name = name or (source.name if isinstance(source, Path) else "log.csv")
    table, unit_named = log_table(source, name, columns)
    unit = unit or unit_named
    _require(table, ways, in_order=in_order)
    wrong = list(table.problems)
    reading = _Reading(
        table, catalogue, new, names, unit, unknown_ok, in_order, dates, ways, wrong, len(wrong)
    )
    reading.shown = order_shown(table.column("date")) if dates is None else dates
    reading.rpe = rpe = _rpe_column(table)
    rows = _rows(reading)
    if reading.count:
        raise several(reading.errors, reading.count, name)
    lines = {done.identity: line for line, done in rows}
    sets = tuple(done for _, done in rows)
    asked = questions_about(Asked(History.of(sets), catalogue, today)) if ask else ()
    found = [placed(question, lines, name) for question in (*_jumbled(sets), *asked)]
    found.sort(key=lambda question: question.where.line or 0)
    given = (*(("unit",) if unit else ()), *(("rir",) if rpe else ()))
    known = frozenset(COLUMNS) & {*table.header, *given}
    others = tuple(column for column in table.header if column and column not in READERS)
    return LogFile(sets, tuple(found), known, others, lines, rpe)


def _rpe_column(table: Table) -> str:
    """The column of RPE that tells the reserve; empty where there is none, or reserve itself."""
    if "rir" in table.header:
        return ""
    named = (one for one in table.header if one.casefold().partition("(")[0].strip() == RPE)
    return next(named, "")


def write_log(history: Iterable[PerformedSet]) -> str:
    """The log as CSV, unknown columns behind the agreed ones, such that it reads back."""
    sets = tuple(history)
    extra = tuple(dict.fromkeys(column for done in sets for column in done.extra))
    rows = ((*cells_of(done), *(done.extra.get(column, "") for column in extra)) for done in sets)
    return write_table((*COLUMNS, *extra), rows)


def placed(question: Question, lines: Mapping[str, int], name: str) -> Question:
    """The question with its place in the file, where the set is in the file."""
    line = lines.get(question.about)
    return question if line is None else replace(question, where=Where(name, line, question.field))


def _require(table: Table, ways: Ways, *, in_order: bool) -> None:
    needed = [column for column in REQUIRED if not (in_order and column in COUNTED)]
    missing = [column for column in needed if column not in table.header]
    if missing:
        meant = {column: meant_by(column) for column in table.header if column not in COLUMNS}
        near = [column for column, known in meant.items() if known == missing[0]]
        slip = f"is “{near[0]}” meant? " if near else ""
        counted = _in_order(ways) if set(missing) <= COUNTED else ""
        raise InputError(
            f"the header lacks {', '.join(missing)}",
            Where(table.name, 1),
            counted or f"{slip}{', '.join(needed)} are needed",
        )
    if not table.rows and not table.problems:
        raise InputError("there is a header but no set", Where(table.name))


def _rows(reading: _Reading) -> list[tuple[int, PerformedSet]]:
    rows: list[tuple[int, PerformedSet]] = []
    seen: dict[str, int] = {}
    names: dict[str, str | None] = {}
    for line, cells in reading.table.rows:
        before = reading.count
        values, extra = _values(reading, line, cells)
        if reading.count > before:
            continue
        _mend_unit(reading, line, values)
        if reading.in_order:
            _count(reading, values)
        _name_exercise(reading, line, values, names)
        done = PerformedSet(**values, extra=extra)
        first = seen.setdefault(done.identity, line)
        if first != line:
            reading.complain(_repeated(done, first, reading.ways), line, "id" if done.id else "set")
        rows.append((line, done))
    return rows


def _count(reading: _Reading, values: dict[str, Any]) -> None:
    """Number a set by its place in the file."""
    when: date | datetime = values["when"]
    session = values.setdefault("session", ONE_SESSION)
    day = when.date() if isinstance(when, datetime) else when
    reading.done[day, session] += 1
    values["number"] = reading.done[day, session]


def _values(
    reading: _Reading, line: int, cells: list[str]
) -> tuple[dict[str, Any], dict[str, str]]:
    values: dict[str, Any] = {"id": ""}
    extra: dict[str, str] = {}
    for column, cell in zip(reading.table.header, cells, strict=True):
        if column not in READERS:
            if column:
                extra[column] = cell
                _read_rpe(reading, line, column, cell.strip(), values)
            elif cell.strip():
                reading.complain(InputError(f"“{cell}” stands under no column name"), line, "")
            continue
        text = cell.strip()
        if reading.in_order and column == "set":
            continue
        if not text:
            if column in REQUIRED and not (reading.in_order and column in COUNTED):
                reading.complain(_empty(column), line, column)
            continue
        field, read = READERS[column]
        try:
            dated = column == "date" and reading.dates is not None
            values[field] = read_ordered(text, reading.dates) if dated else read(text)
        except InputError as error:
            way = way_to_read(text, reading.shown, reading.ways) if reading.dates is None else ""
            told = InputError(error.what, remedy=way) if way and column == "date" else error
            reading.complain(told, line, column)
    return values, extra


def _read_rpe(reading: _Reading, line: int, column: str, text: str, values: dict[str, Any]) -> None:
    """The reserve of an RPE; the cell itself stays beside the set as it was."""
    if not text or column != reading.rpe:
        return
    try:
        values["effort"] = read_rpe(text)
    except InputError as error:
        reading.complain(error, line, column)


def _empty(column: str) -> InputError:
    hold = "a hold has reps 1 and its seconds" if column == "reps" else ""
    return InputError(f"the {column} {'are' if hold else 'is'} missing", remedy=hold)


def _mend_unit(reading: _Reading, line: int, values: dict[str, Any]) -> None:
    load: Fraction | None = values.get("load")
    if load and "unit" not in values:
        if reading.unit is not None:
            values["unit"] = reading.unit
            return
        whole = f", or {reading.ways.unit} for all loads without one" if reading.ways.unit else ""
        what = InputError(
            f"the load {load} has no unit" if load.denominator == 1 else "the load has no unit",
            remedy=f"write kg or lb beside it{whole}",
        )
        reading.complain(what, line, "unit")


def _name_exercise(
    reading: _Reading, line: int, values: dict[str, Any], names: dict[str, str | None]
) -> None:
    """Put the catalogue's id in the place of the name; each unknown name is told once."""
    written = values["exercise"]
    if written not in names:
        names[written] = _known_name(reading, written)
        if names[written] is None:
            reading.complain(_unknown(reading, written), line, "exercise")
    values["exercise"] = names[written] or written


def _known_name(reading: _Reading, written: str) -> str | None:
    if written in reading.names:
        return reading.names[written]
    if written in reading.new and written not in reading.catalogue:
        return written
    return known_id(reading.catalogue, written) or (written if reading.unknown_ok else None)


def _unknown(reading: _Reading, written: str) -> InputError:
    what = f"“{written}” is not in the catalogue"
    if reading.count >= ONE_SENTENCE_EACH:
        return InputError(what)  # it will only be counted, so nobody needs its neighbours
    ids = nearest_ids(written, reading.catalogue)
    meant = ids[0] if len(ids) == 1 else "…"
    ways = reading.ways.names.format(written=written, meant=meant)
    return InputError(what, remedy=f"{offered(ids, '')} {ways}".strip())


def _in_order(ways: Ways) -> str:
    """How rows are counted as they stand; empty where a place does not offer that."""
    if not ways.in_order:
        return ""
    return f"if the rows stand in the order they were done, {ways.in_order}"


def _repeated(done: PerformedSet, first: int, ways: Ways) -> InputError:
    if done.id:
        return InputError(f"the id {done.id} stands in line {first} already")
    counts = "sets count through the whole session, across exercises"
    return InputError(
        f"set {done.number} of session {done.session} on {done.day} stands in line {first} already",
        remedy=": ".join(filter(None, (counts, _in_order(ways)))),
    )


def _jumbled(sets: tuple[PerformedSet, ...]) -> Iterable[Question]:
    """Sessions whose rows run neither up nor down in set number."""
    sessions: dict[tuple[date, str], list[PerformedSet]] = defaultdict(list)
    for done in sets:
        sessions[done.day, done.session].append(done)
    for rows in sessions.values():
        steps = [(after.number > before.number, after) for before, after in pairwise(rows)]
        if len({up for up, _ in steps}) > 1:
            first_up = steps[0][0]
            odd = next(after for up, after in steps if up is not first_up)
            text = (
                f"set {odd.number} of session {odd.session} on {odd.day} stands out of order; "
                "sets are taken by their number, is it right?"
            )
            yield Question(about=odd.identity, field="set", value=str(odd.number), text=text)
