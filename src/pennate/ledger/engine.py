"""Connections: one that writes, others that cannot, on SQLite or PostgreSQL."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Engine, create_engine, event, make_url
from sqlalchemy.exc import ArgumentError, SQLAlchemyError

from pennate.errors import InputError, MissingPartError, PennateError, StateError

WAIT_MS = 30_000
"""How long a writer waits for another one before it gives up."""


def url_of(target: str | Path) -> URL:
    """A database address: text with `://` is a URL, anything else a SQLite file."""
    if isinstance(target, str) and "://" in target:
        try:
            url = make_url(target)
        except ArgumentError:
            raise InputError("this is not a database address") from None
        if url.get_backend_name() == "postgresql":
            if find_spec("psycopg") is None:
                raise MissingPartError(
                    "records in PostgreSQL need one more part: pip install 'pennate[postgres]'"
                )
            return url.set(drivername="postgresql+psycopg")
        if url.get_backend_name() != "sqlite" or not url.database:
            raise InputError("records lie in a SQLite file or in PostgreSQL, nothing else")
        return url
    return URL.create("sqlite", database=str(target))


def writer(url: URL) -> Engine:
    """An engine with a single connection that may write."""
    engine = create_engine(url, pool_size=1, max_overflow=0)
    if url.get_backend_name() == "sqlite":
        event.listen(engine, "connect", _sqlite_writer)
        event.listen(engine, "begin", _begin_immediate)
    else:
        event.listen(engine, "begin", _lock_out_writers)
    return engine


def reader(url: URL) -> Engine:
    """An engine whose connections cannot write."""
    if url.get_backend_name() == "sqlite":
        engine = create_engine(url)
        event.listen(engine, "connect", _sqlite_reader)
        event.listen(engine, "begin", _begin)
    else:
        engine = create_engine(url, isolation_level="REPEATABLE READ")
        event.listen(engine, "begin", _read_only)
    return engine


def _sqlite_writer(connection: Any, _record: object) -> None:
    connection.isolation_level = None  # we begin transactions ourselves, so that DDL is inside
    cursor = connection.cursor()
    cursor.execute(f"PRAGMA busy_timeout = {WAIT_MS}")
    cursor.execute("PRAGMA journal_mode = WAL")
    cursor.execute("PRAGMA synchronous = FULL")  # an acknowledged set survives a power cut
    cursor.close()


def _sqlite_reader(connection: Any, _record: object) -> None:
    connection.isolation_level = None
    cursor = connection.cursor()
    cursor.execute(f"PRAGMA busy_timeout = {WAIT_MS}")
    cursor.execute("PRAGMA query_only = ON")
    cursor.close()


def _begin(connection: Connection) -> None:
    connection.exec_driver_sql("BEGIN")


def _begin_immediate(connection: Connection) -> None:
    connection.exec_driver_sql("BEGIN IMMEDIATE")


def _lock_out_writers(connection: Connection) -> None:
    connection.exec_driver_sql("SELECT pg_advisory_xact_lock(hashtext('pennate ledger'))")


def _read_only(connection: Connection) -> None:
    connection.exec_driver_sql("SET TRANSACTION READ ONLY")


@contextmanager
def telling(url: URL) -> Iterator[None]:
    """Turn what the database says into one sentence of ours."""
    try:
        yield
    except PennateError:
        raise
    except (SQLAlchemyError, OSError) as error:
        cause = str(getattr(error, "orig", None) or error).strip().splitlines()[0]
        place = url.database if url.get_backend_name() == "sqlite" else url.render_as_string()
        raise StateError(f"{place}: the records cannot be used ({cause})") from error
