"""Phones that may come in from the network: paired once by a short code, then known by a token.

A token is signed and names its device; what is revoked is refused at once. Nobody needs one
on this machine itself.
"""

from __future__ import annotations

import json
import os
import secrets
import threading
from collections.abc import Awaitable, Callable
from datetime import datetime, timedelta
from ipaddress import ip_address
from pathlib import Path
from urllib.parse import parse_qs

from itsdangerous import BadSignature, URLSafeSerializer
from starlette.requests import Request
from starlette.responses import FileResponse, HTMLResponse, JSONResponse, RedirectResponse, Response

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


class Devices:
    """The paired devices of one data folder, and the code a new one may use."""

    def __init__(self, folder: Path, now: Callable[[], datetime]) -> None:
        self._file = folder / FILE
        self._now = now
        self._lock = threading.Lock()
        self._secret, self._devices = self._read()
        self._signer = URLSafeSerializer(self._secret, salt="device")
        self._code, self._until, self._tries = "", now(), 0

    def code(self) -> str:
        """A new pairing code; it works once, for ten minutes."""
        with self._lock:
            self._code = "".join(secrets.choice(CODE_LETTERS) for _ in range(CODE_LENGTH))
            self._until = self._now() + timedelta(minutes=CODE_MINUTES)
            self._tries = 0
            return self._code

    def pair(self, code: str, name: str) -> str | None:
        """A token for the device that shows the code; None when the code is no longer good."""
        with self._lock:
            self._tries += 1
            good = secrets.compare_digest(code.strip().lower().encode(), self._code.encode())
            if not self._code or not good or self._tries > MOST_TRIES or self._now() > self._until:
                return None
            self._code = ""
            device = secrets.token_hex(8)
            added = self._now().isoformat(timespec="minutes")
            self._devices[device] = {"name": name[:60], "added": added}
            self._write()
            return str(self._signer.dumps(device))

    def known(self, token: str) -> str | None:
        """The device of a token, or None when it is forged or revoked."""
        try:
            device = str(self._signer.loads(token))
        except BadSignature:
            return None
        return device if device in self._devices else None

    def paired(self) -> dict[str, dict[str, str]]:
        """Every paired device: its name and when it was added."""
        return dict(self._devices)

    def revoke(self, device: str) -> bool:
        """Forget a device; its token is worth nothing from now on."""
        with self._lock:
            known = self._devices.pop(device, None) is not None
            self._write()
            return known

    def _read(self) -> tuple[str, dict[str, dict[str, str]]]:
        if not self._file.exists():
            return secrets.token_hex(32), {}
        kept = json.loads(self._file.read_text("utf-8"))
        return str(kept["secret"]), dict(kept["devices"])

    def _write(self) -> None:
        part = self._file.with_suffix(".part")
        descriptor = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        with os.fdopen(descriptor, "w", encoding="utf-8") as file:
            json.dump({"secret": self._secret, "devices": self._devices}, file)
        part.replace(self._file)


Next = Callable[[Request], Awaitable[Response]]

PAIR_PAGE = """<!doctype html><html lang="en"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Pair this phone</title></head><body><main><h1>Pair this phone</h1><p>{words}</p>
<form method="post" action="/pair"><p><label for="code">Code shown by the server</label><br>
<input id="code" name="code" autocomplete="off" autocapitalize="none" value="{code}" required></p>
<p><button>Pair</button></p></form></main></body></html>"""


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

    async def keep(self, request: Request, call_next: Next) -> Response:
        """The answer for one request."""
        if request.url.path == "/pair":
            return await _pair(request, self.devices)
        if request.url.path == AUTHORITY and self._authority is not None:
            return FileResponse(self._authority, media_type="application/x-x509-ca-cert")
        bearer = request.headers.get("authorization", "").removeprefix("Bearer ")
        token = request.cookies.get(COOKIE) or bearer
        if _ours(request) or self.devices.known(token):
            return await call_next(request)
        if request.url.path.startswith("/api/"):
            return JSONResponse({"error": "This device is not paired."}, 403)
        return HTMLResponse(PAIR_PAGE.format(words="It is not known here yet.", code=""), 403)


async def _pair(request: Request, devices: Devices) -> Response:
    if request.method != "POST":
        code = "".join(c for c in request.query_params.get("code", "") if c in CODE_LETTERS)
        return HTMLResponse(PAIR_PAGE.format(words="One touch, once.", code=code))
    form = parse_qs((await request.body())[:1000].decode("ascii", "replace"))
    name = request.headers.get("user-agent", "a device")
    token = devices.pair(form.get("code", [""])[0], name)
    if token is None:
        words = "That code is not valid, or no longer. Ask the server for a new one."
        return HTMLResponse(PAIR_PAGE.format(words=words, code=""), 403)
    answer = RedirectResponse("/phone", 303)
    secure = request.url.scheme == "https"
    answer.set_cookie(COOKIE, token, YEAR_S, httponly=True, secure=secure, samesite="lax")
    return answer
