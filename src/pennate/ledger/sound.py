"""Whether the records are whole: small checks, ledger in, faults out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from sqlalchemy import Connection, select, text

from pennate.errors import InputError
from pennate.ledger import schema
from pennate.ledger.entry import digest_of
from pennate.ledger.sets import Problem
from pennate.ledger.store import Ledger, entry_of


def faults(ledger: Ledger) -> tuple[Problem, ...]:
    """Everything that is damaged; empty for sound records."""
    with ledger.reading() as connection:
        found = [fault for check in CHECKS for fault in check(connection)]
    return tuple(found) if found else tuple(unlike_replay(ledger))


def damaged_pages(connection: Connection) -> Iterator[Problem]:
    """What SQLite itself finds wrong with its file."""
    if connection.dialect.name == "sqlite":
        for (said,) in connection.execute(text("PRAGMA integrity_check")):
            if said != "ok":
                yield Problem("", f"the database file is damaged: {said}")


def changed_contents(connection: Connection) -> Iterator[Problem]:
    """Entries whose content is not the one that was written."""
    for table in (schema.entry, schema.conflict):
        for row in connection.execute(select(table)):
            try:
                entry_of(row)
            except (InputError, ValueError) as error:
                yield Problem(row.id, f"the entry cannot be read: {error}")
                continue
            if digest_of(row.kind, row.day, row.replaces, row.body) != row.digest:
                yield Problem(row.id, "the entry is not what was written")


def wrong_chains(connection: Connection) -> Iterator[Problem]:
    """Corrections that do not lead back to where their chain is said to begin."""
    table = schema.entry
    rows = connection.execute(select(table.c.id, table.c.replaces, table.c.root)).all()
    replaced = {row.id: row.replaces for row in rows}
    for row in rows:
        at, seen = row.id, {row.id}
        while (older := replaced.get(at)) is not None and older not in seen:
            at = older
            seen.add(at)
        if replaced.get(at) is not None:
            yield Problem(row.id, "corrections of this entry go round in a ring")
        elif at != row.root:
            yield Problem(row.id, "the entry is filed under the wrong beginning")


CHECKS: tuple[Callable[[Connection], Iterator[Problem]], ...] = (
    damaged_pages,
    changed_contents,
    wrong_chains,
)


def unlike_replay(ledger: Ledger) -> Iterator[Problem]:
    """Where the database's view of what is current differs from a plain replay."""
    table = schema.entry
    query = select(table.c.id, table.c.replaces, table.c.made_at)
    with ledger.reading() as connection:
        links = [Link(*row) for row in connection.execute(query)]
    ends, current = replayed(links), ledger.ends()
    for root in sorted(ends.keys() | current.keys()):
        if ends.get(root) != current.get(root):
            yield Problem(root, "what is current differs from a replay of all entries")


class Link(NamedTuple):
    """What a replay needs of an entry."""

    id: str
    replaces: str | None
    made_at: str


def replayed(links: Iterable[Link]) -> dict[str, str]:
    """The id at the end of every chain, by the id it begins with."""
    by_id = {link.id: link for link in links}
    replaced = {link.replaces for link in by_id.values()}
    ends: dict[str, Link] = {}
    for link in by_id.values():
        if link.id in replaced:
            continue
        root = link.id
        while root in by_id and (older := by_id[root].replaces) is not None:
            root = older
        best = ends.get(root)
        if best is None or (link.made_at, link.id) > (best.made_at, best.id):
            ends[root] = link
    return {root: link.id for root, link in ends.items()}
