"""Backup, restore and check: whole, verified, and never over what was there."""

from __future__ import annotations

import json
import sqlite3
import stat
import zipfile
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest

from pennate.app.keep import Place, Restored, back_up, check, restore
from pennate.errors import InputError, StateError
from pennate.ledger import Entry, Ledger
from pennate.ledger.copying import pour
from pennate.ledger.sets import set_body

from .made import CHANCE, START, made
from .test_sets import DONE


@pytest.fixture(params=["sqlite", pytest.param("postgres", marks=pytest.mark.postgres)])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Place:
    """A data folder, once a database each, with some history in it."""
    url = request.getfixturevalue("postgres_url") if request.param == "postgres" else ""
    place = Place(tmp_path / "data", url)
    with place.open() as ledger:
        wrong = made()
        ledger.append([wrong, made({"kg": "61"}, replaces=wrong), made(set_body(DONE), kind="set")])
        ledger.append([_other(wrong)])
    photo = place.folder / "photos" / "2026-03-02.jpg"
    photo.parent.mkdir(parents=True)
    photo.write_bytes(b"front")
    return place


@pytest.fixture
def here(tmp_path: Path) -> Place:
    """A data folder with one entry in a SQLite file."""
    place = Place(tmp_path / "data")
    with place.open() as ledger:
        ledger.append([made()])
    return place


def _other(entry: Entry) -> Entry:
    return Entry(
        id=entry.id, kind=entry.kind, day=entry.day, made_at=entry.made_at, body={"kg": "99"}
    )


def everything(place: Place) -> tuple[object, ...]:
    """All entries and conflicts, in order."""
    with place.open() as ledger:
        return ledger.everything(), ledger.conflicts()


def put_back(place: Place, file: Path) -> Restored:
    """Restore at a fixed moment."""
    return restore(place, file, now=START, rng=CHANCE)


def test_a_backup_restores_everything(place: Place, tmp_path: Path) -> None:
    """History, conflicts, positions and photos come back in an empty place."""
    before = everything(place)
    made_backup = back_up(place, tmp_path / "all.zip")
    assert (made_backup.entries, made_backup.files) == (3, 1)
    empty = Place(tmp_path / "elsewhere")
    assert put_back(empty, tmp_path / "all.zip").kept is None
    assert everything(empty) == before
    assert (empty.folder / "photos" / "2026-03-02.jpg").read_bytes() == b"front"


def test_restoring_keeps_what_was_there(place: Place, tmp_path: Path) -> None:
    """The replaced records are a backup themselves, photos included, and can come back."""
    back_up(place, tmp_path / "old.zip")
    with place.open() as ledger:
        ledger.append([made({"kg": "70"}, minutes=9)])
        generation = ledger.generation()
    (place.folder / "photos" / "2026-03-02.jpg").write_bytes(b"retouched")
    later = everything(place)
    done = put_back(place, tmp_path / "old.zip")
    assert everything(place) != later
    assert done.kept is not None
    with place.open() as ledger:
        assert ledger.generation() != generation
    restore(place, done.kept, now=START + timedelta(hours=1), rng=CHANCE)
    assert everything(place) == later
    assert (place.folder / "photos" / "2026-03-02.jpg").read_bytes() == b"retouched"


def test_writing_goes_on_after_a_restore(place: Place, tmp_path: Path) -> None:
    """The next entry gets the next position, on every database."""
    back_up(place, tmp_path / "all.zip")
    put_back(place, tmp_path / "all.zip")
    with place.open() as ledger:
        top = ledger.position()
        ledger.append([made(minutes=30)])
        assert ledger.position() == top + 1


def test_a_backup_is_never_overwritten(here: Place, tmp_path: Path) -> None:
    """An existing file is left alone."""
    (tmp_path / "all.zip").write_text("precious")
    with pytest.raises(InputError, match="exists already"):
        back_up(here, tmp_path / "all.zip")
    assert (tmp_path / "all.zip").read_text() == "precious"


def test_a_backup_is_for_her_eyes(here: Place, tmp_path: Path) -> None:
    """The file is private, and nothing else is left beside it."""
    back_up(here, tmp_path / "safe" / "all.zip")
    assert stat.S_IMODE((tmp_path / "safe" / "all.zip").stat().st_mode) == 0o600
    assert [path.name for path in (tmp_path / "safe").iterdir()] == ["all.zip"]


def test_earlier_kept_states_are_not_packed_again(here: Place, tmp_path: Path) -> None:
    """Backups do not grow with every restore."""
    back_up(here, tmp_path / "one.zip")
    put_back(here, tmp_path / "one.zip")
    assert back_up(here, tmp_path / "two.zip").files == 0


def _cut(path: Path) -> None:
    data = path.read_bytes()
    path.write_bytes(data[: len(data) // 2])


def _flip(path: Path) -> None:
    data = bytearray(path.read_bytes())
    data[len(data) // 3] ^= 0xFF
    path.write_bytes(bytes(data))


def _other_file(path: Path) -> None:
    path.write_text("date,session\n")


def _other_zip(path: Path) -> None:
    path.unlink()
    with zipfile.ZipFile(path, "w") as packed:
        packed.writestr("holiday.txt", "sun")


def _gone(path: Path) -> None:
    path.unlink()


def _repacked(path: Path, change: Callable[[dict[str, bytes]], None]) -> None:
    with zipfile.ZipFile(path) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    change(parts)
    with zipfile.ZipFile(path, "w") as packed:
        for name, data in parts.items():
            packed.writestr(name, data)


def _manifest(**values: object) -> Callable[[dict[str, bytes]], None]:
    def change(parts: dict[str, bytes]) -> None:
        parts["manifest.json"] = json.dumps(json.loads(parts["manifest.json"]) | values).encode()

    return change


def _newer(path: Path) -> None:
    _repacked(path, _manifest(version=99))


def _newer_tables(path: Path) -> None:
    _repacked(path, _manifest(schema="9999"))


def _fewer(path: Path) -> None:
    _repacked(path, _manifest(entries=7))


def _another_program(path: Path) -> None:
    _repacked(path, _manifest(format="recipes"))


def _without_ledger(path: Path) -> None:
    def change(parts: dict[str, bytes]) -> None:
        del parts["ledger.sqlite"]

    _repacked(path, change)


def _climbing_out(path: Path) -> None:
    def change(parts: dict[str, bytes]) -> None:
        parts["files/../../evil"] = b"x"
        manifest = json.loads(parts["manifest.json"])
        manifest["sha256"]["files/../../evil"] = "0"
        parts["manifest.json"] = json.dumps(manifest).encode()

    _repacked(path, change)


@pytest.mark.parametrize(
    ("harm", "words"),
    [
        (_cut, "no whole backup"),
        (_flip, "backup"),
        (_other_file, "no whole backup"),
        (_other_zip, "no backup of pennate"),
        (_gone, "cannot be read"),
        (_newer, "newer pennate"),
        (_newer_tables, "newer pennate"),
        (_fewer, "lacks entries"),
        (_another_program, "no backup of pennate"),
        (_without_ledger, "lacks a part"),
        (_climbing_out, "does not belong"),
    ],
)
def test_a_bad_backup_changes_nothing(
    here: Place, tmp_path: Path, harm: Callable[[Path], None], words: str
) -> None:
    """Damaged, newer, foreign or cut: a sentence, and the records are as they were."""
    file = tmp_path / "all.zip"
    back_up(here, file)
    harm(file)
    before = everything(here)
    with pytest.raises(InputError, match=words):
        put_back(here, file)
    assert everything(here) == before
    assert sorted(path.name for path in here.folder.iterdir()) == ["pennate.sqlite"]


def test_a_damaged_ledger_is_set_aside(here: Place, tmp_path: Path) -> None:
    """A restore works when the records cannot be opened any more; what is left is kept."""
    back_up(here, tmp_path / "all.zip")
    before = everything(here)
    (here.folder / "pennate.sqlite").write_bytes(b"\0" * 5000)
    done = put_back(here, tmp_path / "all.zip")
    assert done.kept is not None
    assert (done.kept / "pennate.sqlite").read_bytes() == b"\0" * 5000
    assert everything(here) == before


def test_a_failed_restore_puts_the_damaged_ledger_back(
    here: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When the disk is full halfway, even the damaged file is where it was."""
    back_up(here, tmp_path / "all.zip")
    (here.folder / "pennate.sqlite").write_bytes(b"\0" * 5000)

    def full(*_arguments: object, **_options: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("pennate.app.keep.pour", full)
    with pytest.raises(StateError, match="no space left"):
        put_back(here, tmp_path / "all.zip")
    assert (here.folder / "pennate.sqlite").read_bytes() == b"\0" * 5000


def test_a_set_logged_during_a_restore_is_kept(
    here: Place, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What arrives between keeping and replacing is in the kept backup too."""
    back_up(here, tmp_path / "all.zip")
    late = made(minutes=5)
    waiting = [late]

    def slow_pour(source: Ledger, target: Ledger, **rest: object) -> None:
        if waiting:
            target.append([waiting.pop()])
        pour(source, target, **rest)  # type: ignore[arg-type]  # passed on

    monkeypatch.setattr("pennate.app.keep.pour", slow_pour)
    done = put_back(here, tmp_path / "all.zip")
    assert done.kept is not None
    monkeypatch.undo()
    elsewhere = Place(tmp_path / "elsewhere")
    put_back(elsewhere, done.kept)
    with elsewhere.open() as ledger:
        assert late in ledger.entries()


def test_a_check_of_sound_records(place: Place) -> None:
    """Counts what is there and what waits for her."""
    checked = check(place)
    assert (checked.sound, checked.entries, checked.sets, checked.conflicts) == (True, 3, 1, 1)


def test_a_check_counts_what_makes_no_sense(here: Place) -> None:
    """A stored set without reps is no damage, but it is told."""
    with here.open() as ledger:
        ledger.append([made({"session": "A"}, kind="set")])
    checked = check(here)
    assert checked.sound
    assert len(checked.unreadable) == 1


@pytest.mark.parametrize(
    ("harm", "words"),
    [
        ('UPDATE entry SET body = \'{"kg":"99"}\'', "not what was written"),
        ("UPDATE entry SET body = '{'", "cannot be read"),
        ("UPDATE entry SET day = 'someday'", "cannot be read"),
        ("UPDATE entry SET root = '017f22e2-79b0-7cc3-98c4-dc0c0c07398f'", "wrong beginning"),
        ("UPDATE entry SET replaces = id", "cannot be read"),
    ],
)
def test_a_check_finds_damage(here: Place, tmp_path: Path, harm: str, words: str) -> None:
    """Whatever changes a stored entry is found, and such records are not backed up as good."""
    connection = sqlite3.connect(here.folder / "pennate.sqlite")
    with connection:
        connection.execute(harm)
    connection.close()
    checked = check(here)
    assert not checked.sound
    assert words in checked.faults[0].what
    with pytest.raises(StateError, match="damaged"):
        back_up(here, tmp_path / "all.zip")


def test_a_check_finds_damaged_pages(here: Place) -> None:
    """Bytes overwritten in the middle of the file do not go unseen."""
    path = here.folder / "pennate.sqlite"
    data = bytearray(path.read_bytes())
    middle = len(data) // 2
    data[middle : middle + 4000] = b"\xaa" * 4000
    path.write_bytes(bytes(data))
    try:
        sound = check(here).sound
    except StateError:
        sound = False
    assert not sound
