"""A ledger on both databases, and a PostgreSQL of our own to hold one of them."""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import psycopg
import pytest

from pennate.ledger import Ledger

BINARIES = next(iter(sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), reverse=True)), None)


def _run(*command: str, folder: Path) -> None:
    """Run a server command as somebody the server accepts: it refuses the superuser."""
    if os.getuid() == 0:
        account = pwd.getpwnam("postgres")
        os.chown(folder, account.pw_uid, account.pw_gid)
        subprocess.run(
            command, check=True, capture_output=True, cwd="/", extra_groups=[],
            user=account.pw_uid, group=account.pw_gid,
        )  # fmt: skip
    else:
        subprocess.run(command, check=True, capture_output=True, cwd="/")


@pytest.fixture(scope="session")
def postgres_server() -> Iterator[str]:
    """The socket folder of a running server that lives as long as the tests."""
    if BINARIES is None:
        pytest.skip("no PostgreSQL server on this machine")
    folder = Path(tempfile.mkdtemp(prefix="pennate-pg-"))
    data, binaries = str(folder / "data"), BINARIES.parent
    options = f"-c listen_addresses='' -c unix_socket_directories={folder} -c fsync=off"
    _run(
        str(binaries / "initdb"), "-D", data, "-U", "pennate", "-A", "trust", "-E", "UTF8",
        "--locale=C", "--no-sync", folder=folder,
    )  # fmt: skip
    control = (str(binaries / "pg_ctl"), "-D", data)
    _run(*control, "-w", "-l", str(folder / "log"), "-o", options, "start", folder=folder)
    try:
        with Ledger.open(f"postgresql://pennate@/postgres?host={folder}"):
            pass  # migrates the database that the tests clone
        yield str(folder)
    finally:
        _run(*control, "-m", "immediate", "stop", folder=folder)
        shutil.rmtree(folder, ignore_errors=True)


_numbers = count()


@pytest.fixture
def postgres_url(postgres_server: str) -> str:
    """The address of a fresh, migrated database."""
    name = f"ledger_{next(_numbers)}"
    address = f"host={postgres_server} user=pennate"
    with psycopg.connect(f"{address} dbname=template1", autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE {name} TEMPLATE postgres")
    return f"postgresql://pennate@/{name}?host={postgres_server}"


@pytest.fixture(params=["sqlite", pytest.param("postgres", marks=pytest.mark.postgres)])
def target(request: pytest.FixtureRequest, tmp_path: Path) -> str | Path:
    """Where a new ledger may lie, once a database each."""
    if request.param == "postgres":
        return str(request.getfixturevalue("postgres_url"))
    return tmp_path / "ledger.sqlite"


@pytest.fixture
def ledger(target: str | Path) -> Iterator[Ledger]:
    """An empty ledger, once a database each."""
    with Ledger.open(target) as opened:
        yield opened
