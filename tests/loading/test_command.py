"""`pennate loads`: the contract's rows, drops that strip, and errors in a sentence."""

from __future__ import annotations

import json
from itertools import pairwise
from pathlib import Path

import pytest
from typer.testing import CliRunner

from pennate.cli.main import app

RUN = CliRunner()
GYM = """
[[bar]]
id = "bar"
mass = 20
unit = "kg"
[[plate]]
mass = 20
unit = "kg"
pairs = 2
[[plate]]
mass = 10
unit = "kg"
pairs = 2
[[plate]]
mass = 2.5
unit = "kg"
pairs = 1
[[stack]]
id = "row"
start = 5
step = 5
unit = "kg"
ratio = 1
"""


@pytest.fixture
def gym(tmp_path: Path) -> str:
    path = tmp_path / "gym.toml"
    path.write_text(GYM, encoding="utf-8")
    return str(path)


def rows(*arguments: str) -> list[dict[str, object]]:
    result = RUN.invoke(app, ["loads", *arguments, "--json"])
    assert result.exit_code == 0, result.stderr
    found = json.loads(result.stdout)
    assert isinstance(found, list)
    return found


def test_the_contract_keys(gym: str) -> None:
    """Each row has target, load, unit, each_side and moves, as outsiders rely on."""
    found = rows(gym, "--equipment", "bar", "--targets", "60,80,100")
    assert [row["target"] for row in found] == [60, 80, 100]
    assert [row["load"] for row in found] == [60, 80, 100]
    assert [row["unit"] for row in found] == ["kg"] * 3
    assert [row["each_side"] for row in found] == [[20], [20, 10], [20, 10, 10]]
    assert [row["moves"] for row in found] == [1, 1, 1]


def test_targets_may_stand_apart(gym: str) -> None:
    """Targets with spaces after the option, or the option repeated, are all taken."""
    spaced = rows(gym, "--equipment", "bar", "--targets", "60", "80", "100")
    repeated = rows(
        gym, "--equipment", "bar", "--targets", "60", "--targets", "80", "--targets", "100"
    )
    assert spaced == repeated
    assert len(spaced) == 3


def test_drops_strip_on_a_starter_gym() -> None:
    """On a starter gym two drops after a top set take plates off and put none on."""
    found = rows(
        "commercial_kg", "--equipment", "rack_bar", "--targets", "80,60,45",
        "--kinds", "top,drop,drop",
    )  # fmt: skip
    sides = [row["each_side"] for row in found]
    for before, after in pairwise(sides):
        assert isinstance(before, list)
        assert isinstance(after, list)
        assert after == before[: len(after)]
        assert len(after) < len(before)


def test_readings_and_units_can_be_chosen(gym: str) -> None:
    """Twenty a side is 60 in all; 132 lb is nearest 60 kg on kilogram plates."""
    side = rows(gym, "--equipment", "bar", "--targets", "20", "--load-is", "side")
    assert side[0]["load"] == 60
    for unit in ("lb", "lbs"):
        pounds = rows(gym, "--equipment", "bar", "--targets", "132", "--unit", unit)
        assert pounds[0]["load"] == 60


def test_without_json_it_can_be_read_aloud(gym: str) -> None:
    """The table says what to put on, and that nothing better exists."""
    result = RUN.invoke(app, ["loads", gym, "--equipment", "bar", "--targets", "60,62"])
    assert "20 kg bar, each side: 20" in result.stdout
    assert "nothing better exists" in result.stdout


def test_a_target_out_of_reach_is_told(gym: str) -> None:
    """What the bar cannot come near is said beside the answer, at both ends; a near one is not."""
    result = RUN.invoke(app, ["loads", gym, "--equipment", "bar", "--targets", "5,61,400"])
    assert result.exit_code == 0
    low, high = result.stderr.splitlines()
    assert "5 kg asked; the nearest that can be made here is 20 kg" in low
    assert "400 kg asked; the nearest that can be made here is 145 kg" in high


def test_one_move_is_one_move(gym: str) -> None:
    """A single pair put on is not called moves."""
    result = RUN.invoke(app, ["loads", gym, "--equipment", "bar", "--targets", "60"])
    assert "1 move in all" in result.stdout


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--equipment", "bra", "--targets", "60"], "did you mean “bar”"),
        (["--equipment", "bar", "--targets", "sixty"], "“sixty” is not a number"),
        (["--equipment", "bar", "--targets", ","], "no targets"),
        (["--equipment", "bar", "--targets", "60", "--unit", "stone"], "“stone” is not known"),
        (["--equipment", "bar", "--targets", "60,80", "--kinds", "top"], "1 kinds of sets"),
        (["--equipment", "bar", "--targets", "60", "--kinds", "tops"], "did you mean “top”"),
    ],
)
def test_wrong_words_end_in_one_sentence(gym: str, arguments: list[str], said: str) -> None:
    """Exit status 2, nothing on standard output, one sentence with the slip."""
    result = RUN.invoke(app, ["loads", gym, *arguments])
    assert result.exit_code == 2
    assert result.stdout == ""
    assert said in result.stderr
    assert result.stderr.count("\n") == 1


def test_a_broken_gym_file_names_its_line(tmp_path: Path) -> None:
    """A wrong gym file is reported with file, line and field."""
    path = tmp_path / "gym.toml"
    path.write_text('[[bar]]\nid = "bar"\nmass = "x"\n', encoding="utf-8")
    result = RUN.invoke(app, ["loads", str(path), "--equipment", "bar", "--targets", "60"])
    assert result.exit_code == 2
    assert "gym.toml, line 3, bar 1, mass" in result.stderr


def test_a_missing_file_is_said(tmp_path: Path) -> None:
    """A path that leads nowhere is a sentence, not a traceback."""
    result = RUN.invoke(
        app, ["loads", str(tmp_path / "no.toml"), "--equipment", "bar", "--targets", "60"]
    )
    assert result.exit_code == 2
    assert "cannot be read" in result.stderr
