"""`pennate forecast` as the contract words it."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from pennate.cli.main import app

RUN = CliRunner()
HEADER = "date,session,set,exercise,reps,load,unit,rir,rest_s,seconds,body_mass_kg\n"
ROWS = [
    "2024-01-08,a,2,my own lift,11,40,kg,fail,100,,61",
    "2024-01-05,a,1,bench_press,10,40,kg,2,,,61",
    "2024-01-05,a,2,bench_press,9,40,kg,,120,,",
    "2024-01-08,a,1,bench_press,11,40,kg,fail,,,",
    "2024-01-08,a,3,chin_up,4,-10,kg,1,180,,61",
    "2024-01-08,a,4,crunch,1,,,,60,30,",
]


@pytest.fixture
def log(tmp_path: Path) -> Path:
    """A small log, out of order, with an unknown exercise and a hold."""
    path = tmp_path / "log.csv"
    path.write_text(HEADER + "\n".join(ROWS) + "\n", encoding="utf-8")
    return path


def _table(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def test_one_row_out_for_each_row_in_the_file_s_order(log: Path) -> None:
    """The output keeps the file's order although sets are taken by date and number."""
    result = RUN.invoke(app, ["forecast", str(log)])
    assert result.exit_code == 0
    rows = _table(result.stdout)
    assert [(r["date"], r["set"]) for r in rows] == [
        tuple(line.split(",")[i] for i in (0, 2)) for line in ROWS
    ]
    assert result.stdout.splitlines()[0] == ("date,session,set,mean,p2.5,p10,p25,p50,p75,p90,p97.5")


def test_quantiles_rise_and_holds_are_empty(log: Path) -> None:
    """Numbers rise from p2.5 to p97.5, never below −½; a hold has none."""
    rows = _table(RUN.invoke(app, ["forecast", str(log)]).stdout)
    assert rows[-1]["mean"] == rows[-1]["p50"] == ""
    for row in rows[:-1]:
        numbers = [float(row[name]) for name in list(row)[4:]]
        assert numbers == sorted(numbers)
        assert numbers[0] >= -0.5


def test_results_of_later_rows_do_not_reach_earlier_ones(log: Path) -> None:
    """Changing the last outcome changes no forecast made before it."""
    before = _table(RUN.invoke(app, ["forecast", str(log)]).stdout)
    text = log.read_text(encoding="utf-8").replace("bench_press,11,40", "bench_press,3,40")
    log.write_text(text, encoding="utf-8")
    after = _table(RUN.invoke(app, ["forecast", str(log)]).stdout)
    assert [r for r in before if r["date"] == "2024-01-05"] == [
        r for r in after if r["date"] == "2024-01-05"
    ]
    assert before[3] == after[3]
    assert before[0] != after[0]


def test_json_and_out(log: Path, tmp_path: Path) -> None:
    """`--json` prints one document; `--out` writes the same numbers as a file."""
    out = tmp_path / "f.csv"
    document = json.loads(RUN.invoke(app, ["forecast", str(log), "--json"]).stdout)
    assert RUN.invoke(app, ["forecast", str(log), "--out", str(out)]).stdout == ""
    assert float(_table(out.read_text(encoding="utf-8"))[1]["p50"]) == document[1]["p50"]


def test_a_broken_log_is_one_sentence(log: Path) -> None:
    """Wrong input ends with exit status 2 and says the line and the field."""
    log.write_text(HEADER + "2024-01-05,a,1,bench_press,ten,40,kg,,,,\n", encoding="utf-8")
    result = RUN.invoke(app, ["forecast", str(log)])
    assert result.exit_code == 2
    assert "line 2" in result.stderr
    assert "Traceback" not in result.stderr


def test_a_spreadsheet_of_another_country_is_forecast_as_the_plain_file(tmp_path: Path) -> None:
    """Semicolons, decimal commas and days first change no forecast, only how the file looks."""
    head = ["date", "session", "set", "exercise", "load", "unit", "reps"]
    sets = [(n, 3 + n % 2, 8 - n % 3) for n in range(1, 10)]
    plain = [f"2024-03-{n + 12},A,1,hip_thrust,{40 + tens}.5,kg,{reps}" for n, tens, reps in sets]
    other = [f"{n + 12}.3.24;A;1;hip_thrust;{40 + tens},5;kg;{reps}" for n, tens, reps in sets]
    (tmp_path / "a.csv").write_text("\n".join((",".join(head), *plain)))
    (tmp_path / "b.csv").write_text("\ufeff" + "\r\n".join((";".join(head), *other)))
    first = CliRunner().invoke(app, ["forecast", str(tmp_path / "a.csv")])
    second = CliRunner().invoke(app, ["forecast", str(tmp_path / "b.csv"), "--dates", "day-first"])
    assert (first.exit_code, second.exit_code) == (0, 0), second.stderr
    assert first.stdout == second.stdout
    refused = CliRunner().invoke(app, ["forecast", str(tmp_path / "b.csv")])
    assert refused.exit_code == 2
    assert "--dates day-first" in refused.stderr


def test_the_log_is_never_written_over(log: Path) -> None:
    """`--out` naming the log itself is refused before anything is written; her sets stay."""
    before = log.read_bytes()
    result = RUN.invoke(app, ["forecast", str(log), "--out", str(log)])
    assert result.exit_code == 2
    assert "is the log itself; name another file" in result.stderr
    assert log.read_bytes() == before


def test_a_place_that_cannot_be_written_is_one_sentence(log: Path, tmp_path: Path) -> None:
    """A missing folder behind `--out` is told with its path, and ends with exit status 2."""
    result = RUN.invoke(app, ["forecast", str(log), "--out", str(tmp_path / "none" / "f.csv")])
    assert result.exit_code == 2
    assert len(result.stderr.splitlines()) == 1
    assert "f.csv: the file cannot be written (no such file or directory)" in result.stderr


def test_likely_slips_are_told_beside_the_table(log: Path) -> None:
    """A name nearly the catalogue's and a load ten times the usual are named with their line."""
    text = log.read_text(encoding="utf-8").replace("my own lift", "bench_pres")
    log.write_text(text + "2024-01-09,a,1,bench_press,9,400,kg,2,,,61\n", encoding="utf-8")
    result = RUN.invoke(app, ["forecast", str(log), "--json"])
    assert result.exit_code == 0
    assert len(json.loads(result.stdout)) == len(ROWS) + 1
    told = result.stderr.splitlines()
    assert any("line 2" in one and "is “bench press” meant?" in one.casefold() for one in told)
    assert any("line 8" in one and "400" in one for one in told)


def test_names_and_units_are_said_as_for_the_import(tmp_path: Path) -> None:
    """--as and “lbs” give the forecasts of the plain file; what is wrong with them is told."""
    plain, own = tmp_path / "plain.csv", tmp_path / "own.csv"
    rows = "date,session,set,exercise,reps,load,rpe\n" + "".join(
        f"2024-01-0{day},a,1,NAME,10,90,8\n" for day in range(1, 6)
    )
    plain.write_text(rows.replace("NAME", "bench_press"))
    own.write_text(rows.replace("NAME", "Board thing"))
    wanted = RUN.invoke(app, ["forecast", str(plain), "--unit", "lb"])
    said = ["forecast", str(own), "--unit", "lbs", "--as", "Board thing=Bench press"]
    found = RUN.invoke(app, said)
    assert wanted.exit_code == found.exit_code == 0
    assert found.stdout == wanted.stdout
    assert "“rpe” is read as reps in reserve" in found.stderr
    assert "not in the catalogue" not in found.stderr
    assert '--as "Board thing=…"' in RUN.invoke(app, said[:4]).stderr
    assert "did you mean" in RUN.invoke(app, [*said[:-1], "Board thing=Bench pres"]).stderr
    assert "--unit: “stone” is not a unit" in RUN.invoke(app, [*said[:3], "stone"]).stderr


def test_the_same_log_has_the_same_forecasts_on_any_day(log: Path) -> None:
    """Moved by 400 years, after which the calendar repeats, no number changes."""
    before = RUN.invoke(app, ["forecast", str(log)])
    log.write_text(log.read_text().replace("2024-", "2424-"))
    after = RUN.invoke(app, ["forecast", str(log)])
    assert (before.exit_code, after.exit_code) == (0, 0)
    assert after.stdout.replace("2424-", "2024-") == before.stdout
    assert after.stderr.replace("2424-", "2024-") == before.stderr
