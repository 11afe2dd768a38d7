"""Phones that may come in from the network: paired once by a short code, then known by a token.

A token is signed and names its device; what is revoked is refused at once. Nobody needs one
on this machine itself.
"""

from __future__ import annotations

import fcntl
import json
import os
import secrets
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta
from ipaddress import ip_address
from pathlib import Path
from urllib.parse import parse_qs

from itsdangerous import BadSignature, URLSafeSerializer
from starlette.requests import Request
from starlette.responses import (
    FileResponse,
    JSONResponse,
    PlainTextResponse,
    RedirectResponse,
    Response,
)
from starlette.types import ASGIApp, Receive, Scope, Send

from pennate.errors import StateError
from pennate.web.render import page

FILE = "devices.json"
COOKIE = "device"
AUTHORITY = "/authority.pem"
"""Where a phone takes the certificate it has to trust; it is no secret."""
CODE_LETTERS = "23456789abcdefghjkmnpqrstuvwxyz"
"""Letters and digits that are not mistaken for each other."""
CODE_LENGTH = 8
CODE_MINUTES = 10
MOST_TRIES = 10
"""Wrong codes after which a code is worth nothing."""
YEAR_S = 365 * 24 * 3600


@dataclass
class _Kept:
    """What the file holds: the secret of the signatures, the devices, and the code that is out."""

    secret: str
    devices: dict[str, dict[str, str]]
    code: str = ""
    until: str = ""
    tries: int = 0


class Devices:
    """The paired devices of one data folder, and the code a new one may use.

    The file is read anew for every question, so that what another process pairs or forgets
    holds in this one at once.
    """

    def __init__(self, folder: Path, now: Callable[[], datetime]) -> None:
        self._file = folder / FILE
        self._now = now

    def code(self) -> str:
        """A new pairing code; it works once, for ten minutes."""
        with self._changing() as kept:
            kept.code = "".join(secrets.choice(CODE_LETTERS) for _ in range(CODE_LENGTH))
            kept.until = (self._now() + timedelta(minutes=CODE_MINUTES)).isoformat()
            kept.tries = 0
            return kept.code

    def pair(self, code: str, name: str) -> str | None:
        """A token for the device that shows the code; None when the code is no longer good."""
        with self._changing() as kept:
            if not kept.code:
                return None
            kept.tries += 1
            good = secrets.compare_digest(code.strip().lower().encode(), kept.code.encode())
            late = self._now() > datetime.fromisoformat(kept.until)
            if kept.tries >= MOST_TRIES or good or late:
                kept.code = ""
            if late or not good:
                return None
            device = secrets.token_hex(8)
            added = self._now().isoformat(timespec="minutes")
            kept.devices[device] = {"name": name[:60], "added": added}
            return str(_signer(kept).dumps(device))

    def known(self, token: str) -> str | None:
        """The device of a token, or None when it is forged or revoked."""
        kept = self._read()
        try:
            device = str(_signer(kept).loads(token))
        except BadSignature:
            return None
        return device if device in kept.devices else None

    def paired(self) -> dict[str, dict[str, str]]:
        """Every paired device: its name and when it was added."""
        return self._read().devices

    def revoke(self, device: str) -> bool:
        """Forget a device; its token is worth nothing from now on, in every running server."""
        with self._changing() as kept:
            return kept.devices.pop(device, None) is not None

    @contextmanager
    def _changing(self) -> Iterator[_Kept]:
        """The state to be changed by one at a time, of all threads and processes."""
        if not self._file.parent.is_dir():
            raise StateError(f"there is no folder {self._file.parent}; `pennate serve` makes it")
        with self._file.with_suffix(".lock").open("w", encoding="utf-8") as lock:
            fcntl.flock(lock, fcntl.LOCK_EX)  # let go where the file is closed
            kept = self._read()
            yield kept
            self._write(kept)

    def _read(self) -> _Kept:
        if not self._file.exists():
            return _Kept(secrets.token_hex(32), {})
        try:
            return _Kept(**json.loads(self._file.read_text("utf-8")))
        except (ValueError, TypeError) as error:
            raise StateError(
                f"{self._file} cannot be read ({error}); delete it and pair the phones again"
            ) from None

    def _write(self, kept: _Kept) -> None:
        part = self._file.with_suffix(".part")
        descriptor = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        with os.fdopen(descriptor, "w", encoding="utf-8") as file:
            json.dump(asdict(kept), file)
        part.replace(self._file)


def _signer(kept: _Kept) -> URLSafeSerializer:
    return URLSafeSerializer(kept.secret, salt="device")


OPEN = ("/static/", "/mark.svg")
"""What strangers get too, so that the page to pair on looks like ours; there are no data in it."""


@dataclass(frozen=True)
class Pairing:
    """What the page to pair on says, and the code it was opened with."""

    words: str
    code: str = ""


def _ours(request: Request) -> bool:
    host = request.client.host if request.client else ""
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False


class Door:
    """Lets in this machine and paired devices; offers the others the page to pair on."""

    def __init__(self, devices: Devices, authority: Path | None = None) -> None:
        self.devices = devices
        self._authority = authority

    async def answer(self, request: Request) -> Response | None:
        """What is said at the door; None where the request may go in."""
        if request.url.path == "/pair":
            return await _pair(request, self.devices)
        if request.url.path == AUTHORITY and self._authority is not None:
            return FileResponse(self._authority, media_type="application/x-x509-ca-cert")
        try:
            if request.url.path.startswith(OPEN) or self._known(request):
                return None
        except StateError:  # strangers ask too: its words and path are for the server's own screen
            words = "The list of paired phones cannot be read; start the server again to see why."
            return PlainTextResponse(words, 500)
        if request.url.path.startswith("/api/"):
            return JSONResponse({"error": "This device is not paired."}, 403)
        return page(request, "pair", Pairing("It is not known here yet."), status=403)

    def _known(self, request: Request) -> bool:
        bearer = request.headers.get("authorization", "").removeprefix("Bearer ")
        token = request.cookies.get(COOKIE) or bearer
        return _ours(request) or self.devices.known(token) is not None


class Doorkeeper:
    """Puts every request to the door before the app hears of it."""

    def __init__(self, app: ASGIApp, door: Door) -> None:
        self._app = app
        self._door = door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request at the door, or let it through."""
        answer = None
        if scope["type"] == "http":
            answer = await self._door.answer(Request(scope, receive))
        await (answer or self._app)(scope, receive, send)


async def _pair(request: Request, devices: Devices) -> Response:
    if request.method != "POST":
        code = "".join(c for c in request.query_params.get("code", "") if c in CODE_LETTERS)
        return page(request, "pair", Pairing("One touch, once.", code))
    form = parse_qs((await request.body())[:1000].decode("ascii", "replace"))
    name = request.headers.get("user-agent", "a device")
    token = devices.pair(form.get("code", [""])[0], name)
    if token is None:
        words = "That code is not valid, or no longer. “pennate phones --pair” shows a new one."
        return page(request, "pair", Pairing(words), status=403)
    answer = RedirectResponse("/phone", 303)
    secure = request.url.scheme == "https"
    answer.set_cookie(COOKIE, token, YEAR_S, httponly=True, secure=secure, samesite="lax")
    return answer
