"""Append, correct, take back, read: the same on SQLite and PostgreSQL."""

from __future__ import annotations

import threading
from datetime import date, timedelta
from itertools import permutations
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from pennate.errors import InputError, StateError
from pennate.ledger import Entry, Ledger, MovedError

from .made import CHANCE, START, made


def test_what_is_appended_is_read(ledger: Ledger) -> None:
    """An entry comes back as it went in, whatever its text."""
    entry = made({"note": "„60“ kg \x00 \n 🦵", "n": 1, "deep": [{"a": None}]})
    assert ledger.append([entry]).added == 1
    assert ledger.entries() == (entry,)


def test_the_same_entry_twice_is_one(ledger: Ledger) -> None:
    """Sending again after a lost answer doubles nothing, in one batch or two."""
    entry = made()
    assert ledger.append([entry, entry]).added == 1
    again = ledger.append([entry])
    assert (again.added, again.repeated, again.conflicts) == (0, 1, 0)
    assert ledger.entries() == (entry,)


def test_one_id_with_two_contents_is_a_visible_conflict(ledger: Ledger) -> None:
    """The second content is neither taken as true nor lost."""
    first = made({"kg": "62.4"})
    second = Entry(
        id=first.id, kind=first.kind, day=first.day, made_at=first.made_at, body={"kg": "63.1"}
    )
    ledger.append([first])
    assert ledger.append([second, second]).conflicts == 1
    (conflict,) = ledger.conflicts()
    assert (conflict.kept, conflict.other) == (first, second)
    assert ledger.entries() == (first,)


def test_a_correction_hides_what_it_replaces(ledger: Ledger) -> None:
    """Only the newest content counts; the old one stays in the chain."""
    wrong = made({"kg": "624"})
    right = made({"kg": "62.4"}, replaces=wrong, minutes=1)
    ledger.append([wrong, right])
    assert ledger.entries("weight") == (right,)
    assert ledger.chain(right.id) == (wrong, right)
    assert ledger.find(wrong.id) == right


def test_two_corrections_of_one_entry_do_not_double_it(ledger: Ledger) -> None:
    """Two phones corrected the same set: the later wins, the other is shown."""
    wrong = made({"kg": "624"})
    one = made({"kg": "62.4"}, replaces=wrong, minutes=1)
    two = made({"kg": "64.2"}, replaces=wrong, minutes=2)
    ledger.append([wrong, two, one])
    assert ledger.entries() == (two,)
    (conflict,) = ledger.conflicts()
    assert (conflict.kept, conflict.other) == (two, one)


def test_a_settled_conflict_is_not_shown_again(ledger: Ledger) -> None:
    """Once looked at, it stays in the record but out of the way."""
    wrong = made()
    ledger.append([wrong, made({"kg": "1"}, replaces=wrong), made({"kg": "2"}, replaces=wrong)])
    ledger.settle(ledger.conflicts()[0], now=START, rng=CHANCE)
    assert ledger.conflicts() == ()


def test_two_equal_corrections_are_no_conflict(ledger: Ledger) -> None:
    """Both phones agree, so there is nothing to ask."""
    wrong = made()
    ledger.append([wrong, made({"kg": "60"}, replaces=wrong), made({"kg": "60"}, replaces=wrong)])
    assert ledger.conflicts() == ()
    assert len(ledger.entries("weight")) == 1


def test_taking_back_hides_and_keeps(ledger: Ledger) -> None:
    """A retracted entry is gone from view, not from history, and can be brought back."""
    entry = made()
    ledger.append([entry])
    gone = ledger.retract(entry.id, now=START + timedelta(hours=1), rng=CHANCE)
    assert ledger.entries("weight") == ()
    back = made(dict(entry.body), replaces=gone, minutes=120)
    ledger.append([back])
    assert ledger.entries("weight") == (back,)
    assert len(ledger.chain(entry.id)) == 3


def test_taking_back_the_unknown_is_refused(ledger: Ledger) -> None:
    """There is nothing to take back, and the sentence says so."""
    with pytest.raises(InputError, match="no entry"):
        ledger.retract(made().id, now=START, rng=CHANCE)


def test_order_of_arrival_does_not_matter(tmp_path: Path) -> None:
    """A correction that arrives before what it corrects ends in the same state."""
    first = made()
    second = made({"kg": "2"}, replaces=first, minutes=1)
    third = made({"kg": "3"}, replaces=second, minutes=2)
    fork = made({"kg": "4"}, replaces=first, minutes=3)
    batch = (first, second, third, fork)
    for number, order in enumerate(permutations(batch)):
        with Ledger.open(tmp_path / f"{number}.sqlite") as ledger:
            for entry in order[:2]:
                ledger.append([entry])
            ledger.append(order[2:])
            assert ledger.entries() == (fork,)
            assert [c.other for c in ledger.conflicts()] == [third]


def test_a_ring_of_corrections_is_refused(ledger: Ledger) -> None:
    """Two entries that replace each other would both vanish."""
    first = made()
    second = made(replaces=first)
    ring = Entry(
        id=first.id, kind="weight", day=first.day, made_at=START, body={}, replaces=second.id
    )
    with pytest.raises(InputError, match="its own correction"):
        ledger.append([second, ring])
    assert ledger.position() == 0


def test_days_and_kinds_are_chosen(ledger: Ledger) -> None:
    """Kinds and days narrow what is read; the bounds are included."""
    entries = [made(kind=kind, day=date(2026, 3, d)) for d in (3, 1, 2) for kind in ("set", "note")]
    ledger.append(entries)
    chosen = ledger.entries("set", since=date(2026, 3, 1), until=date(2026, 3, 2))
    assert [entry.day.day for entry in chosen] == [1, 2]
    assert len(ledger.entries("set", "note")) == 6


def test_sending_what_is_new(ledger: Ledger) -> None:
    """From a position on, each entry comes once and in order."""
    entries = [made(minutes=n) for n in range(5)]
    ledger.append(entries)
    start = ledger.everything(limit=2)
    rest = ledger.everything(after=start[-1][0])
    assert [entry for _, entry in (*start, *rest)] == entries


def test_a_batch_meant_for_an_older_state_is_refused(ledger: Ledger) -> None:
    """Somebody wrote between reading and writing: nothing is written."""
    seen = ledger.position()
    ledger.append([made()])
    with pytest.raises(MovedError):
        ledger.append([made()], only_at=seen)
    assert len(ledger.entries()) == 1


def test_a_batch_is_all_or_nothing(ledger: Ledger) -> None:
    """The last entry of a batch is wrong: the first is not written either."""
    bad = Entry(id=made().id, kind="set", day=START.date(), made_at=START, body={"x": {1, 2}})
    with pytest.raises(InputError):
        ledger.append([made(), bad])
    assert ledger.entries() == ()


def test_readers_cannot_write(ledger: Ledger) -> None:
    """The reading side refuses a change in the database itself."""
    with pytest.raises((DBAPIError, StateError)), ledger.reading() as connection:
        connection.execute(text("DELETE FROM entry"))


def test_writers_wait_for_each_other(target: str | Path) -> None:
    """Two programs writing at once lose nothing."""
    with Ledger.open(target) as one, Ledger.open(target) as two:
        batches = {one: [made() for _ in range(30)], two: [made() for _ in range(30)]}

        def write(ledger: Ledger) -> None:
            for entry in batches[ledger]:
                ledger.append([entry])

        threads = [threading.Thread(target=write, args=(ledger,)) for ledger in batches]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        written = {entry.id for entry in one.entries()}
    assert written == {entry.id for batch in batches.values() for entry in batch}


def test_a_reopened_ledger_is_the_same(target: str | Path) -> None:
    """Closing and opening changes nothing."""
    entry = made()
    with Ledger.open(target) as ledger:
        ledger.append([entry])
    with Ledger.open(target) as ledger:
        assert ledger.entries() == (entry,)


def test_a_large_batch(ledger: Ledger) -> None:
    """More entries than one query may name."""
    entries = [made(minutes=n) for n in range(1200)]
    ledger.append(entries)
    assert ledger.append(entries).repeated == 1200


actions = st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9)), max_size=12)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(actions)
def test_current_is_the_end_of_each_chain(
    tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[int, int]]
) -> None:
    """Against a plain replay: every chain shows exactly one entry, its last end."""
    entries: list[Entry] = [made()]
    for number, (what, which) in enumerate(steps, start=1):
        old = entries[which % len(entries)] if what > 3 else None
        entries.append(made({"n": number}, replaces=old, minutes=number))
    root: dict[str, str] = {}
    for entry in entries:
        root[entry.id] = entry.id if entry.replaces is None else root[entry.replaces]
    replaced = {entry.replaces for entry in entries}
    ends = {root[entry.id]: entry for entry in entries if entry.id not in replaced}
    with Ledger.open(tmp_path_factory.mktemp("replay") / "ledger.sqlite") as ledger:
        ledger.append(entries)
        assert dict(ledger.current()) == ends
