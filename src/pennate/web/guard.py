"""What stands before every page: who may ask, and what a page may do.

There is no log-in and no cookie that carries a right, so a forged form from another site is
stopped by where it comes from: a browser says so in `Sec-Fetch-Site` or `Origin`. The name
in `Host` must be an address, this machine or a `.local` name, so that no foreign name can
be pointed at this server.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping
from ipaddress import ip_address
from types import MappingProxyType
from urllib.parse import urlsplit

from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

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

Next = Callable[[Request], Awaitable[Response]]


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


async def guard(request: Request, call_next: Next) -> Response:
    """Refuse what may not come in, and send every answer with the same rules."""
    response = _refusal(request) or await call_next(request)
    for name, value in HEADERS.items():
        response.headers.setdefault(name, value)
    fixed = request.url.path.startswith("/static/") and response.status_code == 200
    response.headers.setdefault(
        "Cache-Control", "public, max-age=31536000, immutable" if fixed else "private, no-cache"
    )
    return response
