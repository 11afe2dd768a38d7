"""Standard output and standard error that can carry every word we print."""

from __future__ import annotations

import codecs
import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pennate.app.watched import Watch

PATIENCE_S = 0.5
"""Work that ends sooner is not worth a word."""
TELL_EVERY_S = 0.2

PLAIN = "pennate-plain"
_INSTEAD = {
    "–": "-",
    "−": "-",
    "‑": "-",
    "“": '"',
    "”": '"',
    "‘": "'",
    "’": "'",
    "…": "...",
    "→": "->",
    "×": "x",
    "≤": "<=",
    "≥": ">=",
    "\u00a0": " ",
    "\u202f": " ",
}
"""What stands for a sign that an older encoding lacks."""


def _plain(error: UnicodeError) -> tuple[str | bytes, int]:
    """The nearest sign that the encoding has, else a question mark."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    lacking = error.object[error.start : error.end]
    return "".join(_INSTEAD.get(sign, "?") for sign in lacking), error.end


def carry_every_word() -> None:
    """Let a terminal of an older encoding show our words in plainer signs instead of failing."""
    codecs.register_error(PLAIN, _plain)
    for stream in (sys.stdout, sys.stderr):
        if (stream.encoding or "utf-8").lower().replace("_", "-") not in {"utf-8", "utf8"}:
            stream.reconfigure(errors=PLAIN)  # type: ignore[union-attr] # a text stream, at start


def carries_all() -> bool:
    """Whether standard output can write every sign as it is."""
    return (sys.stdout.encoding or "utf-8").lower().replace("_", "-") in {"utf-8", "utf8"}


@contextmanager
def progress(about: str, *, quiet: bool = False) -> Iterator[Watch]:
    """Tell on one line of a terminal how far long work is; nothing is told anywhere else."""
    from pennate.app.watched import unwatched

    if quiet or os.environ.get("NO_COLOR") or not sys.stderr.isatty():
        yield unwatched
        return
    line = _Line(about)
    try:
        yield line.tell
    finally:
        line.clear()


class _Line:
    """The one line, written over itself, and gone once the work is done."""

    def __init__(self, about: str) -> None:
        self._about = about
        self._began = self._told = time.monotonic()
        self._width = 0

    def tell(self, done: int, total: int) -> None:
        """Say how far it is, a few times a second; at the end the line is cleared."""
        now = time.monotonic()
        if done >= total:
            self.clear()
        elif now - self._began > PATIENCE_S and now - self._told > TELL_EVERY_S:
            self._told = now
            words = f"{self._about}: {done} of {total} sets (Ctrl-C stops)"
            self._write(words.ljust(self._width))
            self._width = len(words)

    def clear(self) -> None:
        """Leave no trace of it."""
        if self._width:
            self._write(" " * self._width)
            self._write("")
            self._width = 0

    def _write(self, words: str) -> None:
        sys.stderr.write(f"\r{words}")
        sys.stderr.flush()
