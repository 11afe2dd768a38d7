"""A log that can be imported can be read by every command that takes one, with the same options."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from pennate.cli.main import app

ROWS = [f"{day}/03/2024,{name},40,8" for day in (2, 9, 16, 23) for name in ("Bridge", "Rope day")]
SAID = (
    *("--in-order", "--dates", "day-first", "--unit", "kg"),
    *("--as", "Bridge=hip_thrust", "--new", "Rope day", "--column", "Weight=load"),
)
TAPE = "date,site,girth_cm\n2024-03-01,thigh,56.1\n2024-05-01,thigh,56.4\n"
WEEK = """
name = "Own"
[[day]]
day = "Monday"
[[day.exercise]]
exercise = "hip_thrust"
sets = [{ sets = 3, reps = "8-12" }]
"""


@pytest.fixture
def files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A spreadsheet of hers, a tape and a week in one folder."""
    monkeypatch.setenv("PENNATE_HOME", str(tmp_path / "records"))
    monkeypatch.delenv("PENNATE_DATABASE", raising=False)
    (tmp_path / "log.csv").write_text("\n".join(("Date,Exercise,Weight,Reps", *ROWS)) + "\n")
    (tmp_path / "tape.csv").write_text(TAPE)
    (tmp_path / "week.toml").write_text(WEEK)
    return tmp_path


@pytest.mark.parametrize(
    "command",
    [
        ("import", "log.csv"),
        ("forecast", "log.csv"),
        ("audit", "week.toml", "--log", "log.csv"),
        ("growth", "tape.csv", "--log", "log.csv"),
    ],
    ids=lambda command: command[0],
)
def test_the_same_options_read_the_same_log(
    files: Path, monkeypatch: pytest.MonkeyPatch, command: tuple[str, ...]
) -> None:
    """Refused without them, with an option that helps; read with all of them."""
    monkeypatch.chdir(files)
    refused = CliRunner().invoke(app, command)
    assert refused.exit_code == 2
    assert "--in-order" in refused.stderr
    read = CliRunner().invoke(app, [*command, *SAID])
    assert read.exit_code == 0, read.stderr
    for option in ("--as", "--dates", "--column"):
        wrong = CliRunner().invoke(app, [*command, *SAID, option, "nothing"])
        assert (wrong.exit_code, wrong.stdout) == (2, "")
