"""Templates: one environment, one way to answer with a page."""

from __future__ import annotations

import re
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse

from pennate.core.caution_texts import GENERAL

HERE = Path(__file__).parent
STATIC = HERE / "static"
LOOKS = ("light", "dark")
LOOK_COOKIE = "look"
"""Only how pages look; it carries no right."""

SAID = {
    "saved": "Saved.",
    "undone": "Undone; the set is open again.",
    "skipped": "Skipped for today.",
    "stopped": "Saved; the rest of that exercise is left out today.",
    "swapped": "Changed for today.",
    "kept": "The load stays as it was.",
    "week": "Your week is saved.",
    "gone": "That week is no longer remembered; ask for it again.",
    "gym": "Your gym is saved.",
    "asked_again": "Your gym is saved. It carries what your week asked for first: that is back; "
    "see the Week page.",
    "fitted": "What this gym cannot carry was replaced; each day says by what.",
    "remembered": "Remembered: the next loads start from it.",
    "later": "Moved one place down.",
    "nothing": "Nothing was changed.",
    "import": "Imported.",
    "pumped": "Saved and flagged: taken soon after training, so no verdict uses it.",
    "taken_back": "Taken back.",
    "removed": "Removed. It can be put back today; after that its file is deleted.",
    "put_back": "Put back as it was.",
    "deleted": "The file is deleted.",
}
"""What a page says after an action, by the word in its address; nothing else is echoed."""


_WITHIN = re.compile(r"(?<=\d) (?=%|(?:kg|lb)\b)|(?<=±) ")
"""Spaces at which a number would be torn apart."""


@cache
def fingerprint() -> str:
    """A short hash of all static files, so that changed files have new addresses."""
    digest = sha256()
    for path in sorted(STATIC.iterdir()):
        digest.update(path.read_bytes())
    return digest.hexdigest()[:12]


def static(name: str) -> str:
    """The address of a static file."""
    return f"/static/{fingerprint()}/{name}"


@cache
def environment() -> Environment:
    """The template environment: everything escaped, unknown names are errors."""
    env = Environment(
        loader=FileSystemLoader(HERE / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    env.globals["static"] = static
    env.globals["general"] = GENERAL.text
    env.filters["pair"] = lambda value: (value, value)
    env.filters["whole"] = whole
    return env


def whole(text: str) -> str:
    """Text whose numbers stay on one line with their unit, and with the ± before them."""
    return _WITHIN.sub("\N{NO-BREAK SPACE}", text)


def look_of(request: Request) -> str:
    """Light unless she chose dark."""
    chosen = request.cookies.get(LOOK_COOKIE, "")
    return chosen if chosen in LOOKS else LOOKS[0]


def page(
    request: Request, template: str, view: Any, *, error: str = "", status: int = 200
) -> HTMLResponse:
    """Draw a page from its view."""
    text = (
        environment()
        .get_template(f"pages/{template}.html")
        .render(
            view=view,
            look=look_of(request),
            here="/" + request.url.path.strip("/").split("/")[0],
            said=SAID.get(request.query_params.get("said", ""), ""),
            error=error,
        )
    )
    return HTMLResponse(text, status)


def go(path: str, said: str = "") -> RedirectResponse:
    """After a saved form: see the page that follows."""
    if not said:
        return RedirectResponse(path, 303)
    base, _, fragment = path.partition("#")
    mark = "&" if "?" in base else "?"
    return RedirectResponse(f"{base}{mark}said={said}{'#' + fragment if fragment else ''}", 303)
