"""The documents keep their promises: commands run, links lead somewhere, code prints."""

from __future__ import annotations

import contextlib
import io
import re
import shlex
from pathlib import Path

import pytest
from typer.testing import CliRunner

from pennate.cli.main import app

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
MAKEFILE = (ROOT / "Makefile").read_text(encoding="utf-8")
DOCUMENTS = sorted([*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md")])


def _blocks(language: str) -> list[str]:
    return re.findall(rf"```{language}\n(.*?)```", README, re.DOTALL)


def test_the_readme_fits_a_screen_and_starts_with_the_job() -> None:
    """One paragraph on top says what it is, and the whole page stays short."""
    lines = README.splitlines()
    assert lines[2].startswith("Pennate plans, loads, logs and judges")
    assert len(lines) <= 70


def test_the_readme_says_where_the_command_is() -> None:
    """`make` installs into .venv, which no shell looks into: it is said before the first use."""
    before = README.partition("```sh\npennate ")[0]
    assert ". .venv/bin/activate" in before


@pytest.mark.parametrize("line", [ln for b in _blocks("sh") for ln in b.splitlines() if ln.strip()])
def test_every_command_of_the_readme_works(line: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A make target exists; a pennate command ends with status 0."""
    monkeypatch.chdir(ROOT)
    words = shlex.split(line, comments=True)
    if words[0] == "make":
        assert re.search(rf"^{words[1]}:", MAKEFILE, re.MULTILINE)
    else:
        assert words[0] == "pennate"
        assert CliRunner().invoke(app, words[1:]).exit_code == 0


def test_the_readme_code_prints_what_it_says(monkeypatch: pytest.MonkeyPatch) -> None:
    """The six lines of library use give the results printed beside them."""
    monkeypatch.chdir(ROOT)
    (code,) = _blocks("python")
    said = io.StringIO()
    with contextlib.redirect_stdout(said):
        exec(compile(code, "README.md", "exec"), {})  # noqa: S102 - our own README
    printed = said.getvalue().splitlines()
    assert f"# {printed[0]}" in code
    assert code.rstrip().endswith(printed[1])


@pytest.mark.parametrize("path", DOCUMENTS, ids=lambda p: str(p.relative_to(ROOT)))
def test_links_between_documents_lead_somewhere(path: Path) -> None:
    """A relative link or picture points at a file that is there."""
    targets = re.findall(r"\]\(([^)#:\s]+)(?:#[^)]*)?\)", path.read_text(encoding="utf-8"))
    assert [target for target in targets if not (path.parent / target).exists()] == []
