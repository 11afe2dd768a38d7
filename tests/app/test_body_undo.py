"""Every record of the body can be taken back: the record is then as if it had never been noted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest

from pennate.app import body_notes as notes
from pennate.app.body_record import PERIOD, record_of
from pennate.app.body_recovery import reported_days, short_nights
from pennate.app.body_undo import LATELY, noted_lately, take_back
from pennate.app.book import Book
from pennate.core.body import Site, TapeState
from pennate.core.performed import Side
from pennate.core.profile import Profile
from pennate.core.readiness import Health
from pennate.ledger.measured import GIRTH, WEIGHT
from tests.app.conftest import NOW
from tests.web.conftest import Clock

DAY = date(2026, 3, 1)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Records with a note of every kind the day before, and a clock that moves."""
    made = Book.open(tmp_path, Clock(NOW), Random(4))
    made.save_profile(Profile(health=Health.NONE, female=True))
    for kind in KINDS.values():
        kind.note(made, DAY - timedelta(days=30))
    return made


def tape(book: Book, day: date, fold: Fraction | None = None) -> None:
    """Readings of a left thigh, with a skinfold or without."""
    girths: dict[Side | None, tuple[Fraction, ...]] = {
        Side.LEFT: (Fraction("55.1"), Fraction("55.3"))
    }
    folds: dict[Side | None, Fraction] = {Side.LEFT: fold} if fold else {}
    taped = notes.Taped(
        day=day, site=Site.THIGH, state=TapeState.RELAXED, girths=girths, skinfolds=folds
    )
    notes.save_girths(book, taped)


def check_in(book: Book, day: date, **said: object) -> None:
    """A check-in before a session."""
    book.put(notes.READINESS, day, {"short_sleep": True, "pain": {"knee": 4}, **said})


@dataclass(frozen=True, slots=True)
class Kind:
    """How a note is made, its kind, what it says in the list, and what the record holds of it."""

    note: Callable[[Book, date], object]
    kind: str
    says: str
    holds: Callable[[Book], object]


KINDS = {
    "girth": Kind(tape, GIRTH, "left thigh: 55.1, 55.3 cm", lambda b: record_of(b).measurements),
    "skinfold": Kind(
        lambda b, d: tape(b, d, Fraction(18)),
        GIRTH,
        "left thigh: 55.1, 55.3 cm, skinfold 18 mm",
        lambda b: record_of(b).measurements,
    ),
    "weight": Kind(
        lambda b, d: notes.save_weight(b, d, Fraction("64.2")),
        WEIGHT,
        "64.2 kg",
        lambda b: record_of(b).weighings,
    ),
    "sleep": Kind(
        lambda b, d: notes.save_sleep(b, d, Fraction("6.5")),
        notes.SLEEP,
        "slept 6.5 hours",
        notes.nights,
    ),
    "food": Kind(
        lambda b, d: notes.save_intake(b, d, Fraction(2100), Fraction(110)),
        notes.INTAKE,
        "2100 kcal, 110 g protein",
        notes.eaten,
    ),
    "readiness": Kind(
        check_in,
        notes.READINESS,
        "short sleep, knee hurts 4",
        lambda b: (notes.pain_reports(b), short_nights(b), reported_days(b)),
    ),
    "pain": Kind(
        lambda b, d: notes.save_morning(b, d, "shoulder", 6, alarming=True),
        notes.PAIN,
        "shoulder 6 in the morning, sharp, swelling, locking or giving way",
        notes.pain_reports,
    ),
    "period": Kind(notes.save_period, PERIOD, "a period began", notes.periods),
    "bleeding": Kind(
        lambda b, d: notes.save_period(b, d, last=True),
        notes.BLEEDING,
        "bleeding ended",
        lambda b: (notes.bleeding_days(b), b.entries(notes.BLEEDING)),
    ),
}


@pytest.mark.parametrize("name", KINDS)
def test_a_note_taken_back_leaves_the_record_as_it_was(name: str, book: Book) -> None:
    """Noted, named in the list, taken back: nothing of it is left, and the ledger keeps both."""
    one = KINDS[name]
    before, entries = one.holds(book), book.ledger.count()
    one.note(book, DAY)
    assert one.holds(book) != before
    latest = noted_lately(book, one.kind)[0]
    assert (latest.day, latest.what) == (DAY, one.says)
    take_back(book, latest.id)
    assert one.holds(book) == before
    assert latest not in noted_lately(book, one.kind)
    assert book.ledger.count() == entries + 2


def test_the_last_check_in_of_a_day_counts(book: Book) -> None:
    """A slip of the thumb, 9 for 2 or a short night that was none, is not kept against her."""
    check_in(book, DAY, pain={"knee": 9}, low_energy=True)
    check_in(book, DAY, pain={"knee": 2}, short_sleep=False)
    report = notes.pain_reports(book)[-1]
    assert (report.day, report.joint, report.score) == (DAY, "knee", 2)
    assert DAY not in short_nights(book) | reported_days(book)


def test_a_check_in_taken_back_is_the_whole_of_that_day(book: Book) -> None:
    """Each tap is an entry: none of them comes up again when the last is taken back."""
    check_in(book, DAY, pain={"knee": 9})
    check_in(book, DAY, pain={"knee": 2})
    take_back(book, noted_lately(book, notes.READINESS)[0].id)
    assert DAY not in {one.day for one in notes.pain_reports(book)}


def test_few_notes_are_listed_and_an_empty_check_in_is_none(book: Book) -> None:
    """The list stays short and holds nothing that says nothing; within a minute it goes by day."""
    for past in (3, 0, 1, 2, 5, 4, 6):
        notes.save_weight(book, DAY - timedelta(days=past), Fraction(60 + past))
    listed = noted_lately(book, WEIGHT)
    assert [one.what for one in listed] == [f"{60 + n} kg" for n in range(LATELY)]
    later = Book(book.ledger, lambda: NOW + timedelta(hours=3), Random(6))
    notes.save_weight(later, DAY - timedelta(days=20), Fraction(77))
    assert noted_lately(later, WEIGHT)[0].what == "77 kg"
    book.put(notes.READINESS, DAY, {"short_sleep": False, "pain": {}})
    assert DAY not in {one.day for one in noted_lately(book, notes.READINESS)}


def test_hidden_weight_is_hidden_in_the_list(book: Book) -> None:
    """A weighing can be taken back without its number being shown."""
    notes.save_weight(book, DAY, Fraction("64.2"))
    notes.choose(book, notes.Choices(hide_weight=True))
    listed = noted_lately(book, WEIGHT)
    assert {one.what for one in listed} == {"a weighing"}
    take_back(book, listed[0].id)
    assert DAY not in {one.day for one in record_of(book).weighings}
