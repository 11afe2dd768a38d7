"""The server's name on its own network, by multicast DNS (RFC 6762, RFC 6763).

What a phone keeps belongs to the address it was opened at; a name outlives a number.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

EVERY_S = 15.0
"""Seconds between looks at where this machine is now."""


@dataclass(frozen=True, slots=True)
class Announced:
    """What is told to the network: a name ending in `.local`, a port, and the protocol."""

    name: str
    port: int
    scheme: str = "https"


@contextmanager
def announced(
    what: Announced,
    where: Callable[[], str | None],
    tell: Callable[[str], None],
    every_s: float = EVERY_S,
) -> Iterator[None]:
    """Let the name lead here until the block ends, also when this machine's address changes.

    `where` gives the IPv4 address of now, or None without a network; `tell` is handed one
    sentence where the name cannot be announced.
    """
    ended = threading.Event()

    def follow() -> None:
        while not ended.is_set():
            here = where()
            with _answering(what, here, tell):
                while not ended.wait(every_s) and where() == here:
                    pass

    thread = threading.Thread(target=follow, daemon=True)
    thread.start()
    try:
        yield
    finally:
        ended.set()
        thread.join()


@contextmanager
def _answering(what: Announced, here: str | None, tell: Callable[[str], None]) -> Iterator[None]:
    """Answer for the name with one address; with none, or where the network refuses, do not."""
    from zeroconf import ServiceInfo, Zeroconf

    if here is None:
        yield
        return
    kind = f"_{what.scheme}._tcp.local."
    try:
        network = Zeroconf(interfaces=[here])
    except OSError as error:
        tell(f"The name {what.name} cannot be announced at {here}: {error.strerror or error}.")
        yield
        return
    service = ServiceInfo(
        kind,
        f"pennate on {what.name.removesuffix('.local')}.{kind}",
        parsed_addresses=[here],
        port=what.port,
        server=f"{what.name}.",
    )
    try:
        network.register_service(service, allow_name_change=True)
        yield
    finally:
        network.close()  # says goodbye, so that nobody looks for it here any longer
