"""The JSON API of the phone: send entries, get entries, get what a week of sessions needs.

A request must come from our own page or carry a device's token; see `web.devices`.
"""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query
from pydantic import BaseModel, Field
from starlette.exceptions import HTTPException
from starlette.requests import Request

from pennate.app.book import Book
from pennate.app.sync import Doubled, doubled, entries_after, take_in
from pennate.web.guard import same_origin
from pennate.web.here import Records
from pennate.web.words import done_words

MOST_ENTRIES = 500
"""Entries in one batch, sent or got."""


class Batch(BaseModel):
    """Entries as a device made them."""

    entries: list[Any] = Field(max_length=MOST_ENTRIES)


class Told(BaseModel):
    """What became of one entry."""

    id: str
    fate: str
    why: str = ""


class TwiceDone(BaseModel):
    """A set that two devices logged: the ids, first to last, and each in words."""

    day: str
    key: str
    exercise: str
    ids: list[str]
    words: list[str]


class Taken(BaseModel):
    """The answer to a batch, entry by entry, and what now stands twice."""

    answers: list[Told]
    position: int
    doubled: list[TwiceDone]


class Given(BaseModel):
    """Entries beyond a position; `more` says that this was not all of them."""

    generation: str
    position: int
    more: bool
    entries: list[dict[str, Any]]
    doubled: list[TwiceDone]


def own_device(request: Request) -> None:
    """Only a page of ours or a device with a token: no header at all is nobody."""
    told = "sec-fetch-site" in request.headers or "origin" in request.headers
    if told and same_origin(request):
        return
    devices = getattr(request.app.state, "devices", None)
    token = request.headers.get("authorization", "").removeprefix("Bearer ")
    if devices is None or devices.known(token) is None:
        raise HTTPException(403, "This device is not paired; nothing was saved.")


api = APIRouter(prefix="/api", dependencies=[Depends(own_device)], tags=["sync"])


@api.post("/entries")
def send(book: Records, batch: Batch) -> Taken:
    """Take in entries; the same ones may be sent again until they are answered."""
    answers = take_in(book, batch.entries)
    return Taken(
        answers=[Told(id=one.id, fate=one.fate.value, why=one.why) for one in answers],
        position=book.ledger.position(),
        doubled=_doubled(book),
    )


@api.get("/entries")
def get(
    book: Records,
    after: Annotated[int, Query(ge=0)] = 0,
    limit: Annotated[int, Query(ge=1, le=MOST_ENTRIES)] = MOST_ENTRIES,
) -> Given:
    """Entries in order of arrival beyond a position of this generation of the records."""
    found = entries_after(book, after, limit)
    newest = book.ledger.position()
    return Given(
        generation=book.ledger.generation(),
        position=found.position,
        more=found.position < newest,
        entries=[{"position": at, **entry.as_json()} for at, entry in found.entries],
        doubled=_doubled(book),
    )


def _doubled(book: Book) -> list[TwiceDone]:
    return [_twice(book, one) for one in doubled(book)]


def _twice(book: Book, one: Doubled) -> TwiceDone:
    exercise = one.sets[0].exercise
    known = book.catalogue.exercises.get(exercise)
    return TwiceDone(
        day=one.day.isoformat(),
        key=one.key,
        exercise=known.name if known else exercise,
        ids=[done.id for done in one.sets],
        words=[done_words(done) for done in one.sets],
    )
