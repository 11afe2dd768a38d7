"""Commands of the gym: session, log, review."""

from __future__ import annotations

from contextlib import contextmanager
from datetime import date
from typing import TYPE_CHECKING, Annotated

import typer

from pennate.cli.common import (
    DataDir,
    JsonFlag,
    clear_errors,
    date_said,
    print_json,
    records_in,
)
from pennate.cli.streams import progress

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pennate.app.book import Book
    from pennate.app.today import RestDay

DayArgument = Annotated[
    str | None, typer.Argument(help="The planned day, like Monday; else today's.")
]
DateOption = Annotated[
    str | None, typer.Option("--date", help="The date it is done on, like 2026-03-31.")
]


@contextmanager
def opened(where: Path | None, *, quiet: bool = False) -> Iterator[Book]:
    """Her records, closed again at the end. Raises NoAnswerError where there are none.

    A terminal is told how far the log is read, unless it is to be `quiet`.
    """
    from datetime import datetime
    from random import SystemRandom

    from pennate.app.book import Book

    place = records_in(where)
    where_they_lie = place.url or place.folder
    book = Book.open(where_they_lie, lambda: datetime.now().astimezone(), SystemRandom())
    try:
        with progress("reading your log", quiet=quiet) as book.watch:
            yield book
    finally:
        book.close()


def date_of(text: str | None, book: Book) -> date:
    """The date meant; today where nothing is said."""
    return book.today if text is None else date_said(text)


def day_meant(text: str | None) -> str | None:
    """The planned day, however it is written; what is no day is told where it is looked for."""
    from pennate.core.week_names import weekday_meant

    return weekday_meant(text).capitalize() if text else None


def session(
    day: DayArgument = None,
    on: DateOption = None,
    minutes: Annotated[int | None, typer.Option(help="The time you have today.")] = None,
    ill: Annotated[
        str | None,
        typer.Option(
            metavar="WHEN",
            help="Keep that you are ill (now), come back after it (before), or neither (no).",
        ),
    ] = None,
    data: DataDir = None,
    as_json: JsonFlag = False,
) -> None:
    """The session card of a day: every set with load, reps, reserve, rest and minutes."""
    with clear_errors(as_json=as_json), opened(data, quiet=as_json) as book:
        from pennate.app.card_text import card_document, card_lines
        from pennate.app.today import card_for, within_minutes
        from pennate.core.card import Card

        when, day = date_of(on, book), day_meant(day)
        if ill is not None:
            _keep_ill(book, when, ill)
        card = (
            card_for(book, when, weekday=day)
            if minutes is None
            else within_minutes(book, when, day, minutes)
        )
        if not isinstance(card, Card):
            _say_rest(card, as_json=as_json)
            return
        if as_json:
            print_json(card_document(card))
            return
        for line in card_lines(card):
            typer.echo(line)


def _keep_ill(book: Book, when: date, said: str) -> None:
    """Keep what she says of an illness, as the check-in of the page does."""
    from pennate.app.illness import say_ill
    from pennate.core.readiness import Ill
    from pennate.errors import InputError

    words = {"now": Ill.NOW, "before": Ill.BEFORE, "no": Ill.NO}
    if said not in words:
        raise InputError(f"“{said}” is no answer to --ill", remedy="say now, before or no")
    say_ill(book, when, words[said])


def _say_rest(rest: RestDay, *, as_json: bool) -> None:
    if as_json:
        print_json({"rest": True, "next": rest.next_day, "date": rest.next_date})
        return
    coming = f"; next is {rest.next_day}, {rest.next_date}" if rest.next_day else ""
    typer.echo(f"Nothing is planned for {rest.day}{coming}.")
    typer.echo(f"To do another day's session now: pennate session {rest.choices[0]}")


def log(
    key: Annotated[
        str | None, typer.Argument(help="The set on the card, like 1.2.1; else the next one.")
    ] = None,
    reps: Annotated[int | None, typer.Option(help="Full reps, per side.")] = None,
    seconds: Annotated[str | None, typer.Option(help="Seconds of a hold.")] = None,
    load: Annotated[str | None, typer.Option(help="The load used, like 42.5.")] = None,
    unit: Annotated[str, typer.Option(help="kg or lb.")] = "kg",
    load_is: Annotated[str, typer.Option(help="total, each, side, plates or label.")] = "total",
    effort: Annotated[
        str | None, typer.Option(help="fail, 0, 1, 2, 3, 4-5 or 6+ reps in reserve.")
    ] = None,
    pain: Annotated[str | None, typer.Option(help="Joint and 0–10, like knee:3.")] = None,
    note: Annotated[str, typer.Option(help="A note on this set.")] = "",
    day: Annotated[str | None, typer.Option(help="The planned day, like Monday.")] = None,
    on: DateOption = None,
    undo: Annotated[bool, typer.Option("--undo", help="Take the last set back.")] = False,
    finish: Annotated[bool, typer.Option("--finish", help="Close the session.")] = False,
    data: DataDir = None,
    as_json: JsonFlag = False,
) -> None:
    """Record a set of today's card; what is left out stands as asked."""
    with clear_errors(as_json=as_json), opened(data, quiet=as_json) as book:
        from pennate.app.log_words import Words, log_words

        words = Words(
            key=key,
            reps=reps,
            seconds=seconds,
            load=load,
            unit=unit,
            load_is=load_is,
            effort=effort,
            pain=pain,
            note=note,
            undo=undo,
            finish=finish,
        )
        said = log_words(book, date_of(on, book), day_meant(day), words)
        if as_json:
            print_json(said.document)
        else:
            typer.echo(said.line)


def review(
    day: DayArgument = None,
    on: DateOption = None,
    why: Annotated[
        str | None,
        typer.Option("--why", metavar="EXERCISE", help="What its strength rests on instead."),
    ] = None,
    data: DataDir = None,
    as_json: JsonFlag = False,
) -> None:
    """Look back on seven days: what changed, what next, what to measure; or on one session.

    With a day or a date: what that session taught, and what comes next time. With --why:
    how strong one exercise is, how sure that is, which sets moved it, and what comes next.
    """
    with clear_errors(as_json=as_json), opened(data, quiet=as_json) as book:
        if why is not None:
            _say_why(book, why, as_json=as_json)
            return
        if day is None and on is None:
            _look_back_on_week(book, as_json=as_json)
            return
        from pennate.app.day_named import day_to_look_back_on
        from pennate.app.review import review as look_back
        from pennate.app.review_text import review_document, review_lines

        weekday = day_to_look_back_on(book, day) if day else None
        found = look_back(book, date_of(on, book), weekday=weekday)
        if as_json:
            print_json(review_document(found))
            return
        for line in review_lines(found):
            typer.echo(line)


def _say_why(book: Book, exercise: str, *, as_json: bool) -> None:
    from pennate.app.why_text import why_document, why_of, why_text

    found = why_of(book, exercise)
    if as_json:
        print_json(why_document(found))
        return
    for line in why_text(found):
        typer.echo(line)


def _look_back_on_week(book: Book, *, as_json: bool) -> None:
    from pennate.app.week_review_text import week_review_document, week_review_lines, week_words

    words = week_words(book)
    if as_json:
        print_json(week_review_document(words))
        return
    for line in week_review_lines(words):
        typer.echo(line)


def register(app: typer.Typer) -> None:
    """Add the commands of the gym."""
    app.command()(session)
    app.command()(log)
    app.command()(review)
