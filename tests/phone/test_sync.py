"""Entries sent by devices: stored once, in any order, and wrong ones answered one by one."""

from __future__ import annotations

import tempfile
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random
from typing import Any

import pytest
from fastapi.testclient import TestClient
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pennate.app.book import Book
from pennate.app.day import DAY_KINDS, fold
from pennate.app.questions import open_questions
from pennate.app.sync import KINDS, Fate, take_in
from pennate.ledger import uuid7
from tests.web.conftest import Client, Clock

NOW = datetime(2026, 11, 23, 18, 0, tzinfo=UTC)
DAY = NOW.date().isoformat()
OWN_PAGE = {"sec-fetch-site": "same-origin"}
Document = dict[str, Any]


def entry(kind: str, body: Document, at: int, replaces: str | None = None) -> Document:
    """An entry as a phone makes it, `at` seconds after the hour."""
    moment = NOW + timedelta(seconds=at)
    return {
        "id": uuid7(moment, Random(at)),
        "kind": kind,
        "day": DAY,
        "made_at": moment.isoformat(),
        "replaces": replaces,
        "body": body,
    }


def a_set(at: int, number: int = 1, replaces: str | None = None, **more: Any) -> Document:
    """A squat of some reps."""
    body = {
        "date": f"{DAY}T18:00:00",
        "session": "monday",
        "set": number,
        "exercise": "back_squat_free",
        "reps": 5,
        "load": "60",
        "unit": "kg",
    }
    return entry("set", {**body, **more}, at, replaces)


def decision(what: str, at: int, **more: Any) -> Document:
    """A decision about Monday."""
    return entry("decision", {"what": what, "weekday": "Monday", **more}, at)


def session_of_entries() -> list[Document]:
    """Sets, a slip mended twice, one taken back, a skip and a change of mind."""
    first, slip, gone = a_set(1), a_set(2, 2, reps=50), a_set(3, 3)
    return [
        entry("session", {"event": "opened", "weekday": "Monday"}, 0),
        first,
        slip,
        gone,
        a_set(4, 2, slip["id"], reps=5),
        a_set(5, 2, slip["id"], reps=6),
        entry("retraction", {"why": "undone at once"}, 6, gone["id"]),
        decision("skip", 7, stop=2),
        decision("take up", 8, stop=2),
        decision("order", 9, stops=[1, 0, 2]),
        decision("leave out", 10, keys=["1.1.3"]),
        entry("readiness", {"short_sleep": True}, 11),
        entry("session", {"event": "finished", "weekday": "Monday", "note": "good"}, 12),
    ]


ENTRIES = session_of_entries()


def state_of(book: Book) -> tuple[Any, ...]:
    """All that a card of the day would be made from."""
    current = sorted((root, e.id, str(e.body)) for root, e in book.ledger.current(*KINDS))
    day = fold(NOW.date(), "Monday", book.ledger.entries(*DAY_KINDS))
    forks = {frozenset((c.kept.id, c.other.id)) for c in book.ledger.conflicts()}
    asked = {(q.about, q.field) for _, q in open_questions(book.ledger)}
    return current, day, forks, asked


def after(batches: list[list[Document]]) -> tuple[Any, ...]:
    """The state of new records after these batches."""
    with tempfile.TemporaryDirectory() as folder:
        book = Book.open(Path(folder), Clock(NOW + timedelta(hours=1)), Random(1))
        for batch in batches:
            take_in(book, batch)
        found = state_of(book)
        book.close()
        return found


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(order=st.permutations(range(len(ENTRIES))), data=st.data())
def test_any_order_any_repetition_is_one_state(order: list[int], data: st.DataObject) -> None:
    """However entries are cut into batches, reordered and sent again, the state is the same."""
    again = data.draw(st.lists(st.sampled_from(range(len(ENTRIES))), max_size=8))
    cut = data.draw(st.integers(0, len(ENTRIES)))
    batches = [[ENTRIES[i] for i in part] for part in (order[:cut], again, order[cut:], again)]
    assert after(batches) == after([ENTRIES])


@pytest.fixture
def client(client_of: Client, own_demo: Book) -> TestClient:
    """The API over a demo of the test's own, asked by its own page."""
    client = client_of(own_demo)
    client.headers.update(OWN_PAGE)
    return client


def send(client: TestClient, *entries: Document) -> list[Document]:
    """The answers to a batch."""
    reply = client.post("/api/entries", json={"entries": list(entries)})
    assert reply.status_code == 200, reply.text
    answers: list[Document] = reply.json()["answers"]
    return answers


def test_a_batch_is_answered_one_by_one(client: TestClient, own_demo: Book) -> None:
    """The wrong entries say why, the right ones around them are stored, repeats are known."""
    right, last = a_set(1), decision("skip", 3, stop=1)
    wrong = a_set(2, 2, exercise="flying")
    fates = [one["fate"] for one in send(client, right, wrong, last, right)]
    assert fates == [Fate.STORED, Fate.REFUSED, Fate.STORED, Fate.KNOWN]
    assert own_demo.ledger.find(right["id"])
    assert own_demo.ledger.find(wrong["id"]) is None


WRONG = [
    (entry("profile", {"female": False}, 1), "profile"),
    (entry("week", {"text": ""}, 1), "week"),
    (a_set(1, reps=999), "999"),
    (a_set(1, load="heavy"), "cannot be read"),
    (a_set(1, 0), "set 0"),
    (a_set(1, pain={"knee": 11}), "pain"),
    ({**a_set(1), "id": "1"}, "identifier"),
    ({**a_set(1), "day": "2029-01-01"}, "still to come"),
    (decision("dance", 1), "what"),
    (decision("skip", 1, stop=-1), "stop"),
    (decision("order", 1, stops=["first"]), "stops"),
    (entry("session", {"event": "opened", "weekday": "Someday"}, 1), "weekday"),
    (entry("retraction", {}, 1), "names no entry"),
    ("text", "JSON object"),
    ({}, "missing"),
]


@pytest.mark.parametrize(("document", "says"), WRONG, ids=[says for _, says in WRONG])
def test_a_wrong_entry_says_why(client: TestClient, document: Document, says: str) -> None:
    """Each kind of wrong entry is refused with a reason that names it."""
    (answer,) = send(client, document)
    assert answer["fate"] == Fate.REFUSED
    assert says in answer["why"]


def test_a_device_cannot_take_back_her_week(client: TestClient, own_demo: Book) -> None:
    """A retraction reaches only what devices may send."""
    week = own_demo.latest("week")
    assert week
    (answer,) = send(client, entry("retraction", {}, 1, week.id))
    assert answer["fate"] == Fate.REFUSED


@pytest.mark.parametrize("headers", [{}, {"authorization": "Bearer x"}])
def test_nobody_else_may_send(client_of: Client, own_demo: Book, headers: dict[str, str]) -> None:
    """Without our own page or a known token nothing is stored and nothing is told."""
    client = client_of(own_demo)
    before = own_demo.ledger.position()
    assert client.post("/api/entries", json={"entries": []}, headers=headers).status_code == 403
    assert client.get("/api/entries", headers=headers).status_code == 403
    foreign = {"origin": "http://elsewhere.example"}
    reply = client.post("/api/entries", json={"entries": [a_set(1)]}, headers=foreign)
    assert reply.status_code == 403
    assert own_demo.ledger.position() == before


def test_entries_come_back_by_position(client: TestClient, own_demo: Book) -> None:
    """Paging reads everything a device may have, once, and nothing about body or profile."""
    send(client, a_set(1), decision("skip", 2, stop=1))
    seen, position, more = [], 0, True
    while more:
        page = client.get("/api/entries", params={"after": position, "limit": 400}).json()
        seen += page["entries"]
        position, more = page["position"], page["more"]
    ids = [one["id"] for one in seen]
    assert len(ids) == len(set(ids))
    assert {"set", "decision", "note"} == {one["kind"] for one in seen}
    assert position == own_demo.ledger.position()


def test_one_place_logged_on_two_devices_is_shown(client: TestClient) -> None:
    """Both sets stay, and both are named wherever a device asks."""
    key = {"card_key": "0.1.1"}
    send(client, a_set(1, extra=key))
    reply = client.post("/api/entries", json={"entries": [a_set(2, reps=6, extra=key)]}).json()
    (twice,) = reply["doubled"]
    assert len(twice["ids"]) == 2
    assert client.get("/api/entries", params={"after": reply["position"]}).json()["doubled"]
