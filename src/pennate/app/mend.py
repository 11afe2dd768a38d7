"""A number asked about, put right where it is asked: the set is corrected, never doubled."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from pennate.app.book import Book
from pennate.app.merge import Stored
from pennate.app.questions import QUESTION
from pennate.core.performed import PerformedSet
from pennate.core.question import Question
from pennate.errors import InputError, Where
from pennate.files.log_cells import COLUMNS, READERS, cells_of
from pennate.ledger.sets import set_entry

NUMBERS: Mapping[str, str] = MappingProxyType(
    {
        "load": "Load",
        "reps": "Reps",
        "rest_s": "Rest in seconds",
        "seconds": "Seconds held",
        "body_mass_kg": "Body mass in kg",
    }
)
"""What can be put right in one box, with its label."""


@dataclass(frozen=True, slots=True)
class Box:
    """Where the right number is written."""

    label: str
    now: str
    """The number as it stands."""


def box_for(book: Book, question: Question) -> Box | None:
    """The box beside a question; None where it is not about one number of a set."""
    if question.field not in NUMBERS:
        return None
    done = next((one for one in book.as_written() if one.id == question.about), None)
    if done is None:
        return None
    unit = f" in {done.unit}" if question.field == "load" and done.unit else ""
    return Box(f"{NUMBERS[question.field]}{unit}", _cell(done, question.field))


def _cell(done: PerformedSet, field: str) -> str:
    return dict(zip(COLUMNS, cells_of(done), strict=True))[field]


def mend(book: Book, question_id: str, written: str) -> None:
    """Correct the set that a question is about; the old number stays in the history.

    Raises InputError for an unknown question, and for what is no such number.
    """
    asked = book.ledger.find(question_id)
    if asked is None or asked.kind != QUESTION:
        raise InputError("there is no such question")
    about, field = str(asked.body.get("about", "")), str(asked.body.get("field", ""))
    stored = Stored.of(book.ledger)
    old = stored.sets.get(about)
    if old is None or field not in NUMBERS:
        raise InputError("this is put right where it was written", remedy="mend it in the log")
    name, read = READERS[field]
    try:
        if not written.strip():
            raise InputError("the number is missing")
        new = replace(old, **{name: read(written.strip())})
    except InputError as error:
        raise InputError(error.what, Where(field=NUMBERS[field]), error.remedy) from None
    entry = set_entry(new, now=book.now(), rng=book.rng, replaces=stored.tips[about])
    book.ledger.append([entry])
