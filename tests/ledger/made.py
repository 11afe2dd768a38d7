"""Small entries for the tests."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from random import Random
from typing import Any

from pennate.ledger import Entry, uuid7

START = datetime(2026, 3, 2, 18, 0, tzinfo=UTC)
CHANCE = Random(7)


def made(
    body: dict[str, Any] | None = None,
    *,
    kind: str = "weight",
    replaces: Entry | None = None,
    minutes: int = 0,
    day: date = START.date(),
) -> Entry:
    """An entry written so many minutes after the start."""
    now = START + timedelta(minutes=minutes)
    return Entry(
        id=uuid7(now, CHANCE),
        kind=kind,
        day=day,
        made_at=now,
        body=body or {"kg": "62.4"},
        replaces=replaces.id if replaces else None,
    )
