"""The whole ledger into a single SQLite file, and the rows of one ledger into another."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy import Connection, Table, delete, false, func, insert, select

from pennate.ledger import schema
from pennate.ledger.store import Ledger, MovedError

CHUNK = 5000
"""Rows carried at once."""


def copy_to_file(ledger: Ledger, path: Path) -> None:
    """A consistent copy in a new SQLite file, while others may go on writing."""
    if ledger.path is None:
        with Ledger.open(path) as copy:
            pour(ledger, copy, generation=ledger.generation())
    else:
        with (
            closing(sqlite3.connect(f"file:{ledger.path}?mode=ro", uri=True)) as source,
            closing(sqlite3.connect(path)) as target,
        ):
            source.backup(target)
    with closing(sqlite3.connect(path)) as single:
        single.execute("PRAGMA journal_mode = DELETE")  # one file, nothing beside it


def pour(source: Ledger, target: Ledger, *, generation: str, only_at: int | None = None) -> None:
    """Make the target hold exactly what the source holds, in one transaction.

    With `only_at`, raises MovedError when the target has gone beyond that position.
    """
    with source.reading() as rows, target.writing() as connection:
        here = connection.execute(select(func.max(schema.entry.c.seq))).scalar() or 0
        if only_at is not None and here != only_at:
            raise MovedError("the records changed meanwhile; try again")
        for table in (schema.entry, schema.conflict):
            connection.execute(delete(table))
            _carry(rows, connection, table)
        connection.execute(delete(schema.about))
        connection.execute(insert(schema.about), [{"key": "generation", "value": generation}])


def _carry(rows: Connection, connection: Connection, table: Table) -> None:
    found = rows.execute(select(table).order_by(table.c.seq))
    while chunk := found.mappings().fetchmany(CHUNK):
        connection.execute(insert(table), [dict(row) for row in chunk])
    if connection.dialect.name == "postgresql":
        following = select(func.coalesce(func.max(table.c.seq), 0) + 1).scalar_subquery()
        counter = func.pg_get_serial_sequence(table.name, "seq")
        connection.execute(select(func.setval(counter, following, false())))
