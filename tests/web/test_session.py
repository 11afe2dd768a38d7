"""A session's forms: what is tapped is what is stored, once."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from html import unescape

import pytest
from fastapi.testclient import TestClient

from pennate.app.body_notes import pain_reports
from pennate.app.body_recovery import short_nights
from pennate.app.book import Book
from pennate.app.illness import illness_now
from pennate.app.pain_holds import holds
from pennate.app.stops import LOADED_JOINT
from pennate.app.today import RestDay, card_for
from pennate.core.card import Card, CardSet
from pennate.core.caution_texts import AFTER_ILLNESS
from pennate.core.muscles import Joint
from pennate.core.performed import Effort, PerformedSet, SetKind
from pennate.core.prescribed import WEEKDAYS, PlannedDay
from pennate.ledger import uuid7
from pennate.ledger.sets import set_entry

from .conftest import MONDAY, Client

DAY = MONDAY.date()


def card_of(book: Book, day: date = DAY) -> Card:
    """The card of a day that trains."""
    card = card_for(book, day)
    assert not isinstance(card, RestDay)
    return card


def next_set(book: Book) -> CardSet:
    """The set that is to be done."""
    card = card_of(book)
    found = card.find(card.next_key or "")
    assert found
    return found[1]


def close(client: TestClient, book: Book, **more: str) -> PerformedSet:
    """Close the next set through the page's own form, with these values touched."""
    key = card_of(book).next_key
    assert key
    page = client.get("/floor").text
    form = page[page.index('action="/floor/close"') :]
    hidden = dict(
        re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', form.split("</form>")[0])
    )
    client.post("/floor/close", data={**hidden, **more})
    found = card_of(book).find(key)
    assert found
    assert found[1].done, f"{key} is still open"
    return found[1].done


def test_items_of_a_session_cannot_be_misread(client: TestClient, own_demo: Book) -> None:
    """A thing may be called “Hip abduction, seated”, so that no comma stands between two."""
    names = dict.fromkeys(one.item.name for one in card_of(own_demo).stops if one.item)
    assert len(names) > 1
    assert f" · {'; '.join(names)}" in unescape(client.get("/today").text)


def test_done_stores_what_was_asked(client: TestClient, own_demo: Book) -> None:
    """One touch: the asked values stand, marked untouched, effort not noted."""
    asked = card_of(own_demo).stops[0].sets[0]
    done = close(client, own_demo, as_asked="1")
    assert asked.reps
    assert asked.load
    assert (done.reps, done.load) == (asked.reps.low, asked.load.load.amount)
    assert done.as_asked
    assert done.effort is None


def test_a_number_stores_itself(client: TestClient, own_demo: Book) -> None:
    """A tapped number is what she did, so nothing is marked as asked."""
    done = close(client, own_demo, reps="6", effort="1")
    assert done.reps == 6
    assert done.effort is Effort.ONE
    assert not done.as_asked


def test_the_same_tap_twice_is_one_set(client: TestClient, own_demo: Book) -> None:
    """A drop of water taps twice: the second finds the set closed and stores nothing."""
    key = card_of(own_demo).next_key
    before = len(own_demo.history())
    for _ in range(2):
        client.post("/floor/close", data={"key": key, "as_asked": "1"})
    assert len(own_demo.history()) == before + 1


def test_undo_opens_the_set_again(client: TestClient, own_demo: Book) -> None:
    """What was closed last can be taken back until the next is closed."""
    key = card_of(own_demo).next_key
    close(client, own_demo, as_asked="1")
    client.post("/floor/undo")
    assert card_of(own_demo).next_key == key


def test_a_heavier_load_by_steps(client: TestClient, own_demo: Book) -> None:
    """− and + go to the next loadable load, and that load is stored."""
    key = card_of(own_demo).next_key
    page = client.get("/floor").text
    heavier = re.search(r'value="([\d.]+) lb"[^>]*aria-label="one step heavier', page)
    assert heavier
    moved = client.get("/floor", params={"key": key, "at": f"{heavier[1]} lb"}).text
    assert f'name="load" value="{heavier[1]}"' in moved
    done = close(client, own_demo, by_hand="1", load=heavier[1], unit="lb", as_asked="1")
    assert done.load == int(heavier[1])
    assert not done.as_asked


@pytest.mark.parametrize("at", ["heavy", "41.3 lb", "50 stone", "nan kg"])
def test_a_load_that_cannot_be_made_is_refused(client: TestClient, own_demo: Book, at: str) -> None:
    """A made-up address gets a sentence, not a trace."""
    answer = client.get("/floor", params={"key": card_of(own_demo).next_key, "at": at})
    assert answer.status_code == 422
    assert 'role="alert"' in answer.text


@pytest.mark.parametrize("reps", ["many", "-3", "6.5", "9999"])
def test_impossible_reps_store_nothing(client: TestClient, own_demo: Book, reps: str) -> None:
    """A wrong number is said, and nothing is half-written."""
    before = len(own_demo.history())
    key = card_of(own_demo).next_key
    answer = client.post("/floor/close", data={"key": key, "other": "1", "other_reps": reps})
    assert answer.status_code == 422
    assert len(own_demo.history()) == before


def test_short_sleep_is_one_touch_on_and_off(client: TestClient, own_demo: Book) -> None:
    """The one question is answered by a touch, and taken back by another."""
    for said in (True, False):
        client.post("/today/check-in", data={"toggle": "short_sleep"})
        readiness = card_of(own_demo).readiness
        assert readiness
        assert readiness.short_sleep is said


def test_an_illness_is_asked_in_two_steps(client: TestClient, own_demo: Book) -> None:
    """Ill now, or before: the second touch says which, a third takes it back."""
    for answer, words in (("ill:before", "was ill"), ("ill:now", "ill today")):
        asked = client.post("/today/check-in", data={"toggle": "ill"}).text
        assert "was ill, well again" in asked
        before = card_of(own_demo).readiness
        assert before is None or not before.ill
        page = client.post("/today/check-in", data={"toggle": answer}).text
        assert f'aria-pressed="true">{words}</button>' in page
        client.post("/today/check-in", data={"toggle": "short_sleep"})
        readiness = card_of(own_demo).readiness
        assert readiness
        assert f"ill:{readiness.ill.value}" == answer
        page = client.post("/today/check-in", data={"toggle": "ill"}).text
        assert 'aria-pressed="false">ill</button>' in page


def test_pain_is_stored_and_said(client: TestClient, own_demo: Book) -> None:
    """A sore knee before the session changes the card and shows on the question."""
    client.post("/today/pain", data={"joint": "knee", "score": "4"})
    readiness = card_of(own_demo).readiness
    assert readiness
    assert dict(readiness.pain) == {"knee": 4}
    assert "hurts: knee 4" in client.get("/today").text


def test_pain_in_the_session_says_what_to_do(client: TestClient, own_demo: Book) -> None:
    """The pain rule's sentence shows, and the number goes with the set."""
    answer = client.post("/floor/hurts", data={"joint": "knee", "score": "4"})
    assert "less load, less range" in answer.text
    assert 'name="pain" value="knee:4"' in answer.text
    assert dict(close(client, own_demo, as_asked="1", pain="knee:4").pain) == {"knee": 4}
    stop = client.post("/floor/hurts", data={"joint": "knee", "score": "2", "alarming": "1"})
    assert "Stop this exercise today" in stop.text


# The rule and a fifth less: docs/evidence.md, pain-monitoring trial, Silbernagel 2007.
@pytest.mark.parametrize(("pain", "lighter"), [("shoulder:4", 1), ("shoulder:6", 0)])
def test_pain_is_answered_where_it_is_said(
    client: TestClient, own_demo: Book, pain: str, lighter: int
) -> None:
    """Up to five a load at least a fifth lighter; above, only another exercise or none."""
    while next_set(own_demo).kind is SetKind.WARM_UP:
        close(client, own_demo, as_asked="1")
    page = client.get("/floor", params={"pain": pain}).text
    assert "stop this exercise" in page
    assert page.count('class="main"') == lighter
    found = re.search(r'href="(/floor\?key=[^"]*&amp;at=(\d+)[^"]*)">lighter', page)
    assert bool(found) == lighter
    load = next_set(own_demo).load
    if found and load:
        assert int(found[2]) <= 0.8 * load.load.amount
        assert f'name="load" value="{found[2]}"' in client.get(found[1].replace("&amp;", "&")).text


@pytest.mark.parametrize("pain", ["shoulder:7", "shoulder:2!", "muscle:8"])
def test_pain_that_stops_leaves_out_the_rest(client: TestClient, own_demo: Book, pain: str) -> None:
    """The set is kept, its exercise is over for today, and undo opens both again."""
    done = close(client, own_demo, as_asked="1", pain=pain)
    assert card_of(own_demo).stops[0].finished
    assert done.note.startswith("sharp") is pain.endswith("!")
    assert ("muscle pain 8 of 10" in done.note) is pain.startswith("muscle")
    assert bool(done.pain) is pain.startswith("shoulder")
    client.post("/floor/undo")
    assert not card_of(own_demo).stops[0].finished


@pytest.mark.parametrize("answer", ["nothing", "time"])
def test_less_time_is_taken_back_by_a_touch(
    client: TestClient, own_demo: Book, answer: str
) -> None:
    """Short of time is an answer to the one question: “nothing”, or the key again, ends it."""
    client.post("/today/time", data={"minutes": "20"})
    page = client.get("/today").text
    assert "left out for lack of time" in page
    assert "20 min</button>" in page
    client.post("/today/check-in", data={"toggle": "short_sleep"})
    assert "20 min</button>" in client.get("/today").text
    client.post("/today/check-in", data={"toggle": answer})
    assert "left out for lack of time" not in client.get("/today").text


def test_less_time_shortens(client: TestClient, own_demo: Book) -> None:
    """Thirty minutes give a session of about thirty minutes."""
    client.post("/today/time", data={"minutes": "30"})
    card = card_of(own_demo)
    left = [s for stop in card.stops for s in stop.sets if s.state.value == "skipped"]
    assert left


def test_a_change_can_be_refused(client_of: Client, seasoned: Book) -> None:
    """After a weak top set the next is lighter, the reason is said, and one touch keeps it."""
    client = client_of(seasoned)
    while (one := next_set(seasoned)).kind is not SetKind.TOP:
        close(client, seasoned, as_asked="1")
    assert one.likely
    close(client, seasoned, reps=str(one.likely.low - 2), effort="fail")
    page = client.get("/floor").text
    assert "under what was likely" in page
    changed = next_set(seasoned)
    assert changed.refusable
    client.post("/floor/keep", data={"key": changed.key})
    kept = next_set(seasoned).load
    assert kept
    assert kept.load == changed.refusable.load


def test_skip_and_take_up(client: TestClient, own_demo: Book) -> None:
    """A stop that is skipped can be taken up again."""
    first = card_of(own_demo).stops[0]
    client.post("/today/stop", data={"do": "skip", "weekday": "Monday", "stop": str(first.index)})
    assert card_of(own_demo).stops[0].finished
    client.post("/today/stop", data={"do": "take up", "weekday": "Monday", "stop": "0"})
    assert not card_of(own_demo).stops[0].finished


def test_looking_back_leads_on_only_while_a_set_is_open(client: TestClient, own_demo: Book) -> None:
    """With no set left, “go on with it” would lead back to itself; the session has the undo."""
    review = f"/review/{DAY.isoformat()}"
    close(client, own_demo, as_asked="1")
    assert "go on with it" in client.get(review).text
    for stop in range(len(card_of(own_demo).stops)):
        client.post("/floor/skip", data={"stop": str(stop)})
    assert card_of(own_demo).next_key is None
    page = client.get(review).text
    assert "go on with it" not in page
    assert '<a class="quiet" href="/today">the session</a>' in page
    assert "undo" in client.get("/today").text


def test_pain_told_on_the_way_out_counts_for_the_others(client: TestClient, own_demo: Book) -> None:
    """Shoulder 8, then “stop this exercise”: what else loads the shoulder is left out too."""
    before = card_of(own_demo)
    assert before.next_key
    page = client.get("/floor?pain=shoulder:8").text
    assert 'name="pain" value="shoulder:8"' in page
    client.post("/floor/skip", data={"stop": "0", "pain": "shoulder:8"})
    after = card_of(own_demo)
    loaded = [
        stop.index
        for stop in before.stops
        if own_demo.catalogue[stop.exercise].joints.get(Joint.SHOULDER, 0) >= LOADED_JOINT
    ]
    assert len(loaded) > 1
    assert all(stop.finished for stop in after.stops if stop.index in loaded)
    assert after.next_key, "the rest of the session goes on"


@pytest.mark.parametrize("where", ["shoulder", "muscle"])
def test_sharp_told_on_the_way_out_is_kept(client: TestClient, own_demo: Book, where: str) -> None:
    """Two of ten and sharp, no set closed: the word stays with the number, and is shown later."""
    page = client.get("/floor", params={"pain": f"{where}:2!"}).text
    assert f'name="pain" value="{where}:2!"' in page
    client.post("/floor/skip", data={"stop": "0", "pain": f"{where}:2!"})
    told = own_demo.ledger.entries("decision")[-1].body
    assert told["exercise"] == card_of(own_demo).stops[0].exercise
    assert "sharp, swelling, locking or giving way" in told["note"]
    today = client.get("/today").text
    assert "2 of 10" in today
    assert "sharp, swelling, locking or giving way" in today
    if where == "shoulder":
        assert "hurts: shoulder 2, sharp" in today
        recovery = client.get("/body/recovery").text
        assert "2, sharp, swelling, locking or giving way" in recovery
        assert "What loads the shoulder is left out" in recovery
        client.post("/today/check-in", data={"toggle": "hurts"})
        assert "sharp" not in client.get("/today").text.split("Anything different")[1][:1500]
        client.post("/today/pain", data={"joint": "knee", "score": "1", "alarming": "1"})
        assert "hurts: knee 1, sharp" in client.get("/today").text


def test_pain_told_with_a_set_counts_as_told_elsewhere(client: TestClient, own_demo: Book) -> None:
    """Shoulder 8 with a closed set leaves out the stops that the same told on Today does."""
    close(client, own_demo, as_asked="1", pain="shoulder:8")
    with_set = {stop.index for stop in card_of(own_demo).stops if stop.finished}
    assert len(with_set) > 1
    client.post("/floor/undo")
    assert not any(stop.finished for stop in card_of(own_demo).stops), "undo takes it back whole"
    client.post("/today/pain", data={"joint": "shoulder", "score": "8"})
    assert {stop.index for stop in card_of(own_demo).stops if stop.finished} == with_set


def test_undo_leaves_pain_told_before_the_set(client: TestClient, own_demo: Book) -> None:
    """A knee at 4 said on Today is at 4 again when the set told with 7 is taken back."""
    client.post("/today/pain", data={"joint": "knee", "score": "4"})
    close(client, own_demo, as_asked="1", pain="knee:7")
    for score in (7, 4):
        readiness = card_of(own_demo).readiness
        assert readiness
        assert dict(readiness.pain) == {"knee": score}
        client.post("/floor/undo")


def test_taken_offers_two_with_loads(client: TestClient, own_demo: Book) -> None:
    """When the machine is taken, two exercises stand in, and one touch changes to one."""
    page = client.get("/floor?ask=taken").text
    offers = re.findall(r'name="exercise" value="(\w+)"', page[page.index('id="ask"') :])
    assert len(offers) == 2
    data = {"weekday": "Monday", "stop": "0", "exercise": offers[0], "reason": "taken"}
    client.post("/today/swap", data=data)
    assert card_of(own_demo).stops[0].exercise == offers[0]


def test_notes_come_back_with_the_set(client: TestClient, own_demo: Book) -> None:
    """Settings, cue and a note for next time are hers and stand above the load."""
    stop = card_of(own_demo).stops[0]
    item = stop.item.id if stop.item else ""
    client.post(
        "/floor/notes",
        data={
            "exercise": stop.exercise,
            "item": item,
            "setting_name": ["rack", ""],
            "setting_value": ["12", ""],
            "cue": "knees out",
            "next_time": "belt",
        },
    )
    page = client.get("/floor").text
    assert "rack <b>12</b>" in page
    assert "<q>knees out</q>" in page
    assert "belt" in page


def go_to(book: Book, fits: Callable[[PlannedDay | None], bool]) -> str:
    """Set the test's clock to the first evening of the week that fits; gives its name."""
    week = book.week()
    assert week
    for ahead in range(7):
        moment = MONDAY + timedelta(days=ahead, hours=1)
        name = WEEKDAYS[moment.weekday()]
        if fits(week.day(name)):
            book.now.moment = moment  # type: ignore[attr-defined] # the test's own clock
            return name
    raise AssertionError("the demo has no such day")


def test_a_rest_day_offers_the_other_sessions(client_of: Client, own_demo: Book) -> None:
    """On a day off another day's session can be done all the same."""
    off = go_to(own_demo, lambda day: day is None or day.rest)
    client = client_of(own_demo)
    assert f"{off} · rest" in client.get("/today").text
    client.post("/today/choose", data={"weekday": "Friday"})
    assert card_of(own_demo, own_demo.today).session == "friday"


def test_illness_and_sleep_can_be_told_on_a_rest_day(client_of: Client, own_demo: Book) -> None:
    """No session is begun by it; the caution and the easy days are said, and it can be undone."""
    go_to(own_demo, lambda day: day is None or day.rest)
    client, today = client_of(own_demo), own_demo.today
    assert "Ill, or back after it?" not in client.get("/today").text
    asked = client.post("/today/check-in", data={"toggle": "ill"}).text
    assert "Ill, or back after it?" in asked
    told = unescape(client.post("/today/check-in", data={"toggle": "ill:before"}).text)
    assert AFTER_ILLNESS.text in told
    assert "of easing in after illness" in told
    client.post("/today/check-in", data={"toggle": "short_sleep"})
    assert illness_now(own_demo, today) is not None
    assert today in short_nights(own_demo)
    assert own_demo.ledger.entries("session", since=today, until=today) == ()
    undone = unescape(client.post("/today/check-in", data={"toggle": "ill"}).text)
    assert AFTER_ILLNESS.text not in undone
    assert illness_now(own_demo, today) is None
    assert today in short_nights(own_demo)


def test_what_is_told_on_a_rest_day_holds_for_a_session_done_all_the_same(
    client_of: Client, own_demo: Book
) -> None:
    """Chosen after it was told, the session of another day knows of it."""
    go_to(own_demo, lambda day: day is None or day.rest)
    client = client_of(own_demo)
    client.post("/today/check-in", data={"toggle": "low_energy"})
    client.post("/today/choose", data={"weekday": "Friday"})
    readiness = card_of(own_demo, own_demo.today).readiness
    assert readiness is not None
    assert readiness.low_energy


def test_pain_that_stopped_an_exercise_keeps_it_out_until_she_takes_it_up(
    client: TestClient, own_demo: Book
) -> None:
    """Left out with what was said, on the session and on Recovery; her own word takes it up."""
    client.post("/today/choose", data={"weekday": "Monday"})
    first = card_of(own_demo).stops[0]
    last = next(d for d in reversed(own_demo.history().sets) if d.exercise == first.exercise)
    own = uuid7(own_demo.now(), own_demo.rng)
    hurt = replace(last, id=own, number=last.number + 40, pain={"knee": 8}, extra={})
    own_demo.ledger.append([set_entry(hurt, now=own_demo.now(), rng=own_demo.rng)])
    said = f"knee 8 of 10 on {last.day.day} {last.day:%B}"
    assert f"left out until it has settled: {said}" in client.get("/today").text
    assert f"{first.name} is left out: {said}." in client.get("/body/recovery").text
    client.post("/today/stop", data={"do": "take up", "stop": "0", "weekday": "Monday"})
    assert said not in client.get("/today").text


@pytest.mark.parametrize("told", ["with a set", "on the way out", "sharp, with a set"])
def test_pain_told_by_mistake_is_corrected_where_the_stop_is(
    client: TestClient, own_demo: Book, told: str
) -> None:
    """Shoulder 7 by a slip, then 1: what it left out is asked again, today and next time."""
    pain = "shoulder:2!" if told.startswith("sharp") else "shoulder:7"
    if told == "on the way out":
        client.post("/floor/skip", data={"stop": "0", "pain": pain})
    else:
        close(client, own_demo, as_asked="1", pain=pain)
    assert sum(stop.finished for stop in card_of(own_demo).stops) > 1
    page = client.get("/today/stop/0").text
    form = page[page.index('aria-label="Correct what you told of the shoulder"') :]
    hidden = dict(re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', form))
    client.post("/today/pain", data={**hidden, "score": "1"})
    client.post("/today/stop", data={"do": "take up", "weekday": "Monday", "stop": "0"})
    card = card_of(own_demo)
    assert not any(stop.finished for stop in card.stops)
    assert not any(one.id.startswith("pain") for stop in card.stops for one in stop.cautions)
    later = holds(own_demo, DAY + timedelta(days=7))
    assert (later.joints, later.exercises) == ({}, {})
    (report,) = [one for one in pain_reports(own_demo) if one.day == DAY]
    assert (report.joint, report.score, report.alarming) == ("shoulder", 1, False)
    if told != "on the way out":
        kept = own_demo.history().sets[-1]
        assert kept.pain, "nothing she told is lost"


def test_what_is_told_anew_after_a_correction_counts(client: TestClient, own_demo: Book) -> None:
    """Corrected to 1, then 8 with a later set: what loads it stops, today and next time."""
    close(client, own_demo, as_asked="1", pain="shoulder:7")
    client.post("/today/pain", data={"joint": "shoulder", "score": "1", "corrects": "1"})
    client.post("/today/stop", data={"do": "take up", "weekday": "Monday", "stop": "0"})
    close(client, own_demo, as_asked="1", pain="shoulder:8")
    assert sum(stop.finished for stop in card_of(own_demo).stops) > 1
    assert "shoulder" in holds(own_demo, DAY + timedelta(days=7)).joints
