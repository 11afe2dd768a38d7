"""Questions about improbable values: stored, listed until answered or mended, answered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime
from random import Random

from pennate.core.question import Question
from pennate.errors import InputError, Where
from pennate.ledger import Entry, Ledger, uuid7

QUESTION = "question"
AS_WRITTEN = "as written"
"""The answer that lets a value stand."""


def question_entries(
    ledger: Ledger,
    questions: Iterable[Question],
    tips: Mapping[str, str],
    *,
    now: datetime,
    rng: Random,
    beside: Iterable[Entry] = (),
) -> Iterator[Entry]:
    """Questions as entries, those asked before, or among the entries `beside`, left out.

    `tips` gives the entry that now holds a set, by the set's id; what else is asked about is
    named by its entry. The question lapses when another entry takes its place.
    """
    known = (*ledger.entries(QUESTION), *(entry for entry in beside if entry.kind == QUESTION))
    asked = {(entry.body.get("entry"), entry.body.get("field")) for entry in known}
    for question in questions:
        body = {
            "about": question.about,
            "entry": tips.get(question.about, question.about),
            "field": question.field,
            "value": question.value,
            "text": question.text,
            "file": question.where.file,
            "line": question.where.line,
        }
        if (body["entry"], body["field"]) not in asked:
            yield Entry(id=uuid7(now, rng), kind=QUESTION, day=now.date(), made_at=now, body=body)


def open_questions(ledger: Ledger) -> tuple[tuple[str, Question], ...]:
    """Questions that wait for an answer, each with the id of its entry.

    A question lapses when what it is about was corrected or taken back.
    """
    waiting = [e for e in ledger.entries(QUESTION) if not e.body.get("answer")]
    current = set(ledger.ends().values()) if waiting else set()
    return tuple((e.id, _question(e)) for e in waiting if e.body.get("entry") in current)


def answer(
    ledger: Ledger, question_id: str, said: str = AS_WRITTEN, *, now: datetime, rng: Random
) -> None:
    """Note her answer. A wrong value is mended by correcting the set, not here.

    Raises InputError for an unknown question.
    """
    asked = ledger.find(question_id)
    if asked is None or asked.kind != QUESTION:
        raise InputError("there is no such question")
    entry = Entry(
        id=uuid7(now, rng),
        kind=QUESTION,
        day=asked.day,
        made_at=now,
        replaces=asked.id,
        body={**asked.body, "answer": said},
    )
    ledger.append([entry])


def _question(entry: Entry) -> Question:
    body = entry.body
    return Question(
        about=str(body.get("about", "")),
        field=str(body.get("field", "")),
        value=str(body.get("value", "")),
        text=str(body.get("text", "")),
        where=Where(body.get("file"), body.get("line"), body.get("field")),
    )
