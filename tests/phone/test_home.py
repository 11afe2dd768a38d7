"""The phone at home: our own authority, a code that works once, tokens that can be revoked."""

from __future__ import annotations

import os
import shutil
import ssl
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random
from typing import Any

import httpx2
import pytest
from cryptography import x509
from fastapi.testclient import TestClient
from playwright.sync_api import Page, Playwright, expect

from pennate.app.book import Book
from pennate.errors import StateError
from pennate.web.devices import COOKIE, Devices, Door
from pennate.web.server import make_app
from pennate.web.tls import Certified, certified
from tests.conftest import CHROMIUM, FLAGS
from tests.web.conftest import running

from .checks import faults
from .conftest import NewPhone, prepared
from .thumb import Thumb, stored

NOW = datetime(2026, 11, 23, 18, 0, tzinfo=UTC)
NAMES = ("gym-box.local", "192.0.2.7", "127.0.0.1", "localhost")


class Moving:
    """A clock that is moved by hand."""

    def __init__(self) -> None:
        self.moment = NOW

    def __call__(self) -> datetime:
        """The time."""
        return self.moment


@pytest.fixture
def clock() -> Moving:
    """A clock that stands still until moved."""
    return Moving()


@pytest.fixture
def devices(tmp_path: Path, clock: Moving) -> Devices:
    """No device paired yet."""
    return Devices(tmp_path, clock)


def test_a_code_pairs_once(devices: Devices) -> None:
    """The code gives one token; a second time it is worth nothing."""
    code = devices.code()
    token = devices.pair(code.upper(), "phone")
    assert token
    assert devices.known(token)
    assert devices.pair(code, "another") is None


def test_a_code_lapses_in_time_and_after_wrong_tries(devices: Devices, clock: Moving) -> None:
    """Ten minutes or ten wrong guesses end it."""
    code = devices.code()
    clock.moment += timedelta(minutes=11)
    assert devices.pair(code, "late") is None
    code = devices.code()
    assert [devices.pair("wrong", "guess") for _ in range(10)] == [None] * 10
    assert devices.pair(code, "after guesses") is None


def test_a_token_is_signed_and_revocable(devices: Devices, tmp_path: Path, clock: Moving) -> None:
    """A changed token is nobody; a revoked one is refused, also after a restart."""
    token = devices.pair(devices.code(), "phone")
    assert token
    # the last letter carries two bits that are no part of the signature: it is left alone
    for place in range(len(token) - 1):
        other = "a" if token[place] != "a" else "b"
        assert devices.known(token[:place] + other + token[place + 1 :]) is None
    again = Devices(tmp_path, clock)
    device = again.known(token)
    assert device
    assert again.revoke(device)
    assert again.known(token) is None
    assert Devices(tmp_path, clock).known(token) is None


def test_phones_are_listed_and_forgotten(devices: Devices, tmp_path: Path) -> None:
    """The command names each paired phone, forgets the one said, and refuses an unknown one."""
    from typer.testing import CliRunner

    from pennate.cli.main import app

    token = devices.pair(devices.code(), "her phone")
    assert token
    device = str(devices.known(token))
    say = ["phones", "--data", str(tmp_path)]
    assert "her phone" in CliRunner().invoke(app, say).output
    assert CliRunner().invoke(app, [*say, "--forget", device]).output == ""
    assert CliRunner().invoke(app, [*say, "--forget", device]).exit_code == 2
    code = CliRunner().invoke(app, [*say, "--pair"]).output.split()[0]
    assert devices.pair(code, "one more")


def test_a_forgotten_phone_is_refused_at_the_next_request(
    own_demo: Book, devices: Devices, tmp_path: Path, clock: Moving
) -> None:
    """What another process forgets or lets in holds in the running server without a restart."""
    app = make_app(own_demo, door=Door(devices))
    phone = TestClient(app, base_url="http://192.0.2.7", client=("192.0.2.9", 5000))
    other = Devices(tmp_path, clock)
    phone.post("/pair", data={"code": other.code()}, follow_redirects=False)
    assert phone.get("/today").status_code == 200
    assert all(other.revoke(device) for device in devices.paired())
    assert phone.get("/today").status_code == 403
    phone.post("/pair", data={"code": other.code()}, follow_redirects=False)
    assert phone.get("/today").status_code == 200


def test_a_damaged_list_lets_nobody_in(own_demo: Book, devices: Devices, tmp_path: Path) -> None:
    """The server refuses the network and tells it no path; its owner is told which file."""
    (tmp_path / "devices.json").write_text("{", encoding="utf-8")
    app = make_app(own_demo, door=Door(devices))
    phone = TestClient(app, base_url="http://192.0.2.7", client=("192.0.2.9", 5000))
    answer = phone.get("/today")
    assert (answer.status_code, str(tmp_path) in answer.text) == (500, False)
    with pytest.raises(StateError, match=r"devices\.json cannot be read"):
        devices.code()


def test_a_proxy_on_this_machine_does_not_vouch(own_demo: Book, devices: Devices) -> None:
    """Who asks through a proxy here is a stranger by the address that the proxy passes on."""
    with running(make_app(own_demo, door=Door(devices))) as port:
        here = f"http://127.0.0.1:{port}/data"
        assert httpx2.get(here, timeout=60).status_code == 200
        passed_on = {"x-forwarded-for": "192.0.2.9"}
        assert httpx2.get(here, headers=passed_on, timeout=60).status_code == 403


def from_the_network(app: Any) -> Any:
    """The same app, to which every request comes from another machine."""

    async def asked(scope: Any, receive: Any, send: Any) -> None:
        if "client" in scope:
            scope = {**scope, "client": ("192.0.2.9", 5000)}
        await app(scope, receive, send)

    return asked


@pytest.mark.browser
def test_a_forgotten_phone_loses_nothing(
    own_demo: Book, devices: Devices, new_phone: NewPhone
) -> None:
    """Forgotten amid a session it says so and keeps every set; paired again it sends them all."""
    before = len(own_demo.history())
    app = make_app(own_demo, door=Door(devices))
    app.state.kept = prepared(own_demo)
    with running(from_the_network(app)) as port:
        thumb = Thumb(new_phone(reduced_motion="reduce"), f"http://127.0.0.1:{port}", Random(5))
        pair(thumb.context.new_page(), thumb.address, devices)
        thumb.ready()
        thumb.close_set()
        thumb.settled()
        assert all(devices.revoke(device) for device in devices.paired())
        thumb.close_set()
        thumb.close_set()
        page = thumb.seen
        expect(page.locator("#care")).to_contain_text("The server does not know this phone")
        expect(page.locator("#stand")).to_contain_text("2 waiting")
        page.reload()
        expect(page.locator("#stand")).to_contain_text("2 waiting")
        expect(page.locator("#care")).to_contain_text("nothing is lost")
        expect(page.locator("#stand")).to_have_text("2 waiting; not paired: see below")
        assert faults(page) == []
        page.get_by_role("link", name="pair it").click()
        assert faults(page) == []
        page.get_by_label("Code shown by the server").fill(devices.code())
        page.get_by_role("button", name="Pair").click()
        thumb.settled()
        expect(page.locator("#care")).not_to_contain_text("does not know")
    assert stored(own_demo, before) == thumb.taps


def pair(page: Page, address: str, devices: Devices) -> None:
    """Pair a phone as it is done by hand: the address with the code, and one touch."""
    page.goto(f"{address}/pair?code={devices.code()}")
    page.get_by_role("button", name="Pair").click()
    page.wait_for_url("**/phone")
    page.close()


def test_the_network_comes_in_by_pairing_only(own_demo: Book, devices: Devices) -> None:
    """A stranger gets the page to pair on and no data; a paired phone gets its sessions."""
    app = make_app(own_demo, door=Door(devices))
    phone = TestClient(app, base_url="http://192.0.2.7", client=("192.0.2.9", 5000))
    assert phone.get("/today").status_code == 403
    assert phone.get("/api/entries").status_code == 403
    assert phone.post("/pair", data={"code": "wrong"}).status_code == 403
    phone.post("/pair", data={"code": devices.code()}, follow_redirects=False)
    assert COOKIE in phone.cookies
    assert phone.get("/today").status_code == 200
    assert phone.get("/api/entries", headers={"sec-fetch-site": "same-origin"}).status_code == 200


def test_the_certificate_names_what_it_serves(tmp_path: Path) -> None:
    """Name and addresses are in it, it is kept while good, renewed before it ends, keys private."""
    made = certified(tmp_path, NAMES, NOW)
    assert made.authority
    first, authority = made.certificate.read_bytes(), made.authority.read_bytes()
    certificate = x509.load_pem_x509_certificate(first)
    alternatives = x509.SubjectAlternativeName
    names = certificate.extensions.get_extension_for_class(alternatives).value
    assert {str(one.value) for one in names} == set(NAMES)
    assert certified(tmp_path, NAMES, NOW).certificate.read_bytes() == first
    later = certified(tmp_path, NAMES, NOW + timedelta(days=380))
    assert later.certificate.read_bytes() != first
    assert made.authority.read_bytes() == authority
    for key in (made.key, made.authority.with_suffix(".key")):
        assert key.stat().st_mode & 0o077 == 0


@contextmanager
def served_safely(book: Book, made: Certified, door: Door) -> Iterator[str]:
    """A server with HTTPS over these records."""
    app = make_app(book, door=door)
    with running(app, ssl_certfile=made.certificate, ssl_keyfile=made.key) as port:
        yield f"https://localhost:{port}"


def trusted_home(folder: Path, authority: Path) -> Path:
    """A home folder whose certificate store trusts the authority."""
    store = folder / ".pki" / "nssdb"
    store.mkdir(parents=True)
    certutil = ["certutil", "-d", f"sql:{store}"]
    subprocess.run([*certutil, "-N", "--empty-password"], check=True)
    add = ["-A", "-t", "C,,", "-n", "pennate", "-i", str(authority)]
    subprocess.run([*certutil, *add], check=True)
    return folder


@pytest.mark.browser
@pytest.mark.skipif(shutil.which("certutil") is None, reason="no certutil (libnss3-tools) here")
def test_a_phone_that_trusts_the_authority_keeps_the_page(
    own_demo: Book, devices: Devices, tmp_path: Path, playwright: Playwright
) -> None:
    """With the authority in its store, Chromium opens the page and registers its worker."""
    made = certified(tmp_path / "data", NAMES, datetime.now(UTC))
    assert made.authority
    home = trusted_home(tmp_path / "home", made.authority)
    with served_safely(own_demo, made, Door(devices, made.authority)) as address:
        browser = playwright.chromium.launch(
            executable_path=CHROMIUM, args=list(FLAGS), env={**os.environ, "HOME": str(home)}
        )
        page = browser.new_page()
        page.route("**/api/cards?days=7", lambda route: route.abort())
        page.goto(f"{address}/phone")
        ready = page.evaluate("() => navigator.serviceWorker.ready.then(one => one.scope)")
        assert ready == f"{address}/"
        expect(page.locator("#plain")).to_be_hidden()
        browser.close()


def test_without_the_authority_nothing_is_trusted(
    own_demo: Book, devices: Devices, tmp_path: Path
) -> None:
    """A client that has not taken the authority refuses; one that has, connects."""
    made = certified(tmp_path / "data", NAMES, datetime.now(UTC))
    with served_safely(own_demo, made, Door(devices)) as address:
        port = int(address.rsplit(":", 1)[1])
        with pytest.raises(ssl.SSLCertVerificationError):
            _greet(ssl.create_default_context(), port)
        _greet(ssl.create_default_context(cafile=str(made.authority)), port)


def _greet(context: ssl.SSLContext, port: int) -> None:
    import socket

    with (
        socket.create_connection(("127.0.0.1", port), timeout=10) as plain,
        context.wrap_socket(plain, server_hostname="localhost") as safe,
    ):
        assert safe.version()
