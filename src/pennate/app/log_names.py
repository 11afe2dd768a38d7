"""What the unknown names of a log mean: asked for, answered, and told beside other problems."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from pennate.app.book import Book
from pennate.app.choices import NAME, NEW, Choice, keep, kept_choices, names_kept
from pennate.core.plural import plural
from pennate.errors import InputError
from pennate.files.how import How
from pennate.files.log_names import UnknownName, unknown_names

__all__ = [
    "NEW",
    "AskedName",
    "answered",
    "asked_names",
    "keep_names",
    "names_wanted",
    "still_wrong",
]


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
    book: Book, log: bytes, said: Mapping[str, str], how: How = How()
) -> tuple[AskedName, ...]:
    """The names of a log that no exercise has, with what she said of them, now or before.

    Raises InputError where the log is no table at all.
    """
    apart = {done.exercise for done in book.as_written()} - set(book.catalogue.exercises)
    before = dict.fromkeys(apart, NEW) | names_kept(kept_choices(book.ledger), book.catalogue)
    return tuple(
        AskedName(
            one.written,
            _words(one),
            one.near,
            said.get(one.written) or before.get(one.written, ""),
        )
        for one in unknown_names(log, book.catalogue, how.dates, how.columns)
    )


def keep_names(book: Book, said: Mapping[str, str]) -> None:
    """Keep what she said names mean, whether or not their log can be taken in yet.

    Raises InputError where an answer is no exercise.
    """
    told = {name: means for name, means in said.items() if name and means}
    wrong = next((one for one in told.values() if one != NEW and one not in book.catalogue), None)
    if wrong is not None:
        raise InputError(f"there is no exercise “{wrong[:60]}”", remedy="choose one from the list")
    choices = (Choice(NAME, name, means) for name, means in told.items())
    keep(book, choices)


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
        how.read(log, book.catalogue, unknown_ok=True, ask=False, name=file)
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
