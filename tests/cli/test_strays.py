"""What goes astray around a command: a mistyped folder, a full disk, an old terminal."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

READING = (
    ("session",),
    ("log",),
    ("review",),
    ("review", "--why", "hip_thrust"),
    ("check",),
    ("export", "out"),
    ("backup", "out.backup"),
)
LATIN = {"PYTHONIOENCODING": "latin-1"}


def pennate(folder: Path, *words: str, **more: str) -> subprocess.CompletedProcess[bytes]:
    """One command in a process of its own, standing in a folder."""
    environment = {**os.environ, **more}
    environment.pop("PENNATE_DATABASE", None)
    return subprocess.run(  # our own command
        [sys.executable, "-m", "pennate", *words],
        cwd=folder,
        env=environment,
        capture_output=True,
        check=False,
    )


@pytest.mark.parametrize("words", READING)
def test_a_mistyped_folder_is_said_and_not_made(tmp_path: Path, words: tuple[str, ...]) -> None:
    """Looking where there are no records says so, exit 1, and leaves the disk as it was.

    An empty backup that calls itself whole would be the worst of it.
    """
    done = pennate(tmp_path, *words, "--data", "recrods", "--json")
    assert done.returncode == 1
    said = json.loads(done.stdout)
    assert "no records in recrods" in said["reason"]
    assert said["nearest"] == {"folder": "recrods"}
    assert not list(tmp_path.iterdir())


def test_a_starter_gym_is_shown_without_making_records(tmp_path: Path) -> None:
    """Looking at a gym begins no records; keeping one does."""
    shown = pennate(tmp_path, "gym", "travel", "--data", "new")
    assert shown.returncode == 0
    assert not (tmp_path / "new").exists()
    assert pennate(tmp_path, "gym", "travel", "--take", "--data", "new").returncode == 0
    assert (tmp_path / "new" / "pennate.sqlite").exists()


@pytest.mark.parametrize("words", [("session",), ("serve",), ("gym", "travel", "--take")])
def test_a_file_where_the_folder_should_be_is_one_sentence(
    tmp_path: Path, words: tuple[str, ...]
) -> None:
    """A file named as the data folder ends in one sentence and exit 1 or 2, never a traceback."""
    (tmp_path / "notes").write_text("mine")
    done = pennate(tmp_path, *words, "--data", "notes")
    assert done.returncode in {1, 2}
    assert done.stderr.count(b"\n") == 1
    assert b"notes" in done.stderr
    assert (tmp_path / "notes").read_text() == "mine"


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
@pytest.mark.parametrize("words", [("evidence",), ("exercises", "--json")])
def test_a_full_disk_is_one_sentence(tmp_path: Path, words: tuple[str, ...]) -> None:
    """An answer that cannot be written is said in one sentence, exit 2."""
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(  # our own command
            [sys.executable, "-m", "pennate", *words],
            cwd=tmp_path,
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert done.returncode == 2
    assert done.stderr.decode() == "what was asked for cannot be written: no space left on device\n"


def test_a_terminal_of_an_older_encoding_gets_plainer_signs(tmp_path: Path) -> None:
    """ISO 8859-1 has no dashes of print: a minus stands for them, and nothing fails."""
    week = tmp_path / "week.toml"
    starter = Path(__file__).parents[2] / "src" / "pennate" / "data" / "weeks" / "3_days.toml"
    week.write_text(starter.read_text(encoding="utf-8"), encoding="utf-8")
    done = pennate(tmp_path, "block", "week.toml", "--data", "none", **LATIN)
    assert done.returncode == 0, done.stderr
    assert b"2-4 in reserve" in done.stdout


def test_json_stays_exact_in_an_older_encoding(tmp_path: Path) -> None:
    """What ISO 8859-1 cannot say is escaped, as JSON allows, so that nothing is lost."""
    plain = pennate(tmp_path, "evidence", "--json", PYTHONIOENCODING="utf-8")
    old = pennate(tmp_path, "evidence", "--json", **LATIN)
    assert old.returncode == 0, old.stderr
    assert "–" in plain.stdout.decode("utf-8")
    assert json.loads(old.stdout.decode("latin-1")) == json.loads(plain.stdout.decode("utf-8"))


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no file without an end")
@pytest.mark.parametrize("words", [("import",), ("forecast",), ("growth",), ("weight",)])
def test_a_file_without_an_end_is_not_read_on_and_on(
    tmp_path: Path, words: tuple[str, ...]
) -> None:
    """A device in place of a log is given up at the size that is read in one go."""
    done = pennate(tmp_path, *words, "/dev/zero", PENNATE_HOME=str(tmp_path / "home"))
    assert done.returncode == 2
    assert b"at most 40 MB are read in one go" in done.stderr
    assert not (tmp_path / "home").exists()


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no file without an end")
@pytest.mark.parametrize("words", [("audit",), ("plan",), ("gym",)])
def test_a_week_without_an_end_is_not_read_on_and_on(
    tmp_path: Path, words: tuple[str, ...]
) -> None:
    """The same for week, brief and gym files."""
    done = pennate(tmp_path, *words, "/dev/zero", PENNATE_HOME=str(tmp_path / "home"))
    assert done.returncode == 2
    assert b"MB is read" in done.stderr
