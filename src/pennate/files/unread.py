"""A file that cannot be read: why, and the file beside it that was probably meant."""

from __future__ import annotations

from pathlib import Path

from pennate.core.near import nearest, offered
from pennate.errors import InputError, Where


def unread(path: Path, error: OSError, name: str = "") -> InputError:
    """The sentence for a file that cannot be opened; `name` is what complaints call it."""
    why = (error.strerror or "unreadable").lower()
    remedy = "check the path"
    if isinstance(error, FileNotFoundError):
        remedy = offered(_beside(path), remedy)
    elif isinstance(error, IsADirectoryError):
        remedy = "name a file in it"
    return InputError(f"the file cannot be read ({why})", Where(name or path.name), remedy)


def _beside(path: Path) -> list[str]:
    """Files most like the one that is not there; where its folder is not, folders like that."""
    folder = path.parent
    if not folder.is_dir():
        return [f"{near}/{path.name}" for near in _beside(folder) if Path(near).is_dir()]
    try:
        there = sorted(folder.iterdir())
    except OSError:  # a folder that may not be looked into: its files cannot be offered
        return []
    kin = [one.stem for one in there if one.suffix == path.suffix]
    near = [str(folder / stem) + path.suffix for stem in nearest(path.stem, kin)]
    return near or [str(one) for one in there if one.stem == path.stem]
