"""Bringing an old log: a spreadsheet comes in, and what it left open is asked where it is seen."""

from __future__ import annotations

from datetime import timedelta
from html import unescape

import pytest
from fastapi.testclient import TestClient

from pennate.app.book import Book
from pennate.app.start import take_starter_gym, take_starter_week

from .conftest import Client, week_of

PRESS = "shoulder_press"


@pytest.fixture
def client(client_of: Client, empty: Book) -> TestClient:
    """Pages over a gym and a week, with nothing logged."""
    take_starter_gym(empty, "commercial_kg")
    take_starter_week(empty, "4_days")
    return client_of(empty)


@pytest.fixture
def sheet(empty: Book) -> str:
    """Eight weeks of a spreadsheet of date, exercise, load and reps."""
    rows = ["date,exercise,load,reps"]
    for week in range(8, 0, -1):
        day = empty.today - timedelta(weeks=week)
        rows += [f"{day},back_squat_free,60,5"] * 3 + [f"{day},{PRESS},16,8"] * 3
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
