"""Files of measurements and weighings: CSV in and out, one sentence for the first fault."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from fractions import Fraction
from pathlib import Path
from typing import NoReturn

from pennate.core.body import Measurement, Site, TapeState, Weighing
from pennate.core.evidence.body import LARGEST_GIRTH, REFUSE_FACTOR, SMALLEST_GIRTH
from pennate.core.near import did_you_mean
from pennate.core.performed import Side
from pennate.core.plural import plural
from pennate.core.quantities import exact_text, parse_number
from pennate.core.still_to_come import dated
from pennate.errors import InputError, Where
from pennate.files.csv_text import mark_of, text_of

MEASURE_COLUMNS = (
    "date",
    "site",
    "side",
    "girth_cm",
    "girth2_cm",
    "girth3_cm",
    "skinfold_mm",
    "state",
    "body_mass_kg",
)
WEIGHT_COLUMNS = ("date", "kg")
_GIRTHS = ("girth_cm", "girth2_cm", "girth3_cm")
_SITE_NAMES = {
    **{site.value: site for site in Site},
    "upper_arm": Site.UPPER_ARM,
    "arm": Site.UPPER_ARM,
    "shoulders": Site.SHOULDER,
    "hips": Site.HIP,
}
_SIDES = {"": None, "left": Side.LEFT, "l": Side.LEFT, "right": Side.RIGHT, "r": Side.RIGHT}
_LEAST_FOLD_MM, _MOST_FOLD_MM = 1, 120
_LEAST_KG, _MOST_KG = 25, 350


@dataclass(frozen=True, slots=True)
class _Row:
    """One line of a file: its cells by column, and where it stands."""

    file: str
    line: int
    cells: Mapping[str, str]

    def text(self, column: str) -> str:
        return (self.cells.get(column) or "").strip()

    def refuse(self, column: str, what: str, remedy: str) -> NoReturn:
        raise InputError(what, Where(self.file, self.line, column), remedy)

    def number(self, column: str) -> Fraction | None:
        text = self.text(column)
        if not text:
            return None
        try:
            return parse_number(text)
        except InputError as error:
            self.refuse(column, error.what, error.remedy)

    def day(self) -> date:
        text = self.text("date")
        if not text:
            self.refuse("date", "the date is missing", "write it like 2026-03-31")
        try:
            return dated(datetime.fromisoformat(text).date())
        except ValueError:
            self.refuse("date", f"“{text}” is not a date", "write it like 2026-03-31")
        except InputError as error:
            self.refuse("date", error.what, error.remedy)

    def unknown(self, known: Sequence[str]) -> dict[str, str]:
        return {name: value for name, value in self.cells.items() if name not in known and value}


def read_measures(path: Path) -> tuple[Measurement, ...]:
    """Every row of a file of measurements, in its order; raises as `measures_by_line` does."""
    return tuple(measures_by_line(path).values())


def read_weights(path: Path) -> tuple[Weighing, ...]:
    """Every weighing of a file, in its order; raises as `measures_by_line` does."""
    return tuple(weights_by_line(path).values())


def measures_by_line(path: Path) -> dict[int, Measurement]:
    """Every row of a file of measurements with the line it stands in.

    Raises InputError with file, line and column for what cannot be read.
    """
    rows = _rows(path, ("date", "site", "girth_cm"))
    return {row.line: _measurement(row) for row in rows}


def weights_by_line(path: Path) -> dict[int, Weighing]:
    """Every weighing of a file with its line; raises as `measures_by_line` does."""
    return {row.line: _weighing(row) for row in _rows(path, WEIGHT_COLUMNS)}


def _rows(path: Path, required: Sequence[str]) -> Iterator[_Row]:
    file, text = path.name, text_of(path, path.name)
    mark = mark_of(text, required)
    lines = csv.reader(io.StringIO(text, newline=""), strict=True, delimiter=mark)
    try:
        header = [_column(name) for name in next(lines, [])]
        _check_header(header, file, required)
        for cells in lines:
            if any(cell.strip() for cell in cells):
                yield _row(file, lines.line_num, header, cells)
    except csv.Error as error:
        what = f"the line is not CSV ({error})"
        raise InputError(what, Where(file, lines.line_num), "look for a stray quote") from None


def _column(name: str) -> str:
    """A known column in any case; an unknown one as it stands."""
    plain = name.strip()
    known = {*MEASURE_COLUMNS, *WEIGHT_COLUMNS}
    return plain.casefold() if plain.casefold() in known else plain


def _check_header(header: Sequence[str], file: str, required: Sequence[str]) -> None:
    missing = [name for name in required if name not in header]
    if missing:
        raise InputError(
            f"the column {missing[0]} is missing",
            Where(file, 1),
            f"the first line must name the columns {', '.join(required)}",
        )
    twice = next((name for name in header if name and header.count(name) > 1), None)
    if twice:
        raise InputError(f"the column {twice} is there twice", Where(file, 1), "keep one of them")


def _row(file: str, line: int, header: Sequence[str], cells: Sequence[str]) -> _Row:
    if len(cells) > len(header):
        raise InputError(
            f"{plural(len(cells), 'cell')} under {plural(len(header), 'column')}",
            Where(file, line),
            "write decimals with a point, or put 41,5 in quotes",
        )
    return _Row(file, line, dict(zip(header, cells, strict=False)))


def _measurement(row: _Row) -> Measurement:
    site = _site(row)
    girths = tuple(girth for name in _GIRTHS if (girth := _girth(row, name, site)) is not None)
    measured = Measurement(
        day=row.day(),
        site=site,
        side=_side(row),
        girths_cm=girths,
        skinfold_mm=_bounded(row, "skinfold_mm", _LEAST_FOLD_MM, _MOST_FOLD_MM, "mm"),
        state=_state(row),
        body_mass_kg=_bounded(row, "body_mass_kg", _LEAST_KG, _MOST_KG, "kg"),
        extra=row.unknown(MEASURE_COLUMNS),
    )
    if not girths and measured.skinfold_mm is None and measured.body_mass_kg is None:
        row.refuse("girth_cm", "the row measures nothing", "fill in a girth or remove the row")
    return measured


def _site(row: _Row) -> Site:
    text = row.text("site").casefold()
    if text not in _SITE_NAMES:
        names = [site.value for site in Site]
        remedy = did_you_mean(text, names, f"sites are {', '.join(names)}")
        row.refuse("site", f"“{text}” is not a site" if text else "no site is named", remedy)
    return _SITE_NAMES[text]


def _side(row: _Row) -> Side | None:
    text = row.text("side").casefold()
    if text not in _SIDES:
        row.refuse("side", f"“{text}” is not a side", "write left, right, or leave it empty")
    return _SIDES[text]


def _state(row: _Row) -> TapeState | None:
    text = row.text("state").casefold()
    if not text:
        return None
    if text not in set(TapeState):
        row.refuse("state", f"“{text}” is not a state", "write relaxed, flexed or pumped")
    return TapeState(text)


def _girth(row: _Row, column: str, site: Site) -> Fraction | None:
    girth = row.number(column)
    if girth is None:
        return None
    low, high = SMALLEST_GIRTH[site] / REFUSE_FACTOR, LARGEST_GIRTH[site] * REFUSE_FACTOR
    if not low <= girth <= high:
        what = f"{float(girth):g} cm is no girth of a {site.value} ({low:.0f} to {high:.0f} cm)"
        row.refuse(column, what, _girth_slip(float(girth), low, high))
    return girth


def _girth_slip(girth: float, low: float, high: float) -> str:
    for factor, unit in ((0.1, "millimetres"), (2.54, "inches"), (100, "metres")):
        if low <= girth * factor <= high:
            return f"it may be {unit}: {girth * factor:.1f} cm"
    return "check the number"


def _bounded(row: _Row, column: str, low: int, high: int, unit: str) -> Fraction | None:
    value = row.number(column)
    if value is not None and not low <= value <= high:
        what = f"{float(value):g} {unit} is outside {low} to {high} {unit}"
        row.refuse(column, what, "check the number and its unit")
    return value


def _weighing(row: _Row) -> Weighing:
    kilograms = _bounded(row, "kg", _LEAST_KG, _MOST_KG, "kg")
    if kilograms is None:
        row.refuse("kg", "no weight is given", "fill it in or remove the row")
    return Weighing(day=row.day(), kg=kilograms, extra=row.unknown(WEIGHT_COLUMNS))


def measures_text(rows: Iterable[Measurement]) -> str:
    """Measurements as CSV that `read_measures` takes back unchanged."""
    cells = [(_measure_cells(part), part.extra) for row in rows for part in _in_threes(row)]
    return _csv(MEASURE_COLUMNS, cells)


def weights_text(rows: Iterable[Weighing]) -> str:
    """Weighings as CSV that `read_weights` takes back unchanged."""
    cells = [({"date": w.day.isoformat(), "kg": exact_text(w.kg)}, w.extra) for w in rows]
    return _csv(WEIGHT_COLUMNS, cells)


def _in_threes(row: Measurement) -> Iterator[Measurement]:
    """A row a file can hold, and one more for every three further readings."""
    yield replace(row, girths_cm=row.girths_cm[:3])
    for start in range(3, len(row.girths_cm), 3):
        yield Measurement(
            day=row.day,
            site=row.site,
            side=row.side,
            state=row.state,
            girths_cm=row.girths_cm[start : start + 3],
        )


def _measure_cells(row: Measurement) -> dict[str, str]:
    cells = {"date": row.day.isoformat(), "site": row.site.value}
    cells["side"] = row.side.value if row.side else ""
    cells["state"] = row.state.value if row.state else ""
    cells |= {name: exact_text(g) for name, g in zip(_GIRTHS, row.girths_cm, strict=False)}
    if row.skinfold_mm is not None:
        cells["skinfold_mm"] = exact_text(row.skinfold_mm)
    if row.body_mass_kg is not None:
        cells["body_mass_kg"] = exact_text(row.body_mass_kg)
    return cells


def _csv(known: Sequence[str], rows: Sequence[tuple[dict[str, str], Mapping[str, str]]]) -> str:
    others = dict.fromkeys(name for _, extra in rows for name in extra)
    out = io.StringIO(newline="")
    writer = csv.DictWriter(out, [*known, *others], restval="", lineterminator="\n")
    writer.writeheader()
    for cells, extra in rows:
        writer.writerow({**extra, **cells})
    return out.getvalue()
