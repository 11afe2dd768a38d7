"""The house rules that a machine can check."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
SOURCES = sorted((ROOT / "src").rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("test_*.py"))

TRACED = ("estimate", "plan", "body", "loading")
PLAIN_NUMBERS = {0, 1, 2, 3, 4, 0.5, 0.25, 7, 10, 100, 1000, 60, 24, 1e-9, 1e-12}
"""Counts, halves, calendar and unit factors, guards against division by zero."""


@pytest.mark.parametrize("path", SOURCES, ids=lambda p: str(p.relative_to(ROOT)))
def test_modules_stay_small(path: Path) -> None:
    """No module grows beyond 400 lines, so that each can be read in one sitting."""
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 400


@pytest.mark.parametrize("path", TESTS, ids=lambda p: str(p.relative_to(ROOT)))
def test_every_test_says_what_it_defends(path: Path) -> None:
    """Each test carries a sentence, so that a failure explains itself."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    silent = [
        node.name
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        and node.name.startswith("test_")
        and not ast.get_docstring(node)
    ]
    assert silent == []


def _untraced_numbers(path: Path) -> list[str]:
    source = path.read_text(encoding="utf-8")
    lines = source.splitlines()
    found = []
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Constant) or isinstance(node.value, bool):
            continue
        if not isinstance(node.value, int | float) or abs(node.value) in PLAIN_NUMBERS:
            continue
        if "# number:" not in lines[node.lineno - 1]:
            found.append(f"{path.name}:{node.lineno}: {node.value}")
    return found


@pytest.mark.parametrize(
    "path",
    [p for p in SOURCES if p.parent.name in TRACED or p.parent.parent.name in TRACED],
    ids=lambda p: str(p.relative_to(ROOT)),
)
def test_numbers_are_traceable(path: Path) -> None:
    """A model constant lives in the evidence register; numerical tuning says why on its line."""
    assert _untraced_numbers(path) == []


def _imports(path: Path) -> set[str]:
    """Modules of the package a file imports, for types alone included."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("pennate"):
            found.update(f"{node.module}.{alias.name}" for alias in node.names)
            found.add(str(node.module))
    return found


def test_no_module_imports_in_a_circle() -> None:
    """The drawing of the imports has no cycle, so each part can be understood from below."""
    names = {_module(path): path for path in SOURCES if path.name != "__init__.py"}
    below = {name: _imports(path) & set(names) - {name} for name, path in names.items()}
    while free := {name for name, needs in below.items() if not needs}:
        below = {name: needs - free for name, needs in below.items() if name not in free}
    assert sorted(below) == []


def _module(path: Path) -> str:
    return ".".join(path.relative_to(ROOT / "src").with_suffix("").parts)
