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


def test_other_addresses_are_plain_only_if_said(tmp_path: Path) -> None:
    """Serving to the network without encryption needs to be said."""
    result = CliRunner().invoke(app, ["serve", "--host", "0.0.0.0", "--data", str(tmp_path)])  # noqa: S104 # refused
    assert result.exit_code == 2
    assert "--plain" in result.output
    assert list(tmp_path.iterdir()) == []


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
