"""`pennate growth` and `pennate weight` as outsiders call them."""

from __future__ import annotations

import json
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from pennate.cli.main import app

FIRST = date(2024, 1, 5)
"""Long past by any clock."""
MEASURES = """date,site,side,girth_cm,girth2_cm,girth3_cm,skinfold_mm,state,body_mass_kg
2024-01-05,thigh,left,55.0,55.3,54.9,18,relaxed,65.2
2024-01-05,thigh,right,55.4,55.6,55.5,18,relaxed,65.2
2024-01-05,waist,,70.1,70.4,,,,65.2
2024-03-16,thigh,left,57.6,57.4,57.7,17.5,relaxed,65.9
2024-03-16,thigh,right,55.6,55.5,55.4,18,relaxed,65.9
"""
KEYS = {
    "site",
    "side",
    "from",
    "to",
    "verdict",
    "p_more",
    "p_same",
    "p_less",
    "change_cm",
    "low95",
    "high95",
    "detectable_cm",
    "correction",
    "next_reading",
}


def run(*words: str) -> Result:
    """The outcome of a command."""
    return CliRunner().invoke(app, list(words))


@pytest.fixture
def measures(tmp_path: Path) -> Path:
    """A file of two dates."""
    path = tmp_path / "measures.csv"
    path.write_text(MEASURES, encoding="utf-8")
    return path


def log_of(folder: Path, exercise: str, sessions: int) -> Path:
    """A training log with so many sessions of an exercise from the first date on."""
    rows = [
        f"{FIRST + timedelta(days=3 * i)},a,{s},{exercise},60,kg,10"
        for i in range(sessions)
        for s in (1, 2)
    ]
    path = folder / "log.csv"
    header = "date,session,set,exercise,load,unit,reps\n"
    path.write_text(header + "\n".join(rows) + "\n", encoding="utf-8")
    return path


def test_growth_follows_the_contract(measures: Path) -> None:
    """Every key of the contract, words from its list, chances that sum to one."""
    result = run("growth", str(measures), "--json")
    sites = json.loads(result.stdout)["sites"]
    assert result.exit_code == 0
    assert [(one["site"], one["side"]) for one in sites] == [("thigh", "left"), ("thigh", "right")]
    for one in sites:
        assert set(one) >= KEYS
        assert one["verdict"] in {"growing", "holding", "losing", "cannot tell yet"}
        assert one["p_more"] + one["p_same"] + one["p_less"] == pytest.approx(1, abs=1e-3)
        assert (one["from"], one["to"]) == ("2024-01-05", "2024-03-16")


def test_growth_in_words(measures: Path) -> None:
    """Without JSON each site is a sentence."""
    assert "Left thigh: growing" in run("growth", str(measures)).stdout


@pytest.mark.parametrize(("days", "old"), [(0, False), (27, False), (28, True), (400, True)])
def test_old_readings_are_told_as_old(tmp_path: Path, days: int, *, old: bool) -> None:
    """Dates to come that count from a reading of last year are no dates of hers."""
    last = datetime.now().astimezone().date() - timedelta(days=days)
    first = last - timedelta(days=70)
    girths, scale = tmp_path / "girths.csv", tmp_path / "weights.csv"
    girths.write_text(f"date,site,girth_cm\n{first},waist,70\n{last},waist,71\n")
    scale.write_text(f"date,kg\n{first},65\n{last},66\n")
    for said in (run("growth", str(girths)).stdout, run("weight", str(scale)).stdout):
        assert said.startswith(f"The last reading is from {last:%-d %B %Y}, ") is old
        assert said.count("weeks ago") == old


def test_a_log_counts_sessions(measures: Path, tmp_path: Path) -> None:
    """With a log, strength and sets appear as support with their weight."""
    log = log_of(tmp_path, "leg_extension", 20)
    result = run("growth", str(measures), "--log", str(log), "--json")
    support = json.loads(result.stdout)["sites"][0]["support"]
    assert [item["source"] for item in support] == ["time", "strength", "dose"]


def test_one_date_has_no_answer(tmp_path: Path) -> None:
    """Fewer than two dates: status 1, reason and what is needed as JSON."""
    path = tmp_path / "m.csv"
    path.write_text("".join(MEASURES.splitlines(keepends=True)[:3]), encoding="utf-8")
    result = run("growth", str(path), "--json")
    assert result.exit_code == 1
    assert json.loads(result.stdout)["nearest"]["needed"] == 2


def test_a_wrong_file_is_status_two(tmp_path: Path) -> None:
    """One sentence on standard error with line and field, nothing on standard output."""
    path = tmp_path / "m.csv"
    path.write_text(MEASURES.replace("55.0", "550"), encoding="utf-8")
    result = run("growth", str(path), "--json")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "m.csv, line 2, girth_cm" in result.stderr


def test_the_same_file_has_the_same_answer_on_any_day(measures: Path, tmp_path: Path) -> None:
    """Moved by 400 years, after which the calendar repeats, every number of it stays."""
    log, weights = log_of(tmp_path, "leg_extension", 20), tmp_path / "w.csv"
    weights.write_text("date,kg\n2024-01-05,65\n2024-01-15,65.4\n2024-01-25,65.3\n")
    asked = (
        ("growth", str(measures), "--log", str(log), "--json"),
        ("weight", str(weights), "--json"),
    )
    past = [run(*words) for words in asked]
    for path in (measures, log, weights):
        path.write_text(path.read_text().replace("2024-", "2424-"))
    for before, after in zip(past, (run(*words) for words in asked), strict=True):
        assert (before.exit_code, after.exit_code) == (0, 0)
        assert "2424-" in after.stdout
        assert after.stdout.replace("2424-", "2024-") == before.stdout
        assert after.stderr == before.stderr


def test_a_filler_for_no_day_is_a_sentence(measures: Path, tmp_path: Path) -> None:
    """The calendar ends soon after 9999-12-31, so no next reading could be named."""
    late, weights = tmp_path / "late.csv", tmp_path / "w.csv"
    late.write_text(MEASURES.replace("2024-03-16", "9999-12-31"), encoding="utf-8")
    weights.write_text("date,kg\n2024-01-05,65\n9999-12-31,65\n", encoding="utf-8")
    log = log_of(tmp_path, "leg_extension", 20)
    log.write_text(log.read_text().replace(str(FIRST), "9999-12-31"), encoding="utf-8")
    for words in (("growth", late), ("growth", measures, "--log", log), ("weight", weights)):
        result = run(*(str(word) for word in words))
        assert (result.exit_code, result.stdout) == (2, "")
        assert "the year 9999 is no year to count from" in result.stderr


def test_weight_follows_the_contract(tmp_path: Path) -> None:
    """Trend, slope with interval, four forecasts with deciles."""
    path = tmp_path / "w.csv"
    rows = [f"{FIRST + timedelta(days=d)},{65 - 0.05 * d:.2f}" for d in range(60)]
    path.write_text("date,kg\n" + "\n".join(rows) + "\n", encoding="utf-8")
    found = json.loads(run("weight", str(path), "--json").stdout)
    assert found["low95"] < -0.35 < found["high95"] < 0
    assert [ahead["weeks"] for ahead in found["forecast"]] == [1, 2, 3, 4]
    assert all(a["p10"] < a["p50"] < a["p90"] for a in found["forecast"])
    assert "kg a week" in run("weight", str(path)).stdout


def test_weight_of_one_day_has_no_answer(tmp_path: Path) -> None:
    """One weighing: status 1."""
    path = tmp_path / "w.csv"
    path.write_text("date,kg\n2024-01-05,65\n", encoding="utf-8")
    assert run("weight", str(path), "--json").exit_code == 1


def test_no_share_of_fat_is_stated(measures: Path, tmp_path: Path) -> None:
    """Nothing the commands print names a share of fat in the body."""
    path = tmp_path / "w.csv"
    path.write_text("date,kg\n2024-01-05,65\n2024-01-09,65.2\n", encoding="utf-8")
    said = run("growth", str(measures), "--json").stdout + run("weight", str(path)).stdout
    assert "body fat" not in said.casefold()
    assert "fat_percent" not in said
