"""`pennate forecast`: each set of a log, forecast from what came before it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from pennate.cli.common import (
    JsonFlag,
    clear_errors,
    keep_apart,
    print_json,
    some,
    write_out,
)
from pennate.cli.log_options import reads_log
from pennate.cli.streams import progress

if TYPE_CHECKING:
    from pennate.files.how import How

LogPath = Annotated[Path, typer.Argument(help="A training log as CSV.")]
OutPath = Annotated[Path | None, typer.Option("--out", help="Write the forecasts to this file.")]


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command()(forecast)


@reads_log
def forecast(
    log: LogPath,
    out: OutPath = None,
    *,
    how: How,
    as_json: JsonFlag = False,
) -> None:
    """Reps to failure of each set at its load, forecast before seeing its result."""
    from pennate.app.forecasting import forecast_csv, forecast_log

    with clear_errors(as_json=as_json):
        keep_apart(log, "the log", {"--out": out})
        with progress("forecast", quiet=as_json) as watch:
            found = forecast_log(log, how, watch=watch)
        if out is not None:
            write_out(out, forecast_csv(found.rows))
        if as_json:
            print_json(found.rows)
        elif out is None:
            typer.echo(forecast_csv(found.rows), nl=False)
        for line in some([f"to check: {note}" for note in found.notes]):
            typer.echo(line, err=True)
