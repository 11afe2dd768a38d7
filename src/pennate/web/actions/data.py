"""Import, answers to questions, and how pages look."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Annotated

from fastapi import APIRouter, UploadFile
from fastapi import File as FastapiFile
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.exchange import How, ImportReport, import_log
from pennate.app.import_notes import import_notes
from pennate.app.questions import answer
from pennate.core.plural import plural
from pennate.core.quantities import Unit
from pennate.errors import InputError
from pennate.web.here import Records, Text
from pennate.web.pages.data import data_view
from pennate.web.render import LOOK_COOKIE, LOOKS, go, page

actions = APIRouter()

Upload = Annotated[UploadFile, FastapiFile()]


@actions.post("/data/import")
def bring_in(
    request: Request, book: Records, file: Upload, unit: Text = "", in_order: Text = ""
) -> Response:
    """A training log, all or nothing."""
    how = How(unit=Unit(unit) if unit in set(Unit) else None, in_order=bool(in_order))
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "log.csv"
        path.write_bytes(file.file.read())
        try:
            report = import_log(book.ledger, path, how, now=book.now(), rng=book.rng)
        except InputError as error:
            words = str(error).replace(str(path), file.filename or "the log")
            return page(request, "data", data_view(book), error=words, status=422)
    done = (*report_words(report), *import_notes(book, report))
    return page(request, "data", data_view(book, done))


def report_words(report: ImportReport) -> tuple[str, ...]:
    """What an import did, in lines."""
    lines = [f"{plural(report.added, 'set')} added, {report.unchanged} known already."]
    if report.corrected:
        lines.append(f"{plural(len(report.corrected), 'set')} corrected; the old values are kept.")
    if report.questions:
        lines.append(f"{plural(len(report.questions), 'question')}: see below.")
    return tuple(lines)


@actions.post("/data/answer")
def answered(book: Records, question: Text, back: Text = "") -> Response:
    """The value stands as it was written."""
    answer(book.ledger, question, now=book.now(), rng=book.rng)
    return go("/floor" if back == "/floor" else "/data", "saved")


@actions.post("/data/look")
def look(look: Text) -> Response:
    """Light or dark; only how pages look, kept by the browser."""
    response = go("/data")
    response.set_cookie(
        LOOK_COOKIE, look if look in LOOKS else LOOKS[0], max_age=31_536_000, httponly=True,
        samesite="strict",
    )  # fmt: skip
    return response
