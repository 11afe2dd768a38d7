"""The command on equipment: `loads`."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from pennate.cli.common import JsonFlag, clear_errors, print_json

if TYPE_CHECKING:
    from pennate.app.gym_loads import Answer


def register(app: typer.Typer) -> None:
    """Add the commands."""
    app.command()(loads)


def loads(
    gym: Annotated[
        Path, typer.Argument(metavar="GYM.toml", help="A gym file, or the id of a starter gym.")
    ],
    more: Annotated[
        list[str] | None, typer.Argument(metavar="[TARGET]…", help="Further targets.")
    ] = None,
    *,
    equipment: Annotated[str, typer.Option("--equipment", help="Id of the item in the gym.")],
    targets: Annotated[
        list[str], typer.Option("--targets", help="Loads in order: 60,80,100; help has a minus.")
    ],
    unit: Annotated[
        str | None, typer.Option("--unit", help="kg or lb; else how the item is marked.")
    ] = None,
    load_is: Annotated[
        str | None, typer.Option("--load-is", help="total, each, side, plates or label.")
    ] = None,
    kinds: Annotated[
        str | None, typer.Option("--kinds", help="One a target: warm-up,top,back-off,drop …")
    ] = None,
    count: Annotated[
        int | None, typer.Option("--count", min=1, max=2, help="Dumbbells held: 1 or 2.")
    ] = None,
    ceiling: Annotated[
        bool, typer.Option("--ceiling", help="Never heavier than a target.")
    ] = False,
    as_json: JsonFlag = False,
) -> None:
    """Say what to put on an item for each target, with the fewest plate moves on the way."""
    with clear_errors(as_json=as_json):
        from pennate.app.gym_loads import answer_rows, asked_from, far_off, loads_for
        from pennate.app.gyms import item_named, open_gym
        from pennate.errors import Where

        place = open_gym(str(gym))
        item = item_named(place, equipment, Where(gym.name, None, "--equipment"))
        written = [*targets, *(more or [])]
        asked = asked_from(
            written, unit=unit, load_is=load_is, kinds=kinds, count=count, ceiling=ceiling
        )
        answer = loads_for(place, item, asked)
        if as_json:
            print_json(answer_rows(answer))
        else:
            _say(answer)
        for line in far_off(answer):
            typer.echo(f"to check: {line}", err=True)


def _say(answer: Answer) -> None:
    from pennate.core.plural import plural
    from pennate.core.quantities import format_number

    rows = zip(answer.asked.targets, answer.plan.states, answer.plan.moves, strict=True)
    for target, state, moves in rows:
        asked = f"{format_number(target, 3)} {answer.unit}"
        moved = plural(moves, "move") if moves else "no move"
        typer.echo(f"{asked:>10}  {state.load!s:>10}  {moved:>8}  {state.words}")
    total = sum(answer.plan.moves)
    certainty = "nothing better exists" if answer.plan.proven else "the search was cut short"
    typer.echo(f"{plural(total, 'move')} in all; {certainty}.")
