"""The evidence register and the page made from it."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

from pennate.core.evidence import Status, every_constant

DOCS = Path(__file__).parents[2] / "docs"
EVERY = every_constant()


@pytest.fixture(scope="module")
def maker() -> ModuleType:
    """The script that renders the page."""
    spec = importlib.util.spec_from_file_location("make_evidence", DOCS / "make_evidence.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_page_equals_the_register(maker: ModuleType) -> None:
    """Run `python docs/make_evidence.py` after a constant changes."""
    assert (DOCS / "evidence.md").read_text(encoding="utf-8") == maker.evidence_page()


def test_each_constant_is_one_row_of_the_page(maker: ModuleType) -> None:
    """Nothing is left out, and a bar in a text does not break its row."""
    rows = [line for line in maker.evidence_page().splitlines() if line.startswith("| `")]
    assert len(rows) == len(EVERY)
    assert all(row.replace("\\|", "").count("|") == 8 for row in rows)


def test_a_constant_says_where_it_comes_from() -> None:
    """Source and use in words, and a value inside its own range."""
    for one in EVERY:
        assert one.source, one.name
        assert one.used_for, one.name
        assert one.low <= one.value <= one.high, one.name


def test_a_number_can_be_traced_to_how_it_is_known() -> None:
    """Numbers that claim a study or a standard do not read as practice or memory alone."""
    for one in EVERY:
        if one.status is Status.PUBLISHED:
            assert not one.source.startswith(("common practice", "from memory")), one.name
