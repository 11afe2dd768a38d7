"""Entries, conflicts, and facts about the ledger."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

_counting = sa.BigInteger().with_variant(sa.Integer(), "sqlite")


def upgrade() -> None:
    """Create the three tables."""
    op.create_table(
        "entry",
        sa.Column("seq", _counting, primary_key=True, autoincrement=True),
        sa.Column("id", sa.String(36), nullable=False, unique=True),
        sa.Column("kind", sa.String(32), nullable=False),
        sa.Column("day", sa.String(10), nullable=False),
        sa.Column("made_at", sa.String(27), nullable=False),
        sa.Column("replaces", sa.String(36)),
        sa.Column("root", sa.String(36), nullable=False),
        sa.Column("body", sa.Text, nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
    )
    op.create_index("entry_kind_day", "entry", ["kind", "day"])
    op.create_index("entry_replaces", "entry", ["replaces"])
    op.create_index("entry_root", "entry", ["root"])
    op.create_table(
        "conflict",
        sa.Column("seq", _counting, primary_key=True, autoincrement=True),
        sa.Column("id", sa.String(36), nullable=False),
        sa.Column("kind", sa.String(32), nullable=False),
        sa.Column("day", sa.String(10), nullable=False),
        sa.Column("made_at", sa.String(27), nullable=False),
        sa.Column("replaces", sa.String(36)),
        sa.Column("body", sa.Text, nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
        sa.UniqueConstraint("id", "digest", name="conflict_id_digest"),
    )
    op.create_table(
        "about",
        sa.Column("key", sa.String(32), primary_key=True),
        sa.Column("value", sa.String(64), nullable=False),
    )
