"""The command on gyms, as typed."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from pennate.app.gyms import starter_gym
from pennate.cli.main import app
from pennate.files.gym import read_gym


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A folder for records."""
    return tmp_path / "records"


def run(home: Path, *words: str) -> Result:
    """The command with these words."""
    return CliRunner().invoke(app, ["gym", *words, "--data", str(home)])


def test_no_gym_yet_says_how_to_begin(home: Path) -> None:
    """An empty ledger names the command that helps."""
    assert "commercial_kg --take" in run(home).stdout


def test_gyms_are_kept_listed_and_used(home: Path, tmp_path: Path) -> None:
    """A starter and a file are kept; the one in use is marked; another can be chosen."""
    assert run(home, "home", "--take").exit_code == 0
    file = tmp_path / "mine.toml"
    file.write_text('id = "mine"\n[[bar]]\nid = "bar"\nmass = 15\n', encoding="utf-8")
    assert run(home, str(file), "--take", "--use").exit_code == 0
    rows = json.loads(run(home, "--json").stdout)
    assert {row["id"]: row["used"] for row in rows} == {"mine": True, "home": False}
    assert "mine" in run(home).stdout


def test_one_gym_in_lines_as_text_and_as_json(home: Path) -> None:
    """A starter is shown without keeping it; its text reads back as the same gym."""
    shown = run(home, "commercial_kg").stdout
    assert "rack_bar" in shown
    assert "rails at 45°" in shown
    assert read_gym(run(home, "home", "--text").stdout) == starter_gym("home")
    assert json.loads(run(home, "home", "--json").stdout)["id"] == "home"
    assert json.loads(run(home, "--json").stdout) == []


def test_an_unknown_gym_is_one_sentence(home: Path) -> None:
    """Neither hers, nor a file, nor a starter: exit status 2."""
    answer = run(home, "moon")
    assert answer.exit_code == 2
    assert "moon" in answer.stderr
    near = run(home, "commercial_kgs").stderr
    assert near.startswith("there is no gym “commercial_kgs”; did you mean “commercial_kg”")
    assert run(home, "home", "--use").exit_code == 2
