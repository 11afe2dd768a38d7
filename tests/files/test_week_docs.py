"""The page about the week file cannot drift from what is read."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from pydantic import BaseModel

from pennate.files.catalogue import read_catalogue
from pennate.files.own_exercise import OwnExercise
from pennate.files.week import read_week
from pennate.files.week_tables import (
    DayTable,
    ExerciseTable,
    LadderTable,
    PreparationTable,
    SetsTable,
    WeekTable,
)
from pennate.files.words import load_of

PAGE = (Path(__file__).parents[2] / "docs" / "week-file.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)


@pytest.mark.parametrize("text", EXAMPLES, ids=["smallest", "in full", "own exercise"])
def test_examples_are_read(text: str) -> None:
    """Every example of the page is a week file."""
    assert read_week(text, read_catalogue()).days


@pytest.mark.parametrize(
    "table",
    [
        WeekTable,
        DayTable,
        ExerciseTable,
        SetsTable,
        LadderTable,
        PreparationTable,
        OwnExercise,
    ],
    ids=lambda table: table.__name__,
)
def test_every_key_is_told(table: type[BaseModel]) -> None:
    """No key is read that the page does not name."""
    keys = {field.alias or name for name, field in table.model_fields.items()}
    assert {key for key in keys if f"`{key}`" not in PAGE} == set()


def test_loads_of_the_page_are_read() -> None:
    """Every way of writing a load that the page shows is understood."""
    section = PAGE.split("### Loads")[1].split("###")[0]
    written = [
        load
        for row in section.splitlines()
        if row.startswith("| `")
        for load in re.findall(r'`"([^"]+)"`', row.split("|")[1])
    ]
    assert len(written) == 12
    assert all(load_of(load) for load in written)
