"""Files of measurements and weighings: reading, refusing, writing back."""

from __future__ import annotations

import csv
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pennate.body.plausible import questions
from pennate.body.series import gather
from pennate.core.body import Measurement, Site, TapeState, Weighing
from pennate.core.performed import Side
from pennate.errors import InputError
from pennate.files.measures import (
    measures_by_line,
    measures_text,
    read_measures,
    read_weights,
    weights_by_line,
    weights_text,
)

HEADER = "date,site,side,girth_cm,girth2_cm,girth3_cm,skinfold_mm,state,body_mass_kg\n"
REFERENCE = Path(__file__).parent.parent / "reference" / "body" / "girths.csv"


def read(folder: Path, text: str) -> tuple[Measurement, ...]:
    """Measurements read from this text."""
    path = folder / "m.csv"
    path.write_text(text, encoding="utf-8")
    return read_measures(path)


def test_a_full_row(tmp_path: Path) -> None:
    """Every column lands typed and exact."""
    found = read(tmp_path, HEADER + "2026-01-05,thigh,left,55.1,55.3,55,18,relaxed,65.2\n")
    assert found[0] == Measurement(
        day=date(2026, 1, 5),
        site=Site.THIGH,
        side=Side.LEFT,
        girths_cm=(Fraction("55.1"), Fraction("55.3"), Fraction(55)),
        skinfold_mm=Fraction(18),
        state=TapeState.RELAXED,
        body_mass_kg=Fraction("65.2"),
    )


def test_required_columns_are_enough(tmp_path: Path) -> None:
    """Date, site and girth make a file; a date-time and a byte order mark are taken."""
    found = read(tmp_path, "\N{BOM}date,site,girth_cm\n2026-01-05T07:30,waist,70.5\n\n")
    assert (found[0].day, found[0].site, found[0].side) == (date(2026, 1, 5), Site.WAIST, None)


@pytest.mark.parametrize(
    ("row", "words"),
    [
        ("05.01.2026,thigh,left,55", ("line 2, date", "2026-03-31")),
        ("2026-01-05,thihg,left,55", ("line 2, site", "“thigh”")),
        ("2026-01-05,thigh,middle,55", ("line 2, side", "left, right")),
        ("2026-01-05,thigh,left,551", ("line 2, girth_cm", "millimetres: 55.1 cm")),
        ("2026-01-05,thigh,left,21.7", ("line 2, girth_cm", "inches: 55.1 cm")),
        ("2026-01-05,thigh,left,fifty", ("line 2, girth_cm", "not a number")),
        ("2026-01-05,thigh,left,55,,,1800", ("line 2, skinfold_mm", "1 to 120 mm")),
        ("2026-01-05,thigh,left,55,,,18,tired", ("line 2, state", "pumped")),
        ("2026-01-05,thigh,left,55,,,18,,652", ("line 2, body_mass_kg", "25 to 350 kg")),
        ("2026-01-05,thigh,left,", ("line 2, girth_cm", "measures nothing")),
        ("2026-01-05,thigh,left,55,1,2,3,,65,9", ("line 2", "10 cells")),
    ],
)
def test_faults_are_one_sentence(tmp_path: Path, row: str, words: tuple[str, ...]) -> None:
    """File, line, column, the likely slip and the remedy; a fold in cm is caught by its unit."""
    with pytest.raises(InputError) as refused:
        read(tmp_path, HEADER + row + "\n")
    assert "m.csv" in str(refused.value)
    assert all(word in str(refused.value) for word in words)


def test_a_reading_has_a_day(tmp_path: Path) -> None:
    """One without is refused in both files with its line."""
    for read_file, head, rest in (
        (read_measures, HEADER, ",thigh,left,55"),
        (read_weights, "date,kg\n", ",65"),
    ):
        path = tmp_path / "m.csv"
        path.write_text(f"{head}2026-04-01{rest}\n{rest}\n", encoding="utf-8")
        with pytest.raises(InputError, match=r"^m\.csv, line 3, date: the date is missing"):
            read_file(path)


def test_rows_keep_their_lines(tmp_path: Path) -> None:
    """Empty lines count, so that a question names the line she sees."""
    girths, scale = tmp_path / "m.csv", tmp_path / "w.csv"
    girths.write_text(f"{HEADER}\n2026-01-05,thigh,left,55\n", encoding="utf-8")
    scale.write_text("date,kg\n2026-01-05,65\n\n2026-01-06,66\n", encoding="utf-8")
    assert list(measures_by_line(girths)) == [3]
    assert list(weights_by_line(scale)) == [2, 4]


@pytest.mark.parametrize("text", ["", "date,site\n", "date,date,site,girth_cm\n", 'a,"b\n'])
def test_headers_that_cannot_be(tmp_path: Path, text: str) -> None:
    """An empty file, a missing or doubled column and broken CSV are refused."""
    with pytest.raises(InputError, match=r"m\.csv"):
        read(tmp_path, text)


def test_not_text_and_not_there(tmp_path: Path) -> None:
    """Other encodings and absent files are refused by name."""
    (tmp_path / "m.csv").write_bytes(b"\xff\xfe\x00d")
    with pytest.raises(InputError, match="UTF-8"):
        read_measures(tmp_path / "m.csv")
    with pytest.raises(InputError, match="no such file"):
        read_weights(tmp_path / "w.csv")


def test_weights_are_read_and_refused(tmp_path: Path) -> None:
    """A weighing has a date and kilograms within reason."""
    path = tmp_path / "w.csv"
    path.write_text("date,kg\n2026-01-05,65.2\n2026-01-06,6.5\n", encoding="utf-8")
    with pytest.raises(InputError, match="line 3, kg"):
        read_weights(path)


GIRTHS = st.integers(4000, 8000).map(lambda hundredths: Fraction(hundredths, 100))
MEASUREMENTS = st.builds(
    Measurement,
    day=st.dates(date(2000, 1, 1), date(2100, 1, 1)),
    site=st.just(Site.THIGH),
    side=st.sampled_from([None, Side.LEFT, Side.RIGHT]),
    girths_cm=st.lists(GIRTHS, min_size=1, max_size=3).map(tuple),
    skinfold_mm=st.none() | st.integers(1, 120).map(Fraction),
    state=st.none() | st.sampled_from(TapeState),
    body_mass_kg=st.none() | st.integers(25, 350).map(Fraction),
    extra=st.dictionaries(st.sampled_from(["light", "Note"]), st.text('ab," ', min_size=1)),
)


@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(MEASUREMENTS, min_size=1))
def test_measures_come_back(tmp_path: Path, rows: list[Measurement]) -> None:
    """Written and read again, rows and their unknown columns are the same."""
    found = read(tmp_path, measures_text(rows))
    assert list(found) == rows


def test_more_than_three_readings_come_back(tmp_path: Path) -> None:
    """Five readings need two rows of the file; no reading is lost."""
    girths = tuple(Fraction(g) for g in (55, 56, 55, 54, 55))
    five = Measurement(day=date(2026, 1, 5), site=Site.THIGH, girths_cm=girths)
    found = read(tmp_path, measures_text([five]))
    assert sum((row.girths_cm for row in found), start=()) == girths


def test_weights_come_back(tmp_path: Path) -> None:
    """Weighings round trip with what else stood in the file."""
    rows = (Weighing(day=date(2026, 1, 5), kg=Fraction("65.25"), extra={"note": "late"}),)
    (tmp_path / "w.csv").write_text(weights_text(rows), encoding="utf-8")
    assert read_weights(tmp_path / "w.csv") == rows


def soldiers() -> list[Measurement]:
    """Every 50th of 6,068 people, nine girths each (Gordon 2014, public domain)."""
    with REFERENCE.open(encoding="utf-8") as file:
        return [
            Measurement(
                day=date(2012, 1, 1),
                site=site,
                girths_cm=(Fraction(cells[site.value]),),
                body_mass_kg=Fraction(cells["kg"]),
            )
            for cells in csv.DictReader(file)
            for site in Site
        ]


def test_real_people_are_neither_refused_nor_asked(tmp_path: Path) -> None:
    """No girth of 122 real people is refused, and at most one in 1,000 is asked about."""
    people = soldiers()
    assert len(read(tmp_path, measures_text(people))) == len(people) > 1000
    asked = [q for row in people for q in questions([row], gather([row]))]
    assert len(asked) <= len(people) / 1000


def test_a_slip_of_a_tenth_is_noticed() -> None:
    """A thigh and a hip with swapped girths are asked about in nearly everybody."""
    thighs = [row for row in soldiers() if row.site is Site.THIGH]
    hips = {
        id(t): h for t, h in zip(thighs, [r for r in soldiers() if r.site is Site.HIP], strict=True)
    }
    swapped = [
        Measurement(
            day=t.day, site=Site.THIGH, girths_cm=hips[id(t)].girths_cm, body_mass_kg=t.body_mass_kg
        )
        for t in thighs
    ]
    asked = sum(bool(questions([row], [])) for row in swapped)
    assert asked > 0.9 * len(swapped)


def test_a_file_too_large_or_no_text_is_refused_at_once(tmp_path: Path) -> None:
    """Fifty megabytes and a spreadsheet are each told in one sentence, as for the log."""
    large, sheet = tmp_path / "large.csv", tmp_path / "sheet.csv"
    with large.open("wb") as file:
        file.truncate(50_000_000)
    sheet.write_bytes(b"PK\x03\x04 and the rest of it")
    with pytest.raises(InputError, match="50 MB and at most 40 MB"):
        read_measures(large)
    with pytest.raises(InputError, match="spreadsheet"):
        read_weights(sheet)
