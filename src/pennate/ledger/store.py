"""The ledger: append, correct, take back, read. One writer; readers cannot write."""

from __future__ import annotations

import json
import threading
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from random import Random
from types import TracebackType
from typing import Any, Self

from sqlalchemy import URL, Connection, Row, Select, exists, func, insert, select, tuple_, update

from pennate.errors import InputError, StateError
from pennate.ledger import engine, schema
from pennate.ledger.entry import (
    RETRACTION,
    SETTLED,
    Entry,
    body_text,
    digest_of,
    stamp,
    uuid7,
)

CHUNK = 500
"""Ids asked for at once; SQLite takes at most 32,766 parameters."""


@dataclass(frozen=True, slots=True)
class Appended:
    """What became of a batch: new entries, ones already here, ones in conflict."""

    added: int
    repeated: int
    conflicts: int


@dataclass(frozen=True, slots=True)
class Conflict:
    """Two contents for one thing; `kept` is the one in use, both are stored."""

    id: str
    kept: Entry
    other: Entry
    why: str


class MovedError(StateError):
    """Somebody wrote in between; read again and repeat."""


class Ledger:
    """All entries of one lifter, in a SQLite file or a PostgreSQL database."""

    def __init__(self, url: URL) -> None:
        self.url = url
        self._writer = engine.writer(url)
        self._reader = engine.reader(url)
        self._one_writer = threading.Lock()

    @classmethod
    def open(cls, target: str | Path) -> Ledger:
        """Open a ledger and bring it up to date; a missing SQLite file is made.

        Raises StateError when the records are damaged, of a newer pennate or out of reach.
        """
        url = engine.url_of(target)
        ledger = cls(url)
        try:
            with engine.telling(url):
                ledger._prepare_file()
            with ledger.writing() as connection:
                schema.upgrade(connection)
        except BaseException:
            ledger.close()
            raise
        return ledger

    @property
    def path(self) -> Path | None:
        """The SQLite file, or None on a server."""
        if self.url.get_backend_name() != "sqlite":
            return None
        return Path(str(self.url.database))

    def close(self) -> None:
        """Give back every connection."""
        self._writer.dispose()
        self._reader.dispose()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def append(self, entries: Iterable[Entry], *, only_at: int | None = None) -> Appended:
        """Take in a batch, all or nothing. The same entry twice is one entry.

        The same id with other content is kept as a conflict. With `only_at`, raises
        MovedError when the ledger has gone beyond that position.
        """
        batch = tuple(entries)
        with self.writing() as connection:
            if only_at is not None and _position(connection) != only_at:
                raise MovedError("the records changed meanwhile; try again")
            return _take_in(connection, batch)

    def entries(
        self, *kinds: str, since: date | None = None, until: date | None = None
    ) -> tuple[Entry, ...]:
        """Current entries of these kinds (all, if none is named), by day and arrival.

        `since` and `until` are days, both included.
        """
        return tuple(entry for _, entry in self.current(*kinds, since=since, until=until))

    def current(
        self, *kinds: str, since: date | None = None, until: date | None = None
    ) -> Iterator[tuple[str, Entry]]:
        """Current entries as `entries` gives them, each with the id its chain began with."""
        query = _current()
        if kinds:
            query = query.where(schema.entry.c.kind.in_(kinds))
        if since is not None:
            query = query.where(schema.entry.c.day >= since.isoformat())
        if until is not None:
            query = query.where(schema.entry.c.day <= until.isoformat())
        query = query.order_by(schema.entry.c.day, schema.entry.c.seq)
        for row in self._rows(query):
            yield row.root, entry_of(row)

    def ends(self) -> dict[str, str]:
        """The id of every current entry, by the id its chain began with."""
        table = schema.entry
        rows = self._rows(_current().with_only_columns(table.c.root, table.c.id))
        return {row.root: row.id for row in rows}

    def kinds(self) -> frozenset[str]:
        """Every kind of entry there is."""
        rows = self._rows(select(schema.entry.c.kind).distinct())
        return frozenset(row.kind for row in rows)

    def find(self, entry_id: str) -> Entry | None:
        """The current entry of the chain this id belongs to, a retraction included."""
        root = self._root(entry_id)
        rows = self._rows(_current().where(schema.entry.c.root == root))
        return entry_of(rows[0]) if rows else None

    def chain(self, entry_id: str) -> tuple[Entry, ...]:
        """The whole history of one thing: the first entry, then every correction."""
        table = schema.entry
        query = select(table).where(table.c.root == self._root(entry_id)).order_by(table.c.seq)
        return tuple(entry_of(row) for row in self._rows(query))

    def everything(self, after: int = 0, limit: int | None = None) -> tuple[tuple[int, Entry], ...]:
        """Every entry in order of arrival, replaced ones too, each with its position."""
        table = schema.entry
        query = select(table).where(table.c.seq > after).order_by(table.c.seq).limit(limit)
        return tuple((row.seq, entry_of(row)) for row in self._rows(query))

    def position(self) -> int:
        """The position of the newest entry; 0 when empty."""
        with self.reading() as connection:
            return _position(connection)

    def count(self) -> int:
        """How many entries there are, replaced ones too."""
        with self.reading() as connection:
            return int(connection.execute(select(func.count(schema.entry.c.seq))).scalar() or 0)

    def retract(self, entry_id: str, *, now: datetime, rng: Random, why: str = "") -> Entry:
        """Take an entry back; it stays in the history. Raises InputError if unknown."""
        current = self.find(entry_id)
        if current is None:
            raise InputError(f"there is no entry {entry_id}")
        taken_back = Entry(
            id=uuid7(now, rng),
            kind=RETRACTION,
            day=current.day,
            made_at=now,
            replaces=current.id,
            body={"why": why},
        )
        self.append([taken_back])
        return taken_back

    def conflicts(self) -> tuple[Conflict, ...]:
        """Conflicts nobody has settled: one id with two contents, or two corrections of one."""
        settled = {str(entry.body.get("conflict")) for entry in self.entries(SETTLED)}
        found = (*self._same_id(), *self._forks())
        return tuple(conflict for conflict in found if conflict.id not in settled)

    def settle(self, conflict: Conflict, *, now: datetime, rng: Random) -> Entry:
        """Note that a conflict was looked at; what is in use stays as it is."""
        note = Entry(
            id=uuid7(now, rng),
            kind=SETTLED,
            day=now.date(),
            made_at=now,
            body={"conflict": conflict.id},
        )
        self.append([note])
        return note

    def _same_id(self) -> Iterator[Conflict]:
        for row in self._rows(select(schema.conflict).order_by(schema.conflict.c.seq)):
            kept = self._rows(select(schema.entry).where(schema.entry.c.id == row.id))[0]
            yield Conflict(
                row.digest, entry_of(kept), entry_of(row), "one id came with two contents"
            )

    def _forks(self) -> Iterator[Conflict]:
        table = schema.entry
        tips = select(table).where(~_replaced(table))
        forked = tips.with_only_columns(table.c.root).group_by(table.c.root)
        forked = forked.having(func.count() > 1)
        query = tips.where(table.c.root.in_(forked.scalar_subquery()))
        query = query.order_by(table.c.root, table.c.made_at.desc(), table.c.id.desc())
        kept: Row[Any] | None = None
        for row in self._rows(query):
            if kept is None or kept.root != row.root:
                kept = row
            elif (row.kind, row.day, row.body) != (kept.kind, kept.day, kept.body):
                yield Conflict(row.id, entry_of(kept), entry_of(row), "it was corrected twice")

    def roots(self, ids: Iterable[str]) -> dict[str, str]:
        """For those of the ids that are entries here, the id their chain began with."""
        with self.reading() as connection:
            return _column(connection, "root", list(ids))

    def _root(self, entry_id: str) -> str:
        table = schema.entry
        rows = self._rows(select(table.c.root).where(table.c.id == entry_id))
        return str(rows[0].root) if rows else entry_id

    def _rows(self, query: Select[Any]) -> Sequence[Row[Any]]:
        with self.reading() as connection:
            return connection.execute(query).all()

    def generation(self) -> str:
        """A name that changes when the records are restored; positions belong to it."""
        query = select(schema.about.c.value).where(schema.about.c.key == "generation")
        rows = self._rows(query)
        return str(rows[0].value) if rows else "first"

    def revision(self) -> tuple[str, int]:
        """Generation and position at once: while they stay, everything read stays as it is."""
        row = self._rows(_REVISION)[0]
        return str(row.generation or "first"), int(row.position or 0)

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A connection that sees one state and cannot write."""
        with engine.telling(self.url), self._reader.begin() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """The one connection that writes; all of it is kept, or nothing after an error."""
        with engine.telling(self.url), self._one_writer, self._writer.begin() as connection:
            yield connection

    def _prepare_file(self) -> None:
        if self.path is not None and not self.path.exists():
            self.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            self.path.touch(mode=0o600)


_REVISION = select(
    select(schema.about.c.value)
    .where(schema.about.c.key == "generation")
    .scalar_subquery()
    .label("generation"),
    select(func.max(schema.entry.c.seq)).scalar_subquery().label("position"),
)


def entry_of(row: Row[Any]) -> Entry:
    """The entry that a row holds."""
    return Entry(
        id=row.id,
        kind=row.kind,
        day=date.fromisoformat(row.day),
        made_at=datetime.fromisoformat(row.made_at),
        replaces=row.replaces,
        body=json.loads(row.body),
    )


def row_of(entry: Entry) -> dict[str, Any]:
    """The columns of an entry, without position and root."""
    day, body = entry.day.isoformat(), body_text(entry.body)
    return {
        "id": entry.id,
        "kind": entry.kind,
        "day": day,
        "made_at": stamp(entry.made_at),
        "replaces": entry.replaces,
        "body": body,
        "digest": digest_of(entry.kind, day, entry.replaces, body),
    }


def _replaced(table: Any) -> Any:
    newer = schema.entry.alias()
    return exists().where(newer.c.replaces == table.c.id)


def _current() -> Select[Any]:
    """Entries at the end of their chain; of two ends, the one made last."""
    table, rival = schema.entry, schema.entry.alias()
    beaten = exists().where(
        rival.c.root == table.c.root,
        tuple_(rival.c.made_at, rival.c.id) > tuple_(table.c.made_at, table.c.id),
        ~_replaced(rival),
    )
    return select(table).where(~_replaced(table), ~beaten)


def _position(connection: Connection) -> int:
    return int(connection.execute(select(func.max(schema.entry.c.seq))).scalar() or 0)


def _take_in(connection: Connection, batch: tuple[Entry, ...]) -> Appended:
    known = _column(connection, "digest", [entry.id for entry in batch])
    rows, clashes, repeated = [], [], 0
    for row in map(row_of, batch):
        digest = known.get(row["id"])
        if digest is None:
            known[row["id"]] = row["digest"]
            rows.append(row)
        elif digest == row["digest"]:
            repeated += 1
        else:
            clashes.append(row)
    _insert(connection, rows)
    new_clashes = _keep_conflicts(connection, clashes)
    return Appended(len(rows), repeated + len(clashes) - new_clashes, new_clashes)


def _insert(connection: Connection, rows: list[dict[str, Any]]) -> None:
    if not rows:
        return
    roots = _column(connection, "root", [row["replaces"] for row in rows if row["replaces"]])
    for row in rows:
        old = row["replaces"]
        row["root"] = row["id"] if old is None else roots.get(old, old)
        if old is not None and row["root"] == row["id"]:
            raise InputError(f"entry {row['id']} would replace its own correction")
        roots[row["id"]] = row["root"]
    connection.execute(insert(schema.entry), rows)
    _adopt(connection, [row for row in rows if row["replaces"]])


def _adopt(connection: Connection, corrections: list[dict[str, Any]]) -> None:
    """Give corrections that arrived before what they correct the right beginning."""
    table = schema.entry
    for row in corrections:
        late = update(table).where(table.c.root == row["id"]).values(root=row["root"])
        connection.execute(late)


def _keep_conflicts(connection: Connection, clashes: list[dict[str, Any]]) -> int:
    table, new = schema.conflict, 0
    for row in clashes:
        same = select(table.c.seq).where(table.c.id == row["id"], table.c.digest == row["digest"])
        if connection.execute(same).first() is None:
            connection.execute(insert(table), [row])
            new += 1
    return new


def _column(connection: Connection, name: str, ids: list[str]) -> dict[str, str]:
    """One column of the entries that have these ids."""
    table, found = schema.entry, {}
    for start in range(0, len(ids), CHUNK):
        query = select(table.c.id, table.c[name]).where(table.c.id.in_(ids[start : start + CHUNK]))
        found.update({row[0]: row[1] for row in connection.execute(query)})
    return found
