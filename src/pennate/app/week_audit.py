"""The audit of her week as the Week page shows it: findings at once, fixes as they are ready."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields

from pennate.app.book import Book
from pennate.app.week_known import looking_at
from pennate.app.week_work import Task, Work, key_of
from pennate.core.prescribed import Week
from pennate.core.question import Question
from pennate.core.week_questions import week_questions
from pennate.errors import InputError
from pennate.files.week_text import render_week
from pennate.plan.audit import Audited, Fix, audit
from pennate.plan.seen import Looking

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
    looking = looking_at(book, week)
    key = audit_key(week, looking)
    questions = week_questions(week, looking.catalogue)
    task = _task(work, key, week, looking)
    if task.wait(patience_s):
        return WeekAudit(key=key, audited=task.outcome(), ready=True, questions=questions)
    found = audit(week, looking, with_fixes=False)
    return WeekAudit(key=key, audited=found, ready=False, questions=questions)


def _task(work: Work[Audited], key: str, week: Week, looking: Looking) -> Task[Audited]:
    return work.start(key, lambda _task: audit(week, looking), "the audit of the week")


def audit_key(week: Week, looking: Looking) -> str:
    """A hash of everything the audit reads; the catalogue by the week's own exercises."""
    told = [
        f"{one.name}={_plain(getattr(looking, one.name))}"
        for one in fields(looking)
        if one.name != "catalogue"
    ]
    return key_of("audit", render_week(week), *told)


def _plain(value: object) -> str:
    if isinstance(value, frozenset | set):
        return repr(sorted(value))
    return repr(sorted(value.items())) if isinstance(value, Mapping) else repr(value)


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
