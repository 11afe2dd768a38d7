"""`pennate serve` and `pennate demo`: the pages, for her own records or a made-up lifter's."""

from __future__ import annotations

import socket
import tempfile
import threading
import webbrowser
from collections.abc import Iterator
from contextlib import AbstractContextManager, ExitStack, contextmanager, suppress
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated
from urllib.parse import urlsplit

import typer

from pennate.cli.common import DataDir, clear_errors, data_dir, place_of
from pennate.errors import InputError, PennateError

if TYPE_CHECKING:
    from pennate.app.book import Book
    from pennate.web.devices import Door
    from pennate.web.tls import Certified

HOME = "127.0.0.1"
PORT = 8321
NEAR = {HOME, "localhost", "::1"}
"""Addresses that nobody else reaches."""
EVERYWHERE = {"0.0.0.0", "::"}  # noqa: S104 # compared, not bound
STOP = "(stop with Ctrl-C)"

Host = Annotated[str, typer.Option(help="Address to listen on; 0.0.0.0 is every one.")]
Port = Annotated[int, typer.Option(min=0, max=65535, help="Port; 0 takes a free one.")]
Open = Annotated[bool, typer.Option("--open/--no-open", help="Open the page in a browser.")]
Plain = Annotated[
    bool, typer.Option("--plain", help="Without encryption, where others can reach it.")
]
Certificate = Annotated[
    Path | None, typer.Option(help="Your own certificate with its chain (PEM), instead of ours.")
]
Key = Annotated[Path | None, typer.Option(help="The key of --certificate (PEM).")]
Development = Annotated[bool, typer.Option("--development", hidden=True)]


def register(app: typer.Typer) -> None:
    """Add `serve`, `demo` and `phones`."""
    app.command()(serve)
    app.command()(demo)
    app.command()(phones)


def _now() -> datetime:
    return datetime.now().astimezone()


def serve(
    host: Host = HOME,
    port: Port = PORT,
    data: DataDir = None,
    *,
    plain: Plain = False,
    certificate: Certificate = None,
    key: Key = None,
    open_page: Open = False,
    development: Development = False,
) -> None:
    """Serve your own records as pages."""
    with clear_errors():
        from random import SystemRandom

        from pennate.app.book import Book

        away = host not in NEAR
        own = _own_certificate(certificate, key, wanted=away and not plain)
        place = place_of(data)
        book = Book.open(place.url or place.folder, _now, SystemRandom())
        try:
            kept = place.folder if away else None
            where = _Where(host, port, kept, plain=plain or not away, own=own)
            _run(book, where, open_page=open_page, development=development)
        finally:
            book.close()


def _own_certificate(
    certificate: Path | None, key: Path | None, *, wanted: bool
) -> Certified | None:
    """The certificate she brings, which must fit its key; None where there is none."""
    if certificate is None and key is None:
        return None
    if certificate is None or key is None or not wanted:
        raise InputError(
            "--certificate and --key go together, with --host and without --plain",
            remedy="give both, or neither",
        )
    from pennate.web.tls import brought

    return brought(certificate, key)


Forget = Annotated[str, typer.Option(help="Forget the phone with this id.")]
Pair = Annotated[bool, typer.Option("--pair", help="Print a code that pairs one more phone.")]


def phones(data: DataDir = None, *, forget: Forget = "", pair: Pair = False) -> None:
    """List the phones paired with your records, forget one, or let one more in; at once."""
    with clear_errors():
        from pennate.web.devices import CODE_MINUTES, Devices

        devices = Devices(data_dir(data), _now)
        if pair:
            typer.echo(f"{devices.code()}   (for {CODE_MINUTES} minutes, at /pair on the phone)")
            return
        if forget and not devices.revoke(forget):
            raise InputError(f"there is no phone “{forget}”", remedy="`pennate phones` lists them")
        for device, about in devices.paired().items():
            typer.echo(f"{device}  {about['added']}  {about['name']}")


def demo(
    port: Port = PORT,
    *,
    open_page: Open = True,
    development: Development = False,
) -> None:
    """Show a made-up lifter with a year of history, in a place that is thrown away."""
    with clear_errors(), tempfile.TemporaryDirectory(prefix="pennate-demo-") as folder:
        from pennate.app.demo import make_demo

        book = make_demo(Path(folder), _now)
        try:
            _run(book, _Where(HOME, port), open_page=open_page, development=development)
        finally:
            book.close()


@dataclass(frozen=True)
class _Where:
    """Where to listen; with a folder, for paired devices of the network too."""

    host: str
    port: int
    folder: Path | None = None
    plain: bool = True
    own: Certified | None = None

    @property
    def scheme(self) -> str:
        """The protocol of its addresses."""
        return "http" if self.plain else "https"


def _run(book: Book, where: _Where, *, open_page: bool, development: bool) -> None:
    """Serve until interrupted; what asks before the server is up waits in line."""
    import uvicorn

    from pennate.web.server import make_app

    listener = _listener(where.host, where.port)
    address = _address(listener, where.scheme)
    with ExitStack() as until_stopped:
        until_stopped.enter_context(_read_ahead(book))
        door, made = None, None
        if where.folder is None:
            typer.echo(f"{address}   {STOP}")
        else:
            until_stopped.enter_context(_known_by_name(where, listener, address))
            door, made = _door(where, where.folder, _named(address))
        if open_page:
            threading.Timer(0.5, webbrowser.open, [address]).start()
        config = uvicorn.Config(
            make_app(book, development=development, door=door),
            log_level="warning",
            timeout_graceful_shutdown=2,
            ssl_certfile=made.certificate if made else None,
            ssl_keyfile=made.key if made else None,
        )
        uvicorn.Server(config).run(sockets=[listener])


@contextmanager
def _read_ahead(book: Book) -> Iterator[None]:
    """Begin to read the records at once, beside the pages."""
    from pennate.app.read_ahead import read_ahead

    def read() -> None:
        with suppress(PennateError):  # the page that needs it says what is wrong
            read_ahead(book)

    reading = threading.Thread(target=read)
    reading.start()
    try:
        yield
    finally:
        reading.join()


def _named(address: str) -> str:
    """The same address under this machine's name on its network."""
    from pennate.web.tls import local_name

    parts = urlsplit(address)
    return f"{parts.scheme}://{local_name()}:{parts.port}/"


def _known_by_name(
    where: _Where, listener: socket.socket, address: str
) -> AbstractContextManager[None]:
    """Print both addresses, and announce the name until the server ends."""
    from pennate.web.nearby import Announced, announced
    from pennate.web.tls import local_name

    typer.echo(f"{_named(address)}   {STOP}")
    typer.echo(f"By number, where that name is not found: {address}")
    what = Announced(local_name(), listener.getsockname()[1], where.scheme)
    fixed = listener.getsockname()[0]
    here = _network_address if fixed in EVERYWHERE else lambda: None if ":" in fixed else fixed
    return announced(what, here, partial(typer.echo, err=True))


def _door(where: _Where, folder: Path, address: str) -> tuple[Door, Certified | None]:
    """Who may come in from the network, what certifies it, and how to pair, as printed."""
    from pennate.web.devices import AUTHORITY, CODE_MINUTES, Devices, Door

    devices = Devices(folder, _now)
    code = devices.code()
    pairing = f"{address}pair?code={code}"
    made = where.own
    if where.plain:
        typer.echo("Not encrypted: everybody in this network can read along, and the phone cannot")
        typer.echo("keep the page, so it works only while this server is in reach.")
    elif made is None:
        from pennate.web.tls import certified, local_name

        number = _network_address() if where.host in EVERYWHERE else where.host
        names = tuple(dict.fromkeys((local_name(), number or HOME, HOME, "localhost")))
        made = certified(folder, names, _now())
        typer.echo(f"Once on each phone: open {address.rstrip('/')}{AUTHORITY} and trust it.")
    typer.echo(f"Pair a phone within {CODE_MINUTES} minutes, code {code}:")
    typer.echo(_code(pairing))
    return Door(devices, made.authority if made else None), made


def _listener(host: str, port: int) -> socket.socket:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    listener = socket.socket(family)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((host, port))
        listener.listen()
    except OSError as error:
        listener.close()
        why = (error.strerror or str(error)).lower()
        raise InputError(
            f"cannot listen on {host} port {port}: {why}", remedy="choose another with --port"
        ) from None
    return listener


def _address(listener: socket.socket, scheme: str) -> str:
    """The address by number; for a server on every address, this machine's on its network."""
    host, port = listener.getsockname()[:2]
    if host in EVERYWHERE:
        host = _network_address() or HOME
    return f"{scheme}://{f'[{host}]' if ':' in host else host}:{port}/"


def _network_address() -> str | None:
    """This machine's IPv4 address on its network; connecting a datagram socket sends nothing."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # reserved for documentation (RFC 5737)
        except OSError:
            return None
        return str(probe.getsockname()[0])


def _code(address: str) -> str:
    """The address as a QR code for the phone's camera."""
    import io

    import segno

    drawn = io.StringIO()
    segno.make(address, micro=False).terminal(out=drawn, border=2, compact=True)
    return drawn.getvalue()
