"""The web app over one lifter's records."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from mimetypes import guess_type
from types import MappingProxyType
from typing import TYPE_CHECKING

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import FileResponse, JSONResponse, Response

from pennate.app.book import Book
from pennate.app.photo_removal import delete_older
from pennate.app.week_plan import Proposal
from pennate.app.week_work import Work
from pennate.errors import InputError, MissingPartError, NoAnswerError, PennateError, StateError
from pennate.plan.audit import Audited
from pennate.sheets.mark import mark_svg
from pennate.web.guard import Guard
from pennate.web.lean import PHONE, script
from pennate.web.phone.kept import Kept
from pennate.web.render import STATIC, page

if TYPE_CHECKING:
    from pennate.web.devices import Door

STATUS: Mapping[type[PennateError], int] = MappingProxyType(
    {InputError: 422, NoAnswerError: 404, StateError: 500, MissingPartError: 501}
)
SMALL = 1024
"""Answers below this many bytes travel as they are."""
TITLES: Mapping[int, str] = MappingProxyType(
    {404: "Not here", 405: "Not here", 422: "Not saved", 500: "It does not work", 501: "Not here"}
)


@dataclass(frozen=True, slots=True)
class Message:
    """What went wrong, as a page."""

    title: str
    words: str
    sent: bool = False
    """Whether something she typed was refused, so that going back finds it."""
    nearest: tuple[tuple[str, str], ...] = ()


def make_app(book: Book, *, development: bool = False, door: Door | None = None) -> FastAPI:
    """The app that serves these records; `development` adds the page of all components.

    With a door, only this machine and paired devices come in.
    """
    app = FastAPI(title="pennate", docs_url=None, redoc_url=None)
    app.state.book = book
    app.state.kept = Kept()
    delete_older(book)
    app.state.audits, app.state.plans = Work[Audited](), Work[Proposal]()
    app.add_middleware(GZipMiddleware, minimum_size=SMALL)
    if door is not None:
        from pennate.web.devices import Doorkeeper

        app.state.devices = door.devices
        app.add_middleware(Doorkeeper, door=door)
    app.add_middleware(Guard)
    app.add_exception_handler(PennateError, _told)
    app.add_exception_handler(RequestValidationError, _incomplete)
    app.add_exception_handler(HTTPException, _not_here)
    app.get("/static/{mark}/{name}", include_in_schema=False)(static_file)
    app.get("/mark.svg", include_in_schema=False)(mark)
    _add_routes(app, development=development)
    return app


def _add_routes(app: FastAPI, *, development: bool) -> None:
    from pennate.web import sync
    from pennate.web.actions import body as body_actions
    from pennate.web.actions import data as data_actions
    from pennate.web.actions import gym as gym_actions
    from pennate.web.actions import gym_fixtures as fixture_actions
    from pennate.web.actions import session as session_actions
    from pennate.web.actions import start as start_actions
    from pennate.web.actions import week as week_actions
    from pennate.web.actions import week_plan as week_plan_actions
    from pennate.web.pages import body, data, exercises, gym, session, start, week, week_plan
    from pennate.web.phone import pages as phone

    for pages in (body, session, start, week_plan, week, exercises, gym, data):
        app.include_router(pages.pages, include_in_schema=False)
    actions_of = (
        session_actions,
        start_actions,
        week_plan_actions,
        week_actions,
        gym_actions,
        fixture_actions,
        data_actions,
    )
    for actions in (body_actions, *actions_of):
        app.include_router(actions.actions, include_in_schema=False)
    app.include_router(sync.api)
    app.include_router(phone.cards)
    app.include_router(phone.pages, include_in_schema=False)
    if development:
        from pennate.web import patterns

        app.include_router(patterns.pages, include_in_schema=False)


def static_file(mark: str, name: str) -> Response:
    """A static file; the mark in its address changes when any of them changes."""
    known = {path.name: path for path in STATIC.iterdir()}
    if (name not in known and name != PHONE) or not mark:
        raise HTTPException(404)
    media = guess_type(name)[0] or "application/octet-stream"
    if name.endswith(".js"):
        return Response(script(STATIC, name), media_type=media)
    return FileResponse(known[name], media_type=media)


def mark() -> Response:
    """The feather, for the page's tab."""
    return Response(mark_svg(), media_type="image/svg+xml")


def _wants_json(request: Request) -> bool:
    return "text/html" not in request.headers.get("accept", "*/*").replace("*/*", "text/html")


def _answer(request: Request, status: int, words: str, error: Exception | None = None) -> Response:
    if _wants_json(request):
        return JSONResponse({"error": words}, status)
    nearest: tuple[tuple[str, str], ...] = ()
    if isinstance(error, NoAnswerError):
        nearest = tuple((key, str(value)) for key, value in error.nearest.items())
    sent = request.method == "POST"
    title = TITLES.get(status, "It does not work")
    if status == 422 and not sent:
        title = TITLES[404]
    view = Message(title, _sentence(words), sent, nearest)
    return page(request, "message", view, status=status)


def _sentence(words: str) -> str:
    """The words with a capital, except where a file's name comes first: it is as she wrote it."""
    first = words.partition(" ")[0].rstrip(".,:;")
    return words if "." in first else words[:1].upper() + words[1:]


def _told(request: Request, error: Exception) -> Response:
    """A failure that can be told in one sentence."""
    status = next((code for kind, code in STATUS.items() if isinstance(error, kind)), 500)
    return _answer(request, status, str(error), error)


def _incomplete(request: Request, error: Exception) -> Response:
    """A form that lacks a field or has one of the wrong shape."""
    fields = []
    if isinstance(error, RequestValidationError):
        fields = [str(one["loc"][-1]) for one in error.errors()]
    words = f"This is missing or has the wrong shape: {', '.join(fields)}."
    return _answer(request, 422, words)


def _not_here(request: Request, error: Exception) -> Response:
    status = error.status_code if isinstance(error, HTTPException) else 500
    return _answer(request, status, "There is no such page.")
