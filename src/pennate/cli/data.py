"""Commands on the records as a whole: import, export, backup, restore, check."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from pennate.cli.common import (
    SHOWN,
    DataDir,
    JsonFlag,
    clear_errors,
    place_of,
    print_json,
    records_in,
    some,
)
from pennate.cli.log_options import reads_log
from pennate.core.plural import plural

if TYPE_CHECKING:
    from datetime import datetime
    from random import Random

    from pennate.app.exchange import ImportReport
    from pennate.app.keep import Checked, Place
    from pennate.files.how import How


def register(app: typer.Typer) -> None:
    """Add the commands."""
    app.command("import")(take_in)
    app.command("export")(give_out)
    app.command("backup")(backup)
    app.command("restore")(restore)
    app.command("check")(check)


@reads_log
def take_in(
    source: Annotated[Path, typer.Argument(metavar="LOG.csv|DIR", help="A log or an export.")],
    data: DataDir = None,
    *,
    how: How,
    as_json: JsonFlag = False,
) -> None:
    """Take in a training log or a whole export, all of it or nothing."""
    with clear_errors(as_json=as_json):
        from pennate.app import exchange

        now, rng = _now_and_chance()
        report = exchange.take_in(place_of(data), source, how, now=now, rng=rng)
        notes = _notes(place_of(data), report)
        if as_json:
            print_json({**_import_document(report), "notes": notes})
        else:
            _say_import(report)
            for line in notes:
                typer.echo(line)
        for line in some([f"to check: {question}" for question in report.questions]):
            typer.echo(line, err=True)


def give_out(
    folder: Annotated[Path, typer.Argument(metavar="DIR", help="An empty or new folder.")],
    data: DataDir = None,
    *,
    as_json: JsonFlag = False,
) -> None:
    """Write everything into a folder of open files that `import` takes back."""
    with clear_errors(as_json=as_json):
        from pennate.app.export import export_dir

        with records_in(data).open() as ledger:
            names = export_dir(ledger, folder)
        if as_json:
            print_json({"folder": str(folder), "files": list(names)})
        else:
            typer.echo(f"{folder}: {', '.join(names)}")


def backup(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A new file.")],
    data: DataDir = None,
    *,
    as_json: JsonFlag = False,
) -> None:
    """Write everything, its history included, into one verified file."""
    with clear_errors(as_json=as_json):
        from pennate.app.keep import back_up

        made = back_up(records_in(data), file)
        if as_json:
            print_json(asdict(made))
        else:
            beside = f" and {plural(made.files, 'file')}" if made.files else ""
            typer.echo(
                f"{file}: {plural(made.entries, 'entry', 'entries')}{beside}, read back and whole."
            )


def restore(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A file that `backup` wrote.")],
    data: DataDir = None,
    *,
    as_json: JsonFlag = False,
) -> None:
    """Put a backup in the place of the records; what was there is kept beside it."""
    with clear_errors(as_json=as_json):
        from pennate.app.keep import restore as put_back

        now, rng = _now_and_chance()
        done = put_back(place_of(data), file, now=now, rng=rng)
        if as_json:
            print_json(asdict(done))
        else:
            kept = f" What was there before is in {done.kept}." if done.kept else ""
            typer.echo(f"{done.entries} entries are back.{kept}")


def check(data: DataDir = None, *, as_json: JsonFlag = False) -> None:
    """Verify every entry and replay them all; exit status 2 when something is damaged."""
    with clear_errors(as_json=as_json):
        from pennate.app.keep import check as look

        checked = look(records_in(data))
        if as_json:
            print_json({**asdict(checked), "sound": checked.sound})
        else:
            _say_check(checked)
        for problem in checked.faults[:SHOWN]:
            typer.echo(str(problem), err=True)
        if not checked.sound:
            raise typer.Exit(2)


def _notes(place: Place, report: ImportReport) -> tuple[str, ...]:
    from pennate.app.book import Book
    from pennate.app.import_notes import import_notes

    now, rng = _now_and_chance()
    with place.open() as ledger:
        return import_notes(Book(ledger, lambda: now, rng), report)


def _now_and_chance() -> tuple[datetime, Random]:
    from datetime import datetime
    from random import SystemRandom

    return datetime.now().astimezone(), SystemRandom()


def _import_document(report: ImportReport) -> dict[str, Any]:
    return {
        "added": report.added,
        "unchanged": report.unchanged,
        "taken_back": report.taken_back,
        "corrected": [asdict(correction) for correction in report.corrected],
        "questions": [
            {
                "line": question.where.line,
                "field": question.field,
                "value": question.value,
                "text": question.text,
            }
            for question in report.questions
        ],
        "others": report.others,
    }


def _say_import(report: ImportReport) -> None:
    typer.echo(f"{plural(report.added, 'set')} added, {report.unchanged} known already.")
    if report.taken_back:
        stay = "stays" if report.taken_back == 1 else "stay"
        known = plural(report.taken_back, "set")
        typer.echo(f"{known} that you took back before {stay} taken back.")
    if report.corrected:
        sets = plural(len(report.corrected), "set")
        typer.echo(f"{sets} corrected; the old content is kept:")
    for line in some([str(correction) for correction in report.corrected]):
        typer.echo(f"   {line}")
    if report.others:
        others = ", ".join(f"{kind} {count}" for kind, count in sorted(report.others.items()))
        typer.echo(f"Other records added: {others}.")


def _say_check(checked: Checked) -> None:
    state = "sound" if checked.sound else "DAMAGED"
    typer.echo(f"{checked.entries} entries, {checked.sets} sets: {state}.")
    for problem in checked.unreadable[:SHOWN]:
        typer.echo(f"   {problem}")
    if checked.conflicts or checked.questions:
        typer.echo(
            f"Waiting for you: {plural(checked.conflicts, 'conflict')}, "
            f"{plural(checked.questions, 'question')}."
        )
