"""Photos: known by their bytes, kept for her eyes, never exported unless asked."""

from __future__ import annotations

import io
import struct
import zipfile
import zlib
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from pennate.app.book import Book
from pennate.app.exchange import export_dir
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
    remove_photo,
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


def test_removed_means_the_file_too(empty_book: Book) -> None:
    """A photo she removes leaves the disk."""
    remove_photo(empty_book, save_photo(empty_book, png(), TOLD))
    assert photos(empty_book) == ()
    assert list(folder_of(empty_book).iterdir()) == []


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
