"""The commands on the records: what they print, where, and with which exit status."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner, Result

from pennate.cli.data import register

ROWS = [f"2024-03-02,A,{n},hip_thrust,40,kg,8" for n in range(1, 6)]


@pytest.fixture
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A data folder that the commands find by themselves."""
    folder = tmp_path / "her records"
    monkeypatch.setenv("PENNATE_HOME", str(folder))
    monkeypatch.delenv("PENNATE_DATABASE", raising=False)
    return folder


def run(*words: object) -> Result:
    """Run one command."""
    app = typer.Typer()
    register(app)
    return CliRunner().invoke(app, [str(word) for word in words])


def log(folder: Path, *rows: str) -> Path:
    """A log file."""
    path = folder / "log.csv"
    path.write_text("\n".join(("date,session,set,exercise,load,unit,reps", *rows)) + "\n")
    return path


def document(result: Result) -> dict[str, object]:
    """The one JSON document on standard output."""
    assert result.exit_code == 0, result.stderr
    parsed = json.loads(result.stdout)
    assert isinstance(parsed, dict)
    return parsed


def test_import_says_what_it_did(data: Path, tmp_path: Path) -> None:
    """Added, known and corrected sets are told."""
    assert "5 sets added" in run("import", log(tmp_path, *ROWS)).stdout
    again = run("import", log(tmp_path, *ROWS[:4], ROWS[4].replace(",8", ",9")))
    assert "4 known already" in again.stdout
    assert "reps 8 → 9" in again.stdout


def test_questions_go_to_standard_error(data: Path, tmp_path: Path) -> None:
    """An improbable value is imported; standard output stays one JSON document."""
    path = log(tmp_path, *ROWS, "2024-03-02,A,6,hip_thrust,400,kg,8")
    result = run("import", path, "--json")
    said = document(result)
    assert (said["added"], len(said["questions"])) == (6, 1)  # type: ignore[arg-type]  # a list
    assert result.stderr.startswith("to check: log.csv, line 7, load: 400 kg?")


def test_wrong_input_is_two(data: Path, tmp_path: Path) -> None:
    """One sentence on standard error, nothing on standard output, nothing written."""
    result = run("import", log(tmp_path, *ROWS, "2024-03-02,A,6,hip_trust,40,kg,8"), "--json")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "did you mean “hip_thrust”" in result.stderr
    assert not data.exists()


def test_a_set_of_another_year_is_asked_about(data: Path, tmp_path: Path) -> None:
    """A day still to come is improbable, not unreadable: it is imported, and its line told."""
    (tmp_path / "weights.csv").write_text("date,kg\n2999-03-02,65\n")
    log(tmp_path, *ROWS, "2999-03-02,A,6,hip_thrust,40,kg,8")
    result = run("import", tmp_path, "--json")
    said = document(result)
    assert said["added"] == 6
    assert [one["line"] for one in said["questions"]] == [2, 7]  # type: ignore[attr-defined]  # a list
    weighed, done = result.stderr.splitlines()
    assert weighed.startswith("to check: weights.csv, line 2, date: 2999-03-02 is still to come")
    assert done.startswith("to check: log.csv, line 7, date: 2999-03-02 is still to come, as today")
    assert "is the year wrong, and 20" in done
    assert document(run("check", "--json"))["questions"] == 2


@pytest.mark.parametrize(
    "words",
    [
        ("import", "nowhere.csv"),
        ("import", "nowhere.csv", "--unit", "stone"),
        ("restore", "nowhere.zip"),
    ],
)
def test_wrong_arguments_are_a_sentence(data: Path, words: tuple[str, ...]) -> None:
    """A missing file or an unknown unit is no traceback."""
    result = run(*words)
    assert result.exit_code == 2
    assert result.stderr.count("\n") == 1


def test_options_of_import(data: Path, tmp_path: Path) -> None:
    """New exercises and a unit for the whole file are accepted."""
    path = log(tmp_path, "2024-03-02,A,1,garden rope,40,,8", "2024-03-02,A,2,log carry,40,,8")
    accept = ("--new", "garden rope", "--new", "log carry", "--unit", "lb")
    assert document(run("import", path, *accept, "--json"))["added"] == 2


def test_out_and_in_again(data: Path, tmp_path: Path) -> None:
    """Export, import of the folder, and nothing is new."""
    run("import", log(tmp_path, *ROWS))
    assert document(run("export", tmp_path / "out", "--json"))["files"] == ["log.csv"]
    assert document(run("import", tmp_path / "out", "--json"))["unchanged"] == 5


def test_backup_and_restore(data: Path, tmp_path: Path) -> None:
    """What was lost comes back, and what was there is named."""
    run("import", log(tmp_path, *ROWS))
    assert document(run("backup", tmp_path / "all.zip", "--json"))["entries"] == 5
    run("import", log(tmp_path, "2024-03-09,A,1,hip_thrust,40,kg,8"))
    kept = document(run("restore", tmp_path / "all.zip", "--json"))["kept"]
    assert Path(str(kept)).exists()
    assert document(run("check", "--json"))["sets"] == 5


def test_plain_words(data: Path, tmp_path: Path) -> None:
    """Without --json each command says one line that a person can read."""
    run("import", log(tmp_path, *ROWS))
    assert "log.csv" in run("export", tmp_path / "out").stdout
    assert "5 entries, read back and whole." in run("backup", tmp_path / "all.zip").stdout
    assert "5 entries are back." in run("restore", tmp_path / "all.zip").stdout
    assert run("check").stdout == "5 entries, 5 sets: sound.\n"


def test_damaged_records(data: Path) -> None:
    """A file that is no database is a sentence with status 2."""
    data.mkdir()
    (data / "pennate.sqlite").write_text("not a database" * 99)
    result = run("check")
    assert result.exit_code == 2
    assert "cannot be used" in result.stderr


def test_a_data_folder_by_option(data: Path, tmp_path: Path) -> None:
    """--data goes before the environment."""
    run("import", log(tmp_path, *ROWS), "--data", tmp_path / "other")
    assert not data.exists()
    assert document(run("check", "--data", tmp_path / "other", "--json"))["sets"] == 5


def test_a_spreadsheet_in_order(data: Path, tmp_path: Path) -> None:
    """Date, exercise, load and reps are enough with --in-order; the refusal says so itself."""
    path = tmp_path / "sheet.csv"
    path.write_text("date,exercise,weight,reps\n2024-03-02,hip_thrust,40,8\n")
    refused = run("import", path).stderr
    assert "--in-order" in refused
    assert "Besides, sheet.csv, line 1: the column “weight” probably holds the loads" in refused
    asked = run("import", path, "--in-order")
    assert asked.exit_code == 2
    assert '--column "weight=load" reads it so' in asked.stderr
    said = ("--in-order", "--column", "weight=load", "--unit", "kg", "--json")
    assert document(run("import", path, *said))["added"] == 1
    assert run("import", path, "--column", "weight=heavy").exit_code == 2
    assert run("import", path, "--column", "weight").exit_code == 2


def test_names_of_her_own(data: Path, tmp_path: Path) -> None:
    """--as takes a name for an exercise; --new keeps it apart, and that is said, until --as."""
    path = log(tmp_path, "2024-03-02,A,1,Big day,40,kg,8")
    kept = run("import", path, "--new", "Big day")
    assert "Kept apart, and on no page" in kept.stdout
    assert (
        "exercise Big day → hip_thrust" in run("import", path, "--as", "Big day=hip thrust").stdout
    )
    assert run("import", path, "--as", "Big day").exit_code == 2
    assert "there is no exercise" in run("import", path, "--as", "Big day=qwzx").stderr


def test_names_are_said_once(data: Path, tmp_path: Path) -> None:
    """--as and --new hold for later logs; a refused import keeps nothing; an id is itself."""
    rows = ["2024-03-02,A,1,Big day,40,kg,8", "2024-03-02,A,2,Rope day,40,kg,8"]
    said = ("--as", "Big day=hip thrust", "--new", "Rope day", "--as", "bench_press=hip_thrust")
    assert run("import", log(tmp_path, *rows, "2024-03-02,A,3,curl,,,many"), *said).exit_code == 2
    assert not data.exists()
    assert document(run("import", log(tmp_path, *rows), *said, "--json"))["added"] == 2
    later = [row.replace("-02,", "-09,") for row in (*rows, "2024-03-02,A,3,bench_press,40,kg,8")]
    assert document(run("import", log(tmp_path, *later), "--json"))["added"] == 3
    run("export", tmp_path / "out")
    text = (tmp_path / "out" / "log.csv").read_text()
    assert [text.count(name) for name in (",hip_thrust,", ",Rope day,", ",bench_press,")] == [
        2,
        2,
        1,
    ]


def test_what_loads_count(data: Path, tmp_path: Path) -> None:
    """All together, as the file format has it, unless said; said later, the set is corrected."""
    path = log(tmp_path, "2024-03-02,A,1,lateral_raise,8,kg,12")
    assert document(run("import", path, "--json"))["added"] == 1
    said = run("import", path, "--load-is", "Lateral raise=each").stdout
    assert "load_is total → each" in said
    assert document(run("import", path, "--json"))["unchanged"] == 1
    assert run("import", path, "--load-is", "Lateral raise=half").exit_code == 2
