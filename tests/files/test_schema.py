"""The published JSON Schemas are those of the files as read."""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path

import jsonschema_rs
import pytest
import tomlkit

from pennate.files.schema import DRAFT, SCHEMAS, published, schema_text, write_schemas


@pytest.mark.parametrize("name", SCHEMAS)
def test_schemas_are_current(name: str) -> None:
    """What ships equals what the reader's own tables say."""
    assert published(name) == schema_text(name), "run: python -m pennate.files.schema"


@pytest.mark.parametrize("name", SCHEMAS)
def test_schemas_are_valid(name: str) -> None:
    """Each is a valid schema of the draft it names."""
    schema = json.loads(published(name))
    assert schema["$schema"] == DRAFT
    assert jsonschema_rs.meta.is_valid(schema)


@pytest.mark.parametrize("name", SCHEMAS)
def test_schemas_refuse_unknown_keys(name: str) -> None:
    """An editor that knows the schema marks a mistyped key."""
    assert not jsonschema_rs.is_valid(SCHEMAS[name](), {"dya": []})


def test_writing_gives_the_shipped_files(tmp_path: Path) -> None:
    """The command that writes them writes what ships."""
    write_schemas(tmp_path)
    for name in SCHEMAS:
        assert (tmp_path / f"{name}.schema.json").read_text(encoding="utf-8") == published(name)


@pytest.mark.parametrize("gym", ["commercial_kg", "commercial_kg_lb", "home", "travel"])
def test_shipped_gyms_fit_their_schema(gym: str) -> None:
    """An independent validator accepts the shipped gym files by the published schema."""
    path = files("pennate") / "data" / "gyms" / f"{gym}.toml"
    values = tomlkit.parse(path.read_text(encoding="utf-8")).unwrap()
    jsonschema_rs.validate(SCHEMAS["gym"](), values)
