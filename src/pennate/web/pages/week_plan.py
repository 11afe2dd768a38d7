"""The brief, the work on it, the week it gives, and what to say when something happened."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from pennate.app.book import Book
from pennate.app.week_block import her_block, wish_of
from pennate.app.week_brief import known_wishes
from pennate.app.week_plan import Proposal
from pennate.app.week_work import Task
from pennate.errors import PennateError
from pennate.web.here import Plans, Records
from pennate.web.render import go, page
from pennate.web.views.week_block import block_view
from pennate.web.views.week_changed import changed_view
from pennate.web.views.week_plan import (
    ProposalView,
    WorkingView,
    brief_view,
    proposal_view,
    working_view,
)

pages = APIRouter()

PATIENCE_S = 0.8
"""Seconds the page waits for an answer before it shows the work."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanPage:
    """One of three: still working, a week, or why there is none."""

    working: WorkingView | None = None
    proposal: ProposalView | None = None
    refused: str = ""


@pages.get("/week/brief")
def see_brief(request: Request, book: Records) -> Response:
    """The form, filled in from what is known."""
    return page(request, "week_brief", brief_view(book, known_wishes(book)))


@pages.get("/week/changed")
def see_changed(request: Request, book: Records) -> Response:
    """What may have happened to this week."""
    week = book.week()
    if week is None:
        return go("/start")
    return page(request, "week_changed", changed_view(book, week))


@pages.get("/week/block")
def see_block(
    request: Request, book: Records, weeks: str = "6", ramp: str = "effort", lighter: str = "no"
) -> Response:
    """Several weeks of her week, before she follows them."""
    if book.week() is None:
        return go("/start")
    wish = wish_of(weeks, ramp, lighter=lighter == "yes")
    return page(request, "week_block", block_view(book, her_block(book, wish), wish))


@pages.get("/week/plan/{key}")
def see_plan(request: Request, book: Records, work: Plans, key: str) -> Response:
    """The work on a week, then the week."""
    task = work.find(key)
    if task is None:
        return go("/week/brief", "gone")
    return page(request, "week_plan", plan_page(book, task))


def plan_page(book: Book, task: Task[Proposal]) -> PlanPage:
    """What there is to see of a piece of work."""
    if not task.wait(PATIENCE_S):
        return PlanPage(working=working_view(task))
    try:
        found = task.outcome()
    except PennateError as error:
        return PlanPage(refused=str(error))
    return PlanPage(proposal=proposal_view(task.key, found, book.catalogue))
