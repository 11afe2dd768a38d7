"""`pennate exercises` and `pennate evidence`: look things up."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from pennate.cli.common import JsonFlag, clear_errors, print_json

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pennate.core.evidence import Constant
    from pennate.core.exercise import Exercise

Query = Annotated[
    str | None,
    typer.Argument(help="A name, a muscle or a piece of equipment; several words narrow it down."),
]
OwnFrom = Annotated[
    Path | None,
    typer.Option("--week", help="A week file whose own exercises are listed too."),
]
ConstantName = Annotated[str | None, typer.Argument(help="A name, or a word of its use.")]


def register(app: typer.Typer) -> None:
    """Add the commands."""
    app.command()(exercises)
    app.command()(evidence)


def exercises(query: Query = None, *, week: OwnFrom = None, as_json: JsonFlag = False) -> None:
    """List exercises, or find them by name, muscle or equipment."""
    from pennate.app.catalogue import catalogue_for, exercise_document, search

    with clear_errors(as_json=as_json):
        catalogue = catalogue_for(week)
        found = search(catalogue, query) if query else tuple(catalogue.exercises.values())
        if as_json:
            print_json([exercise_document(one) for one in found])
        else:
            _print_exercises(found)


def evidence(name: ConstantName = None, *, as_json: JsonFlag = False) -> None:
    """Show every constant: value, unit, range, how it is known, source and use."""
    from pennate.app.catalogue import constant_document, find_constants

    with clear_errors(as_json=as_json):
        found = find_constants(name or "")
        if as_json:
            print_json([constant_document(one) for one in found])
        else:
            _print_constants(found)


def _print_exercises(found: Sequence[Exercise]) -> None:
    if len(found) == 1:
        _print_one(found[0])
        return
    for one in found:
        kinds = ", ".join(kind.value for kind in one.equipment)
        typer.echo(f"{one.name}  ({one.id}): {kinds}")
    typer.echo(f"{len(found)} exercises")


def _print_one(one: Exercise) -> None:
    from pennate.app.catalogue import joint_line, muscle_line, needs_line, safety_line
    from pennate.core.percent import percent

    typer.echo(f"{one.name}  ({one.id})")
    if one.other_names:
        typer.echo(f"also called   {', '.join(one.other_names)}")
    typer.echo(f"muscles       {muscle_line(one)}")
    typer.echo(f"joints        {joint_line(one) or 'none to speak of'}")
    typer.echo(f"equipment     {', '.join(kind.value for kind in one.equipment)}")
    if needs_line(one):
        typer.echo(f"needs         {needs_line(one)}")
    typer.echo(f"sides         {one.sides.value}")
    if one.body_mass is not None:
        women, men = (percent(float(x)) for x in (one.body_mass.female, one.body_mass.male))
        share = f"{women} (women), {men} (men)"
        typer.echo(f"body moved    {share}: {one.body_mass.source}")
    typer.echo(f"to failure    {safety_line(one)}")
    typer.echo(f"cue           {one.cue or 'none'}")
    typer.echo(f"known by      {one.evidence}")
    for variant in one.variants:
        typer.echo(f"variant       {variant.name} ({variant.id}): {variant.what_shifts}")


def _print_constants(found: Sequence[Constant]) -> None:
    for one in found:
        spread = f" ({one.low:g} to {one.high:g})" if one.low < one.high else ""
        typer.echo(f"{one.name} = {one.value:g} {one.unit}{spread}, {one.status.value}")
        typer.echo(f"    for     {one.used_for}")
        typer.echo(f"    source  {one.source}")
        if one.contested:
            typer.echo(f"    contested  {one.contested}")
    if len(found) > 1:
        typer.echo(f"{len(found)} constants")
