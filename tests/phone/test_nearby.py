"""The name that outlives the address: announced, in the certificate, and found again."""

from __future__ import annotations

import gc
import os
import shutil
import socket
import ssl
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Playwright, expect
from typer.testing import CliRunner

from pennate.app.book import Book
from pennate.cli.main import app
from pennate.web.devices import Devices, Door
from pennate.web.nearby import Announced, announced
from pennate.web.server import make_app
from pennate.web.tls import Certified, certified, local_name
from tests.conftest import CHROMIUM, FLAGS
from tests.web.conftest import running

from .conftest import START, prepared
from .names import network_names
from .test_home import from_the_network, pair, trusted_home
from .thumb import Thumb, stored

NAME = f"gym-{os.getpid()}.local"
"""Another run of these tests on this machine has another name."""
HERE, THERE = "127.0.0.2", "127.0.0.3"
"""Two addresses of the loopback network (RFC 1122, section 3.2.1.3)."""


def free_port() -> int:
    """A port that is free on every loopback address at the moment."""
    with socket.socket() as one:
        one.bind(("0.0.0.0", 0))  # noqa: S104 # to find one only
        port: int = one.getsockname()[1]
        return port


def test_the_name_follows_the_machine() -> None:
    """The name leads to the address of now, to a new one when that changes, and nowhere after."""
    at, moving = [HERE], f"moving-{os.getpid()}.local"
    told: list[str] = []
    with network_names() as (network, _):
        with announced(Announced(moving, 8321), lambda: at[0], told.append, every_s=0.05):
            assert network.found(moving) == HERE
            at[0] = THERE
            until = datetime.now(UTC).timestamp() + 20
            while network.found(moving) != THERE:
                assert datetime.now(UTC).timestamp() < until
        assert network.found(moving, 500) is None
    assert told == []


# The library leaves the socket of a refused start to the collector, which says so.
@pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")
def test_where_no_name_can_be_announced_it_is_said() -> None:
    """An address that is not this machine's is refused by the network: one sentence, no end."""
    told: list[str] = []
    with announced(Announced(NAME, 8321), lambda: "192.0.2.77", told.append, every_s=60):
        pass
    gc.collect()
    assert len(told) == 1
    assert f"The name {NAME} cannot be announced at 192.0.2.77" in told[0]


def test_serve_prints_and_answers_for_its_name(tmp_path: Path) -> None:
    """The command's name is found on the network, and its certificate holds for that name."""
    command = [sys.executable, "-m", "pennate", "serve", "--host", HERE, "--port", "0"]
    command += ["--data", str(tmp_path)]
    with (
        network_names() as (network, _),
        subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process,
    ):
        try:
            assert process.stdout
            address, number = process.stdout.readline().split()[0], process.stdout.readline()
            port = int(address.rstrip("/").rsplit(":", 1)[1])
            assert address == f"https://{local_name()}:{port}/"
            assert number.split()[-1] == f"https://{HERE}:{port}/"
            assert network.found(local_name()) == HERE
            until_trusting = "trust it"
            assert any(until_trusting in line for line in process.stdout)
            trusting = ssl.create_default_context(cafile=str(tmp_path / "tls" / "authority.pem"))
            for name in (local_name(), HERE):
                with (
                    socket.create_connection((HERE, port), timeout=20) as plain,
                    trusting.wrap_socket(plain, server_hostname=name) as safe,
                ):
                    assert safe.version()
        finally:
            process.terminate()


def test_a_certificate_of_her_own_is_served(tmp_path: Path) -> None:
    """Brought with its key it is what a client gets; without, or with another's, it is refused."""
    made = certified(tmp_path / "hers", (NAME, HERE), datetime.now(UTC))
    other = certified(tmp_path / "other", (NAME, HERE), datetime.now(UTC))
    data = ["serve", "--host", HERE, "--port", "0", "--data", str(tmp_path / "data")]
    bring = ["--certificate", str(made.certificate), "--key"]
    assert CliRunner().invoke(app, [*data, *bring[:2]]).exit_code == 2
    refused = CliRunner().invoke(app, [*data, *bring, str(other.key)])
    assert refused.exit_code == 2
    assert "cannot be used" in refused.output
    command = [sys.executable, "-m", "pennate", *data, *bring, str(made.key)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout
            port = int(process.stdout.readline().split()[0].rstrip("/").rsplit(":", 1)[1])
            assert any("Pair a phone" in line for line in process.stdout)
            got = ssl.get_server_certificate((HERE, port), timeout=20)
        finally:
            process.terminate()
    assert got == made.certificate.read_text("ascii")


@contextmanager
def at_home(book: Book, devices: Devices, made: Certified, host: str, port: int) -> Iterator[None]:
    """A server at an address of now, with its name announced; all who ask come from outside."""
    pages = make_app(book, door=Door(devices, made.authority))
    pages.state.kept = prepared(book)
    how: dict[str, Any] = {"host": host, "ssl_certfile": made.certificate, "ssl_keyfile": made.key}
    told: list[str] = []
    with (
        running(from_the_network(pages), politely=True, port=port, **how),
        announced(Announced(NAME, port), lambda: host, told.append),
    ):
        yield
    assert told == []


@pytest.mark.browser
@pytest.mark.skipif(shutil.which("certutil") is None, reason="no certutil (libnss3-tools) here")
def test_the_server_comes_back_elsewhere(
    own_demo: Book, tmp_path: Path, playwright: Playwright
) -> None:
    """Gone amid a session and back under another address: found by name, and nothing is lost."""
    before, port = len(own_demo.history()), free_port()
    devices = Devices(tmp_path, lambda: datetime.now(UTC))
    made = certified(tmp_path / "data", (NAME, HERE), datetime.now(UTC))
    assert made.authority
    home = trusted_home(tmp_path / "home", made.authority)
    with network_names() as (_, way):
        browser = playwright.chromium.launch(
            executable_path=CHROMIUM,
            args=[*FLAGS, f"--proxy-server={way}"],
            env={**os.environ, "HOME": str(home)},
        )
        context = browser.new_context(viewport={"width": 390, "height": 844}, timezone_id="UTC")
        context.set_default_timeout(30_000)
        context.clock.install(time=START)
        thumb = Thumb(context, f"https://{NAME}:{port}", Random(8))
        with at_home(own_demo, devices, made, HERE, port):
            pair(context.new_page(), thumb.address, devices)
            thumb.ready()
            thumb.close_set()
            thumb.settled()
        thumb.close_set()
        thumb.close_set()
        stand = thumb.seen.locator("#stand")
        expect(stand).to_contain_text("2 waiting")
        with at_home(own_demo, devices, made, THERE, port):
            context.clock.fast_forward(31_000)
            thumb.settled()
            thumb.close_set()
            thumb.settled()
        browser.close()
    assert stored(own_demo, before) == thumb.taps
    assert len(thumb.taps) == 4
