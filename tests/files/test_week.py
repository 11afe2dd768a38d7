"""The week file: round trip, and one clear sentence for everything that can be wrong."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from pennate.core.prescribed import LoadFrom, LoadRule, PlannedDay, Span, Week
from pennate.core.quantities import Mass
from pennate.errors import InputError
from pennate.files.catalogue import read_catalogue
from pennate.files.toml import MAX_BYTES
from pennate.files.week import read_week, render_week
from pennate.files.words import day_of, load_of, load_text, rest_of, rest_text, span_of, span_text
from tests.files.bad_weeks import BAD, HEAD, SETS, SQUAT
from tests.files.weeks import free_loads, shares, spans, weeks


def _complaint(text: str) -> str:
    with pytest.raises(InputError) as caught:
        read_week(text, read_catalogue(), name="week.toml")
    return str(caught.value)


def _outcome(text: str) -> Week | str:
    try:
        return read_week(text, read_catalogue(), name="week.toml")
    except InputError as problem:
        return str(problem)


@settings(
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(weeks())
@example(Week(name="", days=(PlannedDay(day="Sunday"),)))
def test_reading_what_was_written_gives_the_week(week: Week) -> None:
    """Parse, render, parse is the identity, for weeks of every shape and for texts of any sort."""
    text = render_week(week)
    again = read_week(text, read_catalogue())
    assert again == week
    assert render_week(again) == text


@given(spans(0, 900))
def test_ranges_round_trip(span: Span) -> None:
    """A range reads back as it was, open-ended ones too."""
    assert span_of(span_text(span)) == span


@given(st.one_of(free_loads, shares(LoadFrom.OF_TOP), shares(LoadFrom.OF_PREVIOUS)))
def test_loads_round_trip(rule: LoadRule) -> None:
    """A load reads back exactly, fractions of a kilogram and of a per cent included."""
    again = load_of(load_text(rule))
    assert again == rule
    assert (again.mass and again.mass.unit) == (rule.mass and rule.mass.unit)


@given(st.integers(0, 3600))
def test_rests_round_trip(seconds: int) -> None:
    """A rest reads back to the second."""
    assert rest_of(rest_text(seconds)) == seconds


@pytest.mark.parametrize(
    ("text", "seconds"), [("2:30", 150), ("90 s", 90), (90, 90), ("2 min", 120), ("1,5 min", 90)]
)
def test_rests_as_people_write_them(text: object, seconds: int) -> None:
    """Clock, seconds and minutes are all understood."""
    assert rest_of(text) == seconds


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        ("57.5 kg", LoadRule(LoadFrom.FIXED, mass=Mass.kg("57.5"))),
        ("57,5kg", LoadRule(LoadFrom.FIXED, mass=Mass.kg("57.5"))),
        ("−20 kg", LoadRule(LoadFrom.FIXED, mass=Mass.kg(-20))),
        ("+2.5 lbs", LoadRule(LoadFrom.FIXED, mass=Mass.lb("2.5"))),
        ("Body weight", LoadRule(LoadFrom.BODY_WEIGHT)),
        ("forecast", LoadRule()),
    ],
)
def test_loads_as_people_write_them(text: str, rule: LoadRule) -> None:
    """Comma and point, minus sign and hyphen, kg and lbs are all understood."""
    assert load_of(text) == rule


def test_days_by_their_first_letters() -> None:
    """“mon” is Monday; “T” could be two days and is not guessed."""
    assert day_of("mon") == "Monday"
    with pytest.raises(InputError, match="not a day of the week"):
        day_of("T")


def test_shown_names_become_ids() -> None:
    """The names lifters say are accepted, and written back as ids."""
    week = read_week(f'{HEAD}[[day.exercise]]\nexercise = "Back squat"\n{SETS}', read_catalogue())
    assert week.days[0].exercises[0].exercise == "back_squat_free"
    assert 'exercise = "back_squat_free"' in render_week(week)


def test_tables_and_inline_tables_say_the_same() -> None:
    """Sets may be written as tables of their own or as rows of a list."""
    table = '[[day.exercise.sets]]\nsets = 3\nreps = "8-12"\n'
    read = [read_week(HEAD + SQUAT + sets, read_catalogue()) for sets in (SETS, table)]
    assert read[0] == read[1]


def test_days_come_in_the_order_of_the_week() -> None:
    """The file may name days in any order."""
    text = f'{HEAD}[[day]]\nday = "Sunday"\n[[day]]\nday = "Friday"\n'
    assert [day.day for day in read_week(text, read_catalogue()).days] == [
        "Monday",
        "Friday",
        "Sunday",
    ]


@pytest.mark.parametrize(("text", "sentence"), BAD.values(), ids=BAD)
def test_bad_input_is_one_clear_sentence(text: str, sentence: str) -> None:
    """Each slip names file, line, field and remedy, on one line."""
    told = _complaint(text)
    assert sentence in told
    assert told.startswith("week.toml")
    assert "\n" not in told


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("name = “é”".encode("latin-1", "replace") + b"\xe9", "is not UTF-8"),
        (b"#" * (MAX_BYTES + 1), "at most 1 MB is read"),
    ],
    ids=["not UTF-8", "huge"],
)
def test_wrong_files(tmp_path: Path, content: bytes, says: str) -> None:
    """A file that is no text, or far too large, is refused in a sentence."""
    path = tmp_path / "week.toml"
    path.write_bytes(content)
    with pytest.raises(InputError, match=says):
        read_week(path, read_catalogue())


PRACTICES = (Path(__file__).parent / "practices.toml").read_text(encoding="utf-8")
_positions = st.integers(0, len(PRACTICES) - 1)
_junk = st.sampled_from(["", '"', "[", "]", "{", "=", "9", "-", "\n", "x", " kg", "\\", "\x00"])


@settings(deadline=None, max_examples=150)
@given(_positions, _junk, st.integers(0, 3))
def test_damage_never_ends_in_a_traceback(place: int, junk: str, cut: int) -> None:
    """However a file is damaged, it reads as a week or tells one sentence."""
    damaged = PRACTICES[:place] + junk + PRACTICES[place + cut :]
    outcome = _outcome(damaged)
    if isinstance(outcome, str):
        assert outcome.startswith("week.toml")
    else:
        assert read_week(render_week(outcome), read_catalogue()) == outcome


_VALUES = ("1", '"x"', "true", "2026-01-01", "[]", "{}", "[[1]]", "nan", "[{ x = 1 }]", "-7")
_KEYS = ("name", "priorities", "targets", "liked", "exercise", "day", "gym", "note")


@pytest.mark.parametrize("key", _KEYS)
def test_values_of_any_type_are_answered(key: str) -> None:
    """A value of any TOML type under any key is read or refused, never a traceback."""
    for value, inner in itertools.product(_VALUES, ("", f"{key} = ")):
        text = f"{key} = {value}\n" if not inner else f"{HEAD}{inner}{value}\n"
        outcome = _outcome(text)
        assert isinstance(outcome, Week) or outcome.startswith("week.toml")
