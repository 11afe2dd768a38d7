"""Signs in what she writes out of reach: the phone reads and cautions as the server does."""

from __future__ import annotations

from datetime import timedelta
from html import unescape
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from pennate.app.book import Book
from pennate.app.stops import slightly_loaded_joints
from pennate.app.today import card_for, day_state
from pennate.core import caution_texts as say
from pennate.core.card import Card
from pennate.core.cautions import alarming_joint_words, alarming_words
from pennate.web.render import static
from pennate.web.views.line import line_of
from tests.web.conftest import Client
from tests.web.test_session import card_of

from .test_line import DAY, Line
from .test_replay import bare
from .thumb import PAUSE_MS, Thumb

__all__ = ["bare"]

pytestmark = pytest.mark.browser
READ = (alarming_words, alarming_joint_words)
RULES = (say.PAIN_STOP, say.PAIN_SLIGHT, say.PAIN_REDUCE)
PAIN = {one.of(joints).text for one in RULES for joints in ([], ["shoulder"])}

FIRST = """async ([home, notes]) => {
  const { foundIn } = await import(home + "said.js");
  const { signs, joint_signs } = window.day.heed;
  return notes.map((note) => [foundIn(signs, note), foundIn(joint_signs, note)]);
}"""

CAUTIONS = """async ([home, entries, date]) => {
  const [{ fold }, { lineOf }] =
    await Promise.all(["session.js", "line.js"].map((name) => import(home + name)));
  const line = lineOf(fold(window.day, entries, date));
  return line.flatMap((stop) => stop.parts.map((part) => [part.index, part.cautions]));
}"""

HELD = """async ([home, entries, date]) => {
  const { fold } = await import(home + "session.js");
  return [...fold(window.day, entries, date).held];
}"""

NOTES = (
    "", "good pump, seat 4", "lock out at the top", "Knee GAVE WAY", "knee locked",
    "sharp little pain", "elbow swollen", "chest pain on the last rep", "chest pad on 4",
    "nearly fainted", "faintly sore", "numb fingers", "number 4", "shoulder pain at night",
    "sudden weakness in the arm", "weak day", "can’t breathe; can't breathe",
    "sharp, swelling, locking or giving way",
)  # fmt: skip


@pytest.fixture
def line(bare: tuple[Page, str], own_demo: Book) -> Line:
    """The demo's Monday."""
    return Line(*bare, own_demo, Random(4))


def home(line: Line) -> str:
    """Where the page's modules lie."""
    return line.url.removesuffix(static("session.js")) + static("")


def pain_cautions(line: Line, date: str) -> dict[int, set[str]]:
    """What the phone's line asks because of pain, by stop."""
    found: Any = line.page.evaluate(CAUTIONS, [home(line), line.entries, date])
    return {index: PAIN & set(texts) for index, texts in found}


def served(card: Card) -> dict[int, set[str]]:
    """The same of the server's page."""
    return {part.index: PAIN & set(part.cautions) for run in line_of(card) for part in run.parts}


def test_notes_are_read_as_on_the_server(line: Line) -> None:
    """The same first words are found in each note, and none where the server finds none."""
    theirs = [[next(iter(read(note)), "") for read in READ] for note in NOTES]
    assert line.page.evaluate(FIRST, [home(line), NOTES]) == theirs
    assert {any(pair) for pair in theirs} == {True, False}


@pytest.mark.parametrize(("score", "sharp"), [(2, ""), (4, ""), (7, ""), (2, "shoulder")])
def test_pain_brings_the_servers_cautions_to_each_stop(line: Line, score: int, sharp: str) -> None:
    """Less of what loads the joint, none of it, or only while free of pain: as on the server."""
    line.put("readiness", {"pain": {"shoulder": score}, "alarming": [sharp] if sharp else []})
    theirs = served(line.card())
    assert pain_cautions(line, str(DAY)) == theirs
    assert any(theirs.values()) is (score > 2 or bool(sharp))
    assert all("shoulder" in text for texts in theirs.values() for text in texts)


def test_what_loads_it_slightly_is_heeded_on_later_days(line: Line) -> None:
    """Sharp on Monday, out of reach since: on Tuesday the condition stands where it does there."""
    line.put("readiness", {"pain": {"shoulder": 2}, "alarming": ["shoulder"]})
    later = DAY + timedelta(days=1)
    card = card_for(line.book, later, weekday="Monday")
    assert isinstance(card, Card)
    theirs = served(card)
    assert pain_cautions(line, str(later)) == theirs
    slight = {
        stop.index
        for stop in card.stops
        if "shoulder" in slightly_loaded_joints(line.book.catalogue[stop.exercise])
    }
    assert {index for index, texts in theirs.items() if texts} == slight != set()


def test_a_sign_written_at_a_set_holds_its_exercise(line: Line) -> None:
    """“Gave way” in her own words keeps the exercise out next time, named as on the server."""
    shown = line.next()
    assert shown
    shown["set"]["entry"]["note"] = "knee gave way, seat 4"
    line.close(shown)
    later = DAY + timedelta(days=1)
    held = day_state(line.book, later, "Monday").held
    assert held == {shown["stop"]: "gave way on 23 November"}
    ours = line.page.evaluate(HELD, [home(line), line.entries, str(later)])
    assert [[stop, words.split(" on ")[0]] for stop, words in ours] == [[shown["stop"], "gave way"]]


def write(thumb: Thumb, note: str, *, key: bool = False) -> None:
    """Close the set shown with a note, by its own button or by a closing key."""
    thumb.context.clock.fast_forward(PAUSE_MS)
    page = thumb.seen
    page.get_by_text("other number, other load, note").click()
    page.get_by_label("Note on this set").fill(note)
    closer = page.locator(".closing button").first
    (closer if key else page.get_by_role("button", name="Save this set")).click()


def cautions_on(page: Page) -> list[str]:
    """The cautions on the page, as they stand."""
    return [one.strip() for one in page.locator(".caution").all_inner_texts()]


def test_a_written_sign_is_cautioned_out_of_reach_and_in(
    thumb: Thumb, own_demo: Book, client_of: Client
) -> None:
    """The set’s exercise is over, told why, and where to get help: once, gone with the undo."""
    page, name = thumb.seen, thumb.seen.locator("h1").inner_text()
    thumb.context.set_offline(offline=True)
    write(thumb, "shoulder gave way")
    expect(page.locator("h1")).not_to_have_text(name)
    assert cautions_on(page).count(say.RED_FLAGS.text) == 1
    page.get_by_role("button", name="session", exact=True).click()
    assert cautions_on(page).count(say.RED_FLAGS.text) == 1
    own = page.locator(".partner", has_text=name)
    expect(own.get_by_text("left out today: gave way")).to_be_visible()
    own.locator(".name").click()
    page.get_by_role("button", name="take it up again").click()
    assert [one.strip() for one in own.locator(".caution").all_inner_texts()].count(
        say.PAIN_STOP.text
    ) == 1
    page.get_by_role("button", name="undo").click()
    assert say.RED_FLAGS.text not in cautions_on(page)
    page.get_by_role("button", name="Start").click()
    write(thumb, "shoulder gave way", key=True)
    thumb.context.set_offline(offline=False)
    thumb.settled()
    shown = unescape(client_of(own_demo).get("/today").text)
    assert "left out today: gave way" in shown
    assert shown.count(say.RED_FLAGS.text) == 1
    assert card_of(own_demo).stops[0].finished
