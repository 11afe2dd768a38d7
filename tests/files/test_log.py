"""The training log of the contract: read whole or refused in a sentence, and it reads back."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings

from pennate.core.performed import Effort, PerformedSet, SetKind, Side
from pennate.core.quantities import KG_PER_LB, LoadReading, Unit
from pennate.errors import InputError
from pennate.files.catalogue import read_catalogue
from pennate.files.csv_text import MAX_BYTES
from pennate.files.log import LogFile, read_log, write_log
from pennate.files.log_cells import meant_by

from .sets_made import EXERCISES, logs

CATALOGUE = read_catalogue()
TODAY = date(2026, 3, 31)


def read(text: str | bytes, **options: object) -> LogFile:
    """Read a log given as text."""
    data = text.encode() if isinstance(text, str) else text
    return read_log(data, CATALOGUE, today=TODAY, **options)  # type: ignore[arg-type]  # passed on


def rows(*lines: str, header: str = "date,session,set,exercise,load,unit,reps") -> str:
    """A log of a header and rows."""
    return "\n".join((header, *lines)) + "\n"


def refusal(text: str | bytes, **options: object) -> str:
    """The sentence with which a log is refused."""
    with pytest.raises(InputError) as caught:
        read(text, **options)
    assert caught.value.exit_status == 2
    return str(caught.value)


def test_the_exercises_of_these_tests_exist() -> None:
    """The catalogue knows the ids used here."""
    assert all(exercise in CATALOGUE for exercise in EXERCISES)


def test_the_required_columns_are_enough() -> None:
    """Date, session, set, exercise and reps make a set; the rest takes its usual value."""
    (done,) = read(
        rows("2026-03-02,A,1,hip_thrust,8", header="date,session,set,exercise,reps")
    ).rows
    assert (done.kind, done.reading, done.load, done.effort) == (
        SetKind.WORKING, LoadReading.TOTAL, None, None,
    )  # fmt: skip


def test_every_column_of_the_contract() -> None:
    """One row that says everything, each cell typed."""
    header = (
        "id,date,session,set,exercise,kind,load,unit,reps,rir,rest_s,seconds,side,load_is,group,"
        "round,equipment,variant,style,aids,pain,as_asked,body_mass_kg,settings,note,Mood"
    )
    line = (
        "r1,2026-03-02T18:05,A,3,hip_thrust,top,-17.5,lb,6,4-5,90,12.5,left,each,s1,"
        "2,belt squat 1,wide,slow,straps; cuff,knee:3;lower back:0,1,62.4,seat 4,“ok, fine”,7/10"
    ).replace("“ok, fine”", '"ok, fine"')
    (done,) = read(rows(line, header=header)).rows
    assert done == PerformedSet(
        id="r1", when=datetime.fromisoformat("2026-03-02T18:05"), session="A", number=3,
        exercise="hip_thrust", kind=SetKind.TOP, load=Fraction(-35, 2), unit=Unit.LB, reps=6,
        effort=Effort.FOUR_FIVE, rest_s=Fraction(90), seconds=Fraction(25, 2), side=Side.LEFT,
        reading=LoadReading.EACH, group="s1", round=2, equipment="belt squat 1", variant="wide",
        style="slow", aids=("straps", "cuff"), pain={"knee": 3, "lower back": 0}, as_asked=True,
        body_mass_kg=Fraction("62.4"), settings="seat 4", note="ok, fine", extra={"Mood": "7/10"},
    )  # fmt: skip


def _plain(sets: Sequence[PerformedSet]) -> list[PerformedSet]:
    """Sets without unknown cells that say nothing."""
    return [
        replace(done, extra={key: value for key, value in done.extra.items() if value})
        for done in sets
    ]


@settings(deadline=None)
@given(logs())
def test_written_and_read_is_the_same(sets: list[PerformedSet]) -> None:
    """Export then import loses and doubles nothing, unknown columns included."""
    once = write_log(sets)
    back = read(once).rows
    assert _plain(back) == _plain(sets)
    assert write_log(back) == once


@pytest.mark.parametrize("word", [*Effort, *(e.value.replace("-", "–") for e in Effort)])
def test_every_word_of_effort(word: str) -> None:
    """The words of the contract, with either dash."""
    text = rows(f"2026-03-02,A,1,hip_thrust,8,{word}", header="date,session,set,exercise,reps,rir")
    assert read(text).rows[0].effort == Effort(word.replace("–", "-"))


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "empty"),
        (b"\xef\xbb\xbf", "empty"),
        (b"\n\n", "empty"),
        (b"date,session,set,exercise,reps\n", "no set"),
        (b"2026-03-02,A,1,hip_thrust,8\n", "not a header"),
        (b"date;session;set;exercise;reps\n", "no set"),
        (b"date;session;set;exercise;reps\n2026-03-02;A;1;x;8;9\n", "a semicolon in a note"),
        (b"date|session|set|exercise|reps\n2026-03-02|A|1|hip_thrust|8\n", "separated by bars"),
        (b"date,session,set,exercise,reps\n2026-03-02,B\xe4r,1,x,8", "line 2: the text is not"),
        ("date,session".encode("utf-16"), "UTF-16"),
        (b"PK\x03\x04rest", "spreadsheet"),
        (b'date,session,set,exercise,reps\n2026-03-02,"A,1,hip_thrust,8\n', "quotation mark"),
        (b"date,session,set,exercise,repetitions\n", "lacks reps"),
        (b"date,session,set,exercise,reps,reps\n", "twice"),
        (b"date,session,set,exercise,reps\n2026-03-02,A,1,hip_thrust\n", "cut off"),
        (b"date,session,set,exercise,reps\n2026-03-02,A,1,hip_thrust,8,9\n", "comma"),
        (b"date,session,set,exercise,reps,\n2026-03-02,A,1,hip_thrust,8,9\n", "no column name"),
    ],
)  # fmt: skip
def test_what_is_no_such_table_is_refused(data: bytes, words: str) -> None:
    """One clear sentence that names the likely slip."""
    assert words in refusal(data)


@pytest.mark.parametrize(
    ("line", "field", "words"),
    [
        ("31.03.2026,A,1,hip_thrust,40,kg,8", "date", "--dates day-first"),
        ("2026-02-30,A,1,hip_thrust,40,kg,8", "date", "not a date"),
        ("2026-03-02,,1,hip_thrust,40,kg,8", "session", "missing"),
        ("2026-03-02,A,1,hip_thrust,40,kg,3x8", "reps", "a row for each"),
        ("2026-03-02,A,1,hip_thrust,40,kg,8/7/6", "reps", "a row for each"),
        ("2026-03-02,A,0,hip_thrust,40,kg,8", "set", "from 1"),
        ("2026-03-02,A,one,hip_thrust,40,kg,8", "set", "whole number"),
        ("2026-03-02,A,1,hip_thrusts,40,kg,8", "exercise", "“hip_thrust”"),
        ("2026-03-02,A,1,hip_thrust,heavy,kg,8", "load", "not a number"),
        ("2026-03-02,A,1,hip_thrust,nan,kg,8", "load", "not a number"),
        ("2026-03-02,A,1,hip_thrust,1/0,kg,8", "load", "not a number"),
        ("2026-03-02,A,1,hip_thrust,40,,8", "unit", "--unit"),
        ("2026-03-02,A,1,hip_thrust,40,stone,8", "unit", "one of kg, lb"),
        ("2026-03-02,A,1,hip_thrust,40,kg,", "reps", "missing"),
        ("2026-03-02,A,1,hip_thrust,40,kg,8.5", "reps", "whole number"),
        ("2026-03-02,A,1,hip_thrust,40,kg,-8", "reps", "whole number"),
        ("2026-03-02,A,1,hip_thrust,40,kg,99999999", "reps", "whole number"),
    ],
)
def test_a_wrong_cell_is_named(line: str, field: str, words: str) -> None:
    """File, line, field, what is wrong and what to do, in one sentence."""
    said = refusal(rows(line))
    assert said.startswith(f"log.csv, line 2, {field}: ")
    assert words in said
    assert "\n" not in said


@pytest.mark.parametrize(
    ("column", "cell", "words"),
    [
        ("kind", "workng", "“working”"),
        ("rir", "4", "write 4-5"),
        ("rir", "failure", "write fail"),
        ("rir", "1.5", "one of"),
        ("rir", "RPE 8", "10 less an RPE"),
        ("load", "60kg", "60 under load"),
        ("load", "BW", "leave it empty"),
        ("side", "middle", "left, right"),
        ("load_is", "both", "total, each"),
        ("rest_s", "-5", "below zero"),
        ("as_asked", "yes", "neither 1"),
        ("pain", "knee", "knee:2"),
        ("pain", "knee:11", "0 to 10"),
        ("pain", "knee:1;knee:2", "twice"),
        ("round", "first", "whole number"),
        ("body_mass_kg", "-60", "below zero"),
    ],
)
def test_a_wrong_optional_cell_is_named(column: str, cell: str, words: str) -> None:
    """The columns that may be missing are as strict when they are there."""
    said = refusal(
        rows(
            f"2026-03-02,A,1,hip_thrust,8,{cell}", header=f"date,session,set,exercise,reps,{column}"
        )
    )
    assert f"line 2, {column}: " in said
    assert words in said


def test_many_problems_are_three_and_a_count() -> None:
    """A file full of slips says the first three and how many there are."""
    said = refusal(rows(*(f"2026-03-02,A,{n},hip_thrust,40,kg,x" for n in range(1, 31))))
    assert "30 problems" in said
    assert said.count("line ") == 3


def test_an_unknown_exercise_is_told_once() -> None:
    """The same unknown name in many rows is one problem, with the way to accept it."""
    said = refusal(rows(*(f"2026-03-02,A,{n},garden rope,40,kg,8" for n in range(1, 9))))
    assert "problems" not in said
    assert '--new "garden rope"' in said


def test_an_accepted_exercise() -> None:
    """A new name passes when it is accepted, or when unknown names may be."""
    text = rows("2026-03-02,A,1,garden rope,40,kg,8")
    assert read(text, new=frozenset({"garden rope"})).rows[0].exercise == "garden rope"
    assert read(text, unknown_ok=True).rows[0].exercise == "garden rope"


def test_other_names_become_the_id() -> None:
    """Exercises may be written by any name of the catalogue."""
    name = CATALOGUE["hip_thrust"].name.upper().replace(",", "")
    if "," in CATALOGUE["hip_thrust"].name:
        name = f'"{CATALOGUE["hip_thrust"].name.upper()}"'
    assert read(rows(f"2026-03-02,A,1,{name},40,kg,8")).rows[0].exercise == "hip_thrust"


def test_other_names_become_the_id_where_any_name_passes() -> None:
    """A log that may name what it likes still shares the catalogue's exercises by their names."""
    text = rows("2026-03-02,A,1,Squat,40,kg,8", "2026-03-02,A,2,garden rope,40,kg,8")
    named = [done.exercise for done in read(text, unknown_ok=True).rows]
    assert named == ["back_squat_free", "garden rope"]


def test_a_unit_for_the_whole_file() -> None:
    """`--unit` serves loads without one and changes no other."""
    text = rows("2026-03-02,A,1,hip_thrust,40,,8", "2026-03-02,A,2,hip_thrust,40,kg,8")
    assert [done.unit for done in read(text, unit=Unit.LB).rows] == [Unit.LB, Unit.KG]


def test_nothing_added_needs_no_unit() -> None:
    """A zero is the same in every unit, and body weight alone has none."""
    text = rows("2026-03-02,A,1,hip_thrust,0,,8", "2026-03-02,A,2,hip_thrust,,,8")
    assert [done.load for done in read(text).rows] == [0, None]


def test_a_pound_is_exact() -> None:
    """The international pound is 0.45359237 kg by definition (1959)."""
    (done,) = read(rows("2026-03-02,A,1,hip_thrust,45,lb,8")).rows
    assert done.load is not None
    assert done.load * KG_PER_LB == Fraction("20.41165665")


@pytest.mark.parametrize(
    "header", ["date,session,set,exercise,reps", "id,date,session,set,exercise,reps"]
)
def test_a_repeated_identity_is_an_error(header: str) -> None:
    """The same id, or the same place without one, names both lines."""
    lead = "r1," if header.startswith("id") else ""
    said = refusal(rows(*[f"{lead}2026-03-02,A,1,hip_thrust,8"] * 2, header=header))
    assert "line 3" in said
    assert "stands in line 2 already" in said


@pytest.mark.parametrize("day", ["2027-03-02", "2027-03-02T18:30", "2026-04-02"])
def test_a_day_still_to_come_is_a_question(day: str) -> None:
    """The line, today, and the last time that day was: most often the year is mistyped."""
    text = rows("2026-03-02,A,1,hip_thrust,40,kg,8", f"{day},A,1,hip_thrust,40,kg,8")
    meant = "2025-04-02" if day == "2026-04-02" else "2026-03-02"
    (question,) = read(text).questions
    assert str(question) == (
        f"log.csv, line 3, date: {day[:10]} is still to come, as today is {TODAY}; "
        f"is the year wrong, and {meant} meant? (hip thrust, set 1)"
    )


def test_the_last_29_february_is_meant() -> None:
    """A day that most years lack is looked for in the year that had it."""
    (question,) = read(rows("2028-02-29,A,1,hip_thrust,40,kg,8")).questions
    assert "and 2024-02-29 meant?" in question.text


@pytest.mark.parametrize(
    ("row", "words"),
    [
        (",A,1,hip_thrust,40,kg,8", "the date is missing"),
        ("2026-03-02,A,,hip_thrust,40,kg,8", "the set is missing"),
        ("2026-03-02,A,1,hip_thrust,40,kg,", "the reps are missing"),
    ],
)
def test_what_is_missing_is_named_in_good_english(row: str, words: str) -> None:
    """Reps are many, a date is one."""
    assert words in refusal(rows(row))


def test_spreadsheet_text_reads_the_same() -> None:
    """A mark at the start, other line ends, capitals in the header and empty rows are harmless."""
    plain = rows("2026-03-02,A,1,hip_thrust,40,kg,8", "2026-03-02,A,2,hip_thrust,42.5,kg,8")
    dressed = "\ufeff" + plain.replace("date,session", "Date, Session") + ",,,,,,\n\n"
    assert read(dressed.replace("\n", "\r\n")).rows == read(plain).rows


def test_a_decimal_comma_in_quotes() -> None:
    """A comma marks decimals where quotation marks keep it in its cell."""
    assert read(rows('2026-03-02,A,1,hip_thrust,"42,5",kg,8')).rows[0].load == Fraction(85, 2)


def test_a_line_is_where_the_row_starts() -> None:
    """A note over several lines does not shift the line that is named."""
    header = "date,session,set,exercise,reps,note"
    said = refusal(
        rows('2026-03-02,A,1,hip_thrust,8,"a\nb\nc"', "2026-03-02,A,2,hip_thrust,x,", header=header)
    )
    assert "line 5, reps" in said


def test_a_missing_file(tmp_path: Path) -> None:
    """A wrong path is a sentence, not a traceback; of the files beside it, one like it is told."""
    for other in ("logs.toml", "old log.csv", "loga.csv"):
        (tmp_path / other).touch()
    with pytest.raises(InputError, match=r"gone\.csv.*cannot be read.*; check the path$"):
        read_log(tmp_path / "gone.csv", CATALOGUE)
    with pytest.raises(InputError, match=r"did you mean “[^“]*loga\.csv”\?$"):
        read_log(tmp_path / "logs.csv", CATALOGUE)


def test_fifty_megabytes_are_refused_at_once(tmp_path: Path) -> None:
    """The limit is stated, and the file is not read to find out."""
    path = tmp_path / "log.csv"
    with path.open("wb") as file:
        file.truncate(50_000_000)
    began = time.perf_counter()
    with pytest.raises(InputError, match="50 MB and at most 40 MB"):
        read_log(path, CATALOGUE)
    assert time.perf_counter() - began < 1
    with pytest.raises(InputError, match="at most"):
        read_log(bytes(MAX_BYTES + 1), CATALOGUE)


def test_file_order_is_kept() -> None:
    """Rows come in the order of the file, so that another program can line them up."""
    text = rows(*(f"2026-03-0{day},A,1,hip_thrust,40,kg,8" for day in (3, 1, 2)))
    found = read(text)
    assert [done.day.day for done in found.rows] == [3, 1, 2]
    assert found.questions == ()


def test_rows_in_order_are_counted() -> None:
    """Date, exercise, load and reps are enough: each day one session, its sets as the rows."""
    text = rows(
        "2026-03-02,hip_thrust,40,8", "2026-03-02,bench_press,30,8", "2026-03-04,hip_thrust,40,9",
        header="date,exercise,load,reps",
    )  # fmt: skip
    log = read(text, unit=Unit.KG, in_order=True)
    assert [(done.day.day, done.session, done.number) for done in log.rows] == [
        (2, "1", 1), (2, "1", 2), (4, "1", 1),
    ]  # fmt: skip


def test_sets_counted_anew_at_each_exercise_are_taken_in_order() -> None:
    """Set 1, 2, 1, 2 of two exercises is told as repeated, and counts as it stands when asked."""
    text = rows(*[f"2026-03-02,A,{n},{name},40,kg,8" for name in ("hip_thrust", "bench_press")
                  for n in (1, 2)])  # fmt: skip
    assert "--in-order" in refusal(text)
    log = read(text, in_order=True)
    assert [done.number for done in log.rows] == [1, 2, 3, 4]


@pytest.mark.parametrize(
    ("header", "words"),
    [
        ("date,exercise,load,reps", "lacks session, set; if the rows stand in the order"),
        ("date,exercise,load,repetitions", "lacks session, set, reps"),
        ("date,session,set,exercise,repetitions", "is “repetitions” meant"),
        ("date,session,set,movement,reps", "is “movement” meant"),
    ],
)
def test_a_header_that_lacks_something_says_what_helps(header: str, words: str) -> None:
    """Order can stand in for session and set, for nothing else; other words are recognised."""
    assert words in refusal(header + "\n")


@pytest.mark.parametrize(
    ("column", "meant"),
    [("Weight (kg)", "load"), ("RPE", "rir"), ("notes", "note"), ("qwzx", "")],
)
def test_a_column_s_likely_meaning(column: str, meant: str) -> None:
    """Common words of spreadsheets lead to the column of the contract; others to none."""
    assert meant_by(column) == meant


def test_a_name_of_her_own_is_taken_as_said() -> None:
    """What she says a name means holds; the complaint about an unknown one says how to say it."""
    text = rows("2026-03-02,A,1,Chest day,40,kg,8")
    assert '--as "Chest day=' in refusal(text)
    (done,) = read(text, names={"Chest day": "bench_press"}).rows
    assert done.exercise == "bench_press"


@pytest.mark.parametrize(
    ("short", "meant"),
    [
        ("Bench", "bench_press"),
        ("Deadlifts", "conventional_deadlift"),
        ("Row", "bent_row_overhand"),
    ],
)
def test_a_short_name_asks_for_the_usual_exercise_first(short: str, meant: str) -> None:
    """A bench is first a bench press, not a curl that somebody also calls by it."""
    told = refusal(rows(f"2026-03-02,A,1,{short},60,kg,8"))
    assert f"did you mean “{meant}”" in told
