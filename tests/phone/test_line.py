"""The session as a line on the phone: the server's words, minutes and standings, out of reach."""

from __future__ import annotations

import re
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from pennate.app.book import Book
from pennate.app.card_facts import minutes_of
from pennate.app.shorten import shorten
from pennate.app.stand import stand
from pennate.app.today import day_state, fit_time, inputs_for, planned_for, the_week
from pennate.core.card import Card
from pennate.core.readiness import Readiness
from pennate.web.render import static
from pennate.web.views.line import line_of
from tests.web.conftest import MONDAY
from tests.web.test_session import card_of

from .conftest import NewPhone
from .test_replay import Replay, bare
from .thumb import Thumb

__all__ = ["bare"]

pytestmark = pytest.mark.browser
DAY = MONDAY.date()
Json = dict[str, Any]

LINE = """async ([home, entries, minutes]) => {
  const from = (name) => import(home + name);
  const [{ fold }, { lineOf }, { minutesLeft, toFit }] =
    await Promise.all(["session.js", "line.js", "time.js"].map(from));
  const session = fold(window.day, entries);
  return { line: lineOf(session), left: minutesLeft(session), fit: toFit(session, minutes) };
}"""


class Line(Replay):
    """A session on the page and in the records, looked at as a line."""

    def seen(self, minutes: int = 30) -> Json:
        """The line, the minutes left, and what so many minutes leave out, as the page has them."""
        home = self.url.removesuffix(static("session.js")) + static("")
        found: Json = self.page.evaluate(LINE, [home, self.entries, minutes])
        return found

    def card(self) -> Card:
        """The same session as the server draws it."""
        return card_of(self.book)

    def shorten(self, minutes: int) -> None:
        """The minutes she has, as the page keeps them: said, and what is left out for them."""
        keys = self.seen(minutes)["fit"]
        self.put("readiness", {"minutes": minutes})
        self.decide("leave out", keys=keys)


@pytest.fixture
def line(bare: tuple[Page, str], own_demo: Book) -> Line:
    """The demo's Monday."""
    return Line(*bare, own_demo, Random(4))


def words(stops: Any) -> list[list[Any]]:
    """What a line says, stop by stop."""
    return [
        [stop["standing"], stop["together"], [[p["name"], p["lines"]] for p in stop["parts"]]]
        for stop in stops
    ]


def served_words(card: Card) -> list[list[Any]]:
    """The same of the server's page."""
    return [
        [stop.standing, stop.together, [[p.name, list(p.lines)] for p in stop.parts]]
        for stop in line_of(card)
    ]


def test_the_line_says_what_the_servers_page_says(line: Line) -> None:
    """Before the first set: the same stops, words, standings and minutes at the side."""
    seen, card = line.seen(), line.card()
    assert words(seen["line"]) == served_words(card)
    assert [stop["at"] for stop in seen["line"]] == [int(stop.at) for stop in line_of(card)]
    assert seen["left"] == pytest.approx(card.minutes, abs=0.1)


def test_strokes_stand_as_the_servers_do(line: Line) -> None:
    """Done, now, open and skipped: the drawing's classes are those of the server's drawing."""
    while (shown := line.next()) and shown["stop"] == 0:
        line.close(shown)
    line.decide("skip", stop=2)
    for own, theirs in zip(line.seen()["line"], line_of(line.card()), strict=True):
        assert own["svg"] == theirs.drawing
    assert {stop["standing"] for stop in line.seen()["line"]} == {"done", "now", "open", "skipped"}


def test_decisions_move_line_and_server_alike(line: Line) -> None:
    """Another order, a skip, a swap and less time: both say the same, to a minute."""
    line.decide("order", stops=[1, 0, *range(2, len(line.card().stops))])
    line.decide("skip", stop=3)
    to = line.page.evaluate("window.day.instead[2][0]")
    line.decide("swap", stop=2, exercise=to["exercise"], item=to["item"], reason="taste")
    line.shorten(30)
    seen, theirs = line.seen(), line_of(line.card())
    parts = [[p["name"] for p in stop["parts"]] for stop in seen["line"]]
    assert parts == [[p.name for p in stop.parts] for stop in theirs]
    assert [stop["standing"] for stop in seen["line"]] == [stop.standing for stop in theirs]
    replaced = [[p["replaced"] for p in s["parts"]] for s in seen["line"]]
    assert [["" if p.standing == "skipped" else p.replaced for p in s.parts] for s in theirs] == [
        ["" if p.standing == "skipped" else words for p, words in zip(s.parts, own, strict=True)]
        for s, own in zip(theirs, replaced, strict=True)
    ]
    lines = [[p["lines"] for p in s["parts"]] for s in seen["line"]]
    assert lines == [[list(p.lines) for p in s.parts] for s in theirs]
    for own, stop in zip(seen["line"], theirs, strict=True):
        assert own["at"] == pytest.approx(int(stop.at), abs=1)


def test_the_planned_exercise_after_all(line: Line) -> None:
    """A swap is taken back by one touch, on the page and in the records."""
    morning = words(line.seen()["line"])
    to = line.page.evaluate("window.day.instead[1][0]")
    line.decide("swap", stop=1, exercise=to["exercise"], item=to["item"], reason="taste")
    assert words(line.seen()["line"]) != morning
    planned = line.page.evaluate("window.day.stops[1].exercise")
    line.decide("swap", stop=1, exercise=planned, item="", reason="")
    assert words(line.seen()["line"]) == morning == served_words(line.card())


@pytest.mark.parametrize("minutes", [20, 30, 45])
def test_less_time_before_leaves_out_what_the_server_would(line: Line, minutes: int) -> None:
    """With so many minutes the phone out of reach gives up the very sets the server gives up."""
    own = line.seen(minutes)["fit"]
    line.put("readiness", {"minutes": minutes})
    theirs = fit_time(line.book, DAY, "Monday", minutes)
    assert sorted(own) == sorted(theirs)


def test_less_time_within_shortens_what_is_left(line: Line) -> None:
    """Half an hour in, twenty minutes are twenty minutes more, on the page as on the server."""
    for _ in range(12):
        shown = line.next()
        assert shown
        line.close(shown)
    assert line.seen()["left"] > 20
    line.shorten(20)
    assert 12 < line.seen()["left"] <= 20
    planned = planned_for(line.book, DAY, "Monday")
    assert planned
    inputs = inputs_for(line.book, DAY, planned)
    standing = stand(inputs)
    left, _ = minutes_of(standing, inputs, done=standing.done.keys())
    assert left.value == pytest.approx(line.seen()["left"], abs=1)
    assert shorten(inputs, the_week(line.book), 20).fits


def test_decided_before_out_of_reach_reaches_the_records(
    new_phone: NewPhone, address: str, own_demo: Book
) -> None:
    """Order, skip, swap and her minutes, touched without reception, are on the server's page."""
    thumb = Thumb(new_phone(), address, Random(2))
    page = thumb.before()
    stops = page.locator(".stop .name")
    names = stops.all_inner_texts()
    stops.nth(0).click()
    page.get_by_role("button", name="later", exact=True).click()
    page.locator(".stop .name", has_text=names[-1]).click()
    page.get_by_role("button", name="skip it today").click()
    page.locator(".stop .name", has_text=names[2]).click()
    page.get_by_role("button", name=re.compile("^Do this: ")).first.click()
    page.get_by_role("button", name="less time").click()
    page.get_by_role("button", name="45", exact=True).click()
    expect(page.locator("#stand")).to_contain_text("waiting")
    shown = page.locator(".stop .words").all_inner_texts()
    page.reload()
    expect(page.locator("#page[data-ready]")).to_be_attached()
    assert page.locator(".stop .words").all_inner_texts() == shown
    thumb.context.set_offline(offline=False)
    thumb.settled()
    state = day_state(own_demo, DAY, "Monday")
    assert state.order[0] != 0
    assert len(state.skipped) == 1
    assert list(state.swaps) == [2]
    assert state.minutes == 45
    assert state.readiness == Readiness(day=DAY)
    titles = [p.name for stop in line_of(card_of(own_demo)) for p in stop.parts]
    assert page.locator(".stop h2").all_inner_texts() == titles


def test_what_is_done_is_drawn_solid(thumb: Thumb) -> None:
    """In the browser a done stroke is thick and a skipped one broken, so that it reads in grey."""
    page = thumb.seen
    thumb.context.set_offline(offline=True)
    while "warm-up" in page.locator("#place").inner_text():
        thumb.close_set()
    thumb.close_set()
    page.get_by_role("button", name="session").click()
    page.locator(".stop .name").last.click()
    page.get_by_role("button", name="skip it today").click()
    style = "(one, name) => getComputedStyle(one)[name]"
    done = page.locator(".stop path.done").first
    assert done.evaluate(style, "strokeWidth") == "6px"
    assert page.locator(".stop path.open").last.evaluate(style, "strokeWidth") == "2px"
    assert page.locator(".stop path.skipped").last.evaluate(style, "strokeDasharray") != "none"
    assert page.locator(".stop circle.now + .dot").first.is_visible()


def test_no_rounds_are_said_with_a_partner_skipped(thumb: Thumb) -> None:
    """One of a superset skipped, the other is by itself: no rounds on the list, nor on its set."""
    page = thumb.seen
    thumb.context.set_offline(offline=True)
    page.get_by_role("button", name="session", exact=True).click()
    both = page.locator(".stop.braided").first
    rounds = both.get_by_text(re.compile("no rest inside"))
    expect(rounds).to_have_count(1)
    both.locator(".name").nth(1).click()
    page.get_by_role("button", name="skip it today").click()
    expect(rounds).to_have_count(0)
    left = both.locator(".name").nth(0).inner_text()
    for name in page.locator(".stop:not(.braided) .name").all_inner_texts():
        page.locator(".stop .name", has_text=name).click()
        page.get_by_role("button", name="skip it today").click()
    page.get_by_role("button", name=re.compile("^(Start|Go on)$")).click()
    expect(page.locator("h1")).to_have_text(left)
    expect(page.locator("#place")).not_to_contain_text("with ")
    page.get_by_role("button", name="session", exact=True).click()
    both.locator(".name").nth(1).click()
    page.get_by_role("button", name="take it up again").click()
    expect(rounds).to_have_count(1)
    page.get_by_role("button", name=re.compile("^(Start|Go on)$")).click()
    expect(page.locator("#place")).to_contain_text("with ")
