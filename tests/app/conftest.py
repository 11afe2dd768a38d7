"""A lifter of two short histories: nothing yet, and a demo of some weeks."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from random import Random

import pytest

from pennate.app.book import Book
from pennate.app.demo import make_demo

NOW = datetime(2026, 3, 3, 18, 0, tzinfo=UTC)
"""A Tuesday."""


@pytest.fixture
def empty_book(tmp_path: Path) -> Iterator[Book]:
    """Records with nothing in them."""
    book = Book.open(tmp_path, lambda: NOW, Random(3))
    yield book
    book.close()


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The made-up lifter after ten weeks, written once."""
    folder = tmp_path_factory.mktemp("demo")
    make_demo(folder, lambda: NOW, weeks=10).close()
    return folder


@pytest.fixture
def demo_book(demo_folder: Path, tmp_path: Path) -> Iterator[Book]:
    """A copy of the made-up lifter that a test may change."""
    shutil.copytree(demo_folder, tmp_path / "demo")
    book = Book.open(tmp_path / "demo", lambda: NOW, Random(5))
    yield book
    book.close()
