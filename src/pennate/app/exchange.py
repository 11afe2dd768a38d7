"""Everything in and out as open files: a log or a whole folder, all of it or nothing."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from types import MappingProxyType
from typing import Any

from pennate.app import documents
from pennate.app.choices import CHOICE, choice_of, choices_made, kept_choices, not_yet, with_kept
from pennate.app.export import export_dir, present
from pennate.app.keep import Place
from pennate.app.merge import Correction, Merge, Stored
from pennate.app.merge import questions_after as judged
from pennate.app.questions import question_entries
from pennate.core.body import Measurement
from pennate.core.exercise import Catalogue
from pennate.core.question import Question
from pennate.core.still_to_come import slip_of
from pennate.errors import InputError, StateError, Where
from pennate.files.catalogue import read_catalogue
from pennate.files.how import How
from pennate.files.log import LogFile
from pennate.files.log_columns import log_table, not_said
from pennate.files.measures import measures_by_line, weights_by_line
from pennate.files.unread import unread
from pennate.ledger import Entry, Ledger, MovedError, is_entry_id, uuid7
from pennate.ledger.measured import (
    GIRTH,
    WEIGHT,
    girth_body,
    measurement_of,
    weight_body,
)

__all__ = ["How", "ImportReport", "export_dir", "import_dir", "import_log", "take_in"]

ATTEMPTS = 5
"""Tries when somebody else writes between reading and writing."""


@dataclass(slots=True)
class ImportReport:
    """What an import did."""

    added: int = 0
    unchanged: int = 0
    taken_back: int = 0
    """Rows she had taken back before; they stay taken back."""
    corrected: tuple[Correction, ...] = ()
    questions: tuple[Question, ...] = ()
    others: dict[str, int] = field(default_factory=dict)
    """New or changed records by kind, apart from sets."""
    log: LogFile | None = None
    """The log as it was read, where there was one."""
    entries: list[Entry] = field(default_factory=list, repr=False)


@dataclass(slots=True)
class _Import:
    """One attempt: what the ledger holds, and what will be appended."""

    ledger: Ledger
    now: datetime
    rng: Random
    how: How
    report: ImportReport = field(default_factory=ImportReport)

    def put(
        self,
        kind: str,
        body: Mapping[str, Any],
        *,
        day: date | None = None,
        replaces: Entry | None = None,
    ) -> Entry:
        """Note a record to be appended, dated today unless a day is given."""
        entry = Entry(
            id=uuid7(self.now, self.rng),
            kind=kind,
            day=day or self.now.date(),
            made_at=self.now,
            replaces=replaces.id if replaces else None,
            body=body,
        )
        self.take(entry)
        return entry

    def take(self, entry: Entry) -> None:
        """Note an entry to be appended."""
        self.report.entries.append(entry)
        self.report.others[entry.kind] = self.report.others.get(entry.kind, 0) + 1


def take_in(
    place: Place, source: Path, how: How = How(), *, now: datetime, rng: Random
) -> ImportReport:
    """Take in a log or a folder where records may not exist yet.

    Raises InputError as the imports do; then nothing was made, not even an empty ledger.
    """
    take = import_dir if source.is_dir() else import_log
    if not place.exists:
        with TemporaryDirectory() as blank, Place(Path(blank)).open() as rehearsal:
            report = take(rehearsal, source, how, now=now, rng=rng)
        with place.open() as ledger:
            try:
                ledger.append(report.entries, only_at=0)
            except MovedError:  # somebody made records meanwhile: look again
                return take(ledger, source, how, now=now, rng=rng)
        return report
    with place.open() as ledger:
        return take(ledger, source, how, now=now, rng=rng)


def import_log(
    ledger: Ledger,
    source: Path | bytes,
    how: How = How(),
    *,
    now: datetime,
    rng: Random,
    name: str = "",
) -> ImportReport:
    """Take in a training log, all or nothing; the same file again adds nothing.

    `name` is what she calls the file, where it is not at hand. Raises InputError as `read_log`
    does.
    """
    known = documents.catalogue_of(ledger)
    return _attempted(ledger, how, now, rng, lambda run: _log(run, source, known, name))


def import_dir(
    ledger: Ledger, folder: Path, how: How = How(), *, now: datetime, rng: Random
) -> ImportReport:
    """Take in a folder that `export_dir` wrote, or any part of one; all or nothing.

    Raises InputError when a file is wrong or none of them is there.
    """
    return _attempted(ledger, how, now, rng, lambda run: _folder(run, folder))


def _attempted(
    ledger: Ledger, how: How, now: datetime, rng: Random, work: Callable[[_Import], None]
) -> ImportReport:
    for _ in range(ATTEMPTS):
        run = _Import(ledger, now, rng, how)
        position = ledger.position()
        work(run)
        try:
            ledger.append(run.report.entries, only_at=position)
        except MovedError:
            continue
        return run.report
    raise StateError("other programs keep writing to these records; close them and try again")


def _log(run: _Import, source: Path | bytes, catalogue: Catalogue, name: str = "") -> None:
    name = name or (source.name if isinstance(source, Path) else "log.csv")
    stored = Stored.of(run.ledger)
    names = {done.exercise for done in stored.sets.values()}
    known = frozenset(name for name in names if catalogue.find(name) is None)
    kept = kept_choices(run.ledger, run.report.entries)
    how = with_kept(run.how, kept, catalogue)
    log = _read_log(source, catalogue, replace(how, new=how.new | known), name)
    for said in not_yet(choices_made(run.how, catalogue), kept):
        run.put(CHOICE, said.body)
    ids = [row.id for row in log.rows if is_entry_id(row.id)]
    merged = Merge(stored, log, run.ledger.roots(ids), run.now, run.rng)
    merged.run()
    report = run.report
    report.log = log
    report.added, report.unchanged = merged.added, merged.unchanged
    report.taken_back = merged.taken_back
    report.corrected = tuple(merged.corrected)
    report.entries.extend(merged.entries)
    questions = judged(merged, catalogue, run.now.date(), name)
    _ask(run, questions, merged.stored.tips)


def _read_log(source: Path | bytes, catalogue: Catalogue, how: How, name: str) -> LogFile:
    """The log, where everything is said that must be; all that is not comes in one refusal."""
    table, _ = log_table(source, name, how.columns)
    unsaid = not_said(table, how.columns, how.ways)
    try:
        log = how.read(source, catalogue, ask=False, name=name)
    except InputError as error:
        raise (InputError(f"{error}\nBesides, {unsaid}") if unsaid else error) from None
    if unsaid:
        raise unsaid
    return log


def _ask(
    run: _Import, questions: tuple[Question, ...], tips: Mapping[str, str] = MappingProxyType({})
) -> None:
    """List questions, and note them to be appended unless they came along."""
    report = run.report
    report.questions += questions
    asked = question_entries(
        run.ledger, questions, tips, now=run.now, rng=run.rng, beside=tuple(report.entries)
    )
    report.entries.extend(asked)


def _folder(run: _Import, folder: Path) -> None:
    names = present(folder)
    if not names:
        raise InputError(
            "none of the files of an export is here", Where(str(folder)), "choose another folder"
        )
    for name in names:
        take = _gym if name.startswith("gyms/") else _TAKERS[name]
        take(run, folder / name)


def _week(run: _Import, path: Path) -> None:
    from pennate.files.week import read_week

    text = _read(path)
    read_week(text, read_catalogue(), name=path.name)
    current = documents.newest(run.ledger.entries("week"))
    if current is None or current.body.get("text") != text:
        run.put("week", {"text": text})


def _gym(run: _Import, path: Path) -> None:
    from pennate.files.gym import read_gym

    text = _read(path)
    read_gym(text, name=path.name)
    current = documents.gyms_of(run.ledger).get(documents.gym_id(text))
    if current is None or current.body.get("text") != text:
        run.put("gym", {"text": text})


def _profile(run: _Import, path: Path) -> None:
    body = documents.parsed(_read(path), path.name)
    current = documents.newest(run.ledger.entries("profile"))
    if current is None or documents.said(current.body) != documents.said(body):
        run.put("profile", body)


def _notes(run: _Import, path: Path) -> None:
    current = documents.notes_of(run.ledger)
    for body in documents.read_notes(_read(path), path.name):
        known = current.get(documents.note_key(body))
        if known is None or documents.said(known.body) != documents.said(body):
            run.put("note", body)


def _choices(run: _Import, path: Path) -> None:
    current = kept_choices(run.ledger)
    said = map(choice_of, documents.read_choices(_read(path), path.name))
    for one in not_yet(said, current):
        run.put(CHOICE, one.body)


def _log_beside(run: _Import, path: Path) -> None:
    """The log of a folder, whose week may describe exercises of her own."""
    if not _only_header(path):
        week = path.with_name("week.toml")
        _log(run, path, documents.catalogue_of(run.ledger, _read(week) if week.is_file() else None))


def _measures(run: _Import, path: Path) -> None:
    """Rows of one date, site, side and state are told apart by their order."""
    rows = {
        line: (_tape(row), row.day, girth_body(row)) for line, row in measures_by_line(path).items()
    }
    come = _dated(run, GIRTH, rows, lambda entry: _tape(measurement_of(entry)))
    _ask_of_days(run, come, path.name, "date")


def _tape(measured: Measurement) -> Hashable:
    return measured.day, measured.site, measured.side, measured.state


def _weights(run: _Import, path: Path) -> None:
    rows = {
        line: (row.day, row.day, weight_body(row)) for line, row in weights_by_line(path).items()
    }
    come = _dated(run, WEIGHT, rows, lambda entry: entry.day)
    _ask_of_days(run, come, path.name, "date")


def _dated(
    run: _Import,
    kind: str,
    rows: Mapping[int, tuple[Hashable, date, dict[str, Any]]],
    key_of: Callable[[Entry], Hashable],
) -> list[tuple[int, Entry]]:
    """Take in rows by their lines; those that are new or changed come back as entries."""
    known: dict[Hashable, list[Entry]] = defaultdict(list)
    for entry in run.ledger.entries(kind):
        try:
            known[key_of(entry)].append(entry)
        except (KeyError, ValueError, TypeError):  # reported by `measurements_from`; left alone
            continue
    come = []
    for line, (key, day, body) in rows.items():
        old = known[key].pop(0) if known[key] else None
        if old is None or dict(old.body) != body:
            come.append((line, run.put(kind, body, day=day, replaces=old)))
    return come


def _others(run: _Import, path: Path) -> None:
    entries = tuple(documents.read_others(_read(path), path.name))
    here = run.ledger.roots(entry.id for _, entry in entries)
    come = [(line, entry) for line, entry in entries if entry.id not in here]
    for _, entry in come:
        run.take(entry)
    _ask_of_days(run, come, path.name, "day")


def _ask_of_days(run: _Import, come: Iterable[tuple[int, Entry]], file: str, column: str) -> None:
    """Ask about days still to come among what is new, once for each kind of record and day."""
    found: dict[tuple[str, date], Question] = {}
    for line, entry in come:
        if (slip := slip_of(entry.day, run.now.date())) and (entry.kind, entry.day) not in found:
            found[entry.kind, entry.day] = Question(
                about=entry.id,
                field=column,
                value=str(entry.day),
                text=f"{slip} ({entry.kind})",
                where=Where(file, line, column),
            )
    _ask(run, tuple(found.values()))


_TAKERS: Mapping[str, Callable[[_Import, Path], None]] = MappingProxyType(
    {
        "week.toml": _week,
        "profile.toml": _profile,
        "notes.toml": _notes,
        "measures.csv": _measures,
        "weights.csv": _weights,
        "choices.toml": _choices,
        "log.csv": _log_beside,
        "entries.jsonl": _others,
    }
)
"""How each file of an export is taken in."""


def _only_header(path: Path) -> bool:
    with path.open("rb") as file:
        return bool(file.readline(10_000)) and not file.readline(10_000).strip()


def _read(path: Path) -> str:
    try:
        return path.read_bytes().decode("utf-8")
    except UnicodeDecodeError:
        raise InputError("the text is not UTF-8", Where(path.name), "save it as UTF-8") from None
    except OSError as error:
        raise unread(path, error) from None
