"""Photos as private files in the data folder, each with its date, pose and light.

A file is known by what its first bytes say, never by its name. Nothing here is exported
with the records: photos leave in a file of their own, when she asks for it.
"""

from __future__ import annotations

import hashlib
import io
import os
import struct
import zipfile
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from fractions import Fraction
from pathlib import Path

from pennate.app.body_notes import on_day
from pennate.app.book import Book
from pennate.core.quantities import exact_text
from pennate.errors import InputError, NoAnswerError, StateError, Where
from pennate.ledger import Entry, is_entry_id

PHOTO = "photo"
FOLDER = "photos"
MOST_BYTES = 20 * 1024 * 1024
LEAST_SIDE, MOST_SIDE = 100, 12_000
LONGEST_NOTE = 200
MEDIA = {"jpg": "image/jpeg", "png": "image/png", "webp": "image/webp"}


class Pose(StrEnum):
    """How she stands; photos are compared within a pose."""

    FRONT = "front"
    SIDE_LEFT = "left side"
    SIDE_RIGHT = "right side"
    BACK = "back"
    FLEXED = "flexed"


@dataclass(frozen=True, slots=True)
class Picture:
    """What the bytes of an image say of it."""

    kind: str
    width: int
    height: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """One photo. `top` and `floor` say where head and floor lie, shares of the height."""

    id: str
    day: date
    pose: Pose
    light: str
    note: str
    file: str
    picture: Picture
    top: Fraction | None
    floor: Fraction | None
    there: bool
    """Whether the file is on this machine."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What she says of a photo."""

    day: date
    pose: str
    light: str = ""
    note: str = ""


def look_at(content: bytes) -> Picture:
    """Kind and size of an image from its bytes. Raises InputError for anything else."""
    reader = next((read for mark, read in _READERS if content.startswith(mark)), None)
    try:
        found = reader(content) if reader else None
    except (struct.error, IndexError):
        found = None
    if found is None:
        raise InputError(
            "this is not a JPEG, PNG or WebP image", Where(field="Photo"), "save it as JPEG"
        )
    if not all(LEAST_SIDE <= side <= MOST_SIDE for side in (found.width, found.height)):
        raise InputError(
            f"the image is {found.width} × {found.height}",
            Where(field="Photo"),
            f"each side between {LEAST_SIDE} and {MOST_SIDE}",
        )
    return found


def _png(content: bytes) -> Picture | None:
    if content[12:16] != b"IHDR":
        return None
    width, height = struct.unpack(">II", content[16:24])
    return Picture("png", width, height)


_FRAMES = {0xC0, 0xC1, 0xC2, 0xC3, 0xC5, 0xC6, 0xC7, 0xC9, 0xCA, 0xCB, 0xCD, 0xCE, 0xCF}
"""Markers of a JPEG frame, which carry its size."""


def _jpeg(content: bytes) -> Picture | None:
    at, turned = 2, False
    while content[at] == 0xFF:
        marker, length = content[at + 1], struct.unpack(">H", content[at + 2 : at + 4])[0]
        if marker == 0xE1:
            turned = turned or _turned(content[at + 4 : at + 2 + length])
        if marker in _FRAMES:
            height, width = struct.unpack(">HH", content[at + 5 : at + 9])
            return Picture("jpg", height, width) if turned else Picture("jpg", width, height)
        at += 2 + length
    return None


_ORIENTATION = 0x0112
_LYING = {5, 6, 7, 8}


def _turned(segment: bytes) -> bool:
    """Whether a camera says in its notes that the image is to be shown turned by a quarter."""
    if not segment.startswith(b"Exif\0\0"):
        return False
    notes = segment[6:]
    order = "<" if notes.startswith(b"II") else ">"
    (start,) = struct.unpack(f"{order}I", notes[4:8])
    (count,) = struct.unpack(f"{order}H", notes[start : start + 2])
    for place in range(start + 2, start + 2 + 12 * count, 12):
        tag, _, _, value = struct.unpack(f"{order}HHIH", notes[place : place + 10])
        if tag == _ORIENTATION:
            return value in _LYING
    return False


def _webp(content: bytes) -> Picture | None:
    if content[8:12] != b"WEBP":
        return None
    kind = content[12:16]
    if kind == b"VP8X":
        width = 1 + int.from_bytes(content[24:27], "little")
        return Picture("webp", width, 1 + int.from_bytes(content[27:30], "little"))
    if kind == b"VP8L":
        bits = int.from_bytes(content[21:25], "little")
        return Picture("webp", 1 + (bits & 0x3FFF), 1 + (bits >> 14 & 0x3FFF))
    if kind == b"VP8 ":
        width, height = struct.unpack("<HH", content[26:30])
        return Picture("webp", width & 0x3FFF, height & 0x3FFF)
    return None


_READERS = ((b"\x89PNG\r\n\x1a\n", _png), (b"\xff\xd8", _jpeg), (b"RIFF", _webp))


def folder_of(book: Book) -> Path:
    """Where the photos lie. Raises NoAnswerError where the records lie on a server."""
    where = book.ledger.path
    if where is None:
        raise NoAnswerError("photos are kept beside a ledger in a folder; these lie on a server")
    return where.parent / FOLDER


def save_photo(book: Book, content: bytes, told: Told) -> str:
    """Keep a photo, readable by her alone, and give its id. Raises InputError for no image."""
    if told.pose not in set(Pose):
        raise InputError(f"“{told.pose[:20]}” is not a pose", Where(field="Pose"), "choose one")
    if len(content) > MOST_BYTES:
        raise InputError("the photo is larger than 20 MB", Where(field="Photo"), "save it smaller")
    for name, text in (("Light", told.light), ("Note", told.note)):
        if len(text) > LONGEST_NOTE:
            raise InputError(f"“{text[:20]}…” is too long", Where(field=name), "200 characters")
    picture, day = look_at(content), on_day(book, told.day)
    body = {
        "pose": told.pose,
        "light": told.light.strip(),
        "note": told.note.strip(),
        "kind": picture.kind,
        "width": picture.width,
        "height": picture.height,
        "sha256": hashlib.sha256(content).hexdigest(),
    }
    entry = book.entry(PHOTO, day, body)
    _write(folder_of(book), f"{day.isoformat()}-{entry.id}.{picture.kind}", content)
    book.ledger.append([entry])
    return entry.id


def _write(folder: Path, name: str, content: bytes) -> None:
    """Write beside the place first, for her eyes only, then put it there."""
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        part = folder / f".{name}.part"
        with os.fdopen(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        part.replace(folder / name)
    except OSError as error:
        why = (error.strerror or "no room").lower()
        raise StateError(f"the photo cannot be kept ({why})") from None


def photos(book: Book) -> tuple[Photo, ...]:
    """Every photo, oldest first."""
    return tuple(photo_of(book, entry) for entry in book.ledger.entries(PHOTO))


def photo(book: Book, photo_id: str) -> Photo:
    """One photo. Raises NoAnswerError where there is none such."""
    entry = book.ledger.find(photo_id) if is_entry_id(photo_id) else None
    if entry is None or entry.kind != PHOTO:
        raise NoAnswerError("there is no such photo")
    return photo_of(book, entry)


def photo_of(book: Book, entry: Entry) -> Photo:
    """The photo a note speaks of."""
    body = entry.body
    root = str(body.get("first", entry.id))
    name = f"{body.get('taken', entry.day.isoformat())}-{root}.{body['kind']}"
    return Photo(
        id=entry.id,
        day=entry.day,
        pose=Pose(body["pose"]),
        light=str(body.get("light", "")),
        note=str(body.get("note", "")),
        file=name,
        picture=Picture(str(body["kind"]), int(body["width"]), int(body["height"])),
        top=Fraction(body["top"]) if body.get("top") else None,
        floor=Fraction(body["floor"]) if body.get("floor") else None,
        there=book.ledger.path is not None and (folder_of(book) / name).is_file(),
    )


def content_of(book: Book, photo_id: str) -> tuple[bytes, str]:
    """The bytes of a photo and their media type."""
    found = photo(book, photo_id)
    try:
        return (folder_of(book) / found.file).read_bytes(), MEDIA[found.picture.kind]
    except OSError:
        raise NoAnswerError("the file of this photo is not on this machine") from None


def mark_scale(book: Book, photo_id: str, top: Fraction, floor: Fraction) -> str:
    """Say where the top of the head and the floor lie, in per cent from the upper edge."""
    if not 0 <= top < floor <= 100 or floor - top < 10:
        raise InputError(
            f"head at {float(top):g} %, floor at {float(floor):g} %",
            Where(field="Head and floor"),
            "the head above the floor, both from 0 to 100",
        )
    found = photo(book, photo_id)
    entry = book.ledger.find(photo_id)
    body = dict(entry.body) if entry else {}
    marks = {"top": exact_text(top / 100), "floor": exact_text(floor / 100)}
    first = {"first": body.get("first", photo_id), "taken": body.get("taken", str(found.day))}
    return book.put(PHOTO, found.day, {**body, **marks, **first}, replaces=photo_id).id


def packed(book: Book) -> bytes:
    """All photos in one file, because she asked for it. Raises NoAnswerError for none."""
    here = [one for one in photos(book) if one.there]
    if not here:
        raise NoAnswerError("there is no photo on this machine")
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
        for one in here:
            pose = one.pose.value.replace(" ", "-")
            name = f"{one.day.isoformat()}-{pose}-{one.id[-6:]}.{one.picture.kind}"
            archive.writestr(name, (folder_of(book) / one.file).read_bytes())
    return out.getvalue()
