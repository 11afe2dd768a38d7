"""What she said of her logs, kept with her records so that it is asked once.

A choice is an answer to what a log leaves open: which exercise one of its names means,
what a column of it holds, what a bare load counts. The newest answer to a question holds.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any

from pennate.app.book import Book
from pennate.core.exercise import Catalogue
from pennate.core.quantities import LoadReading
from pennate.files.how import How, readings
from pennate.files.log_names import known_id, meanings
from pennate.ledger import Entry, Ledger

CHOICE = "choice"
"""Kind of an entry that holds an answer."""
NAME = "name"
"""What a choice is of: a name that exercises have in her logs."""
COLUMN = "column"
"""What a choice is of: the heading of a column of her logs."""
LOADS = "load_is"
"""What a choice is of: an exercise whose loads stand without a word on what they count."""
NEW = "+new"
"""The answer that a name is a new exercise of hers; no exercise can have this id."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer."""

    of: str
    """What kind of question it answers."""
    written: str
    """What was asked about, as her log has it."""
    means: str

    @property
    def body(self) -> dict[str, Any]:
        """As an entry holds it."""
        return {"of": self.of, "written": self.written, "means": self.means}


Choices = Mapping[tuple[str, str], str]
"""What was answered, by kind of question and what was asked about."""


def choice_of(body: Mapping[str, Any]) -> Choice:
    """The choice that an entry holds."""
    return Choice(*(str(body.get(key, "")) for key in ("of", "written", "means")))


def choices_in(entries: Iterable[Entry]) -> Choices:
    """The answers among entries."""
    ordered = sorted(
        (entry for entry in entries if entry.kind == CHOICE), key=lambda e: (e.made_at, e.id)
    )
    told = (choice_of(entry.body) for entry in ordered)
    return MappingProxyType({(one.of, one.written): one.means for one in told})


def kept_choices(ledger: Ledger, beside: Iterable[Entry] = ()) -> Choices:
    """The answers in the ledger, and among the entries that come to be written with them."""
    return choices_in((*ledger.entries(CHOICE), *beside))


def names_kept(kept: Choices, catalogue: Catalogue) -> dict[str, str]:
    """What names were said to be, `NEW` among it; what no longer says anything is left out.

    A name that the catalogue has by now needs no answer, and an exercise that is gone can no
    longer be meant.
    """
    return {
        written: means
        for (of, written), means in kept.items()
        if of == NAME
        and known_id(catalogue, written) is None
        and (means == NEW or means in catalogue)
    }


def with_kept(how: How, kept: Choices, catalogue: Catalogue) -> How:
    """The choices of an import with those made before; what is said now goes first."""
    names = names_kept(kept, catalogue)
    new = {name for name, means in names.items() if means == NEW} - set(how.names)
    before = {name: means for name, means in names.items() if means != NEW and name not in how.new}
    columns = {**columns_kept(kept), **how.columns}
    loads = loads_kept(kept, catalogue)
    return replace(
        how,
        new=how.new | new,
        names={**before, **how.names},
        columns=columns,
        load_was={one: reading for one, reading in loads.items() if one not in how.load_is},
    )


def loads_kept(kept: Choices, catalogue: Catalogue) -> dict[str, LoadReading]:
    """What loads without a word were said to count, by the exercise."""
    return {
        written: LoadReading(means)
        for (of, written), means in kept.items()
        if of == LOADS and written in catalogue and means in set(LoadReading)
    }


def columns_kept(kept: Choices) -> dict[str, str]:
    """What columns were said to hold, by their headings."""
    return {written: means for (of, written), means in kept.items() if of == COLUMN}


def choices_made(how: How, catalogue: Catalogue) -> Iterator[Choice]:
    """What an import says: of names, where nothing else settles them. Raises InputError."""
    said = dict.fromkeys(sorted(how.new), NEW) | meanings(catalogue, how.names)
    for written, means in said.items():
        if known_id(catalogue, written) is None:
            yield Choice(NAME, written, means)
    for written, means in how.columns.items():
        yield Choice(COLUMN, written, means)
    for exercise, reading in readings(catalogue, how.load_is).items():
        yield Choice(LOADS, exercise, reading.value)


def not_yet(said: Iterable[Choice], kept: Choices) -> tuple[Choice, ...]:
    """Those that are not kept already."""
    return tuple(one for one in said if kept.get((one.of, one.written)) != one.means)


def keep(book: Book, said: Iterable[Choice]) -> None:
    """Keep what she said, whether or not the log it is about can be taken in yet."""
    for one in not_yet(said, kept_choices(book.ledger)):
        book.put(CHOICE, book.today, one.body)
