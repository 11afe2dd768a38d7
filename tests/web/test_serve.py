"""`pennate demo` and `pennate serve` as commands."""

from __future__ import annotations

import socket
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest
from typer.testing import CliRunner

from pennate.cli.main import app


def test_demo_answers_and_stops() -> None:
    """One command prints an address, which shows today; nothing else is printed."""
    command = [sys.executable, "-m", "pennate", "demo", "--no-open", "--port", "0"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout
            address = process.stdout.readline().split()[0]
            with urllib.request.urlopen(address, timeout=60) as page:  # noqa: S310 # our own server
                text = page.read().decode()
        finally:
            process.terminate()
    assert address.startswith("http://127.0.0.1:")
    assert "<h1" in text


@pytest.mark.parametrize(("plain", "scheme"), [([], "https"), (["--plain"], "http")])
def test_the_network_is_served_safely_unless_said(
    tmp_path: Path, plain: list[str], scheme: str
) -> None:
    """Other addresses get HTTPS and a pairing code; without encryption only where it is said."""
    command = [sys.executable, "-m", "pennate", "serve", "--host", "127.0.0.2", "--port", "0"]
    command += ["--data", str(tmp_path), *plain]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout
            address = process.stdout.readline()
            told = [process.stdout.readline() for _ in range(3 + len(plain))]
        finally:
            process.terminate()
    assert address.startswith(f"{scheme}://")
    assert any("Pair a phone within 10 minutes" in line for line in told)
    assert ("Not encrypted" in told[1]) is bool(plain)


def test_a_port_in_use_is_told(tmp_path: Path) -> None:
    """One sentence says that the port is taken and what to do."""
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        command = ["serve", "--port", str(port), "--data", str(tmp_path)]
        result = CliRunner().invoke(app, command)
    assert result.exit_code == 2
    assert f"port {port}" in result.output
    assert "--port" in result.output


@pytest.mark.parametrize("command", ["serve", "demo"])
def test_help_names_what_it_does(command: str) -> None:
    """Both commands say in their help what they show."""
    assert CliRunner().invoke(app, [command, "--help"]).exit_code == 0
