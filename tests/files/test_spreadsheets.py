"""A log as spreadsheets of other countries save it: other separators, other dates, exact loads."""

from __future__ import annotations

from datetime import date, datetime
from fractions import Fraction
from pathlib import Path

import pytest

from pennate.core.performed import Effort
from pennate.core.quantities import Unit
from pennate.errors import InputError
from pennate.files.catalogue import read_catalogue
from pennate.files.dates import DateOrder
from pennate.files.log import LogFile, read_log, write_log
from pennate.files.log_words import rpe_words
from pennate.files.measures import read_measures, read_weights

CATALOGUE = read_catalogue()
HEADER = ("date", "session", "set", "exercise", "load", "unit", "reps", "note")
DAY_FIRST, MONTH_FIRST = DateOrder


def read(data: bytes, **options: object) -> LogFile:
    """Read a log given as bytes."""
    return read_log(data, CATALOGUE, **options)  # type: ignore[arg-type]  # passed on


def refusal(data: bytes, **options: object) -> str:
    """The sentence with which a log is refused."""
    with pytest.raises(InputError) as caught:
        read(data, **options)
    return str(caught.value)


def dated(*days: str) -> bytes:
    """A log with a set on each of these days, written in any way."""
    rows = [f'"{day}",A,1,hip_thrust,8' for day in days]
    return "\n".join(("date,session,set,exercise,reps", *rows)).encode()


@pytest.mark.parametrize("mark", [";", "\t"])
@pytest.mark.parametrize("start", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_semicolons_and_tabs_with_decimal_commas(mark: str, start: bytes, end: str) -> None:
    """What a spreadsheet with decimal commas saves is read exactly, byte-order mark or not."""
    row = ("2026-03-02", "A", "1", "hip_thrust", "102,5", "kg", "8", "eng, aber gut")
    text = end.join((mark.join(HEADER), mark.join(row), ""))
    (done,) = read(start + text.encode()).rows
    assert (done.load, done.unit, done.note) == (Fraction(205, 2), Unit.KG, "eng, aber gut")
    (again,) = read(write_log([done]).encode()).rows
    assert again == done


def test_a_comma_still_wins_where_it_makes_the_columns() -> None:
    """Semicolons inside an ordinary file stay text: pain and aids are written with them."""
    text = 'date,session,set,exercise,reps,pain,"a;b"\n2026-03-02,A,1,hip_thrust,8,knee:2;hip:1,c;d'
    (done,) = read(text.encode()).rows
    assert done.pain == {"knee": 2, "hip": 1}
    assert done.extra == {"a;b": "c;d"}


@pytest.mark.parametrize("mark", [";", "\t"])
def test_weighings_and_girths_too(tmp_path: Path, mark: str) -> None:
    """The other files of numbers are read alike, to the last decimal."""
    weights, girths = tmp_path / "w.csv", tmp_path / "g.csv"
    weights.write_text(mark.join(("date", "kg")) + "\n" + mark.join(("2026-03-01", "61,35")))
    head, row = ("date", "site", "side", "girth_cm"), ("2026-03-01", "thigh", "left", "54,2")
    girths.write_text("\n".join((mark.join(head), mark.join(row))))
    assert [one.kg for one in read_weights(weights)] == [Fraction(6135, 100)]
    assert [one.girths_cm for one in read_measures(girths)] == [(Fraction(542, 10),)]


@pytest.mark.parametrize(
    ("text", "order", "meant"),
    [
        ("31.03.2026", DAY_FIRST, date(2026, 3, 31)),
        ("4/3/2026", DAY_FIRST, date(2026, 3, 4)),
        ("4/3/2026", MONTH_FIRST, date(2026, 4, 3)),
        ("3/31/26", MONTH_FIRST, date(2026, 3, 31)),
        ("2026/3/31", DAY_FIRST, date(2026, 3, 31)),
        ("2026-03-31", MONTH_FIRST, date(2026, 3, 31)),
        ("31-03-2026 18:05", DAY_FIRST, datetime(2026, 3, 31, 18, 5)),  # noqa: DTZ001 # local
        ("3/31/2026, 6:05:09 PM", MONTH_FIRST, datetime(2026, 3, 31, 18, 5, 9)),  # noqa: DTZ001 # local
        ("3/31/2026 12:30 am", MONTH_FIRST, datetime(2026, 3, 31, 0, 30)),  # noqa: DTZ001 # local
    ],
)
def test_dates_are_read_in_the_order_that_is_said(
    text: str, order: DateOrder, meant: date | datetime
) -> None:
    """Day first, month first, a clock behind it; ISO 8601 needs no saying."""
    assert read(dated(text), dates=order).rows[0].when == meant


def test_a_date_of_the_other_order_is_no_date() -> None:
    """A month 31 is refused, never turned round in silence."""
    assert "“31/03/2026” is no date month-first" in refusal(
        dated("03/04/2026", "31/03/2026"), dates=MONTH_FIRST
    )


@pytest.mark.parametrize(
    ("days", "words"),
    [
        (("03/04/2026", "31/03/2026"), "--dates day-first reads it so"),
        (("03/04/2026", "03/31/2026"), "--dates month-first reads it so"),
        (("03/04/2026", "05/06/2026"), "two ways; say which stands first: --dates day-first or"),
        (("13/04/2026", "03/31/2026"), "two ways; say which"),
        (("soon",), "write it like 2026-03-31"),
    ],
)
def test_without_it_the_remedy_fits_the_whole_file(days: tuple[str, ...], words: str) -> None:
    """Where one date proves the order, it is told; never is it guessed at."""
    assert words in refusal(dated(*days))


@pytest.mark.parametrize(
    ("rpe", "effort"),
    [
        ("10", Effort.NONE_LEFT),
        ("9", Effort.ONE),
        ("8", Effort.TWO),
        ("7", Effort.THREE),
        ("9,5", Effort.NONE_LEFT),
        ("8.5", Effort.ONE),
        ("7.5", Effort.TWO),
        ("6", Effort.FOUR_FIVE),
        ("5", Effort.FOUR_FIVE),
        ("4", Effort.SIX_UP),
        ("1", Effort.SIX_UP),
        ("", None),
    ],
)
def test_an_rpe_is_read_as_what_was_left(rpe: str, effort: Effort | None) -> None:
    """Zourdos 2016: 10 is none left, 9 one, 8 two, 7 three; 9.5 no rep more, 8.5 surely one."""
    text = f'date,session,set,exercise,reps,RPE\n2026-03-02,A,1,hip_thrust,8,"{rpe}"\n'
    log = read(text.encode())
    (done,) = log.rows
    assert done.effort is effort
    assert done.extra == {"RPE": rpe}, "what she wrote is kept"
    assert next(rpe_words(log)).startswith("The column “RPE” is read as reps in reserve: 10 less")
    again = read(write_log([done]).encode())
    assert again.rows == (done,)
    assert again.rpe == "", "her reserve is written beside it, and counts from then on"


@pytest.mark.parametrize("wrong", ["11", "0", "hard"])
def test_what_is_no_rpe_is_told(wrong: str) -> None:
    """Where it stands, and what to write; never a reserve made of nothing."""
    text = f"date,session,set,exercise,reps,rpe\n2026-03-02,A,1,hip_thrust,8,{wrong}\n"
    assert f"line 2, rpe: “{wrong}” is not an RPE; write a number from 1 to 10" in refusal(
        text.encode()
    )


def test_reserve_counts_where_both_are_there() -> None:
    """A column of reserve is hers; an RPE beside it only stays as it was."""
    text = "date,session,set,exercise,reps,rir,rpe\n2026-03-02,A,1,hip_thrust,8,3,9\n"
    log = read(text.encode())
    assert log.rows[0].effort is Effort.THREE
    assert not list(rpe_words(log))


@pytest.mark.parametrize(
    ("spelt", "unit"),
    [("lbs", Unit.LB), ("Lbs.", Unit.LB), ("pounds", Unit.LB), ("KG", Unit.KG), ("kgs", Unit.KG)],
)
def test_a_unit_is_read_as_it_is_commonly_spelt(spelt: str, unit: Unit) -> None:
    """Nobody is sent back to write lb for lbs."""
    text = f"date,session,set,exercise,load,unit,reps\n2026-03-02,A,1,hip_thrust,40,{spelt},8\n"
    assert read(text.encode()).rows[0].unit is unit
