"""Everything current as open files in a folder."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from pennate.app import documents
from pennate.app.choices import NAME, NEW, Choice, kept_choices
from pennate.core.performed import PerformedSet
from pennate.errors import InputError, StateError, Where
from pennate.files.log import write_log
from pennate.files.log_names import known_id
from pennate.files.measures import measures_text, weights_text
from pennate.ledger import Ledger
from pennate.ledger.measured import measurements_from, weighings_from
from pennate.ledger.sets import sets_from

FILES = (
    "entries.jsonl",
    "week.toml",
    "profile.toml",
    "notes.toml",
    "measures.csv",
    "weights.csv",
    "choices.toml",
    "log.csv",
)
"""Files of an export, in the order an import takes them in: what was asked before what is asked
about, what was said of logs before the log; `gyms/*.toml` come last.
"""


def export_dir(ledger: Ledger, folder: Path) -> tuple[str, ...]:
    """Write everything current into a folder and return the names of the files.

    Raises InputError rather than mix with an older export of other records, StateError
    when the folder cannot be written; the folder is then as it was.
    """
    texts = dict(_texts(ledger))
    stale = sorted(name for name in present(folder) if name not in texts)
    if stale:
        raise InputError(
            f"{stale[0]} is there already and is not among these records",
            Where(str(folder)),
            "choose an empty folder",
        )
    try:
        _write(folder, texts)
    except OSError as error:
        why = (error.strerror or "no room").lower()
        raise StateError(f"{folder}: the export cannot be written ({why})") from None
    return tuple(texts)


def present(folder: Path) -> list[str]:
    """Names of the files of an export that are in the folder."""
    found = [name for name in FILES if (folder / name).is_file()]
    return [*found, *(f"gyms/{path.name}" for path in sorted((folder / "gyms").glob("*.toml")))]


def _texts(ledger: Ledger) -> Iterator[tuple[str, str]]:
    """Every file of an export with its text; only the log is there when it is empty."""
    sets = _sets(ledger)
    yield "log.csv", write_log(sets)
    if choices := _choices(ledger, sets):
        yield "choices.toml", documents.choices_text(one.body for one in choices)
    if measured := measurements_from(ledger)[0]:
        yield "measures.csv", measures_text(measured)
    if weighed := weighings_from(ledger)[0]:
        yield "weights.csv", weights_text(weighed)
    if week := documents.newest(ledger.entries("week")):
        yield "week.toml", str(week.body.get("text", ""))
    for gym, entry in sorted(documents.gyms_of(ledger).items()):
        yield documents.gym_file(gym), str(entry.body.get("text", ""))
    if profile := documents.newest(ledger.entries("profile")):
        yield "profile.toml", documents.profile_text(profile.body)
    if notes := documents.notes_of(ledger):
        yield "notes.toml", documents.notes_text(notes[key] for key in sorted(notes))
    if others := documents.others_text(ledger):
        yield "entries.jsonl", others


def _sets(ledger: Ledger) -> tuple[PerformedSet, ...]:
    history, problems = sets_from(ledger)
    if problems:
        raise StateError(
            f"{len(problems)} stored sets cannot be read (the first: {problems[0].what}); "
            "a backup keeps them, an export cannot"
        )
    return history.sets


def _choices(ledger: Ledger, sets: Iterable[PerformedSet]) -> tuple[Choice, ...]:
    """What she said of her logs; every name her sets have and no exercise is one of her own."""
    known = documents.catalogue_of(ledger)
    apart = {done.exercise for done in sets if known_id(known, done.exercise) is None}
    said = dict.fromkeys(((NAME, name) for name in apart), NEW) | dict(kept_choices(ledger))
    return tuple(Choice(of, written, means) for (of, written), means in sorted(said.items()))


def _write(folder: Path, texts: Mapping[str, str]) -> None:
    """Write all files beside their places first, for her eyes only, then put them there."""
    parts: dict[Path, Path] = {}
    try:
        for name, text in texts.items():
            path = folder / name
            path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            part = path.with_name(f".{path.name}.part")
            parts[part] = path
            part.touch(mode=0o600)
            part.write_bytes(text.encode())
        for part, path in parts.items():
            part.replace(path)
    finally:
        for part in parts:
            part.unlink(missing_ok=True)
