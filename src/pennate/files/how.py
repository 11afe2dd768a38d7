"""What is said of a log that the file itself leaves open, in one place for all that read logs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from pennate.core.exercise import Catalogue
from pennate.core.quantities import Unit
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
        return read_log(
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
