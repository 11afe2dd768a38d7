"""Questions about a set just logged: an improbable value is kept, and asked about."""

from __future__ import annotations

from pennate.app.book import Book
from pennate.app.questions import open_questions, question_entries
from pennate.core.check import Asked, questions_about
from pennate.core.history import History
from pennate.core.question import Question


def doubt(book: Book, set_id: str) -> tuple[Question, ...]:
    """Look at one logged set among those of its exercise, and store what is to be asked."""
    history = book.history()
    done = next((one for one in history if one.id == set_id), None)
    if done is None:
        return ()
    alike = Asked(History(history.of_exercise(done.exercise)), book.catalogue, book.today)
    found = tuple(q for q in questions_about(alike) if q.about == done.identity)
    if found:
        entries = question_entries(book.ledger, found, {}, now=book.now(), rng=book.rng)
        book.ledger.append(list(entries))
    return found


def open_about(book: Book, set_id: str) -> tuple[tuple[str, str], ...]:
    """Questions about a set that wait for an answer: id of the question, and its words."""
    return tuple((id_, q.text) for id_, q in open_questions(book.ledger) if q.about == set_id)
