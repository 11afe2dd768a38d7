"""Long work at a real terminal: how far it is, and Ctrl-C that leaves nothing half done."""

from __future__ import annotations

import os
import pty
import signal
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

PENNATE = (sys.executable, "-m", "pennate")
SETS = 6000
"""A log that takes seconds, so that there is something to tell and to stop."""


@pytest.fixture(scope="module")
def log(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A long log of two exercises."""
    rows = ["date,session,set,exercise,load,unit,reps,rir"]
    for number in range(SETS):
        day = f"{2000 + number // 240}-{1 + number // 20 % 12:02d}-05"
        name = ("bench_press", "hip_thrust")[number % 2]
        rows.append(f"{day},A,{1 + number % 20},{name},{40 + number % 4},kg,{6 + number % 5},1")
    path = tmp_path_factory.mktemp("long") / "log.csv"
    path.write_text("\n".join(rows) + "\n")
    return path


@dataclass
class Terminal:
    """A command whose standard error is a terminal."""

    process: subprocess.Popen[bytes]
    side: int

    def seen(self, until: bytes = b"\0") -> bytes:
        """What it wrote there up to some words, or to its end."""
        found = b""
        while until not in found:
            try:
                news = os.read(self.side, 4096)
            except OSError:  # Linux says so when the other side is closed
                break
            if not news:
                break
            found += news
        return found


@pytest.fixture
def begun() -> Iterator[list[Terminal]]:
    """Commands begun by a test, ended with it."""
    ours: list[Terminal] = []
    yield ours
    for one in ours:
        one.process.kill()
        one.process.wait()
        os.close(one.side)


def begin(ours: list[Terminal], *words: str | Path, **env: str) -> Terminal:
    """Start a command."""
    side, other = pty.openpty()
    around = {key: value for key, value in os.environ.items() if key != "NO_COLOR"}
    process = subprocess.Popen(
        [*PENNATE, *map(str, words)],
        stdout=subprocess.DEVNULL,
        stderr=other,
        env={**around, **env},
        start_new_session=True,
    )
    os.close(other)
    ours.append(Terminal(process, side))
    return ours[-1]


def test_a_long_forecast_says_how_far_it_is(begun: list[Terminal], log: Path) -> None:
    """One line written over itself, told in sets, and blank at the end."""
    said = begin(begun, "forecast", log).seen().decode()
    told = [part.strip() for part in said.split("\r") if part.strip()]
    assert told
    assert all(part.endswith(f"of {SETS} sets (Ctrl-C stops)") for part in told)
    counts = [int(part.split()[1]) for part in told]
    assert counts == sorted(counts)
    assert said.rsplit("\r", maxsplit=2)[-2].strip() == ""


@pytest.mark.parametrize(("words", "env"), [(("--json",), {}), ((), {"NO_COLOR": "1"})])
def test_where_it_is_not_wanted_nothing_is_told(
    begun: list[Terminal], log: Path, words: tuple[str, ...], env: dict[str, str]
) -> None:
    """Another program reads the document alone, and a plain terminal is left alone."""
    assert begin(begun, "forecast", log, *words, **env).seen() == b""


def test_ctrl_c_leaves_the_file_as_it_was(begun: list[Terminal], log: Path, tmp_path: Path) -> None:
    """The exit status of an interruption, one sentence, and last time's forecasts untouched."""
    out = tmp_path / "out.csv"
    out.write_text("last time")
    forecast = begin(begun, "forecast", log, "--out", out)
    assert b"of 6000 sets" in forecast.seen(b"(Ctrl-C stops)")
    forecast.process.send_signal(signal.SIGINT)
    rest = forecast.seen().decode()
    assert forecast.process.wait() == 130
    assert rest.strip().endswith("nothing is lost, and no file is half written.")
    assert "Traceback" not in rest
    assert out.read_text() == "last time"
    assert [one.name for one in tmp_path.iterdir()] == ["out.csv"]


def test_why_says_how_far_and_can_be_stopped(
    begun: list[Terminal], log: Path, tmp_path: Path
) -> None:
    """The replay of her own log is told of too; stopped, the records are whole."""
    home = tmp_path / "home"
    subprocess.run([*PENNATE, "import", log, "--data", home], check=True, capture_output=True)
    asked = begin(begun, "review", "--why", "bench_press", "--data", home)
    assert b"reading your log: " in asked.seen(b"(Ctrl-C stops)")
    asked.process.send_signal(signal.SIGINT)
    asked.seen()
    assert asked.process.wait() == 130
    looked = [*PENNATE, "check", "--data", str(home)]
    checked = subprocess.run(looked, check=True, capture_output=True, text=True)
    assert f"{SETS} sets: sound" in checked.stdout


def test_a_pipe_is_written_to_as_it_is(log: Path) -> None:
    """What is no file of hers, such as /dev/stdout, is not replaced by one."""
    short = log.with_name("short.csv")
    short.write_text("\n".join(log.read_text().splitlines()[:3]) + "\n")
    words = [*PENNATE, "forecast", str(short), "--out", "/dev/stdout"]
    done = subprocess.run(words, check=True, capture_output=True, text=True)
    assert done.stdout.splitlines()[0].startswith("date,session,set,mean")
    assert len(done.stdout.splitlines()) == 3
