"""Comma-separated text in UTF-8 with a header: opened with care, refused in one sentence.

Spreadsheets with decimal commas put semicolons or tabs between the cells; that is read too.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from pennate.core.plural import plural
from pennate.errors import InputError, Where
from pennate.files.unread import unread

_MARKS = {",": "comma", ";": "semicolon", "\t": "tab"}
"""What may stand between two cells."""

MAX_BYTES = 40_000_000
"""Largest file taken in one go: about 250,000 sets, forty years of five days a week."""


@dataclass(frozen=True, slots=True)
class Table:
    """A header and its rows, each with the line it starts on; empty rows are left out."""

    name: str
    header: tuple[str, ...]
    rows: tuple[tuple[int, list[str]], ...]
    problems: tuple[InputError, ...]
    """Rows that do not fit the header; they are not among `rows`."""

    def column(self, name: str) -> Iterator[str]:
        """The cells of a column, from above; nothing where there is no such column."""
        if name in self.header:
            place = self.header.index(name)
            yield from (cells[place] for _, cells in self.rows)


def read_table(source: Path | bytes, name: str, known: Sequence[str]) -> Table:
    """Read a whole table whose header names at least one known column.

    Raises InputError for what is no such table: empty, too large, not UTF-8, another
    separator, no header, a quotation mark that never closes.
    """
    text = text_of(source, name)
    mark = mark_of(text, known)
    lines = _lines(text, name, mark)
    _, header = next(lines, (1, []))
    columns = _header([cell.strip() for cell in header], name, known)
    rows, problems = [], []
    for line, cells in lines:
        if not any(map(str.strip, cells)):
            continue
        if len(cells) == len(columns):
            rows.append((line, cells))
        else:
            problems.append(_length_error(name, line, len(cells), len(columns), mark))
    return Table(name, columns, tuple(rows), tuple(problems))


def write_table(header: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Rows as text that `read_table` takes back; line ends as RFC 4180 has them."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")  # also what makes a lone return quoted
    writer.writerow(header)
    writer.writerows(rows)
    return out.getvalue()


def several(errors: Sequence[InputError], count: int, name: str) -> InputError:
    """One error for many: the first three sentences and the count."""
    if count == 1:
        return errors[0]
    shown = [f"  {error}" for error in errors[:3]]
    more = f"; the first {len(shown)}" if count > len(shown) else ""
    return InputError("\n".join([f"{name}: {count} problems{more}:", *shown]))


def text_of(source: Path | bytes, name: str) -> str:
    """The text of a file; raises InputError for what is too large, no text or not UTF-8."""
    data = source if isinstance(source, bytes) else _bytes(source, name)
    if len(data) > MAX_BYTES:
        raise _too_large(len(data), name)
    if data.startswith(b"PK\x03\x04"):
        raise InputError(
            "this is a spreadsheet, not text", Where(name), "save it as CSV (UTF-8) and try again"
        )
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise InputError("the text is UTF-16, not UTF-8", Where(name), "save it as CSV UTF-8")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise InputError(
            "the text is not UTF-8", Where(name, line), "save it as CSV UTF-8 and try again"
        ) from None


def _bytes(path: Path, name: str) -> bytes:
    try:
        size = path.stat().st_size
        if size > MAX_BYTES:
            raise _too_large(size, name)
        with path.open("rb") as file:
            data = file.read(MAX_BYTES + 1)  # a device or a pipe may never end
    except OSError as error:
        raise unread(path, error, name) from None
    if len(data) > MAX_BYTES:
        raise _too_large(len(data), name)
    return data


def _too_large(size: int, name: str) -> InputError:
    return InputError(
        f"the file has {size / 1e6:.0f} MB and at most {MAX_BYTES / 1e6:.0f} MB are read in one go",
        Where(name),
        "cut it into files of some years each",
    )


def mark_of(text: str, known: Sequence[str]) -> str:
    """What separates the cells: what makes known columns of the first line, else a comma."""
    first = text.lstrip("\r\n").partition("\n")[0]
    for mark in _MARKS:
        names = {part.strip(' \t\r"').lower() for part in first.split(mark)}
        if len(names & set(known)) > (mark != ","):
            return mark
    return ","


def _lines(text: str, name: str, mark: str) -> Iterator[tuple[int, list[str]]]:
    """Records with the line each starts on."""
    reader = csv.reader(io.StringIO(text, newline=""), strict=True, delimiter=mark)
    start = 1
    try:
        for cells in reader:
            if cells:
                yield start, cells
            start = reader.line_num + 1
    except csv.Error as error:
        raise InputError(
            f"the row that starts here cannot be read ({error})",
            Where(name, start),
            "look for a quotation mark that is never closed",
        ) from None


def _header(columns: list[str], name: str, known: Sequence[str]) -> tuple[str, ...]:
    if not any(columns):
        raise InputError(
            "the file is empty", Where(name), f"its first line names columns: {_some(known)}"
        )
    lowered = [column.lower() for column in columns]
    tidy = [low if low in known else raw for low, raw in zip(lowered, columns, strict=True)]
    if not set(tidy) & set(known):
        raise _no_header(columns, name, known)
    doubled = {column for column in tidy if column and tidy.count(column) > 1}
    if doubled:
        raise InputError(f"the column {_some(sorted(doubled))} is there twice", Where(name, 1))
    return tuple(tidy)


def _no_header(columns: list[str], name: str, known: Sequence[str]) -> InputError:
    bars = {part.strip().lower() for part in " ".join(columns).split("|")}
    if len(bars & set(known)) > 1:
        return InputError(
            "the columns are separated by bars", Where(name, 1), "save it with commas between them"
        )
    return InputError(
        "the first line is not a header", Where(name, 1), f"it names columns: {_some(known)}"
    )


def _length_error(name: str, line: int, found: int, wanted: int, mark: str) -> InputError:
    many = (
        "a decimal comma or a comma in a note needs quotation marks"
        if mark == ","
        else f"a {_MARKS[mark]} in a note needs quotation marks"
    )
    slip = many if found > wanted else "the row looks cut off"
    return InputError(
        f"{plural(found, 'cell')} under {plural(wanted, 'column')}", Where(name, line), slip
    )


def _some(words: Sequence[str]) -> str:
    return ", ".join(words[:5]) + (" …" if len(words) > 5 else "")
