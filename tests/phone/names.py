"""A network as a browser sees it: names ending in `.local` are asked of it at every connection.

The browser is told to connect through this (HTTP CONNECT, RFC 9110 section 9.3.6), because
machines without a resolver for such names exist; each name is looked up by multicast DNS on
the loopback interface.
"""

from __future__ import annotations

import socket
import threading
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from socketserver import StreamRequestHandler, ThreadingTCPServer

from zeroconf import AddressResolver, Zeroconf  # type: ignore[attr-defined] # not in `__all__`

LOOKED_FOR_MS = 20_000


class Names:
    """Looks up names; on a thread of its own, since the browser's driver owns the test's loop."""

    def __init__(self) -> None:
        self._thread = ThreadPoolExecutor(1)
        self._network = self._thread.submit(Zeroconf, interfaces=["127.0.0.1"]).result()

    def found(self, name: str, wait_ms: float = LOOKED_FOR_MS) -> str | None:
        """The address that answers for a name now."""
        return self._thread.submit(self._ask, name, wait_ms).result()

    def _ask(self, name: str, wait_ms: float) -> str | None:
        asked = AddressResolver(f"{name}.")
        if not asked.request(self._network, wait_ms):
            return None
        return next(iter(asked.parsed_addresses()), None)

    def close(self) -> None:
        """Look up no more."""
        self._thread.submit(self._network.close).result()
        self._thread.shutdown()


@contextmanager
def network_names() -> Iterator[tuple[Names, str]]:
    """The network to ask, and the address of the way through for a browser."""
    network = Names()

    class Through(StreamRequestHandler):
        def handle(self) -> None:
            verb, place, *_ = self.rfile.readline().decode().split()
            while self.rfile.readline().strip():
                pass
            name, _, port = place.rpartition(":")
            ours = verb == "CONNECT" and name.endswith(".local")  # nothing else leaves here
            address = network.found(name) if ours else None
            try:
                if address is None:
                    raise ConnectionRefusedError
                there = socket.create_connection((address, int(port)), timeout=20)
            except OSError:
                self.wfile.write(b"HTTP/1.1 502 not found\r\n\r\n")
                return
            there.settimeout(None)  # answers may take as long as they take
            with there:
                self.wfile.write(b"HTTP/1.1 200 through\r\n\r\n")
                back = threading.Thread(target=_pass, args=(there, self.connection), daemon=True)
                back.start()
                _pass(self.connection, there)
                back.join(20)

    class Ways(ThreadingTCPServer):
        daemon_threads = True
        block_on_close = False

    with Ways(("127.0.0.1", 0), Through) as ways:
        threading.Thread(target=ways.serve_forever, daemon=True).start()
        try:
            yield network, f"http://127.0.0.1:{ways.server_address[1]}"
        finally:
            ways.shutdown()
            network.close()


def _pass(one: socket.socket, other: socket.socket) -> None:
    with suppress(OSError):  # either side may end the connection at any time
        while got := one.recv(65536):
            other.sendall(got)
    with suppress(OSError):
        other.shutdown(socket.SHUT_WR)
