"""A week planned or changed on the page: the form, the work, the week, using and undoing it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import timedelta
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from fastapi.testclient import TestClient
from playwright.sync_api import Page

from pennate.app.book import Book
from pennate.app.changes import ANOTHER_MACHINE
from pennate.app.gym_page import gym_of, misfits, take_starter
from pennate.app.gyms import KIT
from pennate.app.today import card_for
from pennate.app.week_audit import audit_key
from pennate.app.week_changes import last_change
from pennate.app.week_known import looking_at
from pennate.app.week_plan import Proposal
from pennate.core.card import Card
from pennate.core.exercise import EquipmentKind
from pennate.core.muscles import Group
from pennate.core.prescribed import LoadFrom, PrescribedSets
from pennate.core.week_dose import week_dose
from pennate.core.week_time import Pace
from pennate.plan.solve import Solved
from pennate.web.views.week_plan import proof_words

from .conftest import Clock, served, week_of

SMALL = {
    "day": ["Monday", "Thursday"],
    "minutes_Monday": "20",
    "minutes_Thursday": "25",
    "gym": "travel",
    "supersets": "no",
    "near": "no",
}


def ask(
    client: TestClient, path: str, data: Mapping[str, Any], *, stop: bool = False
) -> tuple[str, str]:
    """Send a form and follow the work to its end: the address of the answer and its page."""
    answer = client.post(path, data=data)
    where = answer.url.path
    assert where.startswith("/week/plan/"), answer.text
    if stop:
        client.post(f"{where}/stop")
    for _ in range(200):
        page = client.get(where).text
        if "data-again" not in page:
            return where, unescape(page)
    raise AssertionError("the work never ended")


def test_the_form_is_filled_in_from_what_is_known(client: TestClient, own_demo: Book) -> None:
    """Days, minutes, priorities and gym stand as her week has them."""
    page = client.get("/week/brief").text
    week = week_of(own_demo)
    for day in week.days:
        ticked = f'name="day" value="{day.day}" checked' in page
        assert ticked is not day.rest
    first = re.search(r'id="p1".*?value="([^"]+)" selected', page, re.DOTALL)
    assert first
    assert first[1] == week.priorities[0].value


def test_a_brief_gives_a_week_with_proof_and_reasons(client: TestClient) -> None:
    """Lanes, what changes, why each exercise, how good it is, what binds, what time would buy."""
    _, page = ask(client, "/week/brief", SMALL)
    assert "A week for your brief" in page
    assert "no other week with these wishes is worth more than" in page
    assert page.count('class="lanes"') == 2
    assert page.count("<dt>a week</dt>") == 2 * len(Group)
    for title in ("What is a week worth?", "What are these minutes?"):
        opened = page[page.index(title) :].partition("</details>")[0]
        assert "<dt>how sure</dt>" in opened
        assert "<dt>source</dt>" in opened
    assert "planned for 25 min" in page
    assert "min wanted" not in page
    assert "10 more minutes a day" in page
    assert "one more day" in page
    assert re.search(r"<dt>(new|gone)</dt><dd>\w+", page)
    assert re.search(r"left · (kept from your week; )?for \w+", page)


def test_using_it_is_one_touch_and_so_is_undoing(client: TestClient, own_demo: Book) -> None:
    """The planned week is followed from then on; undo brings hers back, name and all."""
    before = week_of(own_demo)
    where, _ = ask(client, "/week/brief", SMALL, stop=True)
    page = client.post(f"{where}/use", data={"do": "use"}).text
    assert "Last change: a planned week" in page
    assert [day.day for day in week_of(own_demo).days] == ["Monday", "Thursday"]
    assert week_of(own_demo).name == before.name
    change = last_change(own_demo)
    assert change
    client.post("/week/undo", data={"change": change.id})
    assert week_of(own_demo) == before


def test_discarding_changes_nothing(client: TestClient, own_demo: Book) -> None:
    """A dropped week is forgotten, and the wishes are remembered for the next time."""
    before = week_of(own_demo)
    where, _ = ask(client, "/week/brief", SMALL, stop=True)
    client.post(f"{where}/use", data={"do": "drop"})
    assert week_of(own_demo) == before
    assert client.get(where).url.path == "/week/brief"
    assert 'name="minutes_Thursday" value="25"' in client.get("/week/brief").text


def test_the_work_can_be_stopped(client: TestClient, own_demo: Book) -> None:
    """Stopped, the best week so far is shown and marked; it keeps her minutes."""
    wide = {**SMALL, "gym": "", "minutes_Monday": "90", "minutes_Thursday": "90"}
    where = client.post("/week/brief", data=wide).url.path
    assert "data-again" in client.get(where).text
    client.post(f"{where}/stop")
    for _ in range(200):
        page = client.get(where).text
        if "data-again" not in page:
            break
    assert "Stopped early" in page
    assert "use this week" in page


def test_wishes_that_clash_come_with_the_nearest_week(client: TestClient, own_demo: Book) -> None:
    """What is asked, what is missing, and a week that can be trained, to be taken or not."""
    where, page = ask(client, "/week/brief", {**SMALL, "target_quads": "24+"})
    assert "No week meets every wish" in page
    assert "quads 24" in page
    assert "sets of quads are missing" in page
    client.post(f"{where}/use", data={"do": "use"})
    quads = week_dose(week_of(own_demo), own_demo.catalogue).groups[Group.QUADS].value
    assert 0 < quads < 24


@pytest.mark.parametrize(
    ("field", "typed", "told"),
    [
        ("minutes_Monday", "soon", "“soon” is not a session on Monday"),
        ("target_quads", "many", "“many” is no range of sets"),
        ("barred", "leg pres", "Leg press"),
        ("years", "ages", "“ages” is not a number"),
        ("sessions", "9", "a whole number from 1 to 7"),
        ("gym", "moon", "no gym here"),
        ("joint_knee", "bad", "is no limit"),
    ],
)
def test_what_cannot_be_read_comes_back(
    client: TestClient, own_demo: Book, field: str, typed: str, told: str
) -> None:
    """One sentence names the slip, what was typed stands, and nothing is begun or kept."""
    at = own_demo.ledger.position()
    answer = client.post("/week/brief", data={**SMALL, field: typed})
    assert answer.status_code == 422
    assert told in unescape(answer.text)
    assert 'name="minutes_Thursday" value="25"' in answer.text
    assert own_demo.ledger.position() == at


@pytest.mark.parametrize(("bound", "told"), [(100.0, "0.1"), (100.04, "0.1"), (105.0, "4.8")])
def test_no_gap_is_told_as_none(own_demo: Book, bound: float, told: str) -> None:
    """A proof to the last digit reads as a tenth of a percent, never as “more than 0.0 %”."""
    solved = Solved(selection=(), objective=100.0, bound=bound, stopped=False, missing={})
    week = week_of(own_demo)
    found = Proposal(week=week, current=week, pace=Pace(), solved=solved, against={})
    words = proof_words(found, replanned=True).replace("\N{NO-BREAK SPACE}", " ")
    assert words.endswith(f"is worth more than {told} % above it.")


def test_a_missed_day_and_less_time(client: TestClient, own_demo: Book) -> None:
    """The rest changes little; used for this week, her usual week is back on Monday."""
    before = week_of(own_demo)
    days = [day.day for day in before.days if not day.rest]
    wishes = {f"state_{day}": "ahead" for day in days} | {
        f"state_{days[1]}": "missed",
        f"minutes_{days[2]}": "40",
        "for": "1",
    }
    where, page = ask(client, "/week/changed", dict(wishes))
    assert "The rest of the week" in page
    assert "Your usual week comes back on Monday." in page
    client.post(f"{where}/use", data={"do": "use"})
    changed = week_of(own_demo)
    missed = changed.day(days[1])
    assert missed
    assert missed.rest
    client.post(f"/week/{days[2]}/0/order", data={"do": "down"})
    assert week_of(own_demo).day(days[1]) == missed
    assert isinstance(own_demo.now, Clock)
    own_demo.now.moment += timedelta(days=7)
    assert week_of(own_demo) == before


def test_a_lost_machine_until_further_notice(client: TestClient, own_demo: Book) -> None:
    """What stood on it is replaced because it is not there, and stays so."""
    page = client.get("/week/changed").text
    gone = re.findall(r'name="gone" value="([^"]*leg_press[^"]*|[^"]*curl[^"]*)"', page)
    where, page = ask(client, "/week/changed", {"gone": gone, "for": "0"})
    assert "instead of" in page
    assert ": taken" in page
    client.post(f"{where}/use", data={"do": "use"})
    changed = week_of(own_demo)
    assert isinstance(own_demo.now, Clock)
    own_demo.now.moment += timedelta(days=7)
    assert week_of(own_demo) == changed


def test_two_weeks_away_change_the_days_done_too(client: TestClient, own_demo: Book) -> None:
    """Monday was done in her gym and comes again in the hotel: then it can be done there.

    After the last Sunday her usual week is back, and a change of this week alone in between
    gives way to the week of the trip.
    """
    usual = week_of(own_demo)
    first = next(day for day in usual.days if not day.rest)
    done = {f"state_{first.day}": "done", "kit": ["dumbbells", "cable", "bench"]}
    where, page = ask(client, "/week/changed", {**done, "for": "2"})
    assert "It holds for 2 weeks with this one" in page
    client.post(f"{where}/use", data={"do": "use"})
    trip = week_of(own_demo)
    assert trip.day(first.day) != first
    pulls = next(d for d in trip.days if "lat_pulldown" in {one.exercise for one in d.exercises})
    told = [line for line in _changes(own_demo, pulls.day) if ANOTHER_MACHINE in line]
    assert len(told) == 1
    assert "Lat pulldown" in told[0]
    assert "Incline press" not in told[0]  # a kilogram of iron is one everywhere
    assert not misfits(trip, gym_of(own_demo), own_demo.catalogue)
    last = next(day for day in reversed(trip.days) if not day.rest).day
    where, _ = ask(client, "/week/changed", {f"state_{last}": "missed", "for": "1"})
    client.post(f"{where}/use", data={"do": "use"})
    assert week_of(own_demo) != trip
    assert "This week only, until Sunday" in client.get("/week").text
    assert isinstance(own_demo.now, Clock)
    monday = own_demo.today - timedelta(days=own_demo.today.weekday())
    own_demo.now.moment += timedelta(days=7)
    assert week_of(own_demo) == trip
    own_demo.now.moment += monday + timedelta(days=13) - own_demo.today
    assert own_demo.today.weekday() == 6
    assert week_of(own_demo) == trip
    own_demo.now.moment += timedelta(days=1)
    assert week_of(own_demo) == usual
    assert not any(ANOTHER_MACHINE in line for line in _changes(own_demo, pulls.day))


def _changes(book: Book, weekday: str) -> tuple[str, ...]:
    """What stands at the head of a day's card."""
    card = card_for(book, book.today, weekday=weekday)
    assert isinstance(card, Card)
    return card.changes


def test_the_wait_is_told_as_measured(client: TestClient) -> None:
    """The seconds that the form promises hold the median and the worst of the measured briefs."""
    told = re.search(r"in (\d+) to (\d+) seconds", client.get("/week/brief").text)
    page = (Path(__file__).parents[2] / "bench/plan/RESULTS.md").read_text(encoding="utf-8")
    row = r"all solved briefs .* processor seconds median ([\d.]+), worst ([\d.]+)"
    measured = re.search(row, page)
    assert told
    assert measured
    assert int(told[1]) <= float(measured[1]) <= float(measured[2]) <= int(told[2])


def test_a_travel_kit(client: TestClient, own_demo: Book) -> None:
    """With bands and body weight every exercise of the rest can be done with them."""
    where, _ = ask(client, "/week/changed", {"kit": ["bands"], "for": "1"})
    client.post(f"{where}/use", data={"do": "use"})
    found = [
        own_demo.catalogue[asked.exercise].kinds_in(
            {EquipmentKind.BANDS, EquipmentKind.BODY_WEIGHT}, frozenset()
        )
        for day in week_of(own_demo).days
        for asked in day.exercises
    ]
    assert all(found)
    assert gym_of(own_demo).id == KIT
    assert not misfits(week_of(own_demo), gym_of(own_demo), own_demo.catalogue)
    alone = _sets_at_body_weight(own_demo)
    assert alone
    assert all(sets.load.source is LoadFrom.BODY_WEIGHT for sets in alone)


def test_another_gym_for_the_rest_of_the_week(client: TestClient, own_demo: Book) -> None:
    """What her travel kit carries is planned there, with its loads; next week she is back."""
    home = gym_of(own_demo)
    assert 'name="place"' not in client.get("/week/changed").text
    travel = take_starter(own_demo, "travel")
    assert f'value="{travel.id}"' in client.get("/week/changed").text
    where, page = ask(client, "/week/changed", {"place": travel.id, "for": "1"})
    assert "on bands" in page
    client.post(f"{where}/use", data={"do": "use"})
    assert gym_of(own_demo) == travel
    assert not misfits(week_of(own_demo), travel, own_demo.catalogue)
    assert isinstance(own_demo.now, Clock)
    own_demo.now.moment += timedelta(days=7)
    assert gym_of(own_demo) == home


def _sets_at_body_weight(book: Book) -> list[PrescribedSets]:
    """Sets of what is done at body weight away from the gym."""
    asked = (one for day in week_of(book).days for one in day.exercises)
    return [one for each in asked if "body weight" in each.because for one in each.sets]


def test_a_week_changed_meanwhile_is_not_lost(client: TestClient, own_demo: Book) -> None:
    """A proposal made for another week is refused, and hers stays as she changed it."""
    where, _ = ask(client, "/week/brief", SMALL, stop=True)
    day = week_of(own_demo).days[0].day
    client.post(f"/week/{day}/0/order", data={"do": "down"})
    before = week_of(own_demo)
    answer = client.post(f"{where}/use", data={"do": "use"})
    assert answer.status_code == 422
    assert "has been changed since" in answer.text
    assert week_of(own_demo) == before


@pytest.mark.browser
def test_the_page_follows_the_work(own_demo: Book, phone: Page) -> None:
    """In a browser the words of progress change in place, and the week appears by itself."""
    with served(own_demo) as address:
        phone.goto(f"{address}/week/brief")
        for box in reversed(phone.locator("input[name=day]:checked").all()[1:]):
            box.uncheck(force=True)
        phone.get_by_role("button", name="Plan it").click()
        phone.get_by_role("button", name="enough: take the best so far").click()
        phone.wait_for_selector("text=A week for your brief", timeout=60_000)
        found = Axe().run(phone).response["violations"]
        assert [(one["id"], one["nodes"][0]["html"]) for one in found] == []
        assert phone.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0


def test_without_script_the_page_looks_again(client: TestClient) -> None:
    """Where no script runs, the page of the work asks for itself until the week is there."""
    wide = {**SMALL, "gym": "", "minutes_Monday": "90", "minutes_Thursday": "90"}
    where = client.post("/week/brief", data=wide).url.path
    page = client.get(where).text
    assert '<noscript><meta http-equiv="refresh" content="4"></noscript>' in page
    client.post(f"{where}/use", data={"do": "drop"})


def test_the_key_of_an_audit_is_no_plan(client: TestClient, own_demo: Book) -> None:
    """An address made from another piece of work leads back to the form, not to an error."""
    client.get("/week")
    week = week_of(own_demo)
    key = audit_key(week, looking_at(own_demo, week))
    answer = client.get(f"/week/plan/{key}", follow_redirects=False)
    assert answer.status_code == 303
    assert answer.headers["location"].startswith("/week/brief")
