"""Entries and their identifiers."""

from __future__ import annotations

import uuid
from datetime import UTC, date, datetime, timedelta, timezone
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.errors import InputError
from pennate.ledger import Entry, entry_from_json, is_entry_id, uuid7
from pennate.ledger.entry import body_text

from .made import CHANCE, START, made


class Dealt(Random):
    """Chance that gives the numbers it was dealt."""

    def __init__(self, *numbers: int) -> None:
        super().__init__(0)
        self.numbers = list(numbers)

    def getrandbits(self, k: int, /) -> int:
        """The next number."""
        number = self.numbers.pop(0)
        assert number < 1 << k
        return number


def test_the_worked_example_of_the_standard() -> None:
    """RFC 9562, appendix A.6: time, random bits and the identifier they make."""
    moment = datetime(2022, 2, 22, 14, 22, 22, tzinfo=timezone(timedelta(hours=-5)))
    made_id = uuid7(moment, Dealt(0xCC3, 0x18C4DC0C0C07398F))
    assert made_id == "017f22e2-79b0-7cc3-98c4-dc0c0c07398f"


@settings(deadline=None)
@given(st.integers(0, 2**33), st.integers(0, 2**12 - 1), st.integers(0, 2**62 - 1))
def test_identifiers_are_read_by_the_standard_library(second: int, high: int, low: int) -> None:
    """Python's own uuid module sees version 7 and the RFC variant."""
    made_id = uuid7(datetime.fromtimestamp(second, UTC), Dealt(high, low))
    read = uuid.UUID(made_id)
    assert (read.version, read.variant, str(read)) == (7, uuid.RFC_4122, made_id)
    assert is_entry_id(made_id)


def test_identifiers_sort_like_time() -> None:
    """An identifier made a millisecond later sorts behind."""
    ids = [uuid7(START + timedelta(milliseconds=n), CHANCE) for n in range(50)]
    assert ids == sorted(ids)


def test_sent_and_read_back() -> None:
    """What is sent as JSON is the same entry on arrival."""
    entry = made({"kg": "62.4", "note": "after „leg day“ 🦵"})
    assert entry_from_json(entry.as_json()) == entry


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("id", "1"),
        ("id", "017F22E2-79B0-7CC3-98C4-DC0C0C07398F"),
        ("kind", "Set"),
        ("day", "yesterday"),
        ("made_at", "2026-03-02T18:00:00"),
        ("replaces", "017f22e2"),
        ("body", ["not", "an", "object"]),
    ],
)
def test_a_wrong_field_is_refused(field: str, value: object) -> None:
    """An entry from outside is checked field by field."""
    with pytest.raises(InputError):
        entry_from_json({**made().as_json(), field: value})


def test_a_missing_field_is_named() -> None:
    """The sentence names the field that is not there."""
    document = made().as_json()
    del document["kind"]
    with pytest.raises(InputError, match="kind"):
        entry_from_json(document)


def test_an_entry_cannot_replace_itself() -> None:
    """A correction points at another entry."""
    entry = made()
    with pytest.raises(InputError, match="itself"):
        Entry(
            id=entry.id, kind="set", day=date(2026, 3, 2), made_at=START, body={}, replaces=entry.id
        )


@pytest.mark.parametrize("body", [{"kg": float("nan")}, {"kg": START}])
def test_a_body_holds_json_only(body: dict[str, object]) -> None:
    """What JSON cannot say is refused before it reaches the database."""
    with pytest.raises(InputError, match="JSON"):
        body_text(body)
