"""What every handler is given: her records, and the day."""

from __future__ import annotations

from datetime import date
from typing import Annotated

from fastapi import Depends
from fastapi import Form as FastapiForm
from starlette.datastructures import FormData
from starlette.requests import Request

from pennate.app.book import Book
from pennate.app.week_plan import Proposal
from pennate.app.week_work import Work
from pennate.errors import InputError
from pennate.plan.audit import Audited


def book_of(request: Request) -> Book:
    """The records this server shows."""
    book: Book = request.app.state.book
    return book


def audits_of(request: Request) -> Work[Audited]:
    """The audits this server works on."""
    work: Work[Audited] = request.app.state.audits
    return work


def plans_of(request: Request) -> Work[Proposal]:
    """The weeks this server plans."""
    work: Work[Proposal] = request.app.state.plans
    return work


async def form_of(request: Request) -> FormData:
    """The form that was sent."""
    return await request.form()


Records = Annotated[Book, Depends(book_of)]
Audits = Annotated[Work[Audited], Depends(audits_of)]
Plans = Annotated[Work[Proposal], Depends(plans_of)]
Text = Annotated[str, FastapiForm()]
Form = Annotated[FormData, Depends(form_of)]


def day_of(text: str, book: Book) -> date:
    """The day a form is about; empty means today. Raises InputError for anything else."""
    if not text:
        return book.today
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise InputError(f"“{text[:20]}” is not a day", remedy="write it like 2026-05-12") from None
