"""A day of her own in a starter gym, for the tests of its loads."""

from __future__ import annotations

from pathlib import Path

from pennate.app.book import Book
from pennate.app.start import take_starter_gym
from pennate.app.today import card_for
from pennate.core.card import Card, CardSet, CardStop
from pennate.core.performed import SetKind
from pennate.files.week import read_week

DAY = "Tuesday"


def plan(book: Book, folder: Path, exercises: str, *, gym: str = "commercial_kg") -> None:
    """Make these exercises, as the week file writes them, her Tuesday in this gym."""
    file = folder / "own.toml"
    file.write_text(f'[[day]]\nday = "{DAY}"\n{exercises}', encoding="utf-8")
    take_starter_gym(book, gym)
    book.save_week(read_week(file, book.catalogue))


def exercise(name: str, sets: str, *more: str) -> str:
    """One exercise of a week file."""
    return "\n".join(("[[day.exercise]]", f'exercise = "{name}"', f"sets = [{sets}]", *more, ""))


def card_of(book: Book, weekday: str = DAY) -> Card:
    """The card of her Tuesday, or of another of her days, today."""
    card = card_for(book, book.today, weekday=weekday)
    assert isinstance(card, Card)
    return card


def stop_of(book: Book, name: str, weekday: str = DAY) -> CardStop:
    """The stop of an exercise on that card."""
    return next(stop for stop in card_of(book, weekday).stops if stop.exercise == name)


def hard(stop: CardStop) -> list[CardSet]:
    """Its sets without the warm-up."""
    return [one for one in stop.sets if one.kind is not SetKind.WARM_UP]


def kg(one: CardSet) -> float:
    """Felt load of a set, without body mass."""
    assert one.load is not None
    return one.load.felt_kg
