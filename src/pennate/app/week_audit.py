"""The audit of a week with what her log says: on her page, and of a week file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, fields, replace
from datetime import date, datetime
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from pennate.app.book import Book
from pennate.app.exchange import How, import_log
from pennate.app.pauses import pause_lines
from pennate.app.planning import gym_named, looking
from pennate.app.week_known import looking_at
from pennate.app.week_log import ends_at
from pennate.app.week_work import Task, Work, key_of
from pennate.core.prescribed import Week
from pennate.core.question import Question
from pennate.core.still_to_come import slip_of
from pennate.core.week_questions import week_questions
from pennate.core.week_time import Pace
from pennate.errors import InputError
from pennate.files.catalogue import read_catalogue
from pennate.files.week import read_week
from pennate.files.week_text import render_week
from pennate.plan.audit import Audited, Fix, audit
from pennate.plan.seen import Looking

LEFT_OUT = "Mend the date in the file; until then the sets of that day are left out."
PATIENCE_S = 0.25
"""Seconds a page waits for the fixes before it is shown without them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekAudit:
    """What the page is told: findings, the fixes if they are ready, numbers to look at."""

    key: str
    audited: Audited
    ready: bool
    """Whether the fixes are computed."""
    questions: tuple[Question, ...]


def audit_of(
    book: Book, week: Week, work: Work[Audited], *, patience_s: float = PATIENCE_S
) -> WeekAudit:
    """The audit of a week with what her log says; never of another week than this one."""
    told = looking_at(book, week)
    key = audit_key(week, told)
    questions = week_questions(week, told.catalogue)
    task = _task(work, key, week, told)
    if task.wait(patience_s):
        return WeekAudit(key=key, audited=task.outcome(), ready=True, questions=questions)
    found = audit(week, told, with_fixes=False)
    return WeekAudit(key=key, audited=found, ready=False, questions=questions)


@dataclass(frozen=True, slots=True)
class FileAudit:
    """The audit of a week file, what to look at in it, and what her minutes rest on."""

    audited: Audited
    questions: tuple[Question, ...]
    pace: Pace
    pauses: tuple[str, ...] = ()
    """What a pause in her log means to it, a line each."""


@dataclass(frozen=True, slots=True)
class LogRead:
    """A training log read as records, and what to ask about its days still to come."""

    book: Book
    questions: tuple[Question, ...]


def audit_file(
    path: Path,
    book: Book | None = None,
    today: date | None = None,
    asked: tuple[Question, ...] = (),
) -> FileAudit:
    """The audit of a week file, with what her records say where there are some.

    The same week is audited as her page audits it; `today` tells of a log how long ago it ended,
    `asked` what is to be mended in it. Raises InputError.
    """
    catalogue = book.catalogue if book else read_catalogue()
    week = read_week(path, catalogue)
    if book is not None:
        told = looking_at(book, week, path.parent)
    else:
        told = looking(catalogue.with_own(week.own_exercises), gym_named(week.gym, path.parent))
    pauses = pause_lines(book, today or book.today) if book is not None else ()
    questions = (*asked, *week_questions(week, told.catalogue))
    return FileAudit(audit(week, told), questions, told.pace, pauses)


@contextmanager
def book_of_log(log: Path, week: Path, how: How = How()) -> Iterator[LogRead]:
    """A training log as records, for as long as it is asked; told the day of its last set.

    Sets of days still to come are asked about and left out, so that a slip of the year does not
    make all else long ago. The week file tells which exercises are her own, `how` what the
    log leaves open. Raises InputError.
    """
    moment = datetime.now().astimezone()
    with TemporaryDirectory() as folder:
        book = Book.open(Path(folder), lambda: moment, Random(0))
        try:
            book.save_week(read_week(week, read_catalogue()))
            report = import_log(book.ledger, log, how, now=moment, rng=book.rng)
            questions = _left_out(book, report.questions)
            moment = ends_at(book.history(), moment)
            yield LogRead(book, questions)
        finally:
            book.close()


def _left_out(book: Book, questions: Iterable[Question]) -> tuple[Question, ...]:
    """Take back sets of days still to come, and give the questions about these days.

    A log that lies ahead as a whole is no slip: it is read as it stands.
    """
    today, sets = book.today, book.ledger.entries("set")
    slips = {entry.id: slip for entry in sets if (slip := slip_of(entry.day, today))}
    if len(slips) == len(sets):
        return ()
    for one in slips:
        book.ledger.retract(one, now=book.now(), rng=book.rng, why="still to come")
    said = tuple(set(slips.values()))
    return tuple(
        replace(one, text=f"{one.text} {LEFT_OUT}")
        for one in questions
        if one.text.startswith(said)
    )


def _task(work: Work[Audited], key: str, week: Week, told: Looking) -> Task[Audited]:
    return work.start(key, lambda _task: audit(week, told), "the audit of the week")


def audit_key(week: Week, told: Looking) -> str:
    """A hash of everything the audit reads; the catalogue by the week's own exercises."""
    read = [
        f"{one.name}={_plain(getattr(told, one.name))}"
        for one in fields(told)
        if one.name != "catalogue"
    ]
    return key_of("audit", render_week(week), *read)


def _plain(value: object) -> str:
    if isinstance(value, frozenset | set):
        return repr(sorted(value))
    return repr(sorted(map(repr, value.items()))) if isinstance(value, Mapping) else repr(value)


def fix_for(audited: WeekAudit, key: str, finding: str) -> Fix:
    """The fix she chose, if the audit is still of the week she saw; `best` is the best of all.

    Raises InputError otherwise.
    """
    if audited.key != key:
        raise InputError(
            "the week, or your log, has changed since this was worked out",
            remedy="look at the week again: the changes offered now are for it",
        )
    found = audited.audited.best if finding == "best" else audited.audited.fixes.get(finding)
    if found is None:
        raise InputError("there is no such change for this week", remedy="choose one that is shown")
    return found
