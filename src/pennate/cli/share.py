"""The command that passes a routine on."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from pennate.cli.common import JsonFlag, clear_errors, print_json, write_out
from pennate.cli.week_files import WeekFile
from pennate.core.plural import plural

if TYPE_CHECKING:
    from datetime import date

    from pennate.core.passed_on import Passed


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command()(share)


Out = Annotated[
    Path | None, typer.Option("--out", help="The page: others’ loads on others’ equipment.")
]
Sheet = Annotated[
    Path | None, typer.Option("--sheet", help="A sheet to print: a page a day, room to write.")
]
Calendar = Annotated[
    Path | None, typer.Option("--calendar", help="A calendar file: an event a day, each week.")
]
Since = Annotated[
    str | None,
    typer.Option("--from", help="When the calendar begins, like 2026-12-07; else today."),
]


def share(
    week: WeekFile,
    *,
    out: Out = None,
    sheet: Sheet = None,
    calendar: Calendar = None,
    since: Since = None,
    as_json: JsonFlag = False,
) -> None:
    """Pass a week on as one page that works out the follower’s own loads, without reception.

    Only the week file is read, never your records. Your loads, notes, reasons, wishes and gym
    stay out; words of yours that speak of pain, body, cycle or loads are left out and told.
    """
    with clear_errors(as_json=as_json):
        from pennate.app.pass_on import passed_file
        from pennate.errors import InputError

        files = {"page": out, "sheet": sheet, "calendar": calendar}
        if not any(files.values()):
            raise InputError("no file to write is named", remedy="write --out page.html")
        begins = _begins(since)
        routine = passed_file(week)
        written = _write(routine, files, begins)
        if as_json:
            print_json(_document(routine, written))
            return
        days = sum(not day.rest for day in routine.days)
        for file in written.values():
            told = f"{routine.name}, {plural(days, 'day')}, nothing of your records in it"
            typer.echo(f"{file}: {told}.")
        for line in routine.left_out:
            typer.echo(f"Left out: {line}.")


def _begins(since: str | None) -> date:
    from datetime import date, datetime

    from pennate.errors import InputError

    if since is None:
        return datetime.now().astimezone().date()
    try:
        return date.fromisoformat(since)
    except ValueError:
        raise InputError(f"“{since}” is not a date", remedy="write it like 2026-12-07") from None


def _write(routine: Passed, files: Mapping[str, Path | None], begins: date) -> dict[str, Path]:
    """Write what was asked for; all of it is made before anything is written."""
    from pennate.sheets.passed_calendar import calendar
    from pennate.sheets.passed_page import page
    from pennate.sheets.passed_sheet import sheet

    makers: dict[str, Callable[[Passed], str]] = {
        "page": page,
        "sheet": sheet,
        "calendar": lambda one: calendar(one, begins),
    }
    named = {kind: file for kind, file in files.items() if file is not None}
    texts = {kind: makers[kind](routine) for kind in named}
    for kind, file in named.items():
        write_out(file, texts[kind])
    return named


def _document(routine: Passed, written: Mapping[str, Path]) -> dict[str, Any]:
    return {
        **{kind: str(file) for kind, file in written.items()},
        "name": routine.name,
        "days": [day.day for day in routine.days if not day.rest],
        "left_out": list(routine.left_out),
    }
