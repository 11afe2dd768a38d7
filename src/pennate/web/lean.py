"""Scripts as they travel: without comments and indentation, and those of the phone in one."""

from __future__ import annotations

import re
from pathlib import Path

PHONE = "phone.js"
"""The address of all the scripts of the phone's page."""
ORDER = (
    "rest",
    "dom",
    "outbox",
    "comfort",
    "session",
    "said",
    "time",
    "views",
    "line",
    "care",
    "draw",
    "after",
    "today",
    "floor",
)
"""They are run in this order; the last one begins."""
_DOC = re.compile(r"^[ ]*/\*\*.*?\*/\n", re.MULTILINE | re.DOTALL)
_LINE = re.compile(r"^[ ]*//.*\n", re.MULTILINE)
_INDENT = re.compile(r"^[ ]+", re.MULTILINE)
_IMPORT = re.compile(r"^import .*;\n", re.MULTILINE)
_EXPORT = re.compile(r"^export ", re.MULTILINE)


def lean(script: str) -> str:
    """A module of ours with whole-line comments and indentation taken out; lines stay lines.

    Nothing of ours runs over a line in quotes, so that no text is touched.
    """
    return _INDENT.sub("", _LINE.sub("", _DOC.sub("", script)))


def bundle(folder: Path) -> str:
    """The phone's modules as one: no name stands in two of them at the top, so none is renamed."""
    texts = ((folder / f"{name}.js").read_text(encoding="utf-8") for name in ORDER)
    return "".join(_EXPORT.sub("", _IMPORT.sub("", lean(text))) for text in texts)


def script(folder: Path, name: str) -> str:
    """A script as it travels."""
    if name == PHONE:
        return bundle(folder)
    return lean((folder / name).read_text(encoding="utf-8"))
