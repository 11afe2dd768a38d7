"""What stands before every page: who may ask, and what a page may do.

There is no log-in and no cookie that carries a right, so a forged form from another site is
stopped by where it comes from: a browser says so in `Sec-Fetch-Site` or `Origin`. The name
in `Host` must be an address, this machine or a `.local` name, so that no foreign name can
be pointed at this server.
"""

from __future__ import annotations

from collections.abc import Mapping
from ipaddress import ip_address
from types import MappingProxyType
from urllib.parse import urlsplit

from starlette.datastructures import MutableHeaders
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

HEADERS: Mapping[str, str] = MappingProxyType(
    {
        "Content-Security-Policy": (
            "default-src 'self'; base-uri 'none'; form-action 'self';"
            " frame-ancestors 'none'; object-src 'none'"
        ),
        "X-Content-Type-Options": "nosniff",
        "Referrer-Policy": "same-origin",
        "Cross-Origin-Opener-Policy": "same-origin",
        "Cross-Origin-Resource-Policy": "same-origin",
        "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
    }
)
MOST_BYTES = 64 * 1024 * 1024
"""Largest request taken: a log of 50 MB and its wrapping."""


def known_host(host: str) -> bool:
    """Whether a Host header names an address, this machine, or a name of the local network."""
    name = urlsplit(f"//{host}").hostname or ""
    if name == "localhost" or name.endswith((".localhost", ".local")):
        return True
    try:
        ip_address(name)
    except ValueError:
        return False
    return True


def same_origin(request: Request) -> bool:
    """Whether a changing request comes from our own page, or from no browser at all."""
    site = request.headers.get("sec-fetch-site")
    if site is not None:
        return site in {"same-origin", "none"}
    origin = request.headers.get("origin")
    return origin is None or urlsplit(origin).netloc == request.headers.get("host")


def _refusal(request: Request) -> Response | None:
    if not known_host(request.headers.get("host", "")):
        return PlainTextResponse("This server answers to its own address only.", 421)
    if request.method in {"GET", "HEAD", "OPTIONS"}:
        return None
    if not same_origin(request):
        return PlainTextResponse("This form was sent from another site; nothing was saved.", 403)
    length = request.headers.get("content-length", "0")
    if not length.isdigit() or int(length) > MOST_BYTES:
        return PlainTextResponse("That is larger than 64 MB; nothing was saved.", 413)
    return None


class Guard:
    """Refuses what may not come in, and sends every answer with the same rules."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request, or let it through."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return

        async def ruled(message: Message) -> None:
            if message["type"] == "http.response.start":
                _add_rules(scope["path"], message)
            await send(message)

        await (_refusal(Request(scope)) or self._app)(scope, receive, ruled)


def _add_rules(path: str, start: Message) -> None:
    headers = MutableHeaders(scope=start)
    for name, value in HEADERS.items():
        headers.setdefault(name, value)
    fixed = path.startswith("/static/") and start["status"] == 200
    headers.setdefault(
        "Cache-Control", "public, max-age=31536000, immutable" if fixed else "private, no-cache"
    )
