"""Rows of a log against what is stored: new, known, corrected, or taken back."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from random import Random

from pennate.core.check import Asked, questions_about
from pennate.core.exercise import Catalogue
from pennate.core.history import History
from pennate.core.performed import PerformedSet
from pennate.core.question import Question
from pennate.errors import InputError
from pennate.files.log import LogFile, placed
from pennate.files.log_cells import COLUMNS, READERS, cells_of
from pennate.ledger import RETRACTION, Entry, Ledger, is_entry_id
from pennate.ledger.sets import SET, set_entry, set_of

Place = tuple[date, str, int]


@dataclass(frozen=True, slots=True)
class Change:
    """One cell of a set before and after."""

    column: str
    was: str
    now: str


@dataclass(frozen=True, slots=True)
class Correction:
    """A set that a file changed; the old content stays in the history."""

    id: str
    place: str
    changes: tuple[Change, ...]

    def __str__(self) -> str:
        cells = ", ".join(
            f"{c.column} {c.was or 'empty'} → {c.now or 'empty'}" for c in self.changes
        )
        return f"{self.place}: {cells}"


@dataclass(slots=True)
class Stored:
    """The sets in the ledger, ready to be looked up."""

    sets: dict[str, PerformedSet] = field(default_factory=dict)
    tips: dict[str, str] = field(default_factory=dict)
    """The entry a correction of the set has to replace."""
    gone: set[tuple[str, ...]] = field(default_factory=set)
    """Contents of sets she has taken back."""
    at: dict[Place, list[str]] = field(default_factory=lambda: defaultdict(list))

    @classmethod
    def of(cls, ledger: Ledger) -> Stored:
        """Read the ledger; what cannot be understood there is left alone."""
        stored = cls()
        for root, entry in ledger.current(SET):
            if (done := _readable(entry, root)) is not None:
                stored.add(done, entry.id)
        for root, entry in ledger.current(RETRACTION):
            stored.tips[root] = entry.id
            kept = [old for old in ledger.chain(entry.id) if old.kind == SET]
            if kept and (done := _readable(kept[-1], kept[0].id)) is not None:
                stored.gone.add(content(done))
        return stored

    def add(self, done: PerformedSet, entry_id: str) -> None:
        """Take in a set and the entry that holds it."""
        self.sets[done.id] = done
        self.tips[done.id] = entry_id
        self.at[done.order].append(done.id)


@dataclass(slots=True)
class Merge:
    """What a log does to the ledger; `stored` ends as it will be afterwards."""

    stored: Stored
    log: LogFile
    roots: Mapping[str, str]
    """For ids of the file that are entries, the id their chain began with."""
    now: datetime
    rng: Random
    entries: list[Entry] = field(default_factory=list)
    changed: dict[str, str] = field(default_factory=dict)
    """Identity in the file of every set that is new or corrected, by its lasting id."""
    added: int = 0
    unchanged: int = 0
    taken_back: int = 0
    corrected: list[Correction] = field(default_factory=list)

    def run(self) -> None:
        """Compare every row."""
        taken = {self.roots.get(row.id, row.id) for row in self.log.rows if row.id}
        for row in self.log.rows:
            known = self._match(row, taken)
            if known is not None:
                taken.add(known)
                self._compare(known, row)
            elif self.stored.gone and content(row) in self.stored.gone:
                self.taken_back += 1
            else:
                taken.add(self._add(row))

    def _match(self, row: PerformedSet, taken: set[str]) -> str | None:
        """The stored set this row is about: by id, else by place."""
        known = self.roots.get(row.id, row.id)
        if known in self.stored.sets:
            return known
        here = [found for found in self.stored.at.get(row.order, ()) if found not in taken]
        if len(here) > 1 or (here and row.id):
            said = content(row)
            same = (found for found in here if content(self.stored.sets[found]) == said)
            return next(same, None if row.id else here[0])
        return here[0] if here else None

    def _add(self, row: PerformedSet) -> str:
        root = self.roots.get(row.id, "")
        gone = self.stored.tips.get(root)  # taken back once, and here with other content
        entry = set_entry(row, now=self.now, rng=self.rng, replaces=gone)
        done = set_of(entry, root)
        self.stored.add(done, entry.id)
        self.entries.append(entry)
        self.changed[done.id] = row.identity
        self.added += 1
        return done.id

    def _compare(self, known: str, row: PerformedSet) -> None:
        old = self.stored.sets[known]
        said = {"load_is"} if row.exercise in self.log.counted else set()
        new = _overlaid(old, row, self.log.columns | said)
        if old == new or content(old) == content(new):
            self.unchanged += 1
            return
        replaced = self.stored.tips[known]
        entry = set_entry(new, now=self.now, rng=self.rng, replaces=replaced)
        self.stored.sets[known], self.stored.tips[known] = new, entry.id
        self.entries.append(entry)
        self.changed[known] = row.identity
        place = f"{new.day}, session {new.session}, set {new.number}, {new.exercise}"
        self.corrected.append(Correction(known, place, tuple(_changes(old, new))))


def questions_after(
    merged: Merge, catalogue: Catalogue, today: date, name: str
) -> tuple[Question, ...]:
    """Questions about what is new or corrected, judged against everything stored."""
    history = History.of(merged.stored.sets.values())
    asked = questions_about(Asked(history, catalogue, today))
    lasting = {identity: done_id for done_id, identity in merged.changed.items()}
    lines = {lasting[identity]: merged.log.lines[identity] for identity in lasting}
    order = [
        replace(question, about=lasting[question.about])
        for question in merged.log.questions
        if question.about in lasting
    ]
    found = [placed(question, lines, name) for question in asked if question.about in lines]
    return tuple(sorted([*order, *found], key=lambda question: question.where.line or 0))


def content(done: PerformedSet) -> tuple[str, ...]:
    """Everything a set says but its id, as its cells; two sets alike are the same set."""
    extra = [f"{key}={value.strip()}" for key, value in sorted(done.extra.items()) if value.strip()]
    return (*(cell.strip() for cell in cells_of(done)[1:]), *extra)


def _readable(entry: Entry, root: str) -> PerformedSet | None:
    try:
        return set_of(entry, root)
    except InputError:  # `sets_from` reports it; a file cannot be compared with it
        return None


def _overlaid(old: PerformedSet, row: PerformedSet, columns: frozenset[str]) -> PerformedSet:
    """The row with what its file has no column for taken from the stored set."""
    missing = [READERS[column][0] for column in COLUMNS if column not in columns]
    kept = {name: getattr(old, name) for name in (*missing, "id")}
    return replace(row, **kept, extra={**old.extra, **row.extra})


def _changes(old: PerformedSet, new: PerformedSet) -> Iterator[Change]:
    before, after = cells_of(old), cells_of(new)
    for column, was, now in zip(COLUMNS, before, after, strict=True):
        if was.strip() != now.strip():
            yield Change(column, was, now)
    for column in dict.fromkeys((*old.extra, *new.extra)):
        was, now = old.extra.get(column, ""), new.extra.get(column, "")
        if was.strip() != now.strip():
            yield Change(column, was, now)


def entry_ids(log: LogFile) -> list[str]:
    """Ids of the file that could be entries."""
    return [row.id for row in log.rows if is_entry_id(row.id)]
