"""Photos: known by their bytes, kept for her eyes, never exported unless asked."""

from __future__ import annotations

import io
import struct
import zipfile
import zlib
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path

import pytest

from pennate.app.book import Book
from pennate.app.exchange import export_dir
from pennate.app.keep import Place, back_up
from pennate.app.photo_removal import (
    WAITING,
    delete_for_good,
    delete_older,
    put_back,
    remove_photo,
    removed_photos,
)
from pennate.app.photos import (
    MOST_BYTES,
    Picture,
    Told,
    content_of,
    folder_of,
    look_at,
    mark_scale,
    packed,
    photo,
    photos,
    save_photo,
)
from pennate.errors import InputError, NoAnswerError

TOLD = Told(day=date(2026, 3, 1), pose="front", light="window on the left")


def png(width: int = 300, height: int = 400) -> bytes:
    """A white PNG, made as ISO/IEC 15948 says."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        body = kind + data
        return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))

    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    rows = zlib.compress((b"\0" + b"\xff" * width) * height)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


def jpeg(width: int, height: int, orientation: int = 1) -> bytes:
    """The head of a JPEG (ITU T.81) with the camera's orientation (Exif 2.3, tag 0x0112)."""
    exif = b"Exif\0\0II*\0\x08\0\0\0\x01\0" + struct.pack("<HHIHH", 0x0112, 3, 1, orientation, 0)
    notes = b"\xff\xe1" + struct.pack(">H", len(exif) + 2) + exif
    frame = b"\xff\xc0" + struct.pack(">HBHHB", 8, 8, height, width, 1)
    return b"\xff\xd8" + notes + frame + b"\xff\xd9"


def webp(width: int, height: int) -> bytes:
    """The head of an extended WebP (RFC 9649): canvas size less one, 24 bits each."""
    canvas = (width - 1).to_bytes(3, "little") + (height - 1).to_bytes(3, "little")
    return b"RIFF\0\0\0\0WEBPVP8X\x0a\0\0\0\0\0\0\0" + canvas


@pytest.mark.parametrize(
    ("content", "seen"),
    [
        (png(), Picture("png", 300, 400)),
        (jpeg(640, 480), Picture("jpg", 640, 480)),
        (jpeg(640, 480, 6), Picture("jpg", 480, 640)),
        (webp(320, 480), Picture("webp", 320, 480)),
    ],
)
def test_kind_and_size_come_from_the_bytes(content: bytes, seen: Picture) -> None:
    """PNG, JPEG upright and lying, WebP, as their standards lay them out."""
    assert look_at(content) == seen


@pytest.mark.parametrize(
    "content",
    [b"", b"GIF89a" + bytes(40), b"<svg/>", b"\xff\xd8", b"\xff\xd8\xff", png()[:14], b"RIFF"],
)
def test_anything_else_is_refused(content: bytes) -> None:
    """No image, or one cut off: one sentence, never a trace."""
    with pytest.raises(InputError, match="not a JPEG, PNG or WebP"):
        look_at(content)


def test_size_is_bounded(empty_book: Book) -> None:
    """A file too large, an image too small or a pose unknown keeps nothing."""
    with pytest.raises(InputError, match="20 MB"):
        save_photo(empty_book, png() + bytes(MOST_BYTES), TOLD)
    with pytest.raises(InputError, match="50 × 400"):
        save_photo(empty_book, png(50), TOLD)
    with pytest.raises(InputError, match="is not a pose"):
        save_photo(empty_book, png(), Told(day=TOLD.day, pose="upside down"))
    assert photos(empty_book) == ()
    assert not folder_of(empty_book).exists()


def test_a_photo_is_a_file_for_her_eyes(empty_book: Book) -> None:
    """Bytes as given, readable by the owner alone, named by its date."""
    kept = save_photo(empty_book, png(), TOLD)
    (path,) = folder_of(empty_book).iterdir()
    assert path.name.startswith("2026-03-01-")
    assert path.stat().st_mode & 0o777 == 0o600
    assert folder_of(empty_book).stat().st_mode & 0o777 == 0o700
    assert content_of(empty_book, kept) == (png(), "image/png")
    assert photo(empty_book, kept).light == "window on the left"


def test_marks_correct_the_note_and_keep_the_file(empty_book: Book) -> None:
    """Head and floor are a correction of the entry; the file stays where it is."""
    kept = save_photo(empty_book, png(), TOLD)
    marked = mark_scale(
        empty_book,
        mark_scale(empty_book, kept, Fraction(5), Fraction(95)),
        Fraction(10),
        Fraction(90),
    )
    (one,) = photos(empty_book)
    assert (one.id, one.top, one.floor, one.there) == (
        marked,
        Fraction(1, 10),
        Fraction(9, 10),
        True,
    )
    with pytest.raises(InputError, match="head above the floor"):
        mark_scale(empty_book, marked, Fraction(90), Fraction(10))


def later(book: Book, hours: int) -> Book:
    """The same records some hours on."""
    moment = book.now() + timedelta(hours=hours)
    return Book(book.ledger, lambda: moment, book.rng)


def test_a_removal_is_undone_on_the_same_day(empty_book: Book) -> None:
    """Put back it is the same photo: bytes, marks, name of its file, and owner's eyes alone."""
    marked = mark_scale(empty_book, save_photo(empty_book, png(), TOLD), Fraction(10), Fraction(90))
    (before,) = photos(empty_book)
    remove_photo(empty_book, marked)
    assert photos(empty_book) == ()
    (gone,) = removed_photos(empty_book)
    assert [path.name for path in folder_of(empty_book).iterdir()] == [WAITING]
    kept = put_back(later(empty_book, 1), gone.id)
    assert photos(empty_book) == (replace(before, id=kept),)
    assert content_of(empty_book, kept) == (png(), "image/png")
    assert removed_photos(empty_book) == ()
    assert (folder_of(empty_book) / before.file).stat().st_mode & 0o777 == 0o600


def test_a_photo_can_be_removed_and_put_back_again(empty_book: Book) -> None:
    """Twice removed, twice put back: one photo, no doubt, nothing in conflict."""
    kept, book = save_photo(empty_book, png(), TOLD), empty_book
    for _ in range(2):
        remove_photo(book, kept)
        book = later(book, 1)
        kept = put_back(book, removed_photos(book)[0].id)
        book = later(book, 1)
    assert [one.there for one in photos(book)] == [True]
    assert book.ledger.conflicts() == ()


def test_the_next_day_the_file_is_deleted(empty_book: Book) -> None:
    """A photo she removes leaves the disk: on another day by itself, or at once if she says so."""
    for _ in range(2):
        remove_photo(empty_book, save_photo(empty_book, png(), TOLD))
    delete_older(empty_book)
    first, _ = removed_photos(empty_book)
    delete_for_good(empty_book, first.id)
    with pytest.raises(NoAnswerError, match="cannot be put back"):
        put_back(empty_book, first.id)
    assert len(removed_photos(empty_book)) == 1
    tomorrow = later(empty_book, 24)
    assert removed_photos(tomorrow) == ()
    delete_older(tomorrow)
    assert list((folder_of(empty_book) / WAITING).iterdir()) == []


def test_no_backup_carries_a_removed_photo(empty_book: Book, tmp_path: Path) -> None:
    """What she removed is in no file that is made afterwards."""
    remove_photo(empty_book, save_photo(empty_book, png(), TOLD))
    save_photo(empty_book, png(301), TOLD)
    made = back_up(Place(folder_of(empty_book).parent), tmp_path / "out" / "b.pennate")
    assert made.files == 1


def test_no_export_carries_an_image(empty_book: Book, tmp_path: Path) -> None:
    """An export has the note of a photo at most; the image leaves only when asked for."""
    save_photo(empty_book, png(), TOLD)
    out = tmp_path / "out"
    export_dir(empty_book.ledger, out)
    assert all(b"PNG" not in path.read_bytes() for path in out.rglob("*") if path.is_file())
    with zipfile.ZipFile(io.BytesIO(packed(empty_book))) as archive:
        assert [archive.read(name) for name in archive.namelist()] == [png()]


def test_nothing_to_pack_says_so(empty_book: Book) -> None:
    """No photo, no file."""
    with pytest.raises(NoAnswerError, match="no photo"):
        packed(empty_book)
