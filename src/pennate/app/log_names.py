"""What the unknown names of a log mean: asked for, answered, and told beside other problems."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from pennate.app.book import Book
from pennate.app.exchange import How
from pennate.core.plural import plural
from pennate.errors import InputError
from pennate.files.dates import DateOrder
from pennate.files.log import read_log
from pennate.files.log_names import UnknownName, unknown_names

NEW = "+new"
"""The answer that a name is a new exercise of hers; no exercise can have this id."""


@dataclass(frozen=True, slots=True)
class AskedName:
    """A name to be said what it is."""

    name: str
    words: str
    """How often, and when, so that she knows which she meant."""
    near: tuple[str, ...]
    answer: str
    """An exercise's id, `NEW`, or empty while nothing is said."""


def asked_names(
    book: Book, log: bytes, said: Mapping[str, str], dates: DateOrder | None = None
) -> tuple[AskedName, ...]:
    """The names of a log that no exercise has, with what she said of them, now or before.

    Raises InputError where the log is no table at all.
    """
    apart = {done.exercise for done in book.as_written()} - set(book.catalogue.exercises)
    return tuple(
        AskedName(
            one.written,
            _words(one),
            one.near,
            said.get(one.written) or (NEW if one.written in apart else ""),
        )
        for one in unknown_names(log, book.catalogue, dates)
    )


def _words(one: UnknownName) -> str:
    counted = plural(one.sets, "set")
    if one.first is None or one.last is None:
        return counted
    if one.first == one.last:
        return f"{counted}, {one.first:%-d %B %Y}"
    return f"{counted}, {one.first:%-d %B %Y} to {one.last:%-d %B %Y}"


def answered(how: How, asked: tuple[AskedName, ...]) -> How:
    """The choices of an import with her answers among them."""
    return replace(
        how,
        new=frozenset(one.name for one in asked if one.answer == NEW),
        names={one.name: one.answer for one in asked if one.answer not in {"", NEW}},
    )


def still_wrong(book: Book, log: bytes, how: How, file: str) -> str:
    """What is wrong with a log apart from unknown names; empty where nothing is."""
    try:
        read_log(
            log,
            book.catalogue,
            new=how.new,
            unit=how.unit,
            in_order=how.in_order,
            dates=how.dates,
            ways=how.ways,
            unknown_ok=True,
            ask=False,
            name=file,
        )
    except InputError as error:
        return str(error)
    return ""


def names_wanted(asked: tuple[AskedName, ...], file: str) -> str:
    """The sentence that asks for what is still unsaid; empty where all is."""
    open_names = [one.name for one in asked if not one.answer]
    if not open_names:
        return ""
    if len(open_names) == 1:
        return f"{file}: “{open_names[0]}” is no exercise known here; say below what it is"
    return f"{file}: {len(open_names)} names are no exercises known here; say below what each is"
