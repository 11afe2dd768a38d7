"""What is said of a log that the file itself leaves open, in one place for all that read logs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from pennate.core.exercise import Catalogue
from pennate.core.quantities import LoadReading, Unit
from pennate.files.dates import DateOrder
from pennate.files.log import LogFile, read_log
from pennate.files.log_names import meanings
from pennate.files.ways import COMMAND_LINE, Ways


@dataclass(frozen=True, slots=True)
class How:
    """How a log is to be read."""

    new: frozenset[str] = frozenset()
    """Exercise names to accept although nobody described them."""
    names: Mapping[str, str] = field(default_factory=dict)
    """Exercises by the names they have in the log; any name of the catalogue says which."""
    unit: Unit | None = None
    """Unit of loads that have none."""
    in_order: bool = False
    """Whether sets are counted as their rows stand."""
    dates: DateOrder | None = None
    """What stands first in dates that are not of ISO 8601."""
    columns: Mapping[str, str] = field(default_factory=dict)
    """Columns of the contract by the headings they have in the log; `UNREAD` is none of them."""
    load_is: Mapping[str, LoadReading] = field(default_factory=dict)
    """What loads of an exercise count where the log does not say; any name of it will do."""
    load_was: Mapping[str, LoadReading] = field(default_factory=dict)
    """The same as it was said before: sets that are stored already stay as they are."""
    ways: Ways = COMMAND_LINE
    """How the place that takes the log in offers these choices."""

    def read(
        self,
        source: Path | bytes,
        catalogue: Catalogue,
        *,
        unknown_ok: bool = False,
        today: date | None = None,
        ask: bool = True,
        name: str = "",
    ) -> LogFile:
        """The log, read so. Raises InputError as `read_log` does."""
        log = read_log(
            source,
            catalogue,
            new=self.new,
            names=meanings(catalogue, self.names),
            unit=self.unit,
            unknown_ok=unknown_ok,
            in_order=self.in_order,
            dates=self.dates,
            columns=self.columns,
            ways=self.ways,
            today=today,
            ask=ask,
            name=name,
        )
        return _counted(log, readings(catalogue, self.load_is), self.load_was)


def readings(catalogue: Catalogue, said: Mapping[str, LoadReading]) -> dict[str, LoadReading]:
    """Readings by the ids of exercises. Raises InputError where a name is none."""
    ids = meanings(catalogue, {name: name for name in said})
    return {ids[name]: reading for name, reading in said.items()}


def _counted(
    log: LogFile, said: Mapping[str, LoadReading], before: Mapping[str, LoadReading]
) -> LogFile:
    """Bare loads as they were said to count; a log that says it itself stays as it is."""
    known = {**before, **said}
    if not known or "load_is" in log.columns:
        return log
    rows = tuple(
        replace(done, reading=known[done.exercise])
        if done.load and done.exercise in known and done.reading is LoadReading.TOTAL
        else done
        for done in log.rows
    )
    return replace(log, rows=rows, counted=frozenset(said))
