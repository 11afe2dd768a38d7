"""The public face of the package is one list, and importing it costs nothing."""

from __future__ import annotations

import subprocess
import sys

import pytest

import pennate


@pytest.mark.parametrize("name", pennate.__all__)
def test_every_public_name_is_there(name: str) -> None:
    """A name on the list can be imported from the package."""
    assert getattr(pennate, name) is not None


def test_the_list_is_complete_and_sorted() -> None:
    """The list and the homes of its names cannot drift apart."""
    assert pennate.__all__ == sorted(pennate._HOME)


def test_an_unknown_name_is_told() -> None:
    """A mistyped name fails like any other attribute."""
    with pytest.raises(AttributeError, match="no attribute"):
        _ = pennate.Bok


@pytest.mark.parametrize("heavy", ["numpy", "scipy", "sqlalchemy", "fastapi", "altair", "highspy"])
def test_help_imports_nothing_heavy(heavy: str) -> None:
    """`pennate --help` stays quick because no heavy library is imported for it."""
    code = f"import sys, pennate.cli.main; sys.exit({heavy!r} in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
