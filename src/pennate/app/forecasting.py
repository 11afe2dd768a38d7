"""One-step-ahead forecasts of a log, as the contract's table."""

from __future__ import annotations

import csv
import io
from pathlib import Path
from typing import TYPE_CHECKING

from pennate.core.history import History
from pennate.estimate.replay import one_step_ahead
from pennate.files.catalogue import read_catalogue
from pennate.files.log import read_log

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pennate.core.forecast import RepsForecast
    from pennate.core.performed import PerformedSet
    from pennate.core.quantities import Unit

COLUMNS = ("date", "session", "set", "mean", "p2.5", "p10", "p25", "p50", "p75", "p90", "p97.5")
"""The columns of a forecast file."""

_PLACES = 3


def forecast_rows(source: Path | bytes, unit: Unit | None = None) -> list[dict[str, object]]:
    """A row of `COLUMNS` for each row of the log, in the order of the file.

    Sets are taken in order of day, session and set; holds have empty numbers.
    """
    catalogue = read_catalogue()
    log = read_log(source, catalogue, unit=unit, unknown_ok=True)
    ahead = {
        done.identity: forecast
        for done, forecast in one_step_ahead(History.of(log.rows), catalogue)
    }
    return [
        dict(zip(COLUMNS, _cells(done, ahead[done.identity]), strict=True)) for done in log.rows
    ]


def _cells(done: PerformedSet, forecast: RepsForecast | None) -> Iterator[object]:
    yield done.when.isoformat()
    yield done.session
    yield done.number
    if forecast is None:
        yield from (None for _ in COLUMNS[3:])
        return
    yield round(forecast.mean, _PLACES)
    yield from (round(value, _PLACES) for value in forecast.quantiles)


def forecast_csv(rows: list[dict[str, object]]) -> str:
    """The rows as CSV text."""
    out = io.StringIO()
    writer = csv.DictWriter(out, COLUMNS, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()
