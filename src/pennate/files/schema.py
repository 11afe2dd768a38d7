"""The published JSON Schemas of the files people write.

`python -m pennate.files.schema` writes them anew after a change; a test keeps them current.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from importlib.resources import as_file, files
from pathlib import Path
from types import MappingProxyType
from typing import Any

from pennate.files.brief import BriefTable
from pennate.files.gym_tables import GymTable
from pennate.files.toml import Entry
from pennate.files.week_tables import WeekTable

DRAFT = "https://json-schema.org/draft/2020-12/schema"


def _of(table: type[Entry]) -> Callable[[], dict[str, Any]]:
    return lambda: table.model_json_schema(by_alias=True)


SCHEMAS: Mapping[str, Callable[[], dict[str, Any]]] = MappingProxyType(
    {"week": _of(WeekTable), "brief": _of(BriefTable), "gym": _of(GymTable)}
)
"""What each published schema is made from."""


def schema_text(name: str) -> str:
    """The schema of a kind of file as published."""
    schema = {"$schema": DRAFT, **SCHEMAS[name](), "title": f"A {name} file"}
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"


def published(name: str) -> str:
    """The schema that ships with the package."""
    path = files("pennate") / "data" / "schemas" / f"{name}.schema.json"
    return path.read_text(encoding="utf-8")


def write_schemas(folder: Path) -> None:
    """Write every schema into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    for name in SCHEMAS:
        (folder / f"{name}.schema.json").write_text(schema_text(name), encoding="utf-8")


if __name__ == "__main__":
    with as_file(files("pennate") / "data") as data:
        write_schemas(data / "schemas")
