"""The page about the gym file cannot drift from what is read and solved."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from typer.testing import CliRunner

from pennate.cli.main import app
from pennate.core.evidence.loading import DROP_WEIGHT, MOVE_REPS, WARM_UP_WEIGHT
from pennate.files.gym import KIND_OF, USUAL_STEPS, read_gym
from pennate.files.schema import SCHEMAS
from pennate.loading.sleeves import MOST_MIXED, MOST_ON_BELT, MOST_ON_END

PAGE = (Path(__file__).parents[2] / "docs" / "gym-file.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)


@pytest.mark.parametrize("text", EXAMPLES, ids=["smallest", "corner"])
def test_examples_are_read(text: str) -> None:
    """Every example of the page is a gym file."""
    assert read_gym(text).items


def test_every_key_and_table_is_explained() -> None:
    """No key or table of the schema is missing from the page's own words."""
    words = re.sub(r"```toml\n.*?```", "", PAGE, flags=re.DOTALL)
    keys = {key for table in SCHEMAS["gym"]()["$defs"].values() for key in table["properties"]}
    assert [key for key in sorted(keys) if f"`{key}`" not in words] == []
    assert [table for table in KIND_OF if f"`[[{table}]]`" not in words] == []


def test_the_command_of_the_page_runs() -> None:
    """The shown command answers."""
    (command,) = re.findall(r"```\npennate (.*?)\n```", PAGE)
    result = CliRunner().invoke(app, shlex.split(command))
    assert result.exit_code == 0
    assert "nothing better exists" in result.stdout


def test_the_weights_of_the_page_are_those_in_use() -> None:
    """Prices and limits named in the text are the constants."""
    assert f"{MOVE_REPS:g} of a rep" in PAGE
    assert (WARM_UP_WEIGHT, DROP_WEIGHT) == (0.1, 0.5)
    assert (MOST_MIXED, MOST_ON_END, MOST_ON_BELT) == (6, 8, 4)
    assert f"else {USUAL_STEPS} steps" in PAGE
