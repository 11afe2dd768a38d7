"""Firefox and WebKit as Debian packages them, driven by the W3C's WebDriver commands.

Firefox is spoken to over its own Marionette socket (frames of `length:json`), WebKit through
`WebKitWebDriver`; both with the standard library alone.
"""

from __future__ import annotations

import http.client
import json
import os
import shutil
import socket
import subprocess
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, BinaryIO, Protocol

ELEMENT = "element-6066-11e4-a52e-4f735466cecf"
"""The key under which WebDriver hands over an element (W3C WebDriver, section 12.1)."""
MINI_BROWSER = next(
    (str(path) for path in Path("/usr/lib").glob("*/webkit2gtk-4.*/MiniBrowser")), None
)
QUIET = {
    "app.update.enabled": False,
    "browser.safebrowsing.downloads.enabled": False,
    "browser.safebrowsing.malware.enabled": False,
    "datareporting.policy.dataSubmissionEnabled": False,
    "marionette.port": 0,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "services.settings.server": "data:,",
    "toolkit.telemetry.enabled": False,
}


class Wire(Protocol):
    """Sends one WebDriver command and gives what it answers."""

    def __call__(self, name: str, body: dict[str, Any]) -> Any:
        """The answer; RuntimeError with the browser's words where it refuses."""


class Remote:
    """A page in another browser."""

    def __init__(self, wire: Wire) -> None:
        self.wire = wire

    def goto(self, url: str) -> None:
        """Open an address."""
        self.wire("Navigate", {"url": url})

    def run(self, script: str, *args: Any) -> Any:
        """What a script returns."""
        return self.wire("ExecuteScript", {"script": script, "args": list(args)})

    def click(self, css: str, nth: int = 0) -> None:
        """Touch the nth element that a selector finds, as a pointer would, once it is in sight."""
        self.run(TO_SIGHT, css, nth)
        found = self.wire("FindElements", {"using": "css selector", "value": css})
        self.wire("ElementClick", {"id": found[nth][ELEMENT]})

    def wait(self, script: str, *args: Any, seconds: float = 60) -> Any:
        """Ask again and again until a script returns something true."""
        until = time.monotonic() + seconds
        while not (found := self.run(script, *args)):
            if time.monotonic() > until:
                raise TimeoutError(f"{script}; the page says: {self.run(SAYS)}")
            time.sleep(0.05)
        return found


TO_SIGHT = """
document.querySelectorAll(arguments[0])[arguments[1]].scrollIntoView({block: 'center'})
"""
SAYS = "return document.body.innerText.slice(0, 300)"


@contextmanager
def firefox(folder: Path) -> Iterator[Remote]:
    """Firefox without a window, with a profile of its own."""
    words = "".join(f'user_pref("{name}", {json.dumps(to)});\n' for name, to in QUIET.items())
    (folder / "user.js").write_text(words, encoding="utf-8")
    command = ["firefox-esr", "--headless", "--marionette", "--no-remote", "--profile", str(folder)]
    with _running(command, {"TZ": "UTC", "HOME": str(folder)}):
        port = _until(lambda: int((folder / "MarionetteActivePort").read_text()))
        line = socket.create_connection(("127.0.0.1", port), timeout=120)
        with line, line.makefile("rb") as stream:
            yield _firefox_session(line, stream)


def _firefox_session(line: socket.socket, stream: BinaryIO) -> Remote:
    count = 0

    def answer() -> Any:
        length = b""
        while (one := stream.read(1)) != b":":
            length += one
        return json.loads(stream.read(int(length)))

    def wire(name: str, body: dict[str, Any]) -> Any:
        nonlocal count
        count += 1
        frame = json.dumps([0, count, f"WebDriver:{name}", body]).encode()
        line.sendall(f"{len(frame)}:".encode() + frame)
        _, _, error, result = answer()
        if error:
            raise RuntimeError(error["message"])
        return result["value"] if isinstance(result, dict) and "value" in result else result

    answer()  # its greeting
    wire("NewSession", {"capabilities": {}})
    return Remote(wire)


PATHS = {
    "Navigate": "url",
    "ExecuteScript": "execute/sync",
    "FindElements": "elements",
    "ElementClick": "element/{id}/click",
}


@contextmanager
def webkit(folder: Path) -> Iterator[Remote]:
    """WebKit's small browser, on a screen of its own where there is none."""
    with _screen() as screen:
        port = _free_port()
        extra = {"TZ": "UTC", "HOME": str(folder), "DISPLAY": screen, "GDK_BACKEND": "x11"}
        with _running(["WebKitWebDriver", f"--port={port}"], extra):
            options = {"binary": MINI_BROWSER, "args": ["--automation"]}
            asked = {"alwaysMatch": {"webkitgtk:browserOptions": options}}
            made = _until(lambda: _ask(port, "POST", "/session", {"capabilities": asked}))
            here = f"/session/{made['sessionId']}"

            def wire(name: str, body: dict[str, Any]) -> Any:
                return _ask(port, "POST", f"{here}/{PATHS[name].format(**body)}", body)

            yield Remote(wire)
            _ask(port, "DELETE", here, {})


def _ask(port: int, verb: str, path: str, body: dict[str, Any]) -> Any:
    line = http.client.HTTPConnection("127.0.0.1", port, timeout=120)
    try:
        line.request(verb, path, json.dumps(body), {"content-type": "application/json"})
        reply = line.getresponse()
        value = json.load(reply)["value"]
    finally:
        line.close()
    if reply.status != http.client.OK:
        raise RuntimeError(f"{value['error']}: {value['message']}")
    return value


@contextmanager
def _screen() -> Iterator[str]:
    if "DISPLAY" in os.environ:
        yield os.environ["DISPLAY"]
        return
    read, write = os.pipe()
    command = ["Xvfb", "-displayfd", str(write), "-screen", "0", "1280x1024x24", "-nolisten", "tcp"]
    process = subprocess.Popen(command, pass_fds=(write,), stderr=subprocess.DEVNULL)
    os.close(write)
    try:
        with os.fdopen(read) as said:
            yield f":{said.readline().strip()}"
    finally:
        process.terminate()
        process.wait(20)


@contextmanager
def _running(command: list[str], more: dict[str, str]) -> Iterator[None]:
    quiet = subprocess.DEVNULL
    process = subprocess.Popen(command, env={**os.environ, **more}, stdout=quiet, stderr=quiet)
    try:
        yield
    finally:
        process.terminate()
        process.wait(30)


def _until(make: Callable[[], Any], seconds: float = 90) -> Any:
    """What a call gives once it no longer fails: a program takes a moment to begin."""
    until = time.monotonic() + seconds
    while True:
        try:
            return make()
        except (OSError, ValueError):
            if time.monotonic() > until:
                raise
            time.sleep(0.1)


def _free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        port: int = one.getsockname()[1]
        return port


def found() -> dict[str, Any]:
    """The browsers of this machine that can be driven, by name."""
    ways = {}
    if shutil.which("firefox-esr"):
        ways["Firefox"] = firefox
    screen = "DISPLAY" in os.environ or shutil.which("Xvfb")
    if shutil.which("WebKitWebDriver") and MINI_BROWSER and screen:
        ways["WebKit"] = webkit
    return ways
