"""The command that changes the rest of a week after something happened."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from pennate.cli.common import DataDir, JsonFlag, clear_errors, print_json
from pennate.cli.week_files import (
    Kinds,
    SoreJoints,
    WeekFile,
    records,
    tell_week,
    write_kit,
    write_week,
)
from pennate.cli.week_words import day_of, kit_of, limits, minutes_of


def replan(
    week: WeekFile,
    *,
    missed: Annotated[list[str] | None, typer.Option("--missed", help="A day missed.")] = None,
    done: Annotated[list[str] | None, typer.Option("--done", help="A day already done.")] = None,
    to_come: Annotated[
        list[str] | None, typer.Option("--to-come", help="A day still ahead, whatever is logged.")
    ] = None,
    lost: Annotated[
        list[str] | None, typer.Option("--lost", help="An exercise or item that is gone.")
    ] = None,
    sore: SoreJoints = None,
    kit: Kinds = None,
    gym: Annotated[
        str, typer.Option("--gym", help="Train elsewhere: a gym of yours, a file or a starter.")
    ] = "",
    minutes: Annotated[
        list[str] | None, typer.Option("--minutes", help="Less time: Tuesday=45.")
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out", help="Write the week to this file, and a kit beside it: trip_kit.toml."
        ),
    ] = None,
    data: DataDir = None,
    as_json: JsonFlag = False,
) -> None:
    """Change the rest of a week as little as possible after something happened.

    Where there are records it is asked as the page asks it: at your pace, in your gym, with
    your strength and what hurts. Of the week you follow, days you do not name are done or
    missed as your log has them.
    """
    with clear_errors(as_json=as_json):
        from pennate.app.planning import replan_week
        from pennate.app.planning_text import replan_document
        from pennate.app.week_asked import gym_for
        from pennate.app.week_happened import DONE, MISSED, TO_COME, Told, happened_by_file

        named = ((TO_COME, to_come), (DONE, done), (MISSED, missed))
        kinds, fixtures = kit_of(kit)
        told = Told(
            states={day_of(text): state for state, days in named for text in days or ()},
            gone=frozenset(lost or ()),
            kit=kinds if kit else frozenset(),
            fixtures=fixtures if kit else frozenset(),
            joint_limits=limits(sore),
            minutes=dict(minutes_of(text) for text in minutes or ()),
        )
        with records(data) as book:
            told = replace(told, place=gym_for(gym, book, week.parent))
            asked = happened_by_file(week, told, book)
        found = replan_week(asked.week, asked.happened, asked.catalogue)
        found = replace(found, week=write_kit(found.week, asked.kit, out))
        write_week(found.week, out)
        if as_json:
            print_json(replan_document(found, asked))
            return
        _tell_log(asked.by_log)
        tell_week(found.week)
        typer.echo("\n" + "\n".join(found.changes or ("Nothing changes.",)))
        if out is not None and asked.kit is not None:
            typer.echo(f"\nYour kit, to correct: {out.with_name(f'{found.week.gym}.toml')}")


def _tell_log(by_log: Mapping[str, str]) -> None:
    if by_log:
        days = ", ".join(f"{day} {state}" for day, state in by_log.items())
        typer.echo(f"By your log: {days}.")
