"""The commands of the gym, as typed: exit status, one sentence, one JSON document."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from pennate.cli.main import app

DATE = "2024-03-04"
"""A Monday."""
NEXT_WEEK = "2024-03-11"
FOLDER = Path(__file__).parent.parent.parent / "src" / "pennate" / "data"


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> str:
    """Records with a starter week and gym, taken in by the import command."""
    folder = tmp_path_factory.mktemp("export")
    (folder / "gyms").mkdir()
    (folder / "week.toml").write_text((FOLDER / "weeks" / "5_days.toml").read_text())
    (folder / "gyms" / "g.toml").write_text((FOLDER / "gyms" / "commercial_kg.toml").read_text())
    place = str(tmp_path_factory.mktemp("home"))
    assert _run("import", str(folder), data=place).exit_code == 0
    return place


def _run(*words: str, data: str) -> Result:
    return CliRunner().invoke(app, [*words, "--data", data])


def test_a_card_prints_every_set_with_its_load(home: str) -> None:
    """The card of Monday names load, plates, reps, reserve, rest and minutes."""
    done = _run("session", "Monday", "--date", DATE, data=home)
    assert done.exit_code == 0
    assert "Back squat, Bar at the rack" in done.stdout
    assert "20 kg bar, each side:" in done.stdout
    assert "one left" in done.stdout
    assert "rest 3:00" in done.stdout


def test_json_is_one_document_and_nothing_else(home: str) -> None:
    """Another program reads the card, its order and each set's quantiles."""
    done = _run("session", "Monday", "--date", DATE, "--json", data=home)
    card = json.loads(done.stdout)
    keys = [one["key"] for stop in card["stops"] for one in stop["sets"]]
    assert sorted(keys) == sorted(card["order"])
    working = [o for s in card["stops"] for o in s["sets"] if "to_failure_reps" in o]
    assert all(list(one["to_failure_reps"]) == _QUANTILES for one in working)
    assert working


def test_an_illness_is_said_on_the_command_line(home: str) -> None:
    """It is kept, told once on the card, and taken back; another word is refused with the words."""
    done = _run("session", "Monday", "--date", DATE, "--ill", "before", data=home)
    assert done.exit_code == 0
    assert done.stdout.count("ask your doctor") == 1
    assert "asing in after illness, day 1 of" in done.stdout
    again = _run("session", "Monday", "--date", DATE, data=home)
    assert again.stdout == done.stdout
    wrong = _run("session", "--ill", "fever", data=home)
    assert wrong.exit_code == 2
    assert "say now, before or no" in wrong.stderr
    over = _run("session", "Monday", "--date", DATE, "--ill", "no", data=home)
    assert "illness" not in over.stdout


_QUANTILES = ["p2.5", "p10", "p25", "p50", "p75", "p90", "p97.5"]


def test_log_goes_through_the_card_and_review_looks_back(home: str) -> None:
    """Sets are logged in order, the next one is named, and the review has a next time."""
    first = _run("log", "--reps", "8", "--day", "Monday", "--date", DATE, "--json", data=home)
    assert json.loads(first.stdout)["key"] == "0.1.1"
    top = _run(
        "log", "0.4.1", "--reps", "6", "--effort", "1", "--day", "Monday", "--date", DATE, data=home
    )
    assert top.stdout.startswith("Logged 0.4.1.")
    assert "Next: Back squat" in top.stdout
    looked = _run("review", "Monday", "--date", DATE, "--json", data=home)
    found = json.loads(looked.stdout)
    assert found["sets_done"] == 1
    assert found["next"]


@pytest.mark.parametrize(
    ("words", "status", "sentence"),
    [
        (("session", "Funday"), 2, "nothing is planned on “Funday”; one of: Monday"),
        (("session", "--date", "31.3.2026"), 2, "“31.3.2026” is not a date"),
        (("session", "Monday", "--minutes", "2"), 2, "2 minutes for a session"),
        (("log", "9.9.9", "--day", "Monday"), 2, "there is no set 9.9.9"),
        (("log", "--day", "Monday", "--date", "2999-03-02"), 2, "2999-03-02 is still to come"),
        (("log", "--effort", "hard", "--day", "Monday"), 2, "one of: fail, 0, 1"),
        (("review", "Munday"), 2, "nothing is planned on “Munday”; did you mean “Monday”?"),
        (("review", "Benchpress"), 2, 'is the exercise meant? pennate review --why "Bench press"'),
        (("review", "xyzzy"), 2, "nothing is planned on “xyzzy”; one of: Monday"),
        (("review", "--why", "squatt"), 2, "“squatt”; did you mean “Back squat”"),
        (("review", "Tuesday", "--date", DATE), 1, "no set of Tuesday is logged"),
    ],
)
def test_wrong_words_end_in_one_sentence(
    home: str, words: tuple[str, ...], status: int, sentence: str
) -> None:
    """Bad input ends with the agreed status and one clear sentence, never a traceback."""
    done = _run(*words, data=home)
    assert done.exit_code == status
    assert sentence in done.stderr
    assert "Traceback" not in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1


def test_an_empty_ledger_says_how_to_begin(tmp_path: Path) -> None:
    """Without a week the question has no answer yet, and the way to one is named."""
    done = _run("session", data=str(tmp_path))
    assert done.exit_code == 1
    assert "start page" in done.stderr


def test_why_says_what_an_estimate_rests_on(home: str) -> None:
    """`review --why` answers by any name, in words and as one document; a wrong name is told."""
    said = _run("review", "--why", "Squat", data=home)
    assert said.exit_code == 0
    assert said.stdout.startswith("Back squat")
    document = json.loads(_run("review", "--why", "Squat", "--json", data=home).stdout)
    assert document["words"][-1] in said.stdout
    wrong = _run("review", "--why", "no such thing", data=home)
    assert wrong.exit_code == 2
    assert "there is no exercise “no such thing”" in wrong.stderr


@pytest.fixture
def fresh(home: str, tmp_path: Path) -> str:
    """The same records, to be changed."""
    shutil.copytree(home, tmp_path / "fresh")
    return str(tmp_path / "fresh")


def test_pain_that_stops_an_exercise_is_told_with_its_rule(fresh: str) -> None:
    """Reason, rule, what is left out, the caution with its source: each once, before what is next.

    The rule and its source are those of docs/evidence.md: above 5 the exercise stops.
    """
    on = ("--day", "Monday", "--date", NEXT_WEEK)
    assert "Caution" not in _run("log", *on, data=fresh).stdout
    said = _run("log", *on, "--pain", "knee:6", data=fresh).stdout.splitlines()
    assert said[0] == "Logged 0.2.1."
    assert said[1].startswith("Knee 6 of 10: what loads it is left out today; if it lasts, see")
    assert said[2].startswith("Back squat, Leg extension: left out")
    assert "knee 6 of 10" in said[2]
    about = "Caution (Back squat, Leg extension): Your knee: pain above 5"
    stops = [one for one in said if one.startswith(about)]
    assert len(stops) == 1
    assert stops[0].endswith("stop this exercise today. [Silbernagel 2007; Thomeé 1997]")
    assert said[-1].startswith("Next: Hip thrust")
    assert not any("choose less bend" in one for one in said), "nothing on how to do what is out"
    after = _run("log", *on, data=fresh).stdout
    assert "Knee" not in after
    assert "ain above 5" not in after


def test_a_note_that_stops_an_exercise_says_so(fresh: str) -> None:
    """Without a number too the reason stands, and the card says it again."""
    on = ("--day", "Monday", "--date", NEXT_WEEK)
    said = _run("log", *on, "--note", "sharp pain in the hip", data=fresh).stdout
    assert "Back squat: left out today: sharp pain" in said
    assert "Pain above 5, or sharp" in said
    assert "left out today: sharp pain" in _run("session", *on[1:], data=fresh).stdout
    _run("log", *on, "--undo", data=fresh)
    assert "left out today" not in _run("session", *on[1:], data=fresh).stdout


def test_sharp_keeps_its_number_in_the_reason(fresh: str) -> None:
    """Two of ten that gives way stops all the same, and the reason says both."""
    on = ("--day", "Monday", "--date", NEXT_WEEK)
    said = _run("log", *on, "--pain", "knee:2", "--note", "gives way", data=fresh).stdout
    assert "left out until it has settled: knee 2 of 10, sharp, swelling" in said
    assert "Back squat" in said.split("left out until")[0].splitlines()[-1]


def test_milder_pain_and_a_warning_sign_are_told(fresh: str) -> None:
    """At 4 of 10 it goes on, lighter; a warning sign in a note brings its emergency line always."""
    on = ("--day", "Monday", "--date", NEXT_WEEK)
    milder = _run("log", *on, "--pain", "knee:4", data=fresh).stdout
    assert "Knee 4 of 10: what loads it is 20 % lighter today" in milder
    assert "Pain of 3 to 5 in your knee: reduce load, range or exercise now." in milder
    for _ in range(2):
        said = _run("log", *on, "--note", "chest pain", "--json", data=fresh)
        cautions = json.loads(said.stdout)["cautions"]
        assert "red_flags" in {one["id"] for one in cautions if one["emergency"]}


@pytest.mark.parametrize("said", ["mon", "MONDAY", "Mon.", "mo"])
def test_a_day_is_known_however_it_is_written(home: str, said: str) -> None:
    """Long or short, in any case, for the card and for what is logged on it."""
    assert _run("session", said, data=home).stdout.startswith("Monday · ")
    assert "no set of Thursday is logged" in _run("review", "thurs", data=home).stderr
