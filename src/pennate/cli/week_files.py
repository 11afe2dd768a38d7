"""What the commands of the week share: her records, the week file they write, its days in lines."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from pennate.cli.common import place_of, write_out

if TYPE_CHECKING:
    from pennate.app.book import Book
    from pennate.core.gym import Gym
    from pennate.core.prescribed import Week

WeekFile = Annotated[Path, typer.Argument(metavar="WEEK.toml", help="A week file.")]
OutFile = Annotated[Path | None, typer.Option("--out", help="Write the week to this file.")]
SoreJoints = Annotated[
    list[str] | None,
    typer.Option("--sore", help="A sore joint, knee, or with its pain, knee=4."),
]
Kinds = Annotated[
    list[str] | None,
    typer.Option("--kit", help="Only what is named: bands, dumbbells, bench, chin-up bar …"),
]


@contextmanager
def records(data: Path | None) -> Iterator[Book | None]:
    """Her records where there are some, else nothing."""
    from pennate.cli.session import opened

    if not place_of(data).exists:
        yield None
        return
    with opened(data) as book:
        yield book


def write_week(week: Week, out: Path | None) -> None:
    """Write the week to a file, where one is named. Raises InputError."""
    from pennate.files.week_text import render_week

    if out is not None:
        write_out(out, render_week(week))


def write_kit(week: Week, kit: Gym | None, out: Path | None) -> Week:
    """Write a kit's gym file beside the week's, and name it in the week.

    A kit that she has corrected is never written over. Raises InputError.
    """
    from pennate.app.kit import kit_beside
    from pennate.errors import InputError
    from pennate.files.gym_text import render_gym

    if out is None or kit is None:
        return week
    named, file = kit_beside(out, kit)
    text = render_gym(named)
    try:
        if file.exists() and file.read_text("utf-8") != text:
            raise InputError(
                f"{file} is there already and says otherwise; it is left as it is",
                remedy=f"train by it with --gym {file}, or write the week under another name",
            )
        file.write_text(text, encoding="utf-8")
    except OSError as error:
        raise InputError(f"cannot write {file}: {error.strerror}") from None
    return replace(week, gym=named.id)


def tell_week(week: Week) -> None:
    """The days of a week with their exercises, in lines."""
    from pennate.core.week_names import why_here
    from pennate.files.catalogue import read_catalogue

    known = read_catalogue().with_own(week.own_exercises)
    for day in week.days:
        typer.echo(f"\n{day.day}" + (": rest" if day.rest else ""))
        for asked in day.exercises:
            mark = f" [{asked.superset}]" if asked.superset else ""
            told = f"{asked.working_sets} × {known[asked.exercise].name}{mark}"
            typer.echo(f"  {told}  {why_here(asked, known)}".rstrip())
