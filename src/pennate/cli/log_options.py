"""The options of every command that reads a training log, in one place."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterable, Mapping
from functools import wraps
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated, Any, get_type_hints

import typer

from pennate.cli.common import clear_errors
from pennate.errors import InputError, Where
from pennate.files.dates import DateOrder

if TYPE_CHECKING:
    from pennate.core.quantities import LoadReading, Unit
    from pennate.files.how import How

Called = Annotated[
    list[str] | None,
    typer.Option("--as", metavar="NAME=EXERCISE", help="The exercise that a name means."),
]
New = Annotated[
    list[str] | None,
    typer.Option("--new", metavar="NAME", help="Accept this new exercise, kept apart."),
]
Unitless = Annotated[
    str | None, typer.Option("--unit", metavar="kg|lb", help="Unit of loads that have none.")
]
InOrder = Annotated[
    bool,
    typer.Option(
        "--in-order", help="Count sets as the rows stand; a day without a session’s name is one."
    ),
]
Dates = Annotated[
    DateOrder | None,
    typer.Option("--dates", help="What stands first in dates like 3/4/2026; else 2026-04-03."),
]
Columns = Annotated[
    list[str] | None,
    typer.Option(
        "--column",
        metavar="HEADING=COLUMN",
        help="What a column holds, as “Weight=load”; “Weight=” leaves it unread.",
    ),
]
LoadIs = Annotated[
    list[str] | None,
    typer.Option(
        "--load-is",
        metavar="EXERCISE=each|plates|…",
        help="What loads of an exercise count where the log does not say; else all together.",
    ),
]
OPTIONS: Mapping[str, Any] = MappingProxyType(
    {
        "new": New,
        "called": Called,
        "unit": Unitless,
        "in_order": InOrder,
        "dates": Dates,
        "columns": Columns,
        "load_is": LoadIs,
    }
)
"""The options by the parameters they fill."""


def reads_log(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command these options; its parameter `how` gets what they say."""
    there = inspect.signature(command).parameters
    hints = get_type_hints(command, localns={"How": object}, include_extras=True)
    shared = [
        inspect.Parameter(
            name,
            inspect.Parameter.KEYWORD_ONLY,
            default=False if name == "in_order" else None,
            annotation=kind,
        )
        for name, kind in OPTIONS.items()
    ]
    own = [
        one.replace(annotation=hints[name], kind=inspect.Parameter.KEYWORD_ONLY)
        for name, one in there.items()
        if name != "how"
    ]

    @wraps(command)
    def asked(**said: Any) -> None:
        with clear_errors(as_json=bool(said.get("as_json"))):
            how = _how(**{name: said.pop(name) for name in OPTIONS})
        command(how=how, **said)

    everything = [*own, *shared]
    asked.__signature__ = inspect.Signature(everything)  # type: ignore[attr-defined] # what typer reads
    asked.__annotations__ = {one.name: one.annotation for one in everything}
    return asked


def _how(
    *,
    new: Iterable[str] | None,
    called: Iterable[str] | None,
    unit: str | None,
    in_order: bool,
    dates: DateOrder | None,
    columns: Iterable[str] | None,
    load_is: Iterable[str] | None,
) -> How:
    """What the options say. Raises InputError for what says nothing."""
    from pennate.files.how import How
    from pennate.files.log_cells import COLUMNS
    from pennate.files.log_columns import UNREAD

    held = _pairs(columns, "--column", 'write it like "Weight=load"', empty=UNREAD)
    wrong = next((one for one in held.values() if one != UNREAD and one not in COLUMNS), None)
    if wrong is not None:
        raise InputError(
            f"“{wrong}” is no column of a log",
            Where(field="--column"),
            f"it is one of {', '.join(COLUMNS)}",
        )
    names = _pairs(called, "--as", 'write it like "Bench=bench_press"')
    loads = _pairs(load_is, "--load-is", 'write it like "Lateral raise=each"')
    counted = {name: _reading(word) for name, word in loads.items()}
    return How(frozenset(new or ()), names, _unit(unit), in_order, dates, held, counted)


def _reading(word: str) -> LoadReading:
    from pennate.core.quantities import LoadReading

    if word not in set(LoadReading):
        raise InputError(
            f"“{word}” is no way to count a load",
            Where(field="--load-is"),
            f"it is one of {', '.join(LoadReading)}",
        )
    return LoadReading(word)


def _pairs(
    pairs: Iterable[str] | None, option: str, remedy: str, *, empty: str = ""
) -> dict[str, str]:
    """What an option says of things; `empty` is what nothing after the sign means."""
    found = {}
    for pair in pairs or ():
        name, sign, meant = (part.strip() for part in pair.rpartition("="))
        if not (sign and name and (meant or empty)):
            raise InputError(f"“{pair}” says nothing", Where(field=option), remedy)
        found[name] = meant or empty
    return found


def _unit(text: str | None) -> Unit | None:
    """The unit that `--unit` names, as it is commonly spelt. Raises InputError."""
    from pennate.files.log_cells import read_unit

    if text is None:
        return None
    try:
        return read_unit(text)
    except InputError:
        raise InputError(
            f"“{text}” is not a unit", Where(field="--unit"), "write kg or lb"
        ) from None
