"""`pennate forecast`: each set of a log, forecast from what came before it."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from pennate.cli.common import JsonFlag, clear_errors, print_json
from pennate.core.quantities import Unit

LogPath = Annotated[Path, typer.Argument(help="A training log as CSV.")]
OutPath = Annotated[Path | None, typer.Option("--out", help="Write the forecasts to this file.")]
UnitOption = Annotated[
    Unit | None, typer.Option("--unit", help="Unit of loads that have none in the file.")
]


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command()(forecast)


def forecast(
    log: LogPath,
    out: OutPath = None,
    unit: UnitOption = None,
    *,
    as_json: JsonFlag = False,
) -> None:
    """Reps to failure of each set at its load, forecast before seeing its result."""
    from pennate.app.forecasting import forecast_csv, forecast_rows

    with clear_errors(as_json=as_json):
        rows = forecast_rows(log, unit)
        if out is not None:
            out.write_text(forecast_csv(rows), encoding="utf-8")
        if as_json:
            print_json(rows)
        elif out is None:
            typer.echo(forecast_csv(rows), nl=False)
