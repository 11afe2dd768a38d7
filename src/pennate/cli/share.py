"""The command that passes a routine on."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from pennate.cli.common import JsonFlag, clear_errors, print_json, write_out
from pennate.cli.week_files import WeekFile

if TYPE_CHECKING:
    from pennate.core.passed_on import Passed


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command()(share)


def share(
    week: WeekFile,
    *,
    out: Annotated[
        Path | None, typer.Option("--out", help="The page: others’ loads on others’ equipment.")
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Pass a week on as one page that works out the follower’s own loads, without reception.

    Only the week file is read, never your records. Your loads, notes, reasons, wishes and gym
    stay out; words of yours that speak of pain, body, cycle or loads are left out and told.
    """
    with clear_errors(as_json=as_json):
        from pennate.app.pass_on import passed_file
        from pennate.errors import InputError
        from pennate.sheets.passed_page import page

        if out is None:
            raise InputError("no file to write is named", remedy="write --out page.html")
        routine = passed_file(week)
        write_out(out, page(routine))
        if as_json:
            print_json(_document(routine, out))
            return
        days = [day for day in routine.days if not day.rest]
        typer.echo(f"{out}: {routine.name}, {len(days)} days, nothing of your records in it.")
        for line in routine.left_out:
            typer.echo(f"Left out: {line}.")


def _document(routine: Passed, out: Path) -> dict[str, Any]:
    return {
        "page": str(out),
        "name": routine.name,
        "days": [day.day for day in routine.days if not day.rest],
        "left_out": list(routine.left_out),
    }
