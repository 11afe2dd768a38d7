"""A log whose loads stand where they are not read: it is told, and nothing is made of it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest

from pennate.app.book import Book
from pennate.app.exchange import How, import_log
from pennate.app.exercise_view import exercise_view
from pennate.app.forecasting import forecast_log
from pennate.app.import_notes import import_notes
from pennate.app.record import Recorded, record
from pennate.app.review import review
from pennate.app.review_text import review_lines
from pennate.app.start import take_starter_gym, take_starter_week
from pennate.app.today import card_for
from pennate.app.week_effort import done_credits
from pennate.app.why_text import why_of, why_text
from pennate.core.card import Card
from pennate.core.load_words import NO_LOAD
from pennate.core.quantities import Unit
from pennate.errors import InputError
from pennate.files.log_columns import UNREAD
from pennate.web.views.exercise import exercise_page

from .test_unnamed import NOW, Clock

WEEKS = 8
BENCH = "bench_press"


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """A gym and a week, and nothing logged."""
    opened = Book.open(tmp_path / "records", Clock(), Random(3))
    take_starter_gym(opened, "commercial_kg")
    take_starter_week(opened, "4_days")
    return opened


def log_of(folder: Path, header: str, cell: str, *, more: str = "", every: int = 1) -> Path:
    """Three sets of bench press and of chin-ups a week; the cell stands in every nth bench set.

    `KG` in the cell is a load that changes from week to week.
    """
    rows = [f"date,session,set,exercise,reps,{header}"]
    for week in range(WEEKS):
        day = NOW.date() - timedelta(weeks=WEEKS - week)
        kg = f"{40 + week % 2}.5"
        for number in (1, 2, 3):
            load = cell.replace("KG", kg) if number % every == 0 else "," * cell.count(",")
            rows.append(f"{day},gym,{number},{BENCH},{9 - number},{load}")
            rows.append(f"{day},gym,{number + 3},chin_up,6,{',' * cell.count(',')}")
    path = folder / "log.csv"
    path.write_text("\n".join(rows) + "\n" + more)
    return path


def bring(
    book: Book, path: Path, unit: Unit | None = None, columns: Mapping[str, str] | None = None
) -> str:
    """What the import says."""
    how = How(unit=unit, columns=columns or {})
    report = import_log(book.ledger, path, how, now=book.now(), rng=book.rng)
    return " ".join(import_notes(book, report))


@pytest.mark.parametrize("column", ["weight", "Weight (kg)", "weight_kg"])
def test_loads_under_another_heading_are_asked_for(book: Book, tmp_path: Path, column: str) -> None:
    """Nothing comes in before it is said; said once, it holds for every later log."""
    path = log_of(tmp_path, f"mood,{column}", "3,KG")
    before = book.ledger.position()
    with pytest.raises(InputError, match=re.escape(f'--column "{column}=load" reads it so')):
        bring(book, path)
    assert book.ledger.position() == before
    told = bring(book, path, Unit.KG, columns={column: "load"})
    assert NO_LOAD not in told.lower()
    assert "Kept, but not read: mood." in told
    assert {done.load for done in book.history() if done.exercise == BENCH} == {
        Fraction("40.5"),
        Fraction("41.5"),
    }
    assert bring(book, path, Unit.KG) == ""


def test_a_heading_tells_the_unit(book: Book, tmp_path: Path) -> None:
    """“Weight (lb)” says of its loads what a column of units would; --unit still goes before."""
    path = log_of(tmp_path, "Weight (lb)", "KG")
    bring(book, path, columns={"Weight (lb)": "load"})
    assert {done.unit for done in book.history() if done.exercise == BENCH} == {Unit.LB}
    bring(book, path, Unit.KG)
    assert {done.unit for done in book.history() if done.exercise == BENCH} == {Unit.KG}


def test_a_column_kept_unread_is_told(book: Book, tmp_path: Path) -> None:
    """She may say that it holds no loads: the log comes in, and what is missing is told."""
    told = bring(book, log_of(tmp_path, "weight", "KG"), columns={"weight": UNREAD})
    assert "No load noted in 24 sets of Bench press:" in told


def test_two_columns_cannot_be_one(book: Book, tmp_path: Path) -> None:
    """Kilograms and pounds side by side: one of them is the load."""
    path = log_of(tmp_path, "kg,lbs", "KG,90")
    with pytest.raises(InputError, match="“kg” and “lbs” cannot both be load"):
        bring(book, path, columns={"kg": "load", "lbs": "load"})
    bring(book, path, columns={"kg": "load", "lbs": UNREAD})
    benches = [done for done in book.history() if done.exercise == BENCH]
    assert {(done.unit, done.extra["lbs"]) for done in benches} == {(Unit.KG, "90")}


def test_a_column_of_its_own_name_stays(book: Book, tmp_path: Path) -> None:
    """What was said of a heading does not push aside loads that stand under load."""
    bring(book, log_of(tmp_path, "weight", "KG"), Unit.KG, columns={"weight": "load"})
    told = bring(book, log_of(tmp_path, "load,weight", "30,KG"), Unit.KG)
    assert "weight" in told
    assert {done.load for done in book.history() if done.exercise == BENCH} == {Fraction(30)}


@pytest.mark.parametrize("column", ["Gewicht"])
def test_the_column_that_may_hold_the_loads_is_named(
    book: Book, tmp_path: Path, column: str
) -> None:
    """Which column, what to call it and how to say the unit, once, and only of the bench press."""
    path = log_of(tmp_path, f"mood,{column}", "3,KG")
    told = bring(book, path)
    assert "No load noted in 24 sets of Bench press:" in told
    assert f"The column “{column}”" in told
    assert "call it load in the first line of the file, give --unit kg or --unit lb" in told
    assert told.count(column) == 1
    assert "Kept, but not read: mood." in told


def test_what_the_note_says_works(book: Book, tmp_path: Path) -> None:
    """With the column called load the sets are corrected, and strength is there."""
    bring(book, log_of(tmp_path, "Gewicht", "KG"))
    again = bring(book, log_of(tmp_path, "load", "KG"), Unit.KG)
    assert NO_LOAD not in again.lower()
    seen = exercise_view(book, BENCH)
    assert seen.sets_behind == 3 * WEEKS
    assert 45 < seen.now.middle < 60


def test_its_page_says_that_no_load_is_noted(book: Book, tmp_path: Path) -> None:
    """Neither body weight nor two kilograms nor a next load is made of nothing."""
    bring(book, log_of(tmp_path, "Gewicht", "KG"))
    seen = exercise_view(book, BENCH)
    page = exercise_page(book.catalogue[BENCH], seen)
    assert {row.load for row in page.rows} == {NO_LOAD}
    assert "No load noted" in page.nothing
    assert not page.has_chart
    assert seen.next is None
    assert seen.now.middle > 20
    why = "\n".join(why_text(why_of(book, BENCH)))
    assert "No load noted" in why
    assert "body weight" not in why
    assert {
        row.load
        for row in exercise_page(book.catalogue["chin_up"], exercise_view(book, "chin_up")).rows
    } == {"body weight"}


def test_her_sets_still_count_for_her_bar(book: Book, tmp_path: Path) -> None:
    """No bar weighs nothing, so sets without loads were once told to fit on none of hers."""
    bring(book, log_of(tmp_path, "load,unit", "KG,kg", every=2))
    found = book.unnamed()[BENCH]
    assert found.item is not None
    assert found.sets == 3 * WEEKS


def test_some_loads_are_enough_for_a_strength_and_a_next_load(book: Book, tmp_path: Path) -> None:
    """One set in three with its load: what comes next is judged from that."""
    bring(book, log_of(tmp_path, "load,unit", "KG,kg", every=3))
    seen = exercise_view(book, BENCH)
    assert seen.next is not None
    assert seen.next.felt_kg > 30
    assert 40 < seen.now.middle < 65
    page = exercise_page(book.catalogue[BENCH], seen)
    assert ("rests on", f"{WEEKS} working sets") in page.now_facts
    assert {row.load for row in page.rows} == {NO_LOAD, "40.5 kg", "41.5 kg"}


def test_last_time_without_a_load_is_no_load_to_hold(book: Book, tmp_path: Path) -> None:
    """The card of the day asks for a real load although last time says none."""
    bring(book, log_of(tmp_path, "Gewicht", "KG"))
    day, place = exercise_view(book, BENCH).planned_at or ("", 0)
    card = card_for(book, book.today, weekday=day)
    assert isinstance(card, Card)
    stop = card.stops[place]
    assert stop.exercise == BENCH
    assert all(one.load is not None and one.load.felt_kg >= 10 for one in stop.sets)


def test_how_hard_such_sets_were_stays_open(book: Book, tmp_path: Path) -> None:
    """No forecast counts a set whose load nobody knows."""
    bring(book, log_of(tmp_path, "load,unit", "KG,kg", every=3))
    credits_ = done_credits(book, book.history())
    benches = [one for one in book.history() if one.exercise == BENCH]
    assert {one.number for one in benches if one.identity in credits_} == {3}


def test_the_review_says_that_no_load_is_noted(book: Book) -> None:
    """After a session whose bench press was logged without a load."""
    day, _ = exercise_view(book, BENCH).planned_at or ("", 0)
    card = card_for(book, book.today, weekday=day)
    assert isinstance(card, Card)
    stop = next(one for one in card.stops if one.exercise == BENCH)
    for one in stop.sets:
        record(book, book.today, one.key, Recorded(no_load=True), weekday=day)
    lines = [line.strip() for line in review_lines(review(book, book.today, weekday=day))]
    assert "Bench press: no load noted, so nothing was learned" in lines


def test_a_forecast_of_such_a_log_says_so(tmp_path: Path) -> None:
    """Its rows have no numbers, and a line to check says which column to call load."""
    found = forecast_log(log_of(tmp_path, "weight", "KG"))
    rows = {(row["date"], row["set"]): row for row in found.rows}
    first = (NOW.date() - timedelta(weeks=WEEKS)).isoformat()
    assert rows[first, 1]["mean"] is None
    assert rows[first, 4]["mean"] is not None
    assert any("“weight” probably holds the loads" in note for note in found.notes)


def test_a_log_that_needs_no_loads_is_told_nothing(book: Book, tmp_path: Path) -> None:
    """Chin-ups without a number are done with body weight."""
    path = tmp_path / "chins.csv"
    path.write_text("date,session,set,exercise,reps\n" + f"{date(2026, 2, 2)},gym,1,chin_up,6\n")
    assert NO_LOAD not in bring(book, path).lower()
