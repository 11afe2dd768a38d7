"""Keeping the records safe: one-file backup, restore that loses nothing, and a check."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import tempfile
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path, PurePosixPath
from random import Random
from typing import Any

from pennate.app.questions import open_questions
from pennate.errors import InputError, StateError, Where
from pennate.files.unread import unread
from pennate.ledger import Ledger, MovedError, uuid7
from pennate.ledger.copying import copy_to_file, pour
from pennate.ledger.schema import HEAD
from pennate.ledger.sets import Problem, sets_from
from pennate.ledger.sound import faults

LEDGER_FILE = "pennate.sqlite"
KEPT = "kept"
"""Folder of what a restore replaced, inside the data folder."""

FORMAT = "pennate backup"
VERSION = 1
MANIFEST = "manifest.json"
LEDGER_MEMBER = "ledger.sqlite"
LEFT_OUT = (KEPT, "cache")
BLOCK = 1 << 20


class DamagedError(StateError):
    """What is stored is not what was written."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where the records lie: a data folder, and a database address if not in a file there."""

    folder: Path
    url: str = ""

    @property
    def exists(self) -> bool:
        """Whether there are records already; a server's database counts as such."""
        try:
            return bool(self.url) or (self.folder / LEDGER_FILE).exists()
        except OSError as error:
            raise StateError(f"{self.folder}: cannot be looked into ({_why(error)})") from None

    def open(self) -> Ledger:
        """Open the ledger; makes an empty one where there is none."""
        return Ledger.open(self.url or self.folder / LEDGER_FILE)


@dataclass(frozen=True, slots=True)
class Backup:
    """What a backup file holds."""

    file: Path
    entries: int
    files: int
    """Files beside the ledger, photos for example."""


@dataclass(frozen=True, slots=True)
class Restored:
    """What a restore did; `kept` is where the replaced records lie."""

    entries: int
    files: int
    kept: Path | None


@dataclass(frozen=True, slots=True)
class Checked:
    """The state of the records."""

    entries: int
    sets: int
    faults: tuple[Problem, ...]
    """Damage: what is stored is not what was written."""
    unreadable: tuple[Problem, ...]
    """Sets that are stored well but make no sense."""
    conflicts: int
    questions: int

    @property
    def sound(self) -> bool:
        """Whether nothing is damaged."""
        return not self.faults


def back_up(place: Place, file: Path) -> Backup:
    """Write everything, checked entry by entry, into one new file, and read it back.

    Raises InputError when the file exists, DamagedError when the records are damaged.
    """
    if file.exists():
        raise InputError("this file exists already", Where(str(file)), "choose another name")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=file.parent, prefix=".backup-") as folder:
            part = Path(folder) / "part"
            _pack(place, part, Path(folder) / LEDGER_MEMBER)
            with tempfile.TemporaryDirectory(dir=folder) as unpacked:
                manifest = _unpack(part, Path(unpacked))
            part.chmod(0o600)
            part.replace(file)
            _flush(file.parent)
    except OSError as error:
        raise StateError(f"{file}: the backup cannot be written ({_why(error)})") from None
    return Backup(file, manifest["entries"], len(manifest["sha256"]) - 1)


def restore(place: Place, file: Path, *, now: datetime, rng: Random) -> Restored:
    """Put a backup in the place of the records, which are kept as a backup of their own.

    Raises InputError for a file that is damaged, of a newer pennate, or no backup; nothing
    is changed then.
    """
    try:
        with tempfile.TemporaryDirectory(dir=_near(place.folder), prefix=".restore-") as unpacked:
            manifest = _unpack(file, Path(unpacked))
            with Ledger.open(Path(unpacked) / LEDGER_MEMBER) as source:
                _verify(source, manifest, Where(str(file)))
                kept = _replace(place, source, now, uuid7(now, rng))
            names = [name for name in manifest["sha256"] if name != LEDGER_MEMBER]
            for name in names:
                goal = place.folder / _inner(name)
                goal.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
                shutil.move(Path(unpacked) / name, goal)
    except OSError as error:
        raise StateError(f"{place.folder}: the records cannot be written ({_why(error)})") from None
    return Restored(manifest["entries"], len(names), kept)


def check(place: Place) -> Checked:
    """Look at every entry and replay them all."""
    with place.open() as ledger:
        found = faults(ledger)
        if found:
            return Checked(ledger.position(), 0, found, (), 0, 0)
        history, unreadable = sets_from(ledger)
        return Checked(
            ledger.count(),
            len(history),
            found,
            unreadable,
            len(ledger.conflicts()),
            len(open_questions(ledger)),
        )


def _replace(place: Place, source: Ledger, now: datetime, generation: str) -> Path | None:
    """Keep what is there, then fill the ledger from the source in one transaction."""
    stamp = now.strftime("%Y%m%d-%H%M%S-%f")
    folder = place.folder / KEPT
    goal = folder / f"before-restore-{stamp}.zip"
    while True:
        try:
            seen = _keep(place, goal)
        except DamagedError:
            return _replace_damaged(place, source, generation, folder / f"damaged-{stamp}")
        try:
            _pour_into(place, source, generation, seen)
        except MovedError:  # somebody logged a set: keep that one too
            goal.unlink(missing_ok=True)
            continue
        return goal if goal.exists() else None


def _replace_damaged(place: Place, source: Ledger, generation: str, aside: Path) -> Path:
    """Move damaged records away as they are; back again if filling new ones fails."""
    _set_aside(place, aside)
    try:
        _pour_into(place, source, generation, 0)
    except BaseException:
        _put_back(place, aside)
        raise
    return aside


def _pour_into(place: Place, source: Ledger, generation: str, seen: int) -> None:
    with place.open() as target:
        pour(source, target, generation=generation, only_at=seen)


def _keep(place: Place, goal: Path) -> int:
    """Back up the present records, if there are any; the position up to which they are kept.

    Raises DamagedError when they cannot be opened or are not what was written.
    """
    try:
        with place.open() as ledger:
            seen = ledger.position()
    except StateError as error:
        raise DamagedError(str(error)) from error
    if seen or any(_beside(place.folder)):
        back_up(place, goal)
    return seen


def _set_aside(place: Place, folder: Path) -> None:
    """Move a damaged ledger out of the way, every file of it."""
    if place.url:
        raise StateError("the database is damaged; restore into a new one")
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    for path in sorted(place.folder.glob(f"{LEDGER_FILE}*")):
        path.replace(folder / path.name)


def _near(folder: Path) -> Path:
    """The folder, or the nearest one above it that exists: the same disk, most likely."""
    return next(one for one in (folder.absolute(), *folder.absolute().parents) if one.is_dir())


def _put_back(place: Place, folder: Path) -> None:
    for path in sorted(place.folder.glob(f"{LEDGER_FILE}*")):
        path.unlink()
    for path in sorted(folder.iterdir()):
        path.replace(place.folder / path.name)


def _pack(place: Place, part: Path, copy: Path) -> None:
    with place.open() as ledger:
        copy_to_file(ledger, copy)
    with Ledger.open(copy) as copied:
        if faults(copied):
            raise DamagedError("the records are damaged; `pennate check` says where")
        entries = copied.count()
    sums: dict[str, str] = {}
    with zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, path in ((LEDGER_MEMBER, copy), *_beside(place.folder)):
            packed.write(path, name)
            sums[name] = _sum(path)
        about = {
            "format": FORMAT,
            "version": VERSION,
            "schema": HEAD,
            "entries": entries,
            "sha256": sums,
        }
        packed.writestr(MANIFEST, json.dumps(about, indent=2, sort_keys=True))
    _flush(part)


def _unpack(file: Path, folder: Path) -> dict[str, Any]:
    """Unpack a backup; raises InputError when a part is missing or not what was packed."""
    where = Where(str(file))
    try:
        with zipfile.ZipFile(file) as packed:
            manifest = _manifest(packed, where)
            for name, wanted in manifest["sha256"].items():
                packed.extract(name, folder)
                if _sum(folder / name) != wanted:
                    raise InputError(f"the backup is damaged ({name})", where, "use another one")
    except OSError as error:
        raise unread(file, error, str(file)) from None
    except (zipfile.BadZipFile, KeyError, EOFError, NotImplementedError, RuntimeError) as error:
        raise InputError(f"this is no whole backup ({error})", where, "use another one") from None
    except zlib.error as error:
        raise InputError(f"the backup is damaged ({error})", where, "use another one") from None
    return manifest


def _verify(ledger: Ledger, manifest: dict[str, Any], where: Where) -> None:
    """Beyond the checksums: the entries make sense and are all there."""
    if faults(ledger):
        raise InputError("the backup is damaged", where, "use another one")
    if ledger.count() != manifest["entries"]:
        raise InputError("the backup lacks entries", where, "use another one")


def _manifest(packed: zipfile.ZipFile, where: Where) -> dict[str, Any]:
    try:
        manifest = json.loads(packed.read(MANIFEST))
    except (KeyError, ValueError):
        raise InputError("this is no backup of pennate", where, "check the name") from None
    if not isinstance(manifest, dict) or manifest.get("format") != FORMAT:
        raise InputError("this is no backup of pennate", where, "check the name")
    if int(manifest.get("version", 0)) > VERSION or str(manifest.get("schema", "")) > HEAD:
        raise InputError("this backup was made by a newer pennate", where, "update pennate")
    names = set(packed.namelist()) - {MANIFEST}
    if names != set(manifest.get("sha256", ())) or LEDGER_MEMBER not in names:
        raise InputError("the backup lacks a part", where, "use another one")
    for name in names - {LEDGER_MEMBER}:
        _inner(name)
    return manifest


def _inner(name: str) -> PurePosixPath:
    """A path below the data folder, of a file that may come from a backup."""
    path = PurePosixPath(name)
    if path.is_absolute() or ".." in path.parts or path.parts[0] != "files" or len(path.parts) < 2:
        raise InputError(f"the backup holds a file that does not belong in one ({name})")
    return PurePosixPath(*path.parts[1:])


def _beside(folder: Path) -> Iterator[tuple[str, Path]]:
    """Files of the data folder that are not the ledger, with their names in a backup."""
    for path in sorted(folder.rglob("*")):
        inner = path.relative_to(folder)
        hidden = any(part.startswith(".") for part in inner.parts)
        if hidden or inner.parts[0] in LEFT_OUT or inner.name.startswith(LEDGER_FILE):
            continue
        if path.is_file() and not path.is_symlink():
            yield f"files/{inner.as_posix()}", path


def _sum(path: Path) -> str:
    total = hashlib.sha256()
    with path.open("rb") as file:
        while block := file.read(BLOCK):
            total.update(block)
    return total.hexdigest()


def _flush(path: Path) -> None:
    """Make sure a file or folder has reached the disk."""
    descriptor = os.open(path, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def _why(error: OSError) -> str:
    return (error.strerror or "no reason given").lower()
