"""Cautions once a session: which were shown today is kept by the browser, and carries no right.

Emergency lines are shown every time; the others come back on another day.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from pennate.core.cautions import EVERY_CAUTION, unseen
from pennate.web.render import page

COOKIE = "seen"


def seen_on(request: Request, day: str) -> frozenset[str]:
    """Ids of the cautions this browser was shown on that day; strange values are nothing."""
    on, _, ids = request.cookies.get(COOKIE, "").partition("_")
    known = {caution.id for caution in EVERY_CAUTION}
    return frozenset(ids.split(".")) & known if on == day else frozenset()


def cautious_page(
    request: Request, template: str, view: Any, *, error: str = "", status: int = 200
) -> Response:
    """Draw a page whose view has `cautions`, leaving out those shown before today."""
    day = request.app.state.book.today.isoformat()
    seen = seen_on(request, day)
    shown = unseen(view.cautions, seen)
    response = page(request, template, replace(view, cautions=shown), error=error, status=status)
    if ids := {one.id for one in shown} - seen:
        value = f"{day}_{'.'.join(sorted(seen | ids))}"
        response.set_cookie(COOKIE, value, httponly=True, samesite="strict")
    return response
