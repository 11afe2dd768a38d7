"""Dated, immutable entries in SQLite or PostgreSQL; everything else is derived from them."""

from pennate.ledger.entry import RETRACTION, SETTLED, Entry, entry_from_json, is_entry_id, uuid7
from pennate.ledger.store import Appended, Conflict, Ledger, MovedError

__all__ = [
    "RETRACTION",
    "SETTLED",
    "Appended",
    "Conflict",
    "Entry",
    "Ledger",
    "MovedError",
    "entry_from_json",
    "is_entry_id",
    "uuid7",
]
