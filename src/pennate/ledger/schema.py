"""Tables of the ledger, and bringing a database up to them.

A migration and the note that it ran (Alembic's version row) share one transaction.
"""

from __future__ import annotations

from sqlalchemy import (
    BigInteger,
    Column,
    Connection,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
    inspect,
    text,
)

from pennate.errors import StateError

HEAD = "0001"
"""The newest migration; a test keeps it equal to Alembic's own view."""

metadata = MetaData()

counting = BigInteger().with_variant(Integer(), "sqlite")

entry = Table(
    "entry",
    metadata,
    Column("seq", counting, primary_key=True, autoincrement=True),
    Column("id", String(36), nullable=False, unique=True),
    Column("kind", String(32), nullable=False),
    Column("day", String(10), nullable=False),
    Column("made_at", String(27), nullable=False),
    Column("replaces", String(36)),
    Column("root", String(36), nullable=False),
    Column("body", Text, nullable=False),
    Column("digest", String(64), nullable=False),
    Index("entry_kind_day", "kind", "day"),
    Index("entry_replaces", "replaces"),
    Index("entry_root", "root"),
)
"""Every entry ever taken in. `root` is the first of a chain of corrections."""

conflict = Table(
    "conflict",
    metadata,
    Column("seq", counting, primary_key=True, autoincrement=True),
    Column("id", String(36), nullable=False),
    Column("kind", String(32), nullable=False),
    Column("day", String(10), nullable=False),
    Column("made_at", String(27), nullable=False),
    Column("replaces", String(36)),
    Column("body", Text, nullable=False),
    Column("digest", String(64), nullable=False),
    UniqueConstraint("id", "digest", name="conflict_id_digest"),
)
"""What arrived under an id that already had other content: kept, never lost."""

about = Table(
    "about",
    metadata,
    Column("key", String(32), primary_key=True),
    Column("value", String(64), nullable=False),
)
"""Facts about the ledger itself: `generation` changes when it is restored."""


def revision(connection: Connection) -> str | None:
    """The migration this database stands at; None for an empty one."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
    return None if found is None else str(found)


def upgrade(connection: Connection) -> None:
    """Bring the database to HEAD inside the caller's transaction.

    Raises StateError for a database of a newer pennate or of another program.
    """
    standing = revision(connection)
    if standing == HEAD:
        return
    tables = set(inspect(connection).get_table_names())
    if standing is None and tables:
        raise StateError("this database belongs to another program; choose another --data folder")
    from alembic import command
    from alembic.config import Config
    from alembic.util import CommandError

    config = Config()
    config.set_main_option("script_location", "pennate.ledger:migrations")
    config.attributes["connection"] = connection
    try:
        command.upgrade(config, "head")
    except CommandError:
        raise StateError(
            f"these records were written by a newer pennate (version {standing}); update pennate"
        ) from None
