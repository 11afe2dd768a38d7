"""Her data: what is there, questions about it, and the ways in and out."""

from __future__ import annotations

import io
import tempfile
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.book import Book
from pennate.app.choices import NEW
from pennate.app.export import export_dir
from pennate.app.keep import Place, back_up
from pennate.app.log_headings import AskedColumn
from pennate.app.log_loads import AskedLoads
from pennate.app.log_names import AskedName
from pennate.app.mend import Box, box_for
from pennate.app.questions import open_questions
from pennate.core.plural import plural
from pennate.errors import NoAnswerError
from pennate.files.log import write_log
from pennate.files.log_columns import UNREAD
from pennate.web.here import Records
from pennate.web.render import page

pages = APIRouter()


@dataclass(frozen=True, slots=True)
class QuestionWords:
    """A question with what can be said to it."""

    id: str
    text: str
    box: Box | None
    """Where the right number is written, if it is one number."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """What the form says of a log, as its fields have it; drawn again so that nothing is lost."""

    unit: str = ""
    in_order: str = ""
    dates: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class NamesView:
    """A log, and what she is asked about its columns and the names in it."""

    log: str
    """The log itself, carried along."""
    file: str
    chosen: Chosen
    asked: tuple[AskedName, ...]
    columns: tuple[AskedColumn, ...]
    loads: tuple[AskedLoads, ...]
    exercises: tuple[tuple[str, str], ...]
    """All that a name could mean: id and name, in the order of names."""
    names: Mapping[str, str]
    """Names of exercises by id."""
    waits: bool
    """Whether the log is not taken in until something more is said, or mended."""
    apart: str = NEW
    unread: str = UNREAD

    @property
    def unsaid(self) -> int:
        """Names, columns and loads of which nothing is said yet."""
        said = [one.answer for one in self.asked]
        said += [one.answer for one in self.columns]
        said += [one.answer for one in self.loads]
        return said.count("")

    @property
    def kept_apart(self) -> bool:
        """Whether a name stands for a new exercise of hers."""
        return any(one.answer == self.apart for one in self.asked)


@dataclass(frozen=True, slots=True)
class DataView:
    """What the Data page shows."""

    about: str
    questions: tuple[QuestionWords, ...]
    problems: tuple[str, ...]
    report: tuple[str, ...] = ()
    naming: NamesView | None = None
    chosen: Chosen = Chosen()


@pages.get("/data")
def see_data(request: Request, book: Records) -> Response:
    """Counts, questions, ways in and out."""
    return page(request, "data", data_view(book))


def data_view(
    book: Book,
    report: tuple[str, ...] = (),
    naming: NamesView | None = None,
    chosen: Chosen = Chosen(),
) -> DataView:
    """The page; `report` says what an import did, `naming` what it asks, of a form so filled."""
    history = book.history()
    about = "Nothing is logged yet."
    if len(history):
        first, last = history.sets[0].day, history.sets[-1].day
        counts = f"{plural(len(history), 'set')} in {plural(len(history.sessions()), 'session')}"
        about = f"{counts}, from {first:%-d %B %Y} to {last:%-d %B %Y}."
    questions = tuple(
        QuestionWords(i, str(q), box_for(book, q)) for i, q in open_questions(book.ledger)
    )
    problems = tuple(str(p) for p in book.problems())
    return DataView(about, questions, problems, report, naming, chosen)


@pages.get("/data/log.csv")
def log_csv(book: Records) -> Response:
    """The training log."""
    return _file(write_log(book.as_written()).encode(), "text/csv", "log.csv")


@pages.get("/data/export.zip")
def export_zip(book: Records) -> Response:
    """Everything in open formats, in one file."""
    packed = io.BytesIO()
    with tempfile.TemporaryDirectory() as folder, zipfile.ZipFile(packed, "w") as archive:
        for name in export_dir(book.ledger, Path(folder)):
            archive.write(Path(folder) / name, name, zipfile.ZIP_DEFLATED)
    return _file(packed.getvalue(), "application/zip", "pennate-export.zip")


@pages.get("/data/backup")
def backup(book: Records) -> Response:
    """The whole state with its history, read back and whole."""
    where = book.ledger.path
    if where is None:
        raise NoAnswerError("these records lie on a database server: its own tools back them up")
    with tempfile.TemporaryDirectory() as folder:
        made = back_up(Place(where.parent), Path(folder) / "backup.zip")
        content = made.file.read_bytes()
    return _file(content, "application/zip", f"pennate-{book.today.isoformat()}.zip")


def _file(content: bytes, media: str, name: str) -> Response:
    disposition = f'attachment; filename="{name}"'
    return Response(content, media_type=media, headers={"Content-Disposition": disposition})
