"""`pennate share`: what it writes, what it says, and how it complains."""

from __future__ import annotations

import json
import shutil
import struct
from pathlib import Path

import pytest
from typer.testing import CliRunner

from pennate.app.demo import make_demo
from pennate.cli.main import app
from pennate.files.week_text import render_week
from tests.app.passing import PRIVATE_WEEK, WEEKS
from tests.web.conftest import Clock

FEW_WEEKS = 3
MISTYPED = """
[[day]]
day = "Monday"
[[day.exercise]]
exercise = "bench pres"
sets = [{ sets = 3, reps = "8" }]
"""


def share(*words: str | Path) -> tuple[int, str, str]:
    """Exit status, standard output and standard error of one call."""
    result = CliRunner().invoke(app, ["share", *map(str, words)])
    return result.exit_code, result.stdout, result.stderr


def test_it_writes_one_page_and_says_so(tmp_path: Path) -> None:
    """One file, whole in itself, and a line that names it."""
    out = tmp_path / "page.html"
    status, said, _ = share(WEEKS / "3_days.toml", "--out", out)
    assert status == 0
    assert said.startswith(f"{out}: Three days, whole body, 3 days")
    assert [one.name for one in tmp_path.iterdir()] == ["page.html"]


def test_page_and_sheet_come_from_one_call(tmp_path: Path) -> None:
    """Both are written where both are named, and the sheet alone where only it is."""
    page, sheet = tmp_path / "page.html", tmp_path / "sheet.html"
    status, said, _ = share(WEEKS / "3_days.toml", "--out", page, "--sheet", sheet, "--json")
    assert status == 0
    assert (json.loads(said)["page"], json.loads(said)["sheet"]) == (str(page), str(sheet))
    both = sheet.read_text(encoding="utf-8")
    page.unlink()
    assert share(WEEKS / "3_days.toml", "--sheet", sheet)[0] == 0
    assert sheet.read_text(encoding="utf-8") == both
    assert not page.exists()


@pytest.mark.parametrize("option", ["--out", "--sheet", "--calendar", "--picture"])
def test_her_week_is_never_written_over(tmp_path: Path, option: str) -> None:
    """Whichever option names the week file itself, it is refused and the file stays as it was."""
    week = tmp_path / "week.toml"
    shutil.copy(WEEKS / "3_days.toml", week)
    status, _, said = share(week, option, week, "--day", "Monday")
    assert status == 2
    assert f"{option} {week} is the week itself; name another file" in said
    assert week.read_bytes() == (WEEKS / "3_days.toml").read_bytes()


def test_two_things_are_never_written_into_one_file(tmp_path: Path) -> None:
    """The sheet would take the page's place unseen; nothing is written, and it says so."""
    both = tmp_path / "both.html"
    status, _, said = share(WEEKS / "3_days.toml", "--out", both, "--sheet", tmp_path / "." / both)
    assert status == 2
    assert "is the file of --out too; name another file" in said
    assert not both.exists()


def test_the_calendar_begins_when_told(tmp_path: Path) -> None:
    """The file’s line ends stay as the standard has them, and its first day is the one asked."""
    out = tmp_path / "week.ics"
    status, _, _ = share(WEEKS / "3_days.toml", "--calendar", out, "--from", "2026-12-07")
    assert status == 0
    assert b"DTSTART;VALUE=DATE:20261207\r\n" in out.read_bytes()
    assert b"\r\r" not in out.read_bytes()


def test_a_date_that_is_none_is_said(tmp_path: Path) -> None:
    """A mistyped beginning is exit 2 with an example, and nothing is written."""
    out = tmp_path / "week.ics"
    status, _, complaint = share(WEEKS / "3_days.toml", "--calendar", out, "--from", "7.12.")
    assert status == 2
    assert "like 2026-03-31" in complaint
    assert not out.exists()


def test_the_picture_of_a_day(tmp_path: Path) -> None:
    """A PNG of the size that is told (its header, PNG 11.2.2), with its words beside it."""
    out = tmp_path / "day.png"
    status, said, _ = share(WEEKS / "3_days.toml", "--picture", out, "--day", "wed", "--json")
    content = out.read_bytes()
    assert status == 0
    assert content[:8] == b"\x89PNG\r\n\x1a\n"
    assert struct.unpack(">II", content[16:24]) == (1080, 1350)
    assert json.loads(said)["picture"] == str(out)
    assert "Overhead press" in json.loads(said)["picture_words"]


@pytest.mark.parametrize(("day", "said"), [("", "no day is named"), ("tue", "on Tuesday")])
def test_a_picture_needs_a_day_that_is_trained(tmp_path: Path, day: str, said: str) -> None:
    """Without one, or on a day of rest, the days are offered and nothing is written."""
    out = tmp_path / "day.png"
    status, _, complaint = share(WEEKS / "3_days.toml", "--picture", out, "--day", day)
    assert status == 2
    assert said in complaint
    assert "Monday, Wednesday, Friday" in complaint
    assert not out.exists()


def test_a_picture_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    """A folder that is not there is one sentence, not a traceback."""
    out = tmp_path / "no" / "day.png"
    status, _, complaint = share(WEEKS / "3_days.toml", "--picture", out, "--day", "mon")
    assert status == 2
    assert "cannot be written" in complaint


def test_json_names_page_days_and_what_was_left_out(tmp_path: Path) -> None:
    """One document and nothing else; it tells what was left out and why."""
    week = tmp_path / "week.toml"
    week.write_text(PRIVATE_WEEK, encoding="utf-8")
    status, said, _ = share(week, "--out", tmp_path / "page.html", "--json")
    told = json.loads(said)
    assert status == 0
    assert told["days"] == ["Monday"]
    assert told["name"] == "A routine"
    assert any("surgery" in line for line in told["left_out"])


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (MISTYPED, "bench pres"),
        ("this is no week", "line 1"),
    ],
)
def test_wrong_input_is_one_sentence(tmp_path: Path, text: str, said: str) -> None:
    """A week that cannot be read is exit 2 with its place, and no page is written."""
    week = tmp_path / "week.toml"
    week.write_text(text, encoding="utf-8")
    status, _, complaint = share(week, "--out", tmp_path / "page.html")
    assert status == 2
    assert said in complaint
    assert complaint.count("\n") == 1
    assert not (tmp_path / "page.html").exists()


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("wek.toml", "wek.toml: the file cannot be read (no such file or directory); did you mean"),
        ("mine/week.toml", "week.toml: the file cannot be read (no such file or directory)"),
        ("", "the file cannot be read (is a directory); name a file in it"),
    ],
)
def test_a_missing_week_is_told_with_one_that_is_there(
    tmp_path: Path, written: str, said: str
) -> None:
    """A path typed wrong, in its file or its folder, is answered with the one probably meant."""
    week = tmp_path / "mines" / "week.toml"
    week.parent.mkdir()
    week.write_text(MISTYPED, encoding="utf-8")
    asked = week.parent / written if written != "mine/week.toml" else tmp_path / written
    status, _, complaint = share(asked, "--out", tmp_path / "page.html")
    assert (status, complaint.count("\n")) == (2, 1)
    assert said in complaint
    assert (f"did you mean “{week}”?" in complaint) is bool(written)


def test_a_week_of_rest_has_no_answer(tmp_path: Path) -> None:
    """Nothing planned is exit 1 with the reason, also as JSON."""
    week = tmp_path / "week.toml"
    week.write_text('[[day]]\nday = "Monday"\nfocus = "rest"\n', encoding="utf-8")
    status, said, complaint = share(week, "--out", tmp_path / "page.html", "--json")
    assert status == 1
    assert json.loads(said)["reason"] == complaint.strip()
    assert not (tmp_path / "page.html").exists()


def test_without_a_file_to_write_it_says_what_to_add() -> None:
    """A call that names no output is exit 2 and names the option."""
    status, _, complaint = share(WEEKS / "3_days.toml")
    assert status == 2
    assert "--out page.html" in complaint


def test_a_folder_that_is_not_there_is_said(tmp_path: Path) -> None:
    """Where the page cannot be written, one sentence says so."""
    status, _, complaint = share(WEEKS / "3_days.toml", "--out", tmp_path / "no" / "page.html")
    assert status == 2
    assert "cannot be written" in complaint


def test_her_records_change_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With a full ledger at hand the page is, byte for byte, that of the week file alone."""
    book = make_demo(tmp_path / "demo", Clock(), weeks=FEW_WEEKS)
    week = tmp_path / "week.toml"
    planned = book.week()
    assert planned is not None
    week.write_text(render_week(planned), encoding="utf-8")
    assert book.history()
    book.close()
    monkeypatch.setenv("PENNATE_HOME", str(tmp_path / "demo"))
    assert share(week, "--out", tmp_path / "with.html")[0] == 0
    shutil.rmtree(tmp_path / "demo")
    assert share(week, "--out", tmp_path / "without.html")[0] == 0
    page = (tmp_path / "with.html").read_text(encoding="utf-8")
    assert page == (tmp_path / "without.html").read_text(encoding="utf-8")
