"""The command that passes a routine on."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from pennate.cli.common import (
    JsonFlag,
    clear_errors,
    date_said,
    keep_apart,
    print_json,
    write_out,
)
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
Picture = Annotated[
    Path | None, typer.Option("--picture", help="A picture of a day to post (PNG); see --day.")
]
Day = Annotated[str, typer.Option("--day", help="The day of the picture, like Monday.")]


def share(
    week: WeekFile,
    *,
    out: Out = None,
    sheet: Sheet = None,
    calendar: Calendar = None,
    since: Since = None,
    picture: Picture = None,
    day: Day = "",
    as_json: JsonFlag = False,
) -> None:
    """Pass a week on as one page that works out the follower’s own loads, without reception.

    Only the week file is read, never your records. Your loads, notes, reasons, wishes and gym
    stay out; words of yours that speak of pain, body, cycle or loads are left out and told.
    """
    with clear_errors(as_json=as_json):
        from datetime import datetime

        from pennate.app.pass_on import passed_file
        from pennate.errors import InputError

        files = {"page": out, "sheet": sheet, "calendar": calendar}
        outs = {"--out": out, "--sheet": sheet, "--calendar": calendar, "--picture": picture}
        if not any(outs.values()):
            raise InputError("no file to write is named", remedy="write --out page.html")
        keep_apart(week, "the week", outs)
        begins = date_said(since) if since else datetime.now().astimezone().date()
        routine = passed_file(week)
        shown = _shown(routine, picture, day)
        written = _write(routine, files, begins, shown)
        if as_json:
            words = {"picture_words": shown.words} if shown else {}
            print_json({**_document(routine, written), **words})
            return
        days = sum(not day.rest for day in routine.days)
        for file in written.values():
            told = f"{routine.name}, {plural(days, 'day')}, nothing of your records in it"
            typer.echo(f"{file}: {told}.")
        for line in routine.left_out:
            typer.echo(f"Left out: {line}.")
        if shown is not None:
            typer.echo(f"To post beside the picture, for those who do not see it: {shown.words}")


@dataclass(frozen=True, slots=True)
class _Shown:
    """A picture that is made: where it goes, and what it shows in words."""

    file: Path
    content: bytes
    words: str


def _shown(routine: Passed, file: Path | None, day: str) -> _Shown | None:
    """The picture of a day, where one is asked for. Raises InputError for an unclear day."""
    if file is None:
        return None
    from pennate.cli.week_words import day_of
    from pennate.errors import InputError
    from pennate.sheets.passed_picture import picture, picture_words

    trained = {one.day: one for one in routine.days if not one.rest}
    named = day_of(day) if day else next(iter(trained)) if len(trained) == 1 else ""
    if named not in trained:
        what = f"nothing is planned on {named}" if named else "no day is named for the picture"
        raise InputError(what, remedy=f"add --day with one of: {', '.join(trained)}")
    chosen = trained[named]
    return _Shown(file, picture(routine, chosen), picture_words(routine, chosen))


def _write(
    routine: Passed, files: Mapping[str, Path | None], begins: date, shown: _Shown | None
) -> dict[str, Path]:
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
    if shown is None:
        return named
    write_out(shown.file, shown.content)
    return {**named, "picture": shown.file}


def _document(routine: Passed, written: Mapping[str, Path]) -> dict[str, Any]:
    return {
        **{kind: str(file) for kind, file in written.items()},
        "name": routine.name,
        "days": [day.day for day in routine.days if not day.rest],
        "left_out": list(routine.left_out),
    }
