"""The Week page: findings with their changes, undo, and what the log says of now."""

from __future__ import annotations

import re
from datetime import timedelta
from html import unescape
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from pennate.app.book import Book
from pennate.app.start import begin_own_week, take_starter_gym, take_starter_week
from pennate.app.week_changes import last_change
from pennate.files.week import read_week

from .conftest import Client, Clock, week_of

UNBALANCED = Path(__file__).parents[1] / "plan" / "unbalanced.toml"


@pytest.fixture
def client(client_of: Client, own_demo: Book) -> TestClient:
    """Pages over a demo that follows the week written to be wrong."""
    own_demo.save_week(read_week(UNBALANCED, own_demo.catalogue))
    return client_of(own_demo)


def ready(client: TestClient) -> str:
    """The Week page once its fixes are there, as its script would look again."""
    for _ in range(200):
        page = client.get("/week").text
        if "data-again" not in page:
            return unescape(page)
    raise AssertionError("the fixes never came")


def offered(page: str) -> list[tuple[str, str, str]]:
    """Key, finding and words of every change the page offers."""
    return re.findall(
        r'name="key" value="(\w+)"><input type="hidden" name="finding" value="([^"]+)">\s*'
        r"<p>(.*?)\. <span",
        page,
    )


def test_findings_stand_beneath_the_lanes(client: TestClient) -> None:
    """Safety first, each with number, source and certainty, and one change that mends most."""
    page = ready(client)
    assert page.index('class="lanes"') < page.index("What to mend") < page.index(">Days</h2>")
    assert "Back squat goes to failure on Monday without safeties or spotter." in page
    told = page[page.index("What to mend") : page.index(">Days</h2>")]
    assert told.count("<dt>how sure</dt>") == told.count("<dt>from</dt>") > 8
    assert "One change mends most" in page
    assert offered(page)[0][1] == "best"


def test_a_change_is_made_in_one_touch_and_undone_in_one(
    client: TestClient, own_demo: Book
) -> None:
    """The change offered is the change made; its finding is gone; undo brings all back."""
    before = week_of(own_demo)
    key, finding, what = next(one for one in offered(ready(client)) if one[1] == "low:biceps")
    page = unescape(client.post("/week/fix", data={"key": key, "finding": finding}).text)
    assert f"Last change: {what}" in page
    assert "Biceps get 0" not in page
    change = last_change(own_demo)
    assert change
    page = client.post("/week/undo", data={"change": change.id}).text
    assert week_of(own_demo) == before
    assert "Put back" in page
    again = last_change(own_demo)
    assert again
    client.post("/week/undo", data={"change": again.id})
    assert week_of(own_demo) != before


def test_every_change_offered_mends_its_finding(client: TestClient, own_demo: Book) -> None:
    """Made on the page and audited again there, no change leaves its finding as it was."""
    for key, finding, what in offered(ready(client)):
        if finding == "best":
            continue
        told = unescape(client.post("/week/fix", data={"key": key, "finding": finding}).text)
        assert f"Last change: {what}" in told
        after = {one[1]: one[0] for one in offered(ready(client))}
        assert after.get(finding) != key
        change = last_change(own_demo)
        assert change
        client.post("/week/undo", data={"change": change.id})


def test_a_change_for_another_week_is_refused(client: TestClient, own_demo: Book) -> None:
    """What was worked out before the week changed is not applied to the new one."""
    key, finding, _ = offered(ready(client))[1]
    client.post("/week/Monday/0/order", data={"do": "down"})
    before = week_of(own_demo)
    answer = client.post("/week/fix", data={"key": key, "finding": finding})
    assert answer.status_code == 422
    assert "has changed since" in answer.text
    assert week_of(own_demo) == before


def test_only_the_last_change_is_undone(client: TestClient, own_demo: Book) -> None:
    """An old undo from a page left open changes nothing."""
    client.post("/week/Monday/0/order", data={"do": "down"})
    old = last_change(own_demo)
    client.post("/week/Monday/0/order", data={"do": "down"})
    before = week_of(own_demo)
    assert old
    answer = client.post("/week/undo", data={"change": old.id})
    assert answer.status_code == 422
    assert week_of(own_demo) == before


def test_edits_say_what_they_were(client: TestClient, own_demo: Book) -> None:
    """Each edit of a day is named, so that undo says what it takes back."""
    client.post("/week/Thursday/add", data={"exercise": "Curl"})
    change = last_change(own_demo)
    assert change
    assert "added on Thursday" in change.what


def test_a_good_week_says_so_and_stops(client_of: Client, empty: Book) -> None:
    """Nothing is found in a good week, and nothing is offered."""
    take_starter_gym(empty, "commercial_kg")
    take_starter_week(empty, "3_days")
    page = ready(client_of(empty))
    assert "Nothing to mend" in page
    assert "make this change" not in page


def test_the_log_says_how_she_stands(client: TestClient) -> None:
    """Hours since the last hard sets of each muscle, and the reps a set would lose now."""
    page = ready(client)
    assert "since its last hard sets" in page
    assert re.search(r'<th scope="row">glutes</th><td>\d+ h</td>', page)


def test_slips_are_asked_about(client: TestClient, own_demo: Book) -> None:
    """A week with 120 reps where 12 were meant is kept, and asked about on its page."""
    week = UNBALANCED.read_text(encoding="utf-8").replace('reps = "8-12"', 'reps = "8-120"', 1)
    own_demo.save_week(read_week(week, own_demo.catalogue))
    assert "8–120 reps: a digit too many?" in ready(client)


def test_an_empty_week_says_so_once_and_how_to_go_on(client_of: Client, empty: Book) -> None:
    """Instead of a finding for every muscle: one sentence, to have it planned or to write it."""
    begin_own_week(empty, ("Thursday", "Monday"))
    page = client_of(empty).get("/week").text
    assert page.count("No exercise is planned yet.") == 1
    assert "fractional sets" not in page
    assert 'id="audit"' not in page
    assert 'href="/week/brief">have it planned' in page
    assert 'href="/week/Monday">write it yourself' in page
    form = client_of(empty).get("/week/brief").text
    ticked = re.findall(r'name="day" value="(\w+)" checked', form)
    assert ticked == ["Monday", "Thursday"]
    client_of(empty).post("/week/Monday/add", data={"exercise": "Back squat"})
    page = client_of(empty).get("/week").text
    assert "No exercise is planned yet." not in page
    assert 'id="audit"' in page


def test_the_page_says_what_fractional_sets_are(demo: TestClient) -> None:
    """The measure of the lanes and findings is told once, in plain words."""
    page = demo.get("/week").text
    told = "counts whole for the muscles it works directly and half for those that help"
    assert page.count(told) == 1


def test_the_week_says_that_a_pause_asks_for_less(client: TestClient, own_demo: Book) -> None:
    """After nine weeks away the usual week is not told as what is asked now; before, it is."""
    assert "weeks off" not in client.get("/week").text
    assert isinstance(own_demo.now, Clock)
    own_demo.now.moment += timedelta(weeks=9)
    page = unescape(client.get("/week").text).replace("\u00a0", " ")
    assert page.count("First week back: about 50 % of your usual sets, 2 or more left") == 1
    assert "the week below is the usual one" in page
