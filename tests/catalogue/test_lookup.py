"""Looking exercises and constants up, in the package and at the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typer.testing import CliRunner

from pennate.app.catalogue import catalogue_for, exercise_document, find_constants, search
from pennate.cli.main import app
from pennate.core.exercise import Exercise
from pennate.errors import NoAnswerError
from pennate.files.catalogue import read_catalogue

CATALOGUE = read_catalogue()
RUN = CliRunner()


def found(query: str) -> list[str]:
    """Ids a query finds, in order."""
    return [one.id for one in search(CATALOGUE, query)]


@pytest.mark.parametrize("exercise", CATALOGUE.exercises.values(), ids=lambda one: one.id)
def test_every_name_finds_its_exercise_first(exercise: Exercise) -> None:
    """Id, shown name and all other names lead to the exercise."""
    for name in (exercise.id, exercise.name, *exercise.other_names):
        assert exercise.id in found(name)[:2], name


@pytest.mark.parametrize(
    ("query", "first"),
    [
        ("bss", "rear_foot_elevated_split_squat"),
        ("RDL", "romanian_deadlift"),
        ("leg pres", "leg_press"),
        ("squat smith", "guided_bar_squat"),
        ("  Smith   squat ", "guided_bar_squat"),
    ],
)
def test_words_of_the_gym(query: str, first: str) -> None:
    """Abbreviations, beginnings of words, any order of words."""
    assert found(query)[0] == first


def test_a_muscle_lists_those_that_train_it_most_first() -> None:
    """A muscle finds what gives it half a set or more, whole sets first."""
    ids = found("hamstrings")
    weights = [
        max((float(w) for p, w in CATALOGUE[one].weights().items() if p == "hamstrings"), default=0)
        for one in ids
    ]
    assert weights[0] == 1
    assert weights == sorted(weights, reverse=True)
    assert "back_squat_free" not in ids


def test_several_words_narrow_down() -> None:
    """Muscle and equipment together."""
    ids = found("triceps bands")
    assert "triceps_pushdown" in ids
    assert "lying_triceps_extension" not in ids
    assert "leg_extension" not in ids


def test_nothing_fits_offers_the_nearest() -> None:
    """A misspelt name is answered with the likely ones."""
    with pytest.raises(NoAnswerError, match="Bulgarian split squat") as problem:
        search(CATALOGUE, "bulgerian split sqat")
    assert "Bulgarian split squat" in str(problem.value.nearest)


@given(st.text(max_size=30))
def test_any_text_is_answered_or_refused_in_words(query: str) -> None:
    """No query breaks the search."""
    try:
        answer = [one.name for one in search(CATALOGUE, query)]
    except NoAnswerError as problem:
        answer = [problem.reason]
    assert all(answer)
    assert answer


def test_documents_are_plain_json() -> None:
    """Every exercise survives the way through JSON unchanged."""
    for one in CATALOGUE.exercises.values():
        document = exercise_document(one)
        assert json.loads(json.dumps(document)) == document


def test_exercises_as_json() -> None:
    """`--json` prints one document and nothing else; weights are those of the table."""
    result = RUN.invoke(app, ["exercises", "leg_extension", "--json"])
    assert result.exit_code == 0
    document = json.loads(result.stdout)
    assert document[0]["muscles"]["rectus_femoris"]["weight"] == 1


def test_all_exercises_are_listed() -> None:
    """Without a query the whole catalogue is printed, and counted."""
    result = RUN.invoke(app, ["exercises"])
    assert result.exit_code == 0
    assert result.stdout.splitlines()[-1] == f"{len(CATALOGUE)} exercises"


def test_one_exercise_is_told_in_full() -> None:
    """One match shows muscles, joints, share of body mass, safety and cue."""
    text = RUN.invoke(app, ["exercises", "chin_up"]).stdout
    for words in ("lats 1", "shoulder 2", "96 % (women)", CATALOGUE["chin_up"].cue):
        assert words in text


def test_an_unknown_exercise_exits_one_with_the_nearest() -> None:
    """The question has no answer: exit 1, one sentence, and the reason in JSON."""
    result = RUN.invoke(app, ["exercises", "lat puldown", "--json"])
    assert result.exit_code == 1
    assert "Lat pulldown" in json.loads(result.stdout)["nearest"]["exercises"]
    assert result.stderr.count("\n") == 1


def test_own_exercises_of_a_week_are_found(tmp_path: Path) -> None:
    """`--week` adds what the lifter made herself."""
    path = tmp_path / "week.toml"
    path.write_text(
        'name = "mine"\n[[day]]\nday = "Monday"\n[[exercise]]\nname = "Cable Y raise"\n'
        'equipment = "cable"\nmuscles = { "side shoulder" = 1 }\n',
        encoding="utf-8",
    )
    assert [one.id for one in search(catalogue_for(path), "y raise")] == ["cable_y_raise"]


def test_evidence_by_name_and_by_use() -> None:
    """An exact name gives one constant; a word gives all that mention it."""
    assert [one.name for one in find_constants("dose.drop_credit")] == ["dose.drop_credit"]
    assert len(find_constants("drop")) > 1
    with pytest.raises(NoAnswerError, match=r"dose\.drop_credit"):
        find_constants("dose.dropcredit")


def test_evidence_as_json_is_complete() -> None:
    """Every constant with value, unit, range, status, source, use and what is contested."""
    result = RUN.invoke(app, ["evidence", "--json"])
    documents = json.loads(result.stdout)
    assert len(documents) == len(find_constants())
    keys = {"name", "value", "unit", "low", "high", "status", "source", "used_for", "contested"}
    assert all(set(document) == keys for document in documents)


def test_evidence_in_words() -> None:
    """Plain output names source and dispute."""
    text = RUN.invoke(app, ["evidence", "dose.drop_credit"]).stdout
    assert "source" in text
    assert "contested" in text


@pytest.mark.parametrize(
    ("words", "remedy"),
    [
        (("exercises", "dumbels chest"), "did you mean “dumbbells chest”?"),
        (("exercises", "hipp"), "did you mean “hip”? nearest: Hip adduction, Hip thrust"),
        (("exercises", "zzzz"), "try a muscle like glutes"),
        (("evidence", "protien"), "did you mean “protein”?"),
        (("evidence", "zzzz"), "pennate evidence lists all"),
    ],
)
def test_a_word_without_a_hit_is_given_a_remedy(words: tuple[str, ...], remedy: str) -> None:
    """One sentence with the word likely meant, else with where to look; status 1, no answer."""
    result = RUN.invoke(app, list(words))
    assert result.exit_code == 1
    assert remedy in result.stderr
    assert len(result.stderr.strip().splitlines()) == 1
