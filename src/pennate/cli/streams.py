"""Standard output and standard error that can carry every word we print."""

from __future__ import annotations

import codecs
import sys

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
