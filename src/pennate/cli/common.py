"""What all commands share: the data folder, JSON output and one-sentence errors."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from pennate.cli.streams import carries_all
from pennate.errors import InputError, NoAnswerError, PennateError

if TYPE_CHECKING:
    from pennate.app.keep import Place

INTERRUPTED = 130
"""Exit status after Ctrl-C, as shells have it."""
SHOWN = 20
"""Lines of one kind on the screen; the rest is counted."""

JsonFlag = Annotated[bool, typer.Option("--json", help="Print one JSON document and nothing else.")]
DataDir = Annotated[
    Path | None,
    typer.Option(
        "--data", help="Where your records lie; else $PENNATE_HOME, else the usual place."
    ),
]


def data_dir(given: Path | None) -> Path:
    """The folder of her records: `--data`, else environment, else the platform's place."""
    if given is not None:
        return given
    if home := os.environ.get("PENNATE_HOME"):
        return Path(home)
    if xdg := os.environ.get("XDG_DATA_HOME"):
        return Path(xdg) / "pennate"
    from platformdirs import user_data_path

    return user_data_path("pennate", appauthor=False)


def place_of(given: Path | None) -> Place:
    """Where her records lie, or will lie."""
    from pennate.app.keep import Place

    return Place(data_dir(given), os.environ.get("PENNATE_DATABASE", ""))


def records_in(given: Path | None) -> Place:
    """Where her records lie. Raises NoAnswerError where there are none: nothing is made then."""
    place = place_of(given)
    if not place.exists:
        raise NoAnswerError(
            f"there are no records in {place.folder}: begin them on the start page (pennate serve) "
            "or with pennate import, or name their place with --data",
            {"folder": str(place.folder)},
        )
    return place


def this_day() -> date:
    """What day it is where she is."""
    return datetime.now().astimezone().date()


def date_said(text: str) -> date:
    """A date of the calendar, as an option names it. Raises InputError."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise InputError(f"“{text}” is not a date", remedy="write it like 2026-03-31") from None


def print_json(document: Any) -> None:
    """Write one JSON document to standard output."""
    typer.echo(json.dumps(document, ensure_ascii=not carries_all(), indent=2, default=str))


def keep_apart(source: Path, what: str, outs: Mapping[str, Path | None]) -> None:
    """Refuse to write over what is read, or two things into one file. Raises InputError.

    `outs` are the files to write by the option that names each; `what` is read from `source`.
    """
    taken = [(source, f"is {what} itself")]
    for option, out in outs.items():
        if out is None:
            continue
        for other, why in taken:
            if _same(out, other):
                raise InputError(f"{option} {out} {why}", remedy="name another file")
        taken.append((out, f"is the file of {option} too"))


def _same(one: Path, other: Path) -> bool:
    """Whether two names mean one file, through links too."""
    both = one.exists() and other.exists()
    return one.samefile(other) if both else one.resolve() == other.resolve()


def write_out(path: Path, content: str | bytes) -> None:
    """Write the file a command was told to. Raises InputError where it cannot be written."""
    try:
        _put(path, content.encode() if isinstance(content, str) else content)
    except OSError as error:
        why = (error.strerror or "no reason given").lower()
        raise InputError(f"{path}: the file cannot be written ({why})") from None


def _put(path: Path, content: bytes) -> None:
    """Write a file beside its place first, so that it is never there in part."""
    if path.exists() and not path.is_file():
        path.write_bytes(content)  # a device or a pipe
        return
    path = path.resolve()
    part = path.with_name(f".{path.name}.part")
    try:
        part.write_bytes(content)
        if path.exists():
            part.chmod(path.stat().st_mode & 0o777)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)


def some(lines: list[str]) -> list[str]:
    """The first lines, and how many more there are."""
    more = len(lines) - SHOWN
    return [*lines[:SHOWN], f"… and {more} more"] if more > 0 else lines


@contextmanager
def clear_errors(*, as_json: bool = False) -> Iterator[None]:
    """Turn failures into one sentence on standard error and the agreed exit status.

    With `as_json`, a question without an answer also prints `{reason, nearest}`.
    """
    try:
        yield
    except NoAnswerError as error:
        if as_json:
            print_json({"reason": error.reason, "nearest": error.nearest})
        typer.echo(str(error), err=True)
        raise typer.Exit(error.exit_status) from None
    except PennateError as error:
        typer.echo(str(error), err=True)
        raise typer.Exit(error.exit_status) from None
    except KeyboardInterrupt:
        typer.echo("Stopped: nothing is lost, and no file is half written.", err=True)
        raise typer.Exit(INTERRUPTED) from None
    except BrokenPipeError:
        sys.stderr.close()
        raise typer.Exit(0) from None
    except OSError as error:
        what = error.filename or "what was asked for cannot be written"
        typer.echo(f"{what}: {(error.strerror or str(error)).lower()}", err=True)
        raise typer.Exit(PennateError.exit_status) from None
