"""Sets of a log whose load is not noted, and the column that probably holds it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pennate.core.exercise import Catalogue
from pennate.core.load_words import lacks_load
from pennate.core.performed import PerformedSet
from pennate.core.plural import plural
from pennate.errors import InputError
from pennate.files.log import LogFile
from pennate.files.log_cells import meant_by, read_number
from pennate.files.log_columns import LOAD
from pennate.files.ways import COMMAND_LINE, Ways

MOST_NAMED = 3
"""Exercises told by name; the page of each says the same of it."""
MOSTLY = 0.8  # number: of the sets without a load that have a number there; cells stay empty
IMPORT_AGAIN = "import the file again: the sets are corrected, not doubled"
"""What to do once the column has its name."""


def without_load(
    log: LogFile, catalogue: Catalogue, again: str = IMPORT_AGAIN, ways: Ways = COMMAND_LINE
) -> Iterator[str]:
    """One sentence or two on the sets that say no load; nothing where each has what it needs."""
    bare = sets_without(log, catalogue)
    if not bare:
        return
    names = list(dict.fromkeys(catalogue[done.exercise].name for done in bare))
    more = len(names) - MOST_NAMED
    told = ", ".join(names[:MOST_NAMED]) + (f" and {plural(more, 'more exercise')}" * (more > 0))
    yield (
        f"No load noted in {plural(len(bare), 'set')} of {told}: nothing is learned there of"
        f" strength. {_remedy(log, load_columns(log, bare), again, ways)}"
    )


def sets_without(log: LogFile, catalogue: Catalogue) -> tuple[PerformedSet, ...]:
    """The sets of a log that need a load and say none."""
    known = catalogue.exercises
    return tuple(done for done in log.rows if lacks_load(done, known.get(done.exercise)))


def load_columns(log: LogFile, bare: Sequence[PerformedSet]) -> tuple[str, ...]:
    """Columns not read that may hold these sets' loads: by name, else whose cells are numbers."""
    full = [one for one in log.others if _has_numbers(one, bare)]
    named = tuple(one for one in full if meant_by(one) == LOAD)
    return named or tuple(one for one in full if not meant_by(one) and _varies(one, bare))


def _varies(column: str, sets: Sequence[PerformedSet]) -> bool:
    return len({done.extra.get(column, "").strip() for done in sets} - {""}) > 1


def _has_numbers(column: str, sets: Sequence[PerformedSet]) -> bool:
    numbers = sum(_is_load(done.extra.get(column, "").strip()) for done in sets)
    return numbers > 0 and numbers >= MOSTLY * len(sets)


def _is_load(text: str) -> bool:
    try:
        return read_number(text) > 0
    except InputError:
        return False


def _remedy(log: LogFile, columns: Sequence[str], again: str, ways: Ways) -> str:
    if not columns:
        return f"Write their loads under {LOAD}, and {again}."
    one = len(columns) == 1
    probably = "probably holds" if meant_by(columns[0]) == LOAD else "may hold"
    if one:
        which = f"The column “{columns[0]}” {probably} the loads: "
    else:
        which = f"One of the columns “{'”, “'.join(columns)}” {probably} the loads: "
    if LOAD in log.columns:
        return f"{which}write its numbers under {LOAD}, and {again}."
    unit = "" if "unit" in log.columns else f" {ways.unit} with it,"
    return f"{which}call it {LOAD} in the first line of the file,{unit} and {again}."
