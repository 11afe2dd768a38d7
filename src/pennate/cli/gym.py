"""The command on her gyms: what there is, one more, and which one her week is trained in."""

from __future__ import annotations

from contextlib import ExitStack, contextmanager
from typing import TYPE_CHECKING, Annotated, Any

import typer

from pennate.cli.common import DataDir, JsonFlag, clear_errors, place_of, print_json

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pennate.app.book import Book
    from pennate.app.gym_page import Misfit
    from pennate.core.gym import Gym


def register(app: typer.Typer) -> None:
    """Add the command."""
    app.command()(gym)


def gym(
    which: Annotated[
        str | None,
        typer.Argument(metavar="[GYM]", help="Id of one of yours, a gym file or a starter gym."),
    ] = None,
    *,
    take: Annotated[bool, typer.Option("--take", help="Keep this file or starter gym.")] = False,
    use: Annotated[bool, typer.Option("--use", help="Train your week there.")] = False,
    replace: Annotated[
        bool, typer.Option("--replace", help="With --use: replace what it cannot carry.")
    ] = False,
    text: Annotated[bool, typer.Option("--text", help="As the text of a gym file.")] = False,
    data: DataDir = None,
    as_json: JsonFlag = False,
) -> None:
    """List your gyms, show one with all it holds, keep another, or move your week there."""
    with clear_errors(as_json=as_json), _book(data, new=take) as book:
        if which is None:
            _say_all(book, as_json=as_json)
            return
        place = _kept(book, which) if take else _found(book, which)
        if use:
            _move(book, place, replace=replace)
        _say(place, text=text, as_json=as_json)


@contextmanager
def _book(data: Path | None, *, new: bool) -> Iterator[Book]:
    """Her records, begun with her first gym; only looking begins nothing."""
    from datetime import datetime
    from random import SystemRandom
    from tempfile import TemporaryDirectory

    from pennate.app.book import Book

    def now() -> datetime:
        return datetime.now().astimezone()

    place = place_of(data)
    with ExitStack() as stack:
        made = new or place.exists
        where = (place.url or place.folder) if made else stack.enter_context(TemporaryDirectory())
        book = Book.open(where, now, SystemRandom())
        stack.callback(book.close)
        yield book


def _found(book: Book, which: str) -> Gym:
    from pennate.app.gyms import open_gym

    own = next((one for one in book.gyms() if one.id == which), None)
    return own or open_gym(which)


def _kept(book: Book, which: str) -> Gym:
    """Store a starter under an id of its own, or a file under the id it has."""
    from pennate.app.gym_page import save, take_starter
    from pennate.app.gyms import STARTER_ORDER, open_gym

    return take_starter(book, which) if which in STARTER_ORDER else save(book, open_gym(which))


def _move(book: Book, place: Gym, *, replace: bool) -> None:
    """Train the week there; what does not fit is told on standard error."""
    from pennate.app.gym_page import choose, gym_of, misfits

    week = book.week()
    found = misfits(week, place, book.catalogue) if week else ()
    choose(book, gym_of(book, place.id).id, {one.key for one in found} if replace else ())
    for one in found:
        typer.echo(_misfit_words(one, replace=replace), err=True)


def _misfit_words(one: Misfit, *, replace: bool) -> str:
    instead = f"{one.instead_name} on {one.on}" if one.instead else "nothing"
    if replace:
        return f"{one.day}: {one.name} → {instead}"
    return f"{one.day}: {one.name} cannot be done here; best instead: {instead}"


def _say_all(book: Book, *, as_json: bool) -> None:
    used = book.gym()
    rows = [(one, used is not None and one.id == used.id) for one in book.gyms()]
    if as_json:
        print_json([{"id": one.id, "name": one.name, "used": here} for one, here in rows])
        return
    if not rows:
        typer.echo("No gym yet: pennate gym commercial_kg --take")
    for one, here in rows:
        typer.echo(f"{one.id:<20}  {one.name}{'  (your week)' if here else ''}")


def _say(place: Gym, *, text: bool, as_json: bool) -> None:
    from pennate.app.gyms import gym_values, render_gym

    if as_json:
        values: dict[str, Any] = gym_values(place)
        print_json(values)
    elif text:
        typer.echo(render_gym(place), nl=False)
    else:
        _say_things(place)


def _say_things(place: Gym) -> None:
    from pennate.app.gym_words import holds

    typer.echo(place.name)
    if place.plates:
        pairs = ", ".join(f"{plate.mass} × {plate.pairs}" for plate in place.plates)
        typer.echo(f"plates in pairs: {pairs}")
    for item in place.items:
        marks = [holds(item), "safeties" if item.safeties else "", item.station, item.zone]
        typer.echo(f"  {item.id:<20}  {item.name}: {', '.join(mark for mark in marks if mark)}")
    if place.small:
        typer.echo(f"small things: {', '.join(place.small)}")
