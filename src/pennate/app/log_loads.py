"""What bare loads of a log count where lifters say it in two ways: asked before they are saved."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from pennate.app.book import Book
from pennate.app.choices import LOADS, Choice, keep, kept_choices, loads_kept
from pennate.app.unnamed import TOGETHER, unnamed_sets
from pennate.core.exercise import EquipmentKind
from pennate.core.history import History
from pennate.core.quantities import LoadReading
from pennate.errors import InputError
from pennate.files.how import How
from pennate.files.log import LogFile

PART: Mapping[EquipmentKind, tuple[LoadReading, str]] = MappingProxyType(
    {
        EquipmentKind.DUMBBELLS: (LoadReading.EACH, "each of the two dumbbells"),
        EquipmentKind.SLED: (LoadReading.PLATES, "the plates alone, without the sled"),
    }
)
"""The other way of saying a load, of things that `TOGETHER` has the first way of."""
MOST_NAMED = 4
"""Exercises told by name in one question; the rest is counted."""


@dataclass(frozen=True, slots=True)
class AskedLoads:
    """Exercises whose loads are to be said what they count; one answer for all of them."""

    key: str
    exercises: tuple[str, ...]
    name: str
    answers: tuple[tuple[str, str], ...]
    """What can be said, with its words."""
    answer: str
    """The reading she said, now or before; empty while nothing is said."""


def asked_loads(
    book: Book, log: bytes, how: How, said: Mapping[str, str]
) -> tuple[AskedLoads, ...]:
    """The questions of a log; none while it cannot be read, which is told elsewhere."""
    try:
        read = how.read(log, book.catalogue, unknown_ok=True, ask=False)
    except InputError:
        return ()
    if "load_is" in read.columns:
        return ()
    before = loads_kept(kept_choices(book.ledger), book.catalogue)
    return tuple(_answered(one, before, said) for one in _questions(book, read))


def _answered(
    one: AskedLoads, before: Mapping[str, LoadReading], said: Mapping[str, str]
) -> AskedLoads:
    told = {before.get(exercise) for exercise in one.exercises}
    known = told.pop() if len(told) == 1 else None
    return replace(one, answer=said.get(one.key) or (known.value if known else ""))


def _questions(book: Book, log: LogFile) -> Iterator[AskedLoads]:
    """One for all that is surely of a kind; what may have been another thing stands alone."""
    could = _kinds(book, log)
    for kind in PART:
        whole = f"{TOGETHER[kind]} together"
        sure = tuple(one for one, kinds in could.items() if kinds == {kind})
        if sure:
            yield _question(book, f"+{kind.value}", kind, sure, whole)
        for one, kinds in could.items():
            if kind in kinds and len(kinds) > 1:
                yield _question(book, one, kind, (one,), f"{whole}, or on another thing")


def _question(
    book: Book, key: str, kind: EquipmentKind, exercises: tuple[str, ...], whole: str
) -> AskedLoads:
    names = [book.catalogue[one].name for one in exercises]
    more = len(names) - MOST_NAMED
    reading, words = PART[kind]
    return AskedLoads(
        key=key,
        exercises=exercises,
        name=" · ".join(names[:MOST_NAMED]) + (f" and {more} more" if more > 0 else ""),
        answers=((reading.value, words), (LoadReading.TOTAL.value, whole)),
        answer="",
    )


def _kinds(book: Book, log: LogFile) -> dict[str, set[EquipmentKind]]:
    """The kinds of thing that each exercise with bare loads may have been done on."""
    gym, catalogue = book.gym(), book.catalogue
    loaded = [
        done
        for done in log.rows
        if done.load and done.reading is LoadReading.TOTAL and done.exercise in catalogue
    ]
    found: dict[str, set[EquipmentKind]] = {}
    bare = History.of([done for done in loaded if not done.equipment])
    for one in unnamed_sets(bare, catalogue, lambda _: (book.week(), gym)).values():
        items = (one.item,) if one.item else one.others
        kinds = {item.kind for item in items} or {catalogue[one.exercise].equipment[0]}
        found[one.exercise] = kinds
    for done in loaded:
        item = gym.item(done.equipment) if gym and done.equipment else None
        if item is not None:
            found.setdefault(done.exercise, set()).add(item.kind)
    return found


def said_of(asked: tuple[AskedLoads, ...], said: Mapping[str, str]) -> dict[str, LoadReading]:
    """Her answers by exercise. Raises InputError for what is no answer."""
    found = {}
    for one in asked:
        word = said.get(one.key, "")
        if word and word not in dict(one.answers):
            raise InputError(f"“{word[:60]}” is no way to count a load", remedy="choose one shown")
        if word:
            found.update(dict.fromkeys(one.exercises, LoadReading(word)))
    return found


def keep_loads(book: Book, said: Mapping[str, LoadReading]) -> None:
    """Keep what she said loads count, whether or not their log can be taken in yet."""
    choices = (Choice(LOADS, exercise, reading.value) for exercise, reading in said.items())
    keep(book, choices)


def loads_wanted(asked: tuple[AskedLoads, ...], file: str) -> str:
    """The sentence that asks for what is still unsaid; empty where all is."""
    if all(one.answer for one in asked):
        return ""
    return f"{file}: say below what a load of dumbbells or of a sled counts"
