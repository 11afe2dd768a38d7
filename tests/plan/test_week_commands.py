"""The commands audit, plan, replan and swap, as an outsider calls them."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner

from pennate.app.planning import possible_in
from pennate.cli.week import register, worth_words
from pennate.core.exercise import Fixture
from pennate.core.muscles import Group
from pennate.files.catalogue import read_catalogue
from pennate.files.gym import read_gym
from pennate.files.week import read_week

APP = typer.Typer()
register(APP)
RUN = CliRunner()
HERE = Path(__file__).parent
WEEKS = HERE.parents[1] / "src" / "pennate" / "data" / "weeks"
BRIEF = """
name = "Two short days"
priorities = ["back"]
[[day]]
day = "Monday"
minutes = 30
[[day]]
day = "Thursday"
minutes = 30
"""


@pytest.fixture(autouse=True)
def _nobody(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """No records of whoever runs the tests are read."""
    monkeypatch.setenv("PENNATE_HOME", str(tmp_path / "nobody"))


def _json(*arguments: str) -> object:
    result = RUN.invoke(APP, [*arguments, "--json"])
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def test_audit_prints_one_document() -> None:
    """Groups, days and findings with fixes."""
    told = _json("audit", str(HERE / "unbalanced.toml"))
    assert isinstance(told, dict)
    assert not told["good"]
    assert {"what", "why", "number", "source", "certainty", "fix"} <= set(told["findings"][0])
    assert told["best"]["what"]


def test_audit_of_a_good_week_stops_there() -> None:
    """A good week says so."""
    result = RUN.invoke(APP, ["audit", str(WEEKS / "3_days.toml")])
    assert "a good week" in result.output


@pytest.mark.parametrize("name", ["home", "travel"])
def test_a_week_that_bears_the_name_of_its_gym_is_audited(name: str) -> None:
    """The file of the week is not taken for that of its gym, which lies elsewhere."""
    told = _json("audit", str(WEEKS / f"{name}.toml"))
    assert isinstance(told, dict)
    assert told["groups"]


def test_the_brief_is_never_written_over(tmp_path: Path) -> None:
    """`--out` naming the brief is refused before anything is solved; her wishes stay."""
    brief = tmp_path / "brief.toml"
    brief.write_text(BRIEF, encoding="utf-8")
    result = RUN.invoke(APP, ["plan", str(brief), "--out", str(brief)])
    assert result.exit_code == 2
    assert "is the brief itself; name another file" in result.output
    assert brief.read_text("utf-8") == BRIEF


def test_plan_writes_a_week_that_can_be_read(tmp_path: Path) -> None:
    """The contract's keys, and a file that audits and reads back."""
    (tmp_path / "brief.toml").write_text(BRIEF, encoding="utf-8")
    out = tmp_path / "week.toml"
    told = _json("plan", str(tmp_path / "brief.toml"), "--out", str(out))
    assert isinstance(told, dict)
    assert {"objective", "bound", "gap", "seconds", "days", "binding"} <= set(told)
    assert told["gap"] < 0.1
    week = read_week(out, read_catalogue())
    assert [day.day for day in week.days] == ["Monday", "Thursday"]


def test_an_impossible_brief_exits_with_one(tmp_path: Path) -> None:
    """Exit 1, the reason as a sentence, and {reason, nearest} as JSON."""
    path = tmp_path / "brief.toml"
    path.write_text(BRIEF.replace("[[day]]", '[targets]\nquads = "24+"\n[[day]]', 1), "utf-8")
    result = RUN.invoke(APP, ["plan", str(path), "--json"])
    assert result.exit_code == 1
    told = json.loads(result.stdout)
    assert set(told) == {"reason", "nearest"}
    assert "quads 24" in told["reason"]
    assert told["nearest"]["missing"]["quads"] > 0


def test_a_clock_stops_the_planner(tmp_path: Path) -> None:
    """Stopped by the clock, the best week so far is given and marked."""
    (tmp_path / "brief.toml").write_text(BRIEF, encoding="utf-8")
    told = _json("plan", str(tmp_path / "brief.toml"), "--stop-after", "0")
    assert isinstance(told, dict)
    assert told["stopped"]


def test_stopped_at_once_it_gives_the_week_it_has() -> None:
    """A stop before the first step still ends in a week, and says that it was stopped."""
    brief = str(WEEKS.parent / "examples" / "brief.toml")
    result = RUN.invoke(APP, ["plan", brief, "--stop-after", "0"])
    assert result.exit_code == 0
    assert "Stopped: this is the best found so far.\nWorth " in result.stdout
    assert "inf" not in result.stdout.replace("information", "")


def test_no_bound_is_told_as_none() -> None:
    """No sentence promises that nothing is worth more than infinity."""
    assert worth_words(3.2, math.inf) == "Worth 3.20, no bound was found yet."
    assert worth_words(3.2, 3.25) == "Worth 3.20, no week is worth more than 3.25."


def test_the_brief_that_ships_can_be_planned() -> None:
    """Whoever tries the full example as it lies there gets a week, its gym and week found."""
    told = _json("plan", str(WEEKS.parent / "examples" / "brief.toml"), "--stop-after", "0")
    assert isinstance(told, dict)
    assert any(day["exercises"] for day in told["days"])


def test_replan_tells_changes() -> None:
    """What moves where, and the dose before and after."""
    week = str(WEEKS / "4_days.toml")
    told = _json("replan", week, "--missed", "Tuesday", "--done", "Mon", "--minutes", "Friday=60")
    assert isinstance(told, dict)
    assert told["changes"]
    assert set(told["dose"]) == {group.value for group in Group}


def test_the_kit_is_written_beside_the_week(tmp_path: Path) -> None:
    """Away with bands and dumbbells: the week names its kit, the kit carries all of it."""
    out = tmp_path / "My trip.toml"
    kinds = ["--kit", "bands", "--kit", "dumbbells", "--kit", "bench"]
    told = RUN.invoke(APP, ["replan", str(WEEKS / "4_days.toml"), *kinds, "--out", str(out)])
    assert "my_trip_kit.toml" in told.output
    week, kit = read_week(out, read_catalogue()), read_gym(tmp_path / "my_trip_kit.toml")
    assert week.gym == kit.id == "my_trip_kit"
    assert {item.kind.value for item in kit.items} == {"bands", "dumbbells", "body weight"}
    assert kit.fixtures == (Fixture.BENCH,)
    carried = possible_in(kit, read_catalogue())
    assert carried is not None
    assert {asked.exercise for day in week.days for asked in day.exercises} <= carried
    assert _json("audit", str(out))
    (tmp_path / "my_trip_kit.toml").unlink()
    assert RUN.invoke(APP, ["audit", str(out)]).exit_code, "the kit is what the audit reads"


def test_a_kit_that_she_corrected_is_never_written_over(tmp_path: Path) -> None:
    """The second run says where her kit lies and how to train by it; the same kit is no matter."""
    out, kit = tmp_path / "trip.toml", tmp_path / "trip_kit.toml"
    asked = ["replan", str(WEEKS / "4_days.toml"), "--kit", "bands", "--out", str(out)]
    assert RUN.invoke(APP, asked).exit_code == 0
    assert RUN.invoke(APP, asked).exit_code == 0
    hers = kit.read_text("utf-8") + "\n# the red one tore\n"
    kit.write_text(hers, encoding="utf-8")
    refused = RUN.invoke(APP, asked)
    assert refused.exit_code
    assert "--gym" in refused.output
    assert kit.read_text("utf-8") == hers


def test_swap_ranks() -> None:
    """Best first, with what it keeps."""
    told = _json("swap", "back squat", "--sore", "lower back=4")
    assert isinstance(told, list)
    assert told[0]["keeps"] > 0.5


def test_swap_gives_the_load_of_each(tmp_path: Path) -> None:
    """Without records, from a gym: each loaded substitute has a load that the gym can make."""
    told = _json("swap", "back squat", "--gym", "commercial_kg", "--data", str(tmp_path / "none"))
    assert isinstance(told, list)
    front = next(one for one in told if one["exercise"] == "front_squat")["first_set"]
    assert front["unit"] == "kg"
    assert float(front["load"]) >= 15
    assert front["reps"] == "8–12"
    assert not (tmp_path / "none").exists()


def test_swap_offers_the_lift_itself_on_other_equipment(tmp_path: Path) -> None:
    """In a full gym the bench press is first done with dumbbells; not where it is a sore joint
    that asks (common practice).
    """
    where = ("--gym", "commercial_kg", "--data", str(tmp_path / "none"))
    told = _json("swap", "bench press", *where)
    assert isinstance(told, list)
    assert (told[0]["exercise"], told[0]["equipment"]) == ("bench_press", "dumbbells")
    assert told[0]["first_set"]["unit"] == "kg"
    sore = _json("swap", "bench press", "--sore", "shoulder=4", *where)
    assert isinstance(sore, list)
    assert "bench_press" not in {one["exercise"] for one in sore}


def test_swap_without_a_gym_gives_no_load(tmp_path: Path) -> None:
    """No load is made up where no gym is known."""
    told = _json("swap", "back squat", "--data", str(tmp_path / "none"))
    assert isinstance(told, list)
    assert all(one["first_set"] is None for one in told)


def test_a_block_writes_a_week_file_each(tmp_path: Path) -> None:
    """Six files that read back, the habit named, and a spread in what is expected."""
    out = tmp_path / "block"
    out.mkdir()
    told = _json("block", str(WEEKS / "3_days.toml"), "--ramp", "sets", "--out", str(out))
    assert isinstance(told, dict)
    assert "habit, not evidence" in told["note"]
    assert told["weeks"][-1]["hard_sets"] > told["weeks"][0]["hard_sets"]
    chest = told["expected"]["chest"]
    assert 0 < chest["low90_pct"] < chest["median_pct"] < chest["high90_pct"]
    names = [read_week(path, read_catalogue()).name for path in sorted(out.iterdir())]
    assert len(names) == 6
    assert names[0].endswith("week 1")


def test_a_block_that_changes_nothing_says_so() -> None:
    """No row of noughts with signs where no muscle is expected to differ."""
    told = RUN.invoke(APP, ["block", str(WEEKS / "3_days.toml")])
    assert told.exit_code == 0
    assert "nothing that differs" in told.stdout
    assert "0.0" not in told.stdout


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["swap", "squatt"], "no exercise “squatt”"),
        (["swap", "curl", "--sore", "nee"], "no joint"),
        (["swap", "curl", "--sore", "knee=11"], "no pain"),
        (["swap", "curl", "--kit", "bandz"], "no kind of equipment"),
        (["replan", str(WEEKS / "4_days.toml"), "--missed", "Someday"], "no day"),
        (["replan", str(WEEKS / "4_days.toml"), "--minutes", "Monday"], "no day with minutes"),
        (["audit", "nowhere.toml"], "nowhere.toml"),
        (["block", str(WEEKS / "4_days.toml"), "--weeks", "1"], "no block"),
        (["block", str(WEEKS / "4_days.toml"), "--ramp", "mood"], "nothing that rises"),
    ],
)
def test_wrong_input_exits_with_two(arguments: list[str], words: str) -> None:
    """One clear sentence on standard error, never a traceback."""
    result = RUN.invoke(APP, arguments)
    assert result.exit_code == 2
    assert words in result.stderr


def test_a_slip_is_answered_with_one_name_each() -> None:
    """An exercise is offered by its name, not by its name and its id."""
    told = RUN.invoke(APP, ["swap", "bench pres"]).stderr
    assert "“Bench press”" in told
    assert "bench_press" not in told
    assert told.casefold().count("“bench press”") == 1


def test_an_empty_week_is_no_list_of_findings(tmp_path: Path) -> None:
    """A week that asks for nothing says so in one sentence, with the way on."""
    path = tmp_path / "week.toml"
    path.write_text('name = "mine"\n[[day]]\nday = "Monday"\n', encoding="utf-8")
    told = RUN.invoke(APP, ["audit", str(path)])
    assert told.exit_code == 0
    assert told.stdout == "No exercise is planned in this week yet: `pennate plan` plans one.\n"
