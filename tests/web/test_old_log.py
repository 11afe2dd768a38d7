"""Bringing an old log: a spreadsheet comes in, and what it left open is asked where it is seen."""

from __future__ import annotations

import re
from datetime import timedelta
from html import unescape

import pytest
from fastapi.testclient import TestClient

from pennate.app.book import Book
from pennate.app.start import take_starter_gym, take_starter_week

from .conftest import Client, week_of

PRESS = "shoulder_press"
HEAD, FIRST = "date,session,set,exercise", "2026-04-03,A,1,hip_thrust"


@pytest.fixture
def client(client_of: Client, empty: Book) -> TestClient:
    """Pages over a gym and a week, with nothing logged."""
    take_starter_gym(empty, "commercial_kg")
    take_starter_week(empty, "4_days")
    return client_of(empty)


@pytest.fixture
def sheet(empty: Book) -> str:
    """Eight weeks of a spreadsheet of date, exercise, load and reps."""
    rows = ["date,exercise,load,reps,load_is"]
    for week in range(8, 0, -1):
        day = empty.today - timedelta(weeks=week)
        rows += [f"{day},back_squat_free,60,5,total"] * 3 + [f"{day},{PRESS},16,8,total"] * 3
    return "\n".join(rows) + "\n"


def bring(client: TestClient, sheet: str, **choices: str) -> str:
    """The Data page after an import."""
    answer = client.post(
        "/data/import", files={"file": ("sheet.csv", sheet, "text/csv")}, data=choices
    )
    return unescape(answer.text)


def test_a_spreadsheet_comes_in_as_it_is(client: TestClient, empty: Book, sheet: str) -> None:
    """Refused, it says what helps; with the two choices of the form every set is there."""
    assert "take them in order" in bring(client, sheet, unit="kg")
    assert len(empty.history()) == 0
    page = bring(client, sheet, unit="kg", in_order="1")
    assert "48 sets added" in page
    assert "Back squat for “Bar at the rack”" in page
    assert len({done.order for done in empty.history()}) == 48


def test_the_page_asks_and_the_week_answers(client: TestClient, empty: Book, sheet: str) -> None:
    """The page of the exercise leads to the choice; made there, its step has a load at once."""
    bring(client, sheet, unit="kg", in_order="1")
    page = unescape(client.get(f"/exercises/{PRESS}").text)
    assert "24 sets without equipment stand apart" in page
    at = page.split('<a href="/week/')[1].split("#around")[0]
    form = unescape(client.get(f"/week/{at}").text)
    assert '<option value="" selected>as it fits here: Bar at the rack</option>' in form
    assert '<option value="dumbbells">Dumbbells</option>' in form
    client.post(f"/week/{at}/about", data={"equipment": "dumbbells", "aids": "", "note": ""})
    day, place = at.split("/")
    chosen = week_of(empty).day(day)
    assert chosen is not None
    assert chosen.exercises[int(place)].equipment == "dumbbells"
    after = unescape(client.get(f"/exercises/{PRESS}").text)
    assert "24 sets without equipment count for “Dumbbells”" in after
    assert "kg each" in after


def test_the_start_leads_to_the_import(client: TestClient) -> None:
    """Who keeps a log already need not remember single sets."""
    assert '<a href="/data">Bring it in</a>' in client.get("/start/sets").text


def test_a_form_without_the_choice_changes_no_equipment(client: TestClient, empty: Book) -> None:
    """Where there is nothing to choose from, saving aids or a note leaves the equipment."""
    client.post("/week/Monday/0/about", data={"equipment": "rack_bar"})
    client.post("/week/Monday/0/about", data={"aids": "belt", "note": "slow"})
    asked = week_of(empty).days[0].exercises[0]
    assert (asked.equipment, asked.aids, asked.note) == ("rack_bar", ("belt",), "slow")


def test_the_weekly_review_asks_too(client: TestClient, sheet: str) -> None:
    """A row for both exercises, and beneath them the one sentence on what could be meant."""
    bring(client, sheet, unit="kg", in_order="1")
    page = unescape(client.get("/review/week").text)
    table, beneath = page.split("</table>")
    assert "Back squat" in table
    assert "Overhead press" in table
    assert beneath.count("sets without equipment stand apart") == 1


def test_the_training_log_is_given_out_as_it_was_written(client: TestClient, sheet: str) -> None:
    """What the sets are taken to be done on is not written into the log that she takes out."""
    bring(client, sheet, unit="kg", in_order="1")
    assert "rack_bar" not in client.get("/data/log.csv").text


SLASHES = (
    "date,exercise,load,unit,reps\n03/04/2026,hip_thrust,80,kg,8\n05/04/2026,hip_thrust,80,kg,9\n"
)


def test_the_form_reads_dates_of_either_order(client: TestClient, empty: Book) -> None:
    """Refused, the page names its own choice, keeps the others made, and the choice is enough."""
    refused = bring(client, SLASHES, in_order="1")
    assert "choose “day first” or “month first” below" in refused
    assert '<input type="checkbox" name="in_order" value="1" checked>' in refused
    bring(client, SLASHES, in_order="1", dates="month-first")
    assert [str(one.day) for one in empty.as_written()] == ["2026-03-04", "2026-05-04"]


def test_an_order_that_the_file_proves_is_named_as_the_form_has_it(client: TestClient) -> None:
    """A 31st in one row settles the others; the page says which of its choices reads it so."""
    page = bring(client, SLASHES + "31/03/2026,hip_thrust,80,kg,8\n", in_order="1")
    assert "the day stands first throughout this file: choose “day first” below" in page


@pytest.mark.parametrize(
    ("log", "in_order", "offered"),
    [
        (SLASHES, "1", "choose “day first”"),
        (SLASHES, "", "rows in order”"),
        (f"{HEAD},load,reps\n{FIRST},80,8\n", "", "choose “are kg”"),
        (f"{HEAD},load,unit,reps\n{FIRST},80,kg,8\n{FIRST},80,kg,8\n", "", "rows in order”"),
        (f"{HEAD},weight,reps\n{FIRST},80,8\n", "", "below whether “weight” holds the loads"),
    ],
    ids=["dates", "no sets", "no unit", "a set twice", "loads under another name"],
)
def test_the_page_speaks_of_its_own_choices(
    client: TestClient, log: str, in_order: str, offered: str
) -> None:
    """No option of the command line is named where there is none to give."""
    answer = bring(client, log, in_order=in_order)
    assert offered in answer
    assert re.findall(r"(?<![!\w])--[a-z]+", answer) == []


def test_dates_of_the_form_are_carried_with_the_names(client: TestClient, empty: Book) -> None:
    """Asked what a name means, she need not say again which of day and month stands first."""
    page = bring(client, SLASHES.replace("hip_thrust", "Bridge"), in_order="1", dates="day-first")
    assert "2 sets, 3 April 2026 to 5 April 2026" in page
    form = page.split('action="/data/names"')[1].split("</form>")[0]
    drawn = dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', form))
    client.post("/data/names", data={**drawn, "means": "hip_thrust"})
    assert [str(one.day) for one in empty.as_written()] == ["2026-04-03", "2026-04-05"]


SHEET = (
    "Date,Exercise,Weight,Units,Reps,Comments\n"
    "2026-04-03,hip_thrust,80,kg,8,slow\n2026-04-03,Bridge,185,lbs,9,\n"
)


def test_columns_are_asked_before_anything_comes_in(client: TestClient, empty: Book) -> None:
    """Loads, units and notes under headings of her own, in one form with the names; asked once."""
    page = bring(client, SHEET, in_order="1")
    assert "no column is called load; say below whether “Weight” holds the loads" in page
    assert "“Bridge” is no exercise known here" in page
    assert len(empty.history()) == 0
    form = page.split('action="/data/names"')[1].split("</form>")[0]
    assert re.findall(r'name="heading" value="(\w+)"', form) == ["Weight", "Units", "Comments"]
    drawn = dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', form))
    said = {"heading": ["Weight", "Units", "Comments"], "holds": ["load", "unit", "note"]}
    wrong = client.post("/data/names", data={**drawn, **said, "means": ""}).text
    assert "“Bridge” is no exercise known here" in unescape(wrong)
    assert 'value="load" selected' in wrong
    done = client.post("/data/names", data={**drawn, **said, "means": "hip_thrust"}).text
    assert "2 sets added" in done
    sets = empty.as_written().sets
    assert [f"{one.load} {one.unit} {one.note}".strip() for one in sets] == ["80 kg slow", "185 lb"]
    assert "0 sets added, 2 known already" in bring(client, SHEET, in_order="1")


def test_a_column_may_be_left_unread(client: TestClient, empty: Book) -> None:
    """A column called weight may hold something else: it is kept beside the sets, as it was."""
    log = f"{HEAD},weight,reps\n{FIRST},80,8\n"
    form = bring(client, log).split('action="/data/names"')[1].split("</form>")[0]
    drawn = dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', form))
    done = client.post("/data/names", data={**drawn, "holds": "+unread"}).text
    assert "1 set added" in done
    assert empty.as_written().sets[0].extra == {"weight": "80"}
    assert client.post("/data/names", data={**drawn, "holds": "no_such"}).status_code == 422


RAISES = (
    "date,session,set,exercise,load,unit,reps\n"
    "2026-04-03,A,1,lateral_raise,8,kg,12\n2026-04-03,A,2,hip_thrust,80,kg,8\n"
)


def test_what_a_load_counts_is_asked_before_it_is_saved(client: TestClient, empty: Book) -> None:
    """One answer for dumbbells, kept; the bar beside them is not asked about."""
    page = bring(client, RAISES)
    assert "say below what a load of dumbbells or of a sled counts" in page
    assert len(empty.history()) == 0
    form = page.split('action="/data/names"')[1].split("</form>")[0]
    assert "<b>Lateral raise</b>" in form
    assert "Hip thrust" not in form
    assert "selected" not in form
    drawn = dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', form))
    assert client.post("/data/names", data={**drawn, "load_is": "half"}).status_code == 422
    done = unescape(client.post("/data/names", data={**drawn, "load_is": "each"}).text)
    assert "2 sets added" in done
    assert "read as both dumbbells" not in done
    assert [str(one.reading) for one in empty.as_written()] == ["each", "total"]
    assert "0 sets added, 2 known already" in bring(client, RAISES)
    assert "1 set added" in bring(client, RAISES.replace("A,1", "B,1").partition("2026-04-03,A")[0])
    assert [str(one.reading) for one in empty.as_written()] == ["each", "total", "each"]


def test_a_log_that_says_what_loads_count_is_not_asked(client: TestClient) -> None:
    """The column load_is is the answer, an empty cell of it too."""
    log = RAISES.replace("reps", "reps,load_is").replace(",12", ",12,").replace("kg,8", "kg,8,")
    assert "2 sets added" in bring(client, log)


def test_a_slip_is_put_right_where_it_is_asked(client: TestClient, empty: Book) -> None:
    """Asked once, with the name of her file; the right number corrects the set, not doubles it."""
    rows = [f"2026-04-03,A,{n},hip_thrust,{900 if n == 3 else 80},kg,8" for n in range(1, 7)]
    log = "\n".join(("date,session,set,exercise,load,unit,reps", *rows)) + "\n"
    bring(client, log)
    page = unescape(client.get("/data").text)
    assert page.count("900 kg?") == 1
    assert "sheet.csv, line 4, load: 900 kg?" in page
    assert "Load in kg" in page
    (key,) = re.findall(r'name="question" value="([^"]+)">it is right', page)
    assert client.post("/data/mend", data={"question": key, "value": "9o"}).status_code == 422
    assert client.post("/data/mend", data={"question": key, "value": ""}).status_code == 422
    client.post("/data/mend", data={"question": key, "value": "90,5"})
    assert "900 kg?" not in client.get("/data").text
    assert [str(float(one.load or 0)) for one in empty.as_written()][2] == "90.5"
    assert len(empty.as_written()) == 6
    assert client.post("/data/mend", data={"question": "no", "value": "9"}).status_code == 422
