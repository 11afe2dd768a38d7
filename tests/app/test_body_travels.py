"""What she noted of her body travels in her own exports whole, and in nothing else."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random
from typing import Any

import pytest
from fastapi.testclient import TestClient

from pennate.app import body_notes as notes
from pennate.app.body_record import PERIOD
from pennate.app.body_undo import noted_lately, take_back
from pennate.app.book import Book
from pennate.app.exchange import export_dir, import_dir
from pennate.app.photo_removal import remove_photo
from pennate.app.photos import PHOTO, Told, mark_scale, photos, save_photo
from pennate.core.body import Site, TapeState
from pennate.core.performed import Side
from pennate.ledger import Ledger
from pennate.ledger.measured import GIRTH, WEIGHT
from pennate.web.server import make_app
from tests.app.conftest import NOW
from tests.app.test_photos import png
from tests.web.conftest import Clock

FIRST = date(2026, 1, 5)
PRIVATE = (
    PERIOD,
    notes.BLEEDING,
    GIRTH,
    WEIGHT,
    notes.SLEEP,
    notes.INTAKE,
    notes.PAIN,
    PHOTO,
    "body_choice",
)
"""Kinds that no device is sent. A check-in goes to her phone, where she makes it."""
SIGN = "Zebrafink"
"""A word of hers that must turn up nowhere else."""


def opened(folder: Path) -> Book:
    """Records in a folder, with a clock that moves."""
    return Book.open(folder, Clock(NOW), Random(8))


def fill(book: Book) -> None:
    """Every kind of note, some mended, some taken back."""
    thigh: dict[Side | None, tuple[Fraction, ...]] = {
        Side.LEFT: tuple(Fraction(n, 10) for n in (551, 553, 552, 554)),
        Side.RIGHT: (Fraction(1104, 20),),
    }
    folds: dict[Side | None, Fraction] = {Side.LEFT: Fraction(18), Side.RIGHT: Fraction("17.5")}
    for weeks, state in ((0, TapeState.RELAXED), (5, TapeState.RELAXED), (6, TapeState.PUMPED)):
        day = FIRST + timedelta(weeks=weeks)
        notes.save_girths(
            book, notes.Taped(day=day, site=Site.THIGH, state=state, girths=thigh, skinfolds=folds)
        )
    waist = notes.Taped(day=FIRST, site=Site.WAIST, girths={}, skinfolds={None: Fraction(22)})
    notes.save_girths(book, waist)
    for days in range(0, 50, 3):
        notes.save_weight(book, FIRST + timedelta(days=days), Fraction(6420 + days, 100))
    for hours in ("6", "6.5"):
        notes.save_sleep(book, FIRST, Fraction(hours))
    notes.save_intake(book, FIRST, Fraction("2100.5"), Fraction(110))
    notes.save_intake(book, FIRST + timedelta(days=1), Fraction(1900))
    for days in (0, 24, 50):
        notes.save_period(book, FIRST + timedelta(days=days))
    notes.save_period(book, FIRST + timedelta(days=54), last=True)
    notes.save_morning(book, FIRST + timedelta(days=9), "knee", 3)
    notes.save_morning(book, FIRST + timedelta(days=20), "shoulder", 6, alarming=True)
    book.put(
        notes.READINESS,
        FIRST + timedelta(days=8),
        {"short_sleep": True, "low_energy": False, "sore": ["glutes"], "pain": {"knee": 4}},
    )
    notes.choose(book, notes.Choices(cycle=True, hide_weight=True, height_cm=Fraction("165.5")))
    told = Told(day=FIRST, pose="left side", light=SIGN, note="„eins“\nzwei")
    mark_scale(book, save_photo(book, png(), told), Fraction("5.5"), Fraction(95))
    remove_photo(book, save_photo(book, png(), replace(told, pose="back")))
    notes.save_weight(book, book.today, Fraction(99))
    take_back(book, noted_lately(book, WEIGHT)[0].id)


def said(book: Book) -> dict[str, object]:
    """All that the pages of the body know of her."""
    return {
        "record": replace(notes.body_record(book), training=None),
        "pain": notes.pain_reports(book),
        "nights": notes.nights(book),
        "food": notes.eaten(book),
        "periods": (notes.periods(book), notes.bleeding_days(book)),
        "choices": notes.choices(book),
        "check-ins": [(entry.day, dict(entry.body)) for entry in book.entries(notes.READINESS)],
        "photos": [replace(one, there=False) for one in photos(book)],
        "skinfolds": [row.skinfold_mm for row in notes.body_record(book).measurements],
    }


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    """Records of the body, full."""
    made = opened(tmp_path / "hers")
    fill(made)
    yield made
    made.close()


def test_the_body_makes_the_round(book: Book, tmp_path: Path) -> None:
    """Export, import elsewhere, export: the same record and, byte for byte, the same files."""
    names = export_dir(book.ledger, tmp_path / "out")
    other = opened(tmp_path / "other")
    import_dir(other.ledger, tmp_path / "out", now=book.now(), rng=Random(1))
    assert said(other) == said(book)
    assert len(said(other)["skinfolds"]) == len(notes.body_record(book).measurements)  # type: ignore[arg-type] # a list
    assert export_dir(other.ledger, tmp_path / "again") == names
    for name in names:
        assert (tmp_path / "out" / name).read_bytes() == (tmp_path / "again" / name).read_bytes()
    before = book.ledger.position()
    import_dir(book.ledger, tmp_path / "again", now=book.now(), rng=Random(2))
    assert book.ledger.position() == before
    other.close()


def test_nothing_noted_is_missing_from_her_export(book: Book, tmp_path: Path) -> None:
    """Every current note of the body is in one of the files, and what she took back is not."""
    export_dir(book.ledger, tmp_path / "out")
    lines = (tmp_path / "out" / "entries.jsonl").read_text().splitlines()
    kinds = [json.loads(line)["kind"] for line in lines]
    for kind in (*PRIVATE, notes.READINESS):
        if kind not in {GIRTH, WEIGHT}:
            assert kinds.count(kind) == len(book.ledger.entries(kind)) > 0
    weights = (tmp_path / "out" / "weights.csv").read_text()
    assert weights.count("\n") == len(book.ledger.entries(WEIGHT)) + 1
    assert "99" not in weights.replace("2026", "")
    assert (tmp_path / "out" / "measures.csv").read_text().count("thigh") == 9


OWN = {"sec-fetch-site": "same-origin"}


def handed_out(client: TestClient) -> Iterator[tuple[str, str]]:
    """All that a paired phone is given: entries page by page, stored cards, the page itself."""
    after = 0
    while True:
        answer = client.get("/api/entries", params={"after": after, "limit": 50}, headers=OWN)
        yield "/api/entries", answer.text
        found: dict[str, Any] = answer.json()
        after = found["position"]
        if not found["more"]:
            break
    for path in ("/api/cards", "/phone", "/sw.js"):
        answer = client.get(path, headers=OWN)
        assert answer.status_code == 200, path
        yield path, answer.text


def test_no_device_is_sent_a_note_of_the_body(demo_book: Book) -> None:
    """The phone gets cards, sets and check-ins: no period, girth, weight, food, night or photo."""
    fill(demo_book)
    hers = {entry.id for entry in demo_book.ledger.entries(*PRIVATE)}
    assert {entry.kind for entry in demo_book.ledger.entries(*PRIVATE)} == set(PRIVATE)
    client = TestClient(make_app(demo_book), base_url="http://localhost")
    for path, text in handed_out(client):
        assert SIGN not in text, path
        assert hers.isdisjoint(re.findall(r"[0-9a-f]{8}-[0-9a-f-]{27}", text)), path
        assert not re.search(rf'"kind": ?"(?:{"|".join(PRIVATE)})"', text), path


def test_only_an_export_or_a_backup_of_her_own_holds_them(demo_book: Book) -> None:
    """No page but those of the body and her own export carries a word of a photo's note."""
    fill(demo_book)
    client = TestClient(make_app(demo_book), base_url="http://localhost")
    for path in ("/today", "/floor", "/week", "/exercises", "/gym", "/data", "/data/log.csv"):
        assert SIGN not in client.get(path).text, path
    assert SIGN in client.get("/body/photos?pose=left+side").text


def test_the_export_is_read_back_by_any_ledger(book: Book, tmp_path: Path) -> None:
    """A ledger that holds something already gains her notes and keeps its own."""
    export_dir(book.ledger, tmp_path / "out")
    with Ledger.open(tmp_path / "third.sqlite") as third:
        import_dir(third, tmp_path / "out", now=book.now(), rng=Random(3))
        count = third.count()
        import_dir(third, tmp_path / "out", now=book.now(), rng=Random(4))
        assert third.count() == count
