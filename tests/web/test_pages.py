"""Every page answers, is plain HTML, and asks for nothing from elsewhere."""

from __future__ import annotations

import re

import pytest
from fastapi.testclient import TestClient

from pennate.app.book import Book

from .conftest import Client

READ_PAGES = (
    "/today",
    "/today?ask=sore",
    "/today?ask=hurts",
    "/today/stop/0",
    "/floor",
    "/floor?ask=taken",
    "/floor?ask=hurts",
    "/floor?ask=notes",
    "/week",
    "/week/Monday",
    "/week/Monday/0",
    "/week/brief",
    "/week/changed",
    "/week/block",
    "/week/block?weeks=4&ramp=sets&lighter=yes",
    "/exercises",
    "/exercises?q=squat",
    "/exercises/back_squat_free",
    "/exercises/leg_extension?why=1",
    "/exercises/plank",
    "/gym",
    "/data",
    "/start/health",
    "/start/week",
    "/start/gym",
    "/start/sets",
    "/patterns",
)


@pytest.mark.parametrize("path", READ_PAGES)
def test_every_page_answers(demo: TestClient, path: str) -> None:
    """No page of the demo fails, and each names itself in one heading."""
    answer = demo.get(path)
    assert answer.status_code == 200, answer.text
    assert len(re.findall(r"<h1[ >]", answer.text)) == 1


@pytest.mark.parametrize("path", READ_PAGES)
def test_no_page_has_inline_script_or_style_or_foreign_source(demo: TestClient, path: str) -> None:
    """The strict policy holds because nothing needs more."""
    text = demo.get(path).text
    assert re.search(r"<script(?![^>]*\bsrc=)", text) is None
    assert "<style" not in text
    assert re.search(r"\sstyle=", text) is None
    assert re.search(r"\son[a-z]+=", text) is None
    assert re.search(r'(?:src|href|action)="(?:https?:)?//', text) is None


def test_an_empty_ledger_begins_at_the_start(client_of: Client, empty: Book) -> None:
    """Whatever page is opened first, the first run is where she lands."""
    client = client_of(empty)
    for path in ("/", "/today", "/week", "/floor"):
        assert client.get(path).url.path == "/start/health"


def test_unknown_pages_say_so(demo: TestClient) -> None:
    """A wrong address is one plain sentence, not a trace."""
    answer = demo.get("/nowhere")
    assert answer.status_code == 404
    assert "There is no such page." in answer.text


@pytest.mark.parametrize("path", ["/week/Someday", "/week/Monday/99", "/exercises/nothing"])
def test_wrong_names_are_told_in_a_sentence(demo: TestClient, path: str) -> None:
    """What is wrong and what to do instead, with the right status."""
    answer = demo.get(path)
    assert answer.status_code == 422
    assert 'role="alert"' in answer.text


def test_a_wrong_address_is_not_said_to_be_unsaved(demo: TestClient) -> None:
    """Nothing was typed on the way to a day that is none, so nothing is said to be kept."""
    answer = demo.get("/week/audit")
    assert answer.status_code == 422
    assert "<h1>Not here</h1>" in answer.text
    assert "what you typed" not in answer.text


def test_a_search_that_finds_nothing_offers_what_is_near(demo: TestClient) -> None:
    """A mistyped name leads on."""
    assert "Near it:" in demo.get("/exercises?q=sqaut").text


def test_names_are_escaped(client_of: Client, own_demo: Book) -> None:
    """What she types is shown as text, never run."""
    client = client_of(own_demo)
    client.post("/week/Monday/day", data={"do": "save", "focus": "<script>alert(1)</script>"})
    page = client.get("/week").text
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert" in page


def test_dark_is_a_choice(client_of: Client, own_demo: Book) -> None:
    """Light unless she chose dark; a strange value is light."""
    client = client_of(own_demo)
    assert 'data-look="light"' in client.get("/data").text
    client.post("/data/look", data={"look": "dark"})
    assert 'data-look="dark"' in client.get("/today").text
    client.post("/data/look", data={"look": "plaid"})
    assert 'data-look="light"' in client.get("/today").text


def test_static_files_are_kept_and_known(demo: TestClient) -> None:
    """Files are served under an address that changes with them; nothing else is there."""
    page = demo.get("/data").text
    sheet = re.search(r'href="(/static/[0-9a-f]{12}/pennate\.css)"', page)
    assert sheet
    assert "immutable" in demo.get(sheet[1]).headers["cache-control"]
    assert demo.get("/static/x/../server.py").status_code == 404
    assert demo.get("/static/x/nothing.css").status_code == 404


def test_patterns_are_for_development(client_of: Client, own_demo: Book) -> None:
    """The page of components is not part of the product."""
    assert client_of(own_demo).get("/patterns").status_code == 404


def test_what_changed_keeps_its_numbers_whole(demo: TestClient) -> None:
    """On the review too no line begins with “%” or a unit: the stall’s chance is read at once."""
    page = demo.get("/review/week").text
    told = page[page.index("<h2>What changed") : page.index("<h2>", page.index("What changed"))]
    assert re.search(r"\d\N{NO-BREAK SPACE}(%|kg|lb)", told)
    assert not re.search(r"\d (%|kg\b|lb\b)", told)


def test_a_number_and_its_per_cent_sign_stay_together(demo: TestClient) -> None:
    """On a narrow screen no line of the strength page begins with “%”, nor ends with “±”."""
    page = demo.get("/exercises/hip_thrust").text
    told = page[page.index("<h2") : page.index("What is this number?")]
    assert "\N{NO-BREAK SPACE}%" in told
    assert " %" not in told
    assert "± " not in told
    why = demo.get("/exercises/hip_thrust?why=1").text
    sets = re.findall(r"<li[^>]*>\d+ [A-Z].+?</li>", why)
    assert sets
    assert all(re.search(r"\d\N{NO-BREAK SPACE}(kg|lb)\b", one) for one in sets)
