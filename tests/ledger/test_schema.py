"""Migrations, and databases that are not ours to open."""

from __future__ import annotations

import sqlite3
import stat
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import text

from pennate.errors import InputError, MissingPartError, StateError
from pennate.ledger import Ledger, schema

from .made import made


def test_the_newest_migration_is_the_one_we_expect() -> None:
    """The shortcut that skips Alembic on an up-to-date database names the right number."""
    config = Config()
    config.set_main_option("script_location", "pennate.ledger:migrations")
    assert ScriptDirectory.from_config(config).get_current_head() == schema.HEAD


def test_migrations_make_the_tables_we_use(ledger: Ledger) -> None:
    """Alembic finds no difference between the migrated database and our tables."""
    with ledger.reading() as connection:
        context = MigrationContext.configure(connection)
        assert compare_metadata(context, schema.metadata) == []


def test_a_migration_that_fails_leaves_nothing(
    target: str | Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Tables and the note of the migration come together or not at all."""
    with Ledger.open(target) as ledger, ledger.writing() as connection:
        for table in ("entry", "conflict", "about", "alembic_version"):
            connection.execute(text(f"DROP TABLE {table}"))
    monkeypatch.setattr("alembic.op.create_index", _fail)
    with pytest.raises(RuntimeError):
        Ledger.open(target)
    monkeypatch.undo()
    with Ledger.open(target) as ledger:
        assert ledger.append([made()]).added == 1


def _fail(*_arguments: object, **_options: object) -> None:
    raise RuntimeError("the power went")


def test_records_of_a_newer_pennate_are_left_alone(tmp_path: Path) -> None:
    """A database from the future is refused with a sentence, unchanged."""
    path = tmp_path / "ledger.sqlite"
    Ledger.open(path).close()
    with sqlite3.connect(path) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    connection.close()
    with pytest.raises(StateError, match="newer pennate"):
        Ledger.open(path)


def test_a_file_that_is_no_database(tmp_path: Path) -> None:
    """Any other file in its place is refused and stays as it was."""
    path = tmp_path / "ledger.sqlite"
    path.write_text("date,session\n" * 200)
    with pytest.raises(StateError, match="cannot be used"):
        Ledger.open(path)
    assert path.read_text() == "date,session\n" * 200


def test_a_database_of_another_program(tmp_path: Path) -> None:
    """Tables we do not know mean that the file is not ours."""
    path = tmp_path / "ledger.sqlite"
    with sqlite3.connect(path) as connection:
        connection.execute("CREATE TABLE recipes (id)")
    connection.close()
    with pytest.raises(StateError, match="another program"):
        Ledger.open(path)


def test_only_her_account_can_read_the_file(tmp_path: Path) -> None:
    """Sensitive records are private from the first moment."""
    path = tmp_path / "her" / "ledger.sqlite"
    Ledger.open(path).close()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700


@pytest.mark.parametrize("address", ["mysql://x/y", "://", "sqlite://"])
def test_other_addresses_are_refused(address: str) -> None:
    """Only SQLite files and PostgreSQL hold records."""
    with pytest.raises(InputError):
        Ledger.open(address)


def test_a_server_without_its_driver(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the optional part the sentence says how to get it."""
    monkeypatch.setattr("pennate.ledger.engine.find_spec", lambda _name: None)
    with pytest.raises(MissingPartError, match="pip install"):
        Ledger.open("postgresql://pennate@/nowhere")


@pytest.mark.postgres
def test_a_server_that_is_not_there(tmp_path: Path) -> None:
    """A wrong address is a sentence, and a password in it is not repeated."""
    with pytest.raises(StateError, match="cannot be used") as caught:
        Ledger.open(f"postgresql://her:secret@/records?host={tmp_path}")
    assert "secret" not in str(caught.value)
