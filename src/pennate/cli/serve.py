"""`pennate serve` and `pennate demo`: the pages, for her own records or a made-up lifter's."""

from __future__ import annotations

import socket
import tempfile
import threading
import webbrowser
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from pennate.cli.common import DataDir, clear_errors, data_dir
from pennate.errors import InputError

if TYPE_CHECKING:
    from pennate.app.book import Book

HOME = "127.0.0.1"
PORT = 8321

Host = Annotated[str, typer.Option(help="Address to listen on; 0.0.0.0 is every one.")]
Port = Annotated[int, typer.Option(min=0, max=65535, help="Port; 0 takes a free one.")]
Open = Annotated[bool, typer.Option("--open/--no-open", help="Open the page in a browser.")]
Plain = Annotated[
    bool, typer.Option("--plain", help="Without encryption; needed for other addresses for now.")
]
Development = Annotated[bool, typer.Option("--development", hidden=True)]


def register(app: typer.Typer) -> None:
    """Add `serve` and `demo`."""
    app.command()(serve)
    app.command()(demo)


def _now() -> datetime:
    return datetime.now().astimezone()


def serve(
    host: Host = HOME,
    port: Port = PORT,
    data: DataDir = None,
    *,
    plain: Plain = False,
    open_page: Open = False,
    development: Development = False,
) -> None:
    """Serve your own records as pages."""
    with clear_errors():
        if host not in {HOME, "localhost", "::1"} and not plain:
            raise InputError(
                f"{host} would be served without encryption", remedy="say so with --plain"
            )
        from random import SystemRandom

        from pennate.app.book import Book

        book = Book.open(data_dir(data), _now, SystemRandom())
        try:
            _run(book, (host, port), open_page=open_page, development=development)
        finally:
            book.close()


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
            _run(book, (HOME, port), open_page=open_page, development=development)
        finally:
            book.close()


def _run(book: Book, where: tuple[str, int], *, open_page: bool, development: bool) -> None:
    """Serve until interrupted; what asks before the server is up waits in line."""
    import uvicorn

    from pennate.web.server import make_app

    listener = _listener(*where)
    address = _address(listener)
    typer.echo(f"{address}   (stop with Ctrl-C)")
    if where[0] not in {HOME, "localhost", "::1"}:
        typer.echo(_code(address))
    if open_page:
        threading.Timer(0.5, webbrowser.open, [address]).start()
    app = make_app(book, development=development)
    config = uvicorn.Config(app, log_level="warning", timeout_graceful_shutdown=2)
    uvicorn.Server(config).run(sockets=[listener])


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


def _address(listener: socket.socket) -> str:
    """The address to type; for a server on every address, this machine's on its network."""
    host, port = listener.getsockname()[:2]
    if host in {"0.0.0.0", "::"}:  # noqa: S104 # compared, not bound
        host = _own_address()
    return f"http://{f'[{host}]' if ':' in host else host}:{port}/"


def _own_address() -> str:
    """This machine's address on its network; connecting a datagram socket sends nothing."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # reserved for documentation (RFC 5737)
        except OSError:
            return HOME
        return str(probe.getsockname()[0])


def _code(address: str) -> str:
    """The address as a QR code for the phone's camera."""
    import io

    import segno

    drawn = io.StringIO()
    segno.make(address, micro=False).terminal(out=drawn, border=2, compact=True)
    return drawn.getvalue()
