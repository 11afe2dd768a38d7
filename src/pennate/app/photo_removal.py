"""A photo removed by a slip can be put back on the same day; then its file is deleted.

The file waits in a hidden folder beside the photos, which no backup and no page carries.
"""

from __future__ import annotations

from pathlib import Path

from pennate.app.book import Book
from pennate.app.photos import PHOTO, Photo, folder_of, photo, photo_of
from pennate.errors import NoAnswerError
from pennate.ledger import RETRACTION, Entry

WAITING = ".removed"


def remove_photo(book: Book, photo_id: str) -> None:
    """Take a photo back and lay its file aside. Raises NoAnswerError where there is none."""
    found = photo(book, photo_id)
    aside = _aside(book)
    aside.mkdir(mode=0o700, exist_ok=True)
    book.ledger.retract(photo_id, now=book.now(), rng=book.rng, why="taken back")
    if found.there:
        (folder_of(book) / found.file).rename(aside / found.file)


def removed_photos(book: Book) -> tuple[Photo, ...]:
    """Photos removed today whose file is still there, the latest first."""
    gone = [one for name in _waiting(book) if (one := _gone(book, name)) is not None]
    gone.sort(key=lambda pair: pair[1].made_at, reverse=True)
    today = book.today
    return tuple(photo_of(book, was) for was, back in gone if back.made_at.date() == today)


def put_back(book: Book, photo_id: str) -> str:
    """Undo a removal: the note and its file are as they were. Gives the id of the note."""
    name, was, back = _removed(book, photo_id)
    entry = book.entry(PHOTO, was.day, _rooted(was, name), replaces=back.id)
    (_aside(book) / name).rename(folder_of(book) / name)
    book.ledger.append([entry])
    return entry.id


def delete_for_good(book: Book, photo_id: str) -> None:
    """Delete the file of a removed photo at once."""
    name, _, _ = _removed(book, photo_id)
    (_aside(book) / name).unlink(missing_ok=True)


def delete_older(book: Book) -> None:
    """Delete the files of photos removed before today, and any whose removal is not known."""
    today = book.today
    for name in _waiting(book):
        gone = _gone(book, name)
        if gone is None or gone[1].made_at.date() != today:
            (_aside(book) / name).unlink(missing_ok=True)


def _aside(book: Book) -> Path:
    return folder_of(book) / WAITING


def _waiting(book: Book) -> tuple[str, ...]:
    """Names of the files that wait; none where the records lie on a server."""
    if book.ledger.path is None or not _aside(book).is_dir():
        return ()
    return tuple(sorted(path.name for path in _aside(book).iterdir()))


def _gone(book: Book, name: str) -> tuple[Entry, Entry] | None:
    """The last note of the photo a file belongs to, and its removal."""
    root = name.rsplit(".", 1)[0][len("2026-01-01-") :]
    chain = book.ledger.chain(root)
    notes = [entry for entry in chain if entry.kind == PHOTO]
    if not notes or chain[-1].kind != RETRACTION:
        return None
    return notes[-1], chain[-1]


def _removed(book: Book, photo_id: str) -> tuple[str, Entry, Entry]:
    for name in _waiting(book):
        gone = _gone(book, name)
        if gone is not None and gone[0].id == photo_id:
            return name, *gone
    raise NoAnswerError("this photo cannot be put back: its file is deleted")


def _rooted(was: Entry, name: str) -> dict[str, object]:
    """Her note of the photo, with the id and the date its file is named by."""
    stem = name.rsplit(".", 1)[0]
    return {**was.body, "first": stem[len("2026-01-01-") :], "taken": stem[: len("2026-01-01")]}
