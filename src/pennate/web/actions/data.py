"""Import, answers to questions, and how pages look."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from typing import Annotated

from fastapi import APIRouter, UploadFile
from fastapi import File as FastapiFile
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.book import Book
from pennate.app.exchange import ImportReport, import_log
from pennate.app.import_notes import import_notes
from pennate.app.log_headings import AskedColumn, asked_columns, columns_wanted, keep_columns
from pennate.app.log_loads import AskedLoads, asked_loads, keep_loads, loads_wanted, said_of
from pennate.app.log_names import (
    AskedName,
    answered,
    asked_names,
    keep_names,
    names_wanted,
    still_wrong,
)
from pennate.app.mend import mend
from pennate.app.questions import answer
from pennate.core.plural import plural
from pennate.core.quantities import Unit
from pennate.errors import InputError
from pennate.files.dates import DateOrder
from pennate.files.how import How
from pennate.files.ways import PAGE
from pennate.web.carried import packed, unpacked
from pennate.web.here import Form, Records, Text
from pennate.web.pages.data import Chosen, NamesView, data_view
from pennate.web.render import LOOK_COOKIE, LOOKS, go, page

actions = APIRouter()

Upload = Annotated[UploadFile, FastapiFile()]
CHOICES = tuple(one.name for one in fields(Chosen))


@dataclass(frozen=True, slots=True)
class Brought:
    """A log that was brought, and what was said of it."""

    log: bytes
    file: str
    chosen: Chosen
    said: Mapping[str, str] = field(default_factory=dict)
    """What names mean: an exercise's id, or that it is a new one."""
    columns: Mapping[str, str] = field(default_factory=dict)
    """What columns hold, by their headings."""
    loads: Mapping[str, str] = field(default_factory=dict)
    """What loads count, by the key of the question."""

    @property
    def how(self) -> How:
        """The choices of the import, names apart."""
        said = self.chosen
        unit = Unit(said.unit) if said.unit in set(Unit) else None
        dates = DateOrder(said.dates) if said.dates in set(DateOrder) else None
        return How(unit=unit, in_order=bool(said.in_order), dates=dates, ways=PAGE)


@actions.post("/data/import")
def bring_in(
    request: Request,
    book: Records,
    file: Upload,
    unit: Text = "",
    in_order: Text = "",
    dates: Text = "",
) -> Response:
    """A training log, all or nothing."""
    name = file.filename or "the log"
    return _taken(request, book, Brought(file.file.read(), name, Chosen(unit, in_order, dates)))


@actions.post("/data/names")
def say_names(request: Request, book: Records, form: Form) -> Response:
    """The same log again, with what the names in it mean."""
    said, columns = _pairs(form, "name", "means"), _pairs(form, "heading", "holds")
    loads = _pairs(form, "counted", "load_is")
    text = {name: str(form.get(name, "")) for name in ("log", "file", *CHOICES)}
    try:
        log = unpacked(text["log"])
        keep_names(book, said)
        keep_columns(book, columns)
    except InputError as error:
        return page(request, "data", data_view(book), error=str(error), status=422)
    chosen = Chosen(*(text[one] for one in CHOICES))
    return _taken(request, book, Brought(log, text["file"], chosen, said, columns, loads))


def _pairs(form: Form, key: str, value: str) -> dict[str, str]:
    """What was said of things, each beside its own hidden field."""
    both = zip(form.getlist(key), form.getlist(value), strict=False)
    return {str(one): str(said) for one, said in both}


def _taken(request: Request, book: Book, brought: Brought) -> Response:
    """The page after an import, or with what it waits for."""
    try:
        asked = _asked(book, brought)
        report = _import(book, brought, asked)
    except InputError as error:
        view = data_view(book, chosen=brought.chosen)
        return page(request, "data", view, error=str(error), status=422)
    naming = _naming(book, brought, asked, waits=isinstance(report, str)) if asked else None
    if isinstance(report, str):
        view = data_view(book, (), naming, brought.chosen)
        return page(request, "data", view, error=_in_one(report), status=422)
    done = (*report_words(report), *import_notes(book, report, PAGE))
    return page(request, "data", data_view(book, done, naming))


def _in_one(told: str) -> str:
    """Several problems, a line each, as sentences of one paragraph."""
    return told.replace(":\n  ", ": ").replace("\n  ", ". ").replace("\n", ". ")


@dataclass(frozen=True, slots=True)
class Asked:
    """What a log leaves open, with what was said of it."""

    columns: tuple[AskedColumn, ...]
    names: tuple[AskedName, ...]
    loads: tuple[AskedLoads, ...]
    how: How
    """The choices of the import with these answers."""

    def __bool__(self) -> bool:
        return bool(self.columns or self.names or self.loads)

    def wanted(self, file: str) -> str:
        """The sentence that asks for what is still unsaid; empty where all is."""
        wanted = (
            columns_wanted(self.columns, file),
            names_wanted(self.names, file),
            loads_wanted(self.loads, file),
        )
        return ". Besides, ".join(filter(None, wanted))


def _asked(book: Book, brought: Brought) -> Asked:
    columns = asked_columns(book, brought.log, brought.file, brought.columns)
    said = {one.heading: one.answer for one in columns if one.answer}
    how = replace(brought.how, columns=said)
    names = asked_names(book, brought.log, brought.said, how)
    how = answered(how, names)
    loads = asked_loads(book, brought.log, how, brought.loads)
    counted = said_of(loads, brought.loads)
    keep_loads(book, counted)
    return Asked(columns, names, loads, replace(how, load_is=counted))


def _import(book: Book, brought: Brought, asked: Asked) -> ImportReport | str:
    """What an import did, or why it waits."""
    if wanted := asked.wanted(brought.file):
        wrong = still_wrong(book, brought.log, asked.how, brought.file)
        return f"{wrong}. Besides, {wanted}." if wrong else f"{wanted}."
    try:
        return import_log(
            book.ledger, brought.log, asked.how, now=book.now(), rng=book.rng, name=brought.file
        )
    except InputError as error:
        return str(error)


def _naming(book: Book, brought: Brought, asked: Asked, *, waits: bool) -> NamesView:
    names = {one.id: one.name for one in book.catalogue.exercises.values()}
    ordered = sorted(names.items(), key=lambda one: one[1].casefold())
    log = packed(brought.log)
    return NamesView(
        log=log,
        file=brought.file,
        chosen=brought.chosen,
        asked=asked.names,
        columns=asked.columns,
        loads=asked.loads,
        exercises=tuple(ordered),
        names=names,
        waits=waits,
    )


def report_words(report: ImportReport) -> tuple[str, ...]:
    """What an import did, in lines."""
    lines = [f"{plural(report.added, 'set')} added, {report.unchanged} known already."]
    if report.corrected:
        lines.append(f"{plural(len(report.corrected), 'set')} corrected; the old values are kept.")
    if report.questions:
        lines.append(f"{plural(len(report.questions), 'question')}: see below.")
    return tuple(lines)


@actions.post("/data/answer")
def stands(book: Records, question: Text, back: Text = "") -> Response:
    """The value stands as it was written."""
    answer(book.ledger, question, now=book.now(), rng=book.rng)
    return go("/floor" if back == "/floor" else "/data", "saved")


@actions.post("/data/mend")
def put_right(request: Request, book: Records, question: Text, value: Text = "") -> Response:
    """The number as it was: the set is corrected."""
    try:
        mend(book, question, value)
    except InputError as error:
        return page(request, "data", data_view(book), error=f"{error}.", status=422)
    return go("/data", "saved")


@actions.post("/data/look")
def look(look: Text) -> Response:
    """Light or dark; only how pages look, kept by the browser."""
    response = go("/data")
    response.set_cookie(
        LOOK_COOKIE, look if look in LOOKS else LOOKS[0], max_age=31_536_000, httponly=True,
        samesite="strict",
    )  # fmt: skip
    return response
